"""The page that judges a seam on a phone accepts nothing by a sheet that was changed after it was read."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import expect

from browser.test_advice_pages import fill, open_phone

if TYPE_CHECKING:
    from playwright.sync_api import Page, Route

pytestmark = pytest.mark.browser

CHANGED = "The seam specification was changed after two people had read it against the paper."
GOOD = [(".125", ".118", ".055", ".078", ".076")] * 3


@pytest.mark.parametrize("changed", [False, True])
def test_a_good_seam_is_held_by_a_changed_sheet(page: Page, over_http: str, changed: bool) -> None:
    def change(route: Route) -> None:
        text = route.fetch().text()
        assert '"unconfirmed":""' in text
        route.fulfill(
            body=text.replace('"unconfirmed":""', f'"unconfirmed":"{CHANGED}"'), content_type="text/javascript"
        )

    if changed:
        page.route("**/assets/bench-data.js", change)
    open_phone(page, over_http, "seam-check")
    page.select_option("#sc-spec", "demo-307")
    fill(page, GOOD)
    page.fill("#sc-tight", "90")
    result = page.locator(".tw-bench__result")
    expect(result.locator(".tw-verdict__word")).to_have_text("Measure again" if changed else "Accept")
    if changed:
        expect(result.locator(".tw-verdict li").first).to_have_text(CHANGED)
