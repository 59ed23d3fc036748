"""nginx and Apache httpd send what they should, and the site keeps the policy: no journey breaks it."""

from __future__ import annotations

import http.client
import re
from typing import TYPE_CHECKING
from urllib.parse import urlsplit

import pytest
from playwright.sync_api import expect

from browser.framing import another_site
from browser.walking import walk_the_journeys
from hosting.servers import PATH, apache, nginx
from tinwright.site.hosting import TYPES, headers

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from playwright.sync_api import BrowserContext, Page, Route

SERVERS = {"nginx": nginx, "apache": apache}

TYPES_BY_STANDARD = {
    "index.html": "text/html; charset=utf-8",
    "sw.js": "text/javascript; charset=utf-8",
    "assets/tinwright.css": "text/css; charset=utf-8",
    "assets/icon.svg": "image/svg+xml; charset=utf-8",
    "assets/icon-192.png": "image/png",
    "assets/seam-readings.csv": "text/csv; charset=utf-8",
    "search/search_index.json": "application/json; charset=utf-8",
    "manifest.webmanifest": "application/manifest+json; charset=utf-8",
    "sorrel-county-can-sealing.zip": "application/zip",
}
"""Registered media types: RFC 9239 (text/javascript), W3C Web App Manifest (application/manifest+json), RFC 4180, 8259, ..."""


@pytest.fixture(scope="module", params=list(SERVERS))
def address(request: pytest.FixtureRequest, work: Path) -> Iterator[str]:
    with SERVERS[request.param](work) as address:
        yield address


def ask(address: str, path: str, **more: str) -> http.client.HTTPResponse:
    """Ask a server for a path below its root; follows nothing."""
    connection = http.client.HTTPConnection(urlsplit(address).netloc, timeout=10)
    connection.request("GET", path, headers=more)
    answer = connection.getresponse()
    answer.read()
    connection.close()
    return answer


@pytest.mark.parametrize("file", TYPES_BY_STANDARD)
def test_every_file_has_its_registered_type(address: str, file: str) -> None:
    answer = ask(address, PATH + file)
    assert answer.status == 200
    assert str(answer.headers["Content-Type"]).lower() == TYPES_BY_STANDARD[file]


def test_every_ending_that_is_published_has_a_type(site_folder: Path) -> None:
    endings = {file.suffix.removeprefix(".") for file in site_folder.rglob("*") if file.is_file()}
    assert endings - {"map", "gz"} <= set(TYPES)


@pytest.mark.parametrize(
    "file", ["index.html", "assets/tinwright.css", "sw.js", "no/such/page.html", "photos/../sw.js"]
)
def test_the_headers_come_with_every_answer_those_of_errors_too(address: str, file: str) -> None:
    answer = ask(address, PATH + file)
    for name, value in headers().items():
        assert answer.headers.get_all(name) == [value], name


def test_nothing_but_files_that_name_their_content_is_kept_unasked(address: str, site_folder: Path) -> None:
    hashed = next((site_folder / "assets" / "javascripts").glob("bundle.*.min.js"))
    long = ask(address, PATH + hashed.relative_to(site_folder).as_posix()).headers["Cache-Control"]
    assert "max-age=31536000" in long
    for file in ("index.html", "sw.js", "assets/tinwright.css", "search/search_index.json", "assets/seaming.js"):
        assert ask(address, PATH + file).headers["Cache-Control"] == "no-cache"
    with_headers = ask(address, PATH + hashed.relative_to(site_folder).as_posix())
    assert with_headers.headers["X-Content-Type-Options"] == "nosniff"


def test_a_file_that_has_not_changed_is_not_sent_again(address: str) -> None:
    first = ask(address, f"{PATH}index.html")
    again = ask(address, f"{PATH}index.html", **{"If-None-Match": first.headers["ETag"]})
    assert again.status == 304


def test_text_is_sent_compressed_to_who_understands_it(address: str) -> None:
    packed = {"Accept-Encoding": "gzip"}
    assert ask(address, f"{PATH}assets/seaming.js", **packed).headers["Content-Encoding"] == "gzip"
    assert ask(address, f"{PATH}assets/seaming.js").headers["Content-Encoding"] is None


def test_folders_open_at_their_index_and_the_bare_path_leads_there_and_not_out_of_tls(address: str) -> None:
    assert ask(address, PATH).status == 200
    assert ask(address, f"{PATH}defects/").status == 200
    for folder in (PATH, f"{PATH}defects/"):
        bare = ask(address, folder.rstrip("/"), Host="extension.example.edu")
        # nginx leaves the host to the browser; httpd names it, and is told in its configuration that it is reached over TLS
        assert bare.status == 301
        assert bare.headers["Location"] in {folder, f"https://extension.example.edu{folder}"}


def test_a_missing_page_says_so_in_our_words(address: str, page: Page) -> None:
    answer = page.goto(f"{address}no/such/page.html")
    assert answer is not None
    assert answer.status == 404
    expect(page.get_by_role("heading", level=1)).to_have_text("This page is not here")


RECORD_VIOLATIONS = """
addEventListener("securitypolicyviolation", event => violated(`${event.violatedDirective} ${event.blockedURI} ${event.sourceFile}:${event.lineNumber}`));
"""


@pytest.fixture
def watching(context: BrowserContext, address: str) -> Iterator[list[str]]:
    """What a page of the context complains of, asks for elsewhere, or does against the policy."""
    complaints: list[str] = []

    def stay_here(route: Route) -> None:
        if urlsplit(route.request.url).netloc == urlsplit(address).netloc or route.request.url.startswith("data:"):
            route.continue_()
        else:
            complaints.append(f"asked for {route.request.url}")
            route.abort()

    context.route("**/*", stay_here)
    context.expose_function("violated", lambda said: complaints.append(said))  # noqa: PLW0108 a built-in is refused
    context.add_init_script(RECORD_VIOLATIONS)
    context.on("console", lambda m: complaints.append(m.text) if m.type in {"error", "warning"} else None)
    context.on("weberror", lambda error: complaints.append(str(error.error)))
    context.on("response", lambda r: complaints.append(f"{r.status}: {r.url}") if r.status >= 400 else None)
    yield complaints
    # a page that is still loading would wait for an answer to its requests, and its context for the page, for ever
    context.unroute_all(behavior="ignoreErrors")


@pytest.mark.browser
@pytest.mark.browser_context_args(service_workers="allow")
def test_every_journey_keeps_the_policy_and_asks_nobody_else(page: Page, address: str, watching: list[str]) -> None:
    walk_the_journeys(page, address)
    for name in ("on-this-device", "take-along", "seam-form", "how-a-double-seam-is-made", "sizes-and-units"):
        page.goto(f"{address}{name}.html")
    # asked through the debugger and never from within the page, where the policy forbids to evaluate a text
    page.evaluate("navigator.serviceWorker.ready.then(() => true)")
    for _ in range(600):
        if page.evaluate("navigator.serviceWorker.controller !== null"):
            break
        page.wait_for_timeout(100)
    assert page.evaluate("navigator.serviceWorker.controller !== null")
    assert watching == []


@pytest.mark.browser
def test_what_is_inline_is_refused(page: Page, address: str, watching: list[str]) -> None:
    """The policy is really in force: what it forbids is seen to be stopped."""
    page.goto(f"{address}index.html")
    page.evaluate(
        """() => {
          const box = document.createElement("div");
          document.body.append(box);
          box.innerHTML = '<p style="color: red">x</p><img src="x" onerror="window.__hit = 1">';
          const script = document.createElement("script");
          script.textContent = "window.__hit = 1";
          document.body.append(script);
        }"""
    )
    page.wait_for_timeout(300)
    assert page.evaluate("window.__hit") is None
    assert {re.split(r"[ :]", said)[0] for said in watching} >= {"style-src-attr", "script-src-elem", "script-src-attr"}


@pytest.mark.browser
@pytest.mark.browser_context_args(service_workers="allow")
def test_the_first_view_asks_for_fewer_than_twenty_files(page: Page, address: str) -> None:
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.goto(address)
    page.wait_for_load_state("networkidle")
    assert len({url for url in asked if url.startswith(address)}) < 20, asked


@pytest.mark.browser
@pytest.mark.parametrize("server", SERVERS)
def test_only_a_site_that_is_named_may_show_pages_in_a_frame(
    page: Page, work: Path, tmp_path: Path, server: str
) -> None:
    with another_site(tmp_path / "named") as named, another_site(tmp_path / "other") as other:
        origin = f"http://{urlsplit(named).netloc}"
        with SERVERS[server](work, (origin,)) as address:
            page.goto(f"{named}#{address}defects/droop.html%3Fembed")
            expect(page.frame_locator("#frame").get_by_role("heading", level=1)).to_contain_text("Droop")
            page.wait_for_function("heights.length > 0 && heights.at(-1).height > 300")
            page.goto(f"{other}#{address}defects/droop.html%3Fembed")
            page.wait_for_timeout(500)
            assert page.evaluate("heights") == []
