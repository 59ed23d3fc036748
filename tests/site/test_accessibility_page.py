"""The accessibility statement says what the records and the tests say, and every page leads to it in the same place."""

from __future__ import annotations

from typing import TYPE_CHECKING

from browser.judging import PHONE, SMALL_PHONE
from browser.test_every_kind_of_page import LEAST
from tinwright import __version__
from tinwright.knowledge import load
from tinwright.site.accessibility_page import accessibility_page
from tinwright.site.building import FOOTER
from tinwright.site.rendering import Renderer

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping
    from pathlib import Path

    from bs4 import BeautifulSoup

    from tinwright.knowledge import KnowledgeBase

HERE = "accessibility.html"


def test_it_says_whom_to_tell_the_standard_the_rule_the_limits_and_the_date(
    pages: Mapping[str, BeautifulSoup], text_of: Callable[[str], str], kb: KnowledgeBase
) -> None:
    programme, words = kb.programme, text_of(HERE)
    assert programme.contact is not None
    assert f"{programme.office}. {programme.contact}" in words
    assert "Level AA of the Web Content Accessibility Guidelines (WCAG) 2.2" in words
    assert "WCAG 2.1, levels A and AA, from April 26, 2027" in words
    assert pages[HERE].select("article a[href='sources/cfr-28-35-200.html']")
    assert programme.accessibility.limits
    for limit in programme.accessibility.limits:
        assert limit in words
    assert f"Last reviewed {programme.reviewed:%B} {programme.reviewed.day}, {programme.reviewed.year}." in words


def test_what_it_says_of_the_tests_is_what_the_tests_do(text_of: Callable[[str], str]) -> None:
    words = text_of(HERE)
    assert f"Tinwright {__version__}" in words
    assert f"at {PHONE[0]} and {SMALL_PHONE[0]} pixels" in words
    assert f"at least {LEAST} pixels high" in words


def test_every_page_leads_to_help_in_the_same_place(pages: Mapping[str, BeautifulSoup]) -> None:
    """WCAG 2.2, 3.2.6 Consistent Help: in the same order on every page."""
    titles = [title for title, _ in FOOTER]
    assert "Accessibility" in titles
    for here, page in pages.items():
        assert [a.get_text() for a in page.select("footer .tw-foot a")] == titles, here
        assert page.select_one(f"footer .tw-foot a[href='{'../' * here.count('/')}{HERE}']"), here


def test_a_programme_that_says_nothing_of_itself_still_has_a_statement(
    content: Callable[[dict[str, str]], Path],
) -> None:
    kb = load(content({}))
    text = accessibility_page(Renderer(kb, directory_urls=False)).text
    assert "Ask at the kitchen how to reach the office." in text
    assert "on every page.</p>" in text
    assert "invented" not in text
