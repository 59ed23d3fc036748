"""What the site keeps on a device is what the page says, and the page erases it."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import expect

from browser.walking import walk_the_journeys

if TYPE_CHECKING:
    from playwright.sync_api import Page

pytestmark = pytest.mark.browser

ALL_KEPT = "[...Object.keys(localStorage), ...Object.keys(sessionStorage)].sort()"


def kept(page: Page) -> list[str]:
    found: list[str] = page.evaluate(ALL_KEPT)
    return found


def test_a_page_that_is_only_read_keeps_nothing(page: Page, over_http: str) -> None:
    for address in (
        "index.html",
        "defects/droop.html",
        "seam-check.html",
        "find-the-cause.html",
        "on-this-device.html",
    ):
        page.goto(over_http + address)
    page.wait_for_load_state("networkidle")
    assert kept(page) == []
    assert page.evaluate("indexedDB.databases()") == []


def test_after_every_journey_all_that_is_kept_is_ours_and_listed_by_its_name(page: Page, over_http: str) -> None:
    walk_the_journeys(page, over_http)
    assert kept(page) == ["tinwright.find-cause", "tinwright.palette", "tinwright.seam-check"]
    assert page.context.cookies() == []
    page.goto(f"{over_http}index.html")
    page.get_by_role("contentinfo").get_by_role("link", name="On this device").click()
    listed = page.locator("tw-on-this-device summary strong")
    expect(listed).to_have_text(["Find the cause", "Light or dark", "Seam check"])
    explained = page.locator("article dt").all_text_contents()
    assert set(listed.all_text_contents()) <= set(explained)


def test_it_is_saved_as_a_file_with_everything_in_it(page: Page, over_http: str) -> None:
    page.goto(f"{over_http}seam-check.html")
    page.fill("#sc-0-body-hook", ".0789")
    make_a_database(page)
    page.goto(f"{over_http}on-this-device.html")
    with page.expect_download() as download:
        page.get_by_role("button", name="Save what is mine as a file").click()
    assert download.value.suggested_filename == "on-this-device.json"
    saved = json.loads(download.value.path().read_text(encoding="utf-8"))
    assert list(saved["kept"]) == ["tinwright.seam-check"]
    assert json.loads(saved["kept"]["tinwright.seam-check"])["points"][0]["body-hook"] == ".0789"
    assert saved["records"] == {"cans": [{"can": 1}]}


def make_a_database(page: Page) -> None:
    page.evaluate(
        """() => new Promise(done => {
          const request = indexedDB.open("tinwright", 1);
          request.onupgradeneeded = () => request.result.createObjectStore("cans", { autoIncrement: true }).add({ can: 1 });
          request.onsuccess = () => { request.result.close(); done(); };
        })"""
    )


def test_erasing_asks_first_takes_all_of_ours_and_nothing_of_anybody_else(page: Page, over_http: str) -> None:
    walk_the_journeys(page, over_http)
    make_a_database(page)
    page.evaluate("localStorage.setItem('another-site', 'theirs'); sessionStorage.setItem('tinwright.x', '1')")
    page.goto(f"{over_http}on-this-device.html")
    before = kept(page)
    page.get_by_role("button", name="Erase what is mine").click()
    expect(page.get_by_role("button", name="No, keep it")).to_be_focused()
    page.get_by_role("button", name="No, keep it").click()
    assert kept(page) == before
    page.get_by_role("button", name="Erase what is mine").click()
    page.get_by_role("button", name="Yes, erase it").click()
    expect(page.get_by_role("status").filter(has_text="Erased.")).to_be_visible()
    assert kept(page) == ["another-site"]
    assert page.evaluate("indexedDB.databases()") == []
    expect(page.locator("tw-on-this-device li")).to_have_text(["Nothing."])
    page.reload()
    assert kept(page) == ["another-site"]


@pytest.mark.browser_context_args(service_workers="allow")
def test_the_copy_of_the_site_is_shown_and_can_be_refused(page: Page, over_http: str) -> None:
    page.goto(f"{over_http}on-this-device.html")
    page.evaluate("async () => { await navigator.serviceWorker.ready; }")
    page.wait_for_function("navigator.serviceWorker.controller !== null")
    page.reload()
    expect(page.locator("tw-on-this-device li")).to_contain_text(["Copy of the site: "])
    page.get_by_role("button", name="Remove the copy of the site").click()
    page.get_by_role("button", name="Yes, remove it").click()
    expect(page.get_by_role("status").filter(has_text="The copy is removed.")).to_be_visible()
    page.goto(f"{over_http}index.html")
    page.wait_for_timeout(1000)
    assert page.evaluate("caches.keys()") == []
    assert page.evaluate("navigator.serviceWorker.getRegistrations().then(found => found.length)") == 0
    page.goto(f"{over_http}on-this-device.html")
    page.get_by_role("button", name="Keep a copy again").click()
    expect(page.get_by_role("status").filter(has_text="brings the copy back")).to_be_visible()
    page.goto(f"{over_http}index.html")
    page.wait_for_function("async () => (await caches.keys()).length === 1")


def test_blocked_storage_stops_nothing(page: Page, over_http: str) -> None:
    page.add_init_script(
        """for (const name of ["localStorage", "sessionStorage"])
             Object.defineProperty(window, name, { get() { throw new DOMException("blocked", "SecurityError"); } });"""
    )
    for address in ("index.html", "seam-check.html", "on-this-device.html"):
        page.goto(over_http + address)
    expect(page.locator("tw-on-this-device li")).to_have_text(["Nothing."])
    page.locator("label[for=__palette_1]").click()
    expect(page.locator("body")).to_have_attribute("data-md-color-scheme", "slate")
