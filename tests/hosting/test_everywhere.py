"""The folder of one build, read in three ways: from nginx under a path with the strict policy, from a stick, server off.

Every journey comes to its end in each, and nothing is asked of any other host, no console complains, no policy is broken.
"""

from __future__ import annotations

import shutil
from contextlib import ExitStack
from typing import TYPE_CHECKING
from urllib.parse import urlsplit

import pytest

from browser.walking import walk_to_the_end
from demo_site import PATIENCE_MS
from hosting.servers import nginx

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from playwright.sync_api import BrowserContext, Page, Request

pytestmark = [pytest.mark.browser, pytest.mark.browser_context_args(service_workers="allow")]

VIOLATED = """addEventListener("securitypolicyviolation", e => violated(`${e.violatedDirective} ${e.blockedURI} ${e.sourceFile}`));"""
KEPT = "navigator.serviceWorker.ready.then(r => r.active.state)"


@pytest.fixture
def complaints(context: BrowserContext) -> list[str]:
    """What pages say is wrong, and whom but this machine they ask."""
    found: list[str] = []

    def elsewhere(request: Request) -> None:
        if urlsplit(request.url).hostname not in {"127.0.0.1", None} and not request.url.startswith("blob:"):
            found.append(f"asked for {request.url}")

    context.set_default_timeout(PATIENCE_MS)
    context.expose_function("violated", lambda said: found.append(said))  # noqa: PLW0108 a built-in is refused
    context.add_init_script(VIOLATED)
    context.on("request", elsewhere)
    context.on("console", lambda m: found.append(m.text) if m.type in {"error", "warning"} else None)
    context.on("weberror", lambda error: found.append(str(error.error)))
    context.on("response", lambda r: found.append(f"{r.status}: {r.url}") if r.status >= 400 else None)
    return found


@pytest.fixture
def server(work: Path) -> Iterator[tuple[str, ExitStack]]:
    """nginx with exactly the settings we print, under `/a/b/`, and what stops it."""
    with ExitStack() as running:
        yield running.enter_context(nginx(work)), running


def test_from_nginx_under_a_path_with_the_strict_policy(
    page: Page, server: tuple[str, ExitStack], complaints: list[str]
) -> None:
    address, _ = server
    answer = page.goto(address)
    assert answer is not None
    policy = answer.headers["content-security-policy"]
    assert "default-src 'none'" in policy
    assert "unsafe" not in policy
    walk_to_the_end(page, address)
    assert complaints == []


def test_from_a_stick(page: Page, work: Path, tmp_path: Path, complaints: list[str]) -> None:
    stick = tmp_path / "a stick, 100 % full"
    shutil.copytree(work / "site", stick)
    walk_to_the_end(page, f"{stick.as_uri()}/")
    assert complaints == []


def test_with_the_server_off(page: Page, server: tuple[str, ExitStack], complaints: list[str]) -> None:
    address, running = server
    page.goto(address)
    for _ in range(600):
        # asked through the debugger and never from within the page, where the policy forbids to evaluate a text
        if page.evaluate(KEPT) == "activated" and page.evaluate("navigator.serviceWorker.controller !== null"):
            break
        page.wait_for_timeout(100)
    running.close()
    walk_to_the_end(page, address, with_copy=False)
    assert [said for said in complaints if "sw.js" not in said and "ERR_CONNECTION_REFUSED" not in said] == []
