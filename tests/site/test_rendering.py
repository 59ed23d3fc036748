"""Whatever an educator writes stands on the page as written, and nothing in it runs."""

from __future__ import annotations

import json
import re
import tempfile
from functools import cache
from html import unescape
from pathlib import Path
from typing import TYPE_CHECKING
from urllib.parse import urljoin

import pytest
from bs4 import BeautifulSoup
from hypothesis import example, given, settings
from hypothesis import strategies as st
from mkdocs.config import load_config
from mkdocs.structure.files import File, Files
from mkdocs.structure.pages import Page as MkDocsPage

from demo_site import ROOT
from filled_programme import filled_programme, text_paths
from tinwright.knowledge.linking import INLINE
from tinwright.measures import mixed_number
from tinwright.site import build_site
from tinwright.site.pages_and_assets import address_of
from tinwright.site.rendering import Renderer, markdown_text, photo_name

if TYPE_CHECKING:
    from mkdocs.config.defaults import MkDocsConfig

    from tinwright.knowledge import KnowledgeBase
    from tinwright.knowledge.bank import Bank

FRAGMENTS = (
    "<script>alert(1)</script>", "</script>", "</svg>", "</style>", "<svg onload=alert(1)>", "<img src=x onerror=alert(1)>",
    "](javascript:alert(1))", "[a](javascript:alert(1))", "![a](x)", "<javascript:alert(1)>", "javascript:alert(1)",
    "https://example.org/\" onclick=\"alert(1)", "' onfocus='alert(1)' autofocus='", '"', "'", "`", "```", "~~~", "|", "| a | b |",
    "{{ 7 * 7 }}", "{% raw %}", "{# x #}", "[[ ]]", "[[", "]]", "[[term/", "---", "***", "___", ":::", "!!! note", "# heading",
    "{: onclick=alert(1) }", "{ #can onclick=alert(1) }", "[ref]: javascript:alert(1)", "*a*", "_b_", "\\", "\\<", "&lt;script&gt;",
    "&#60;", "&", "<!--", "-->", "<![CDATA[", "]]>", "<?php", "<%", "<", ">", "</p>", "</li></ol>", "</div>", "</article>", "<a href=x>",
    "wzxhzdk:0", "klzzwxh:0000", "\u2028", "\u00ad", "ﷺ", "𝕏", "🥫", "%s", "${x}", "\n", "\n\n", "\t", "    ", "1. ", "- ", "+ ", "> ",
    "title: x", "©", "é",
)  # fmt: skip
"""Pieces that mean something to Markdown, HTML, Jinja, YAML or a link."""

NOT_SHOWN = {"programme.instruments.name", "part.figure", "procedure.said", "cause.said", "caution.said"}
"""Texts that no page shows: the name of a drawing, instruments, which only the seam check uses, and words to search by."""


def hostile_texts() -> st.SearchStrategy[str]:
    piece = st.one_of(
        st.sampled_from(FRAGMENTS), st.text(st.characters(codec="utf-8", exclude_categories=["Cc"]), max_size=6)
    )
    made = st.lists(piece, min_size=1, max_size=8).map("".join)
    return made.filter(lambda text: text.strip() and not INLINE.search(text))


@cache
def mkdocs_settings() -> MkDocsConfig:
    """The Markdown extensions of the demonstration, without plugins."""
    config = load_config(str(ROOT / "mkdocs.yml"), plugins=[], use_directory_urls=False)
    config.plugins._current_plugin = "tests"  # what MkDocs notes as the maker of a generated file
    return config


def rendered(kb: KnowledgeBase) -> dict[str, str]:
    """Every page as MkDocs renders it, heading and contents list included."""
    config = mkdocs_settings()
    made = {page.uri: File.generated(config, page.uri, content=page.text) for page in build_site(kb).pages}
    pages = {}
    for uri, file in made.items():
        page = MkDocsPage(None, file, config)
        page.read_source(config)
        page.render(config, Files(made.values()))
        contents = "".join(f'<li><a href="{item.url}">{item.title}</a></li>' for item in page.toc)
        pages[uri] = f"<title>{page.title}</title><ul>{contents}</ul>{page.content}"
    return pages


def dangers(html: str) -> list[str]:
    """What in a page could run a script, or break out of its place."""
    found = []
    for element in BeautifulSoup(html, "html.parser").find_all(True):
        if (
            element.name == "script"
            and re.fullmatch(r"(?:\.\./)?assets/[a-z-]+\.js", str(element.get("src")))
            and not element.text
        ):
            continue  # one of our own files, named on the page that needs it
        data = element.get("type") in {"application/json", "application/ld+json"}
        if element.name == "script" and data and json.loads(element.text):
            continue  # data of one page: no browser runs it, and it is whole
        if element.name in {"script", "style", "iframe", "object", "embed", "base", "meta", "form"}:
            found.append(str(element)[:200])
        for name, value in element.attrs.items():
            if name.startswith("on") or re.match(r"\s*(javascript|data|vbscript):", str(value), re.IGNORECASE):
                found.append(f"{element.name} {name}={value}")
    return found


def squeezed(text: str) -> str:
    return "".join(text.split())


@given(hostile_texts())
@example("<script>alert(1)</script>")
@example('" onfocus="alert(1)" autofocus="')
@example("---\ntitle: x\n---\n\n# y\n\n</p></li></ol></div></svg><svg onload=alert(1)>")
@example('https://example.org/" onclick="alert(1)')
@example("\n\n[ref]: javascript:alert(1)\n\n    <b>code</b>\n\n```\n[[ ]] {{ x }} | a | b |\n```")
@settings(max_examples=25, deadline=None)
def test_hostile_text_in_every_field_at_once_never_runs_and_comes_out_whole(text: str) -> None:
    shown: dict[str, str] = {}

    def note(path: str) -> str:
        written = f"q{len(shown)}x {text} x{len(shown)}q"
        shown[written] = path
        return written

    with tempfile.TemporaryDirectory() as folder:
        pages = rendered(filled_programme(Path(folder), note))
    assert {uri: found for uri, html in pages.items() if (found := dangers(html))} == {}
    words = []
    for html in pages.values():
        soup = BeautifulSoup(html, "html.parser")
        words.append(squeezed(soup.get_text().casefold()))
        assert len(soup.find_all("h1")) == 1
    whole = "\n".join(words)
    assert [
        path for text_, path in shown.items() if squeezed(text_).casefold() not in whole and path not in NOT_SHOWN
    ] == []


def test_every_text_field_of_the_models_was_tried(tmp_path: Path) -> None:
    paths = text_paths(tmp_path)
    assert len(set(paths)) > 100
    assert {"programme.title", "can.names", "defect.said", "procedure.steps.photo.alt", "source.address"} <= set(paths)


@given(st.text(st.characters(codec="utf-8", exclude_categories=["Cc"])))
@settings(max_examples=200)
def test_text_in_a_heading_comes_out_as_it_went_in(text: str) -> None:
    import markdown

    html = markdown.markdown(f"# x{markdown_text(text)}x", extensions=["toc", "attr_list", "tables", "fenced_code"])
    soup = BeautifulSoup(html, "html.parser")
    assert [element.name for element in soup.find_all(True)] == ["h1"]
    assert " ".join(soup.get_text().split()) == " ".join(f"x{' '.join(text.split())}x".split())


def test_a_link_in_text_leads_to_the_record_and_its_words_are_escaped(kb: KnowledgeBase) -> None:
    renderer = Renderer(kb, directory_urls=False)
    html = renderer.rich("See [[defect/droop|<b>that & this</b>]], or [[cause/first-roller-loose]].", "parts/crank.md")
    assert str(html) == (
        'See <a href="../defects/droop.html">&lt;b&gt;that &amp; this&lt;/b&gt;</a>, or '
        f'<a href="../causes/first-roller-loose.html">{kb.causes["first-roller-loose"].title}</a>.'
    )
    assert 'href="defects/droop/"' in Renderer(kb, directory_urls=True).rich("[[defect/droop]]", "index.md")


@pytest.mark.parametrize("directory_urls", [False, True])
def test_every_link_and_file_of_every_page_is_there(kb: KnowledgeBase, bank: Bank, directory_urls: bool) -> None:
    site = build_site(kb, bank=bank, directory_urls=directory_urls)
    there = {address_of(page.uri, directory_urls=directory_urls) for page in site.pages} | {a.uri for a in site.assets}
    lost = []
    for page in site.pages:
        here = f"https://site.example/{address_of(page.uri, directory_urls=directory_urls)}"
        for link in re.findall(r'(?:href|src)="([^"#]+)', page.text):
            whole = urljoin(here, unescape(link))
            if whole.startswith("https://site.example/") and whole.removeprefix("https://site.example/") not in there:
                lost.append((page.uri, link))
    assert lost == []


@pytest.mark.parametrize(
    ("address", "is_link"),
    [
        ("https://www.ecfr.gov/current/title-21", True),
        ("javascript:alert(1)", False),
        ('https://example.org/" onclick="alert(1)', False),
        ("//example.org", False),
        ("https://example.org/\njavascript:alert(1)", False),
    ],
)
def test_only_an_honest_web_address_of_a_source_becomes_a_link(tmp_path: Path, address: str, is_link: bool) -> None:
    kb = filled_programme(tmp_path, lambda path: address if path == "source.address" else "words")
    html = rendered(kb)["sources/source.md"]
    assert bool(BeautifulSoup(html, "html.parser").find("a", href=address)) == is_link
    assert dangers(html) == []


def test_a_number_of_inches_reads_as_on_a_rule() -> None:
    from fractions import Fraction

    expected = {"3/16": "3/16", "139/64": "2 11/64", "0": "0", "-1/4": "−1/4", "-9/4": "−2 1/4", "1/3": "0.3333"}
    assert {text: mixed_number(Fraction(text)) for text in expected} == expected


def test_a_photograph_is_published_under_a_plain_name() -> None:
    assert photo_name("Mill Street/The Seam (2).PNG") == "mill-street-the-seam-2.jpg"
