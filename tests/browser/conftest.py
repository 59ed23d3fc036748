"""A system Chromium on the built demonstration site, over http and from the disk; nothing else can be reached."""

from __future__ import annotations

import os
import shutil
from typing import TYPE_CHECKING, Any

import pytest
from playwright.sync_api import expect

from demo_site import PATIENCE_MS, ROOT, built_once, served

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

    from playwright.sync_api import BrowserContext, ConsoleMessage, Page, Route

AXE = ROOT / ".judges" / "node_modules" / "axe-core" / "axe.min.js"
expect.set_options(timeout=PATIENCE_MS)
_NAMES = ("chromium", "chromium-browser", "google-chrome", "chrome")


@pytest.fixture(scope="session")
def base_url() -> None:
    """No address goes before those the tests name; in place of a plugin's own fixture, which pytest 9 warns of."""


@pytest.fixture(scope="session")
def browser_type_launch_args(browser_type_launch_args: dict[str, Any]) -> dict[str, Any]:
    """The Chromium of this machine; a browser as root needs its sandbox off."""
    found = os.environ.get("BROWSER_EXECUTABLE") or next(
        (path for name in _NAMES if (path := shutil.which(name))), None
    )
    if found is None or shutil.which(found) is None:
        pytest.fail(f"no browser: install the package chromium, or set BROWSER_EXECUTABLE (now {found})", pytrace=False)
    as_root = hasattr(os, "geteuid") and os.geteuid() == 0
    return {**browser_type_launch_args, "executable_path": found, "args": ["--no-sandbox"] if as_root else []}


@pytest.fixture(scope="session")
def browser_context_args(browser_context_args: dict[str, Any]) -> dict[str, Any]:
    """No service worker but where a test asks for it: each context would else fetch the whole site."""
    return {**browser_context_args, "service_workers": "block"}


@pytest.fixture(scope="session")
def site_folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The built demonstration site."""
    return built_once(tmp_path_factory)


@pytest.fixture(scope="session")
def over_http(site_folder: Path) -> Iterator[str]:
    """Address of the site on a server of our own, with a slash at the end."""
    with served(site_folder) as address:
        yield address


@pytest.fixture(scope="session")
def from_disk(site_folder: Path) -> str:
    """Address of the site as a folder on this machine, as somebody opens it from a memory stick."""
    return f"{site_folder.as_uri()}/"


def complains(message: ConsoleMessage) -> bool:
    """Whether a page says something is wrong; that its service worker is blocked is the tests' own doing."""
    return message.type in {"error", "warning"} and message.text != "Service Worker registration blocked by Playwright"


def told(message: ConsoleMessage) -> str:
    """A complaint, with the script or the file it is about."""
    return f"{message.page}: {message.text} ({message.location['url']})"


@pytest.fixture
def watched(over_http: str) -> Iterator[Callable[[BrowserContext], BrowserContext]]:
    """Keep a context to this machine; fails at the end when a page complained or asked for anything else."""
    complaints: list[str] = []
    contexts: list[BrowserContext] = []

    def stay_here(route: Route) -> None:
        if route.request.url.startswith((over_http, "file:", "data:", "blob:")):
            route.continue_()
        else:
            complaints.append(f"asked for {route.request.url}")
            route.abort()

    def watch(context: BrowserContext) -> BrowserContext:
        contexts.append(context)
        context.route("**/*", stay_here)
        context.on("console", lambda m: complaints.append(told(m)) if complains(m) else None)
        context.on("weberror", lambda error: complaints.append(f"error: {error.error}"))
        context.on("response", lambda r: complaints.append(f"{r.status}: {r.url}") if r.status >= 400 else None)
        context.set_default_timeout(PATIENCE_MS)
        return context

    yield watch
    for context in contexts:
        # a page that is still loading would wait for an answer to its requests, and its context for the page, for ever
        context.unroute_all(behavior="ignoreErrors")
    assert complaints == []


@pytest.fixture
def context(
    new_context: Callable[[], BrowserContext], watched: Callable[[BrowserContext], BrowserContext]
) -> BrowserContext:
    """The context of a test, watched."""
    return watched(new_context())


@pytest.fixture(scope="session")
def axe() -> str:
    """The accessibility judge's script."""
    if not AXE.is_file():
        pytest.fail("no judge of accessibility: run scripts/test, or npm install axe-core into .judges", pytrace=False)
    return AXE.read_text(encoding="utf-8")


@pytest.fixture
def home(page: Page, over_http: str) -> Page:
    """The home page, open."""
    page.goto(over_http)
    return page
