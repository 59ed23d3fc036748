"""What a first visit costs on a phone with little signal: bytes, requests, waiting for scripts, and lines that jump.

Bytes and requests are those of nginx with the settings we print. Bounds: our own, for a reader at a bench.
"""

from __future__ import annotations

import http.client
import re
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING
from urllib.parse import urlsplit

import pytest

from browser.kinds import ONE_OF_EACH_KIND
from hosting.servers import nginx

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from playwright.sync_api import BrowserContext, Page, Route

pytestmark = pytest.mark.browser

MOST_BYTES = 150_000
FEWER_REQUESTS = 20
SCREENS = {"phone": {"width": 390, "height": 844}, "desk": {"width": 1280, "height": 900}}
SHIFTS = """globalThis.shifts = [];
new PerformanceObserver((list) => {
  for (const shift of list.getEntries()) {
    if (!shift.hadRecentInput) shifts.push([shift.value, ...shift.sources.map(({ node }) => node && (node.outerHTML || node.textContent).slice(0, 80))]);
  }
}).observe({ type: "layout-shift", buffered: true });"""
PAINTED = "() => performance.getEntriesByName('first-contentful-paint').length > 0"


@pytest.fixture(scope="module")
def address(work: Path) -> Iterator[str]:
    with nginx(work) as address:
        yield address


@pytest.fixture(scope="module")
def pages_to_weigh(work: Path) -> list[str]:
    """A page of each kind, and the largest pages of all."""
    site = work / "site"
    largest = sorted(site.rglob("*.html"), key=lambda file: file.stat().st_size)[-8:]
    return sorted({*ONE_OF_EACH_KIND, *(file.relative_to(site).as_posix() for file in largest)})


class HeldScripts:
    """Keeps the scripts of the pages of a context from arriving until it is told to let them go."""

    def __init__(self, context: BrowserContext) -> None:
        self._held: list[Route] = []
        self._holding = False
        context.route("**/*.js", self._take)

    def _take(self, route: Route) -> None:
        if self._holding and not route.request.url.endswith("/assets/page-start.js"):
            self._held.append(route)
        else:
            route.continue_()

    def hold(self) -> None:
        self._holding = True

    def let_go(self) -> None:
        self._holding = False
        for route in self._held:
            route.continue_()
        self._held.clear()


@cache
def bytes_sent(address: str) -> int:
    """Ask a server for a file as a browser does, and count what it sends of it."""
    place = urlsplit(address)
    connection = http.client.HTTPConnection(place.netloc, timeout=10)
    connection.request("GET", place.path, headers={"Accept-Encoding": "gzip"})
    size = len(connection.getresponse().read())
    connection.close()
    return size


def first_view(page: Page, address: str) -> list[str]:
    """Open a page and return what it asks for until all its scripts have run."""
    asked: list[str] = []
    page.on("requestfinished", lambda request: asked.append(request.url))
    page.goto(address)
    page.wait_for_timeout(100)
    page.close()
    return asked


def test_a_first_view_is_light(context: BrowserContext, address: str, work: Path, pages_to_weigh: list[str]) -> None:
    context.route("**/no-such-file", lambda route: route.continue_())  # with a route, nothing comes from a cache
    plain = (work / "site" / "assets" / "tinwright.css").stat().st_size
    assert bytes_sent(f"{address}assets/tinwright.css") < plain / 2, "the server does not compress"
    heavy = []
    for name in pages_to_weigh:
        files = first_view(context.new_page(), address + name)
        assert not any("search_index" in file for file in files), name
        size = sum(map(bytes_sent, files))
        if size >= MOST_BYTES or len(files) >= FEWER_REQUESTS:
            heavy.append((name, size, len(files)))
    assert heavy == []


def test_the_scripts_of_a_page_run_before_the_long_one_of_the_theme(work: Path) -> None:
    late = []
    for name in ONE_OF_EACH_KIND:
        text = (work / "site" / name).read_text(encoding="utf-8")
        order = [Path(source).name for source in re.findall(r'<script src="([^"]+)" defer>', text)]
        themes = next(place for place, script in enumerate(order) if script.startswith("bundle."))
        late += [(name, script) for script in order[themes + 1 :] if script != "offline.js"]
    assert late == []


@pytest.mark.parametrize("screen", SCREENS)
def test_a_page_is_read_before_its_scripts_come_and_nothing_jumps_when_they_do(
    new_context: Callable[..., BrowserContext], address: str, work: Path, screen: str
) -> None:
    filled_in = [name for name in ONE_OF_EACH_KIND if "<tw-" in (work / "site" / name).read_text(encoding="utf-8")]
    context = new_context(viewport=SCREENS[screen])
    context.add_init_script(SHIFTS)
    scripts = HeldScripts(context)
    jumps = []
    for name in ONE_OF_EACH_KIND if screen == "phone" else filled_in:
        page = context.new_page()
        scripts.hold()
        page.goto(address + name, wait_until="commit")
        page.wait_for_function(PAINTED)
        assert page.locator("h1").is_visible(), name
        scripts.let_go()
        page.wait_for_load_state("load")
        page.wait_for_timeout(60)  # what is filled in after loading
        jumps += [(name, shift) for shift in page.evaluate("shifts")]
        page.close()
    assert jumps == []


def test_the_search_index_comes_when_somebody_searches(page: Page, address: str) -> None:
    page.goto(address)
    with page.expect_request("**/search/search_index.json"):
        page.keyboard.press("s")
