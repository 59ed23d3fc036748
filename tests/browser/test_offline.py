"""The site with the server stopped, after a new version, and as an app; in a folder of its own, which the tests change."""

from __future__ import annotations

import json
import re
import shutil
from contextlib import ExitStack
from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import expect

from browser.judging import barriers_everywhere
from browser.walking import walk_the_journeys
from demo_site import PATIENCE_MS, served
from tinwright.site.web_app import write_worker

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

    from playwright.sync_api import BrowserContext, Page

pytestmark = [pytest.mark.browser, pytest.mark.browser_context_args(service_workers="allow")]

KEPT_WHOLE = """async () => {
  const registration = await navigator.serviceWorker.ready;
  return registration.active.state === "activated" || new Promise(done => registration.active.addEventListener("statechange", e => e.target.state === "activated" && done(true)));
}"""

CARD = "print/card.pdf"
"""A printed file, as `tinwright paper` would lay it beside the records."""


class Host:
    """The site below a sub-path of a server that can be stopped."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.asked: list[str] = []
        self._stack = ExitStack()
        self.address = self._stack.enter_context(served(folder, asked=self.asked.append)) + "a/b/"

    @property
    def site(self) -> Path:
        return self.folder / "a" / "b"

    def stop(self) -> None:
        self._stack.close()


@pytest.fixture
def host(site_folder: Path, tmp_path: Path) -> Iterator[Host]:
    shutil.copytree(site_folder, tmp_path / "a" / "b")
    host = Host(tmp_path)
    yield host
    host.stop()


@pytest.fixture
def page(new_context: Callable[..., BrowserContext]) -> Page:
    """A page of a context that keeps a copy; requests to a stopped server are its own affair."""
    context = new_context()
    context.set_default_timeout(PATIENCE_MS)
    return context.new_page()


def open_and_keep(page: Page, address: str) -> None:
    page.goto(address)
    page.evaluate(KEPT_WHOLE)


def test_every_journey_works_with_the_server_stopped(page: Page, host: Host) -> None:
    open_and_keep(page, host.address)
    host.stop()
    page.goto(host.address)
    walk_the_journeys(page, host.address)


def test_an_unknown_page_without_the_server_says_so_in_plain_words(page: Page, host: Host) -> None:
    open_and_keep(page, host.address)
    host.stop()
    page.goto(f"{host.address}no/such/page.html")
    expect(page.get_by_role("heading", level=1)).to_have_text("This page is not here")


def with_a_card(host: Host, words: bytes = b"a card") -> None:
    """Publish a version with a printed file, linked where such files are."""
    (host.site / "print").mkdir(exist_ok=True)
    (host.site / CARD).write_bytes(b"%PDF-1.7 " + words)
    page = host.site / "print.html"
    text = page.read_text(encoding="utf-8")
    if CARD not in text:
        link = f'<ul class="tw-links"><li><a href="{CARD}" type="application/pdf">A card</a> (PDF, 1 page)</li></ul>'
        page.write_text(re.sub(r"(<h1.*?</h1>)", rf"\g<1>{link}", text, count=1), encoding="utf-8")
    write_worker(host.site)


def kept_files(page: Page) -> list[str]:
    found: list[str] = page.evaluate(
        """async () => {
          const files = [];
          for (const name of await caches.keys()) {
            for (const request of await (await caches.open(name)).keys()) files.push(new URL(request.url).pathname);
          }
          return files;
        }"""
    )
    return [file.removeprefix("/a/b/") for file in found]


def open_the_card(page: Page, host: Host) -> None:
    """Follow the link with the keys."""
    page.goto(f"{host.address}print.html")
    page.get_by_role("link", name="A card").focus()
    page.keyboard.press("Enter")
    page.wait_for_url(host.address + CARD)


def is_kept(page: Page, host: Host) -> None:
    """Wait until the card is kept, and read it back."""
    page.wait_for_function("a => caches.match(a, { ignoreSearch: true })", arg=host.address + CARD)


def test_a_printed_file_is_kept_from_when_it_was_opened(page: Page, host: Host) -> None:
    with_a_card(host)
    open_and_keep(page, host.address)
    assert "print.html" in kept_files(page)
    assert CARD not in kept_files(page)
    open_the_card(page, host)
    is_kept(page, host)
    host.stop()
    open_the_card(page, host)
    expect(page.locator(".tw-needs")).to_have_count(0)
    read = page.evaluate("async a => (await (await fetch(a)).text())", host.address + CARD)
    assert read == "%PDF-1.7 a card"


def test_what_was_opened_is_there_in_the_next_version_too(page: Page, host: Host) -> None:
    with_a_card(host)
    open_and_keep(page, host.address)
    open_the_card(page, host)
    is_kept(page, host)
    with_a_card(host, b"a better card")
    page.goto(host.address)
    page.get_by_role("button", name="Use the new version").click()
    expect(page.locator(".tw-update")).to_have_count(0)
    page.wait_for_function("async () => (await caches.keys()).length === 1")
    host.stop()
    open_the_card(page, host)
    read = page.evaluate("async a => (await (await fetch(a)).text())", host.address + CARD)
    assert read == "%PDF-1.7 a better card"


def test_a_printed_file_of_another_version_is_shown_and_not_kept(page: Page, host: Host) -> None:
    with_a_card(host)
    open_and_keep(page, host.address)
    (host.site / CARD).write_bytes(b"%PDF-1.7 half copied")
    open_the_card(page, host)
    page.wait_for_timeout(500)
    assert CARD not in kept_files(page)


@pytest.mark.parametrize("way", ["keys", "mouse"])
@pytest.mark.parametrize(
    ("address", "link"), [("take-along.html", "Save the whole site"), ("print.html", "A card")], ids=["copy", "card"]
)
def test_what_is_not_kept_says_that_it_needs_the_network(
    page: Page, host: Host, axe: str, address: str, link: str, way: str
) -> None:
    with_a_card(host)
    open_and_keep(page, host.address)
    host.stop()
    page.goto(host.address + address)
    expect(page.locator(".tw-needs")).to_have_count(0)
    file = page.get_by_role("article").get_by_role("link", name=link)
    if way == "mouse":
        file.click()
    else:
        file.focus()
        page.keyboard.press("Enter")
    status = page.get_by_role("status").filter(has_text="Needs the network")
    expect(status).to_contain_text("the server does not answer, and this file is not kept on this device")
    expect(status).to_be_visible()
    expect(page).to_have_url(host.address + address)
    page.emulate_media(reduced_motion="reduce")  # the judge would else look while a color changes
    assert barriers_everywhere(page, axe) == []


def test_a_browser_that_knows_it_has_no_signal_marks_what_needs_one(page: Page, host: Host) -> None:
    with_a_card(host)
    open_and_keep(page, f"{host.address}print.html")
    page.context.set_offline(True)
    item = page.get_by_role("listitem").filter(has_text="A card")
    expect(item).to_have_text("A card (PDF, 1 page)Needs the network.")
    page.reload()
    expect(item).to_have_text("A card (PDF, 1 page)Needs the network.")
    page.context.set_offline(False)
    expect(item).to_have_text("A card (PDF, 1 page)")


def test_a_printed_file_asked_for_by_its_address_says_so_in_plain_words(page: Page, host: Host) -> None:
    """As a link opened in a window of its own does."""
    with_a_card(host)
    open_and_keep(page, host.address)
    host.stop()
    page.goto(host.address + CARD)
    expect(page.get_by_role("main")).to_contain_text("Printed files (PDF) are kept once you have opened them")


def change(host: Host, words: str) -> None:
    """Publish a new version: one page changed, and the list anew."""
    file = host.site / "terms" / "overlap.html"
    file.write_text(re.sub(r"(<h1[^>]*>)[^<]*", rf"\g<1>{words}", file.read_text(encoding="utf-8")), encoding="utf-8")
    write_worker(host.site)


def test_a_new_version_is_offered_used_and_replaces_the_old(page: Page, host: Host, axe: str) -> None:
    open_and_keep(page, f"{host.address}terms/overlap.html")
    before = page.evaluate("caches.keys()")
    page.evaluate("caches.open('another site')")
    change(host, "Changed overlap")
    page.reload()
    status = page.get_by_role("status").filter(has_text="There is a new version of this site")
    expect(status).to_be_visible()
    expect(page.get_by_role("heading", level=1)).not_to_contain_text("Changed overlap")
    assert barriers_everywhere(page, axe) == []
    page.get_by_role("button", name="Use the new version").click()
    expect(page.get_by_role("heading", level=1)).to_contain_text("Changed overlap")
    expect(page.locator(".tw-update")).to_have_count(0)
    page.wait_for_function("async before => !(await caches.keys()).includes(before)", arg=before[0])
    after = page.evaluate("caches.keys()")
    assert len(after) == 2
    assert "another site" in after
    assert all(name.startswith("tinwright /a/b/ ") for name in [*before, *after] if name != "another site")


def test_the_first_version_comes_without_a_notice_and_without_a_reload(page: Page, host: Host) -> None:
    loads: list[str] = []
    page.on("load", lambda: loads.append(page.url))
    open_and_keep(page, host.address)
    page.wait_for_function("navigator.serviceWorker.controller !== null")
    page.wait_for_timeout(500)
    assert loads == [host.address]
    expect(page.locator(".tw-update")).to_have_count(0)


def test_a_half_copied_new_version_is_not_taken(page: Page, host: Host) -> None:
    open_and_keep(page, f"{host.address}terms/overlap.html")
    old = (host.site / "terms" / "overlap.html").read_bytes()
    change(host, "Changed overlap")
    (host.site / "terms" / "overlap.html").write_bytes(old)  # the list is there, the page is not yet
    states = page.evaluate(
        """async () => {
          const registration = await navigator.serviceWorker.ready;
          return new Promise(done => {
            registration.addEventListener("updatefound", () => {
              const coming = registration.installing;
              coming.addEventListener("statechange", () => done(coming.state));
            });
            registration.update();
          });
        }"""
    )
    assert states == "redundant"
    expect(page.locator(".tw-update")).to_have_count(0)
    host.stop()
    page.reload()
    expect(page.get_by_role("heading", level=1)).to_have_text(re.compile("^Overlap"))


def test_a_new_version_fetches_only_what_changed(page: Page, host: Host) -> None:
    open_and_keep(page, host.address)
    change(host, "Changed overlap")
    host.asked.clear()
    page.evaluate("navigator.serviceWorker.ready.then(r => r.update())")
    expect(page.locator(".tw-update")).to_be_visible()
    pages = {line for line in host.asked if line.endswith(".html")}
    assert pages == {"/a/b/terms/overlap.html"}


def test_the_browser_finds_it_fit_to_install(page: Page, host: Host) -> None:
    open_and_keep(page, host.address)
    session = page.context.new_cdp_session(page)
    manifest = session.send("Page.getAppManifest")
    assert manifest["errors"] == []
    faults = [fault["errorId"] for fault in session.send("Page.getInstallabilityErrors")["installabilityErrors"]]
    assert [fault for fault in faults if fault != "in-incognito"] == []
    assert json.loads(manifest["data"])["name"] == "Sorrel County can sealing"


def test_from_the_disk_no_worker_is_asked_for(page: Page, from_disk: str) -> None:
    complaints: list[str] = []
    page.on("console", lambda message: complaints.append(message.text))
    page.on("pageerror", lambda error: complaints.append(str(error)))
    page.goto(f"{from_disk}index.html")
    walk_the_journeys(page, from_disk)
    assert complaints == []
