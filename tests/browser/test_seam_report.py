"""The report of `tinwright seam` in a browser: a printed page for each can, and no request."""

from __future__ import annotations

import re
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from browser.judging import barriers
from tinwright.advice.advice import advise_on_sheet
from tinwright.advice.readings_file import read_sheet
from tinwright.advice.report import report_html

if TYPE_CHECKING:
    from playwright.sync_api import Page

    from tinwright.knowledge import KnowledgeBase

pytestmark = pytest.mark.browser

EXAMPLE = Path(__file__).parents[2] / "docs" / "readings-example.csv"


def test_the_report_prints_one_page_a_can_asks_for_nothing_and_has_no_barrier(
    page: Page, kb: KnowledgeBase, axe: str, tmp_path: Path
) -> None:
    sheet_file = tmp_path / "r.csv"
    text = EXAMPLE.read_text(encoding="utf-8")
    # the fullest page: readings out of limits, two defects with their steps, causes and a correction
    sheet_file.write_text(text.replace(".062,75,", ".062,75,vee; droop"), encoding="utf-8")
    sheet = read_sheet(sheet_file, kb)
    report = tmp_path / "report.html"
    report.write_text(report_html(kb, advise_on_sheet(kb, sheet), sheet.settings), encoding="utf-8")
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.goto(report.as_uri())
    assert asked == [report.as_uri()]
    printed = page.pdf(prefer_css_page_size=True)
    assert len(re.findall(rb"/Type\s*/Page\b", printed)) == 2
    page.set_viewport_size({"width": 360, "height": 780})
    assert page.evaluate("document.documentElement.scrollWidth") <= 360
    assert barriers(page, axe) == []
