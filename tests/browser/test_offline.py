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
from demo_site import served
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
    context.set_default_timeout(15_000)
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
