"""The saved copy, unpacked onto a stick, and opened from there."""

from __future__ import annotations

import zipfile
from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import expect

from browser.judging import barriers
from browser.walking import walk_the_journeys

if TYPE_CHECKING:
    from pathlib import Path

    from playwright.sync_api import Page

pytestmark = pytest.mark.browser


def test_one_click_saves_it_and_it_works_from_the_stick(page: Page, over_http: str, axe: str, tmp_path: Path) -> None:
    page.goto(over_http)
    page.get_by_role("article").get_by_role("link", name="Take it along").click()
    with page.expect_download() as download:
        page.get_by_role("link", name="Save the whole site").click()
    stick = tmp_path / "stick"
    with zipfile.ZipFile(download.value.path()) as archive:
        archive.extractall(stick)
    page.goto((stick / "start-here.html").as_uri())
    assert barriers(page, axe) == []
    page.get_by_role("link", name="Open the site").click()
    expect(page.get_by_role("heading", level=1)).to_contain_text("What do you need now?")
    folder = next(path for path in stick.iterdir() if path.is_dir())
    walk_the_journeys(page, f"{folder.as_uri()}/")
    page.goto((folder / "take-along.html").as_uri())
    expect(page.get_by_role("article")).to_contain_text("You are reading a saved copy")
    expect(page.get_by_role("link", name="Save the whole site")).to_have_count(0)
    assert barriers(page, axe) == []
