"""The whole site from one knowledge base, before any static-site tool has seen it."""

from __future__ import annotations

from dataclasses import dataclass
from importlib.resources import files
from typing import TYPE_CHECKING

from tinwright.advice.set_ups import all_sheets
from tinwright.browser import published_scripts
from tinwright.errors import ContentError, Problem
from tinwright.knowledge.handwritten import read_handwritten, read_pictures
from tinwright.knowledge.printed import read_printed
from tinwright.remembering import remembered
from tinwright.site.accessibility_page import ACCESSIBILITY_PAGE, accessibility_page
from tinwright.site.advice_pages import advice_assets, advice_pages
from tinwright.site.benchlog_page import benchlog_assets, benchlog_page
from tinwright.site.carry_pages import carry_pages
from tinwright.site.certificate_page import certificate_assets, certificate_page
from tinwright.site.exchange_assets import exchange_assets, with_structured_data
from tinwright.site.held_cans_page import held_cans_page
from tinwright.site.index_pages import index_pages
from tinwright.site.pages_and_assets import Asset, Page, address_of
from tinwright.site.photos import photo_assets
from tinwright.site.practice_page import practice_bench_assets, practice_bench_page
from tinwright.site.print_page import card_lines, print_assets, print_page
from tinwright.site.private_scan import refuse_private
from tinwright.site.quiz_pages import practice_lines, practice_of, quiz_assets, quiz_descriptions, quiz_pages
from tinwright.site.record_pages import record_pages
from tinwright.site.rendering import Renderer
from tinwright.site.search_index import SEARCHER, searcher
from tinwright.site.set_up_pages import set_up_pages
from tinwright.site.tree_pages import tree_pages
from tinwright.templates import asset_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tinwright.knowledge import KnowledgeBase
    from tinwright.knowledge.bank import Bank

__all__ = ["FOOTER", "NAVIGATION", "SCRIPTS", "STYLES", "SiteContent", "build_site"]

STYLES = ("assets/tinwright.css",)
"""Style sheets every page needs, independent of the theme."""

SCRIPTS = ("assets/offline.js",)
"""Scripts every page needs; those of one page are named on that page."""

NAVIGATION: tuple[tuple[str, str], ...] = (
    ("Home", "index.md"),
    ("A seam looks wrong", "defects/index.md"),
    ("Step by step", "trees/index.md"),
    ("Set up for a can", "set-up/index.md"),
    ("Check a seam", "seam-check.md"),
    ("Find the cause", "find-the-cause.md"),
    ("Bench log", "bench-log.md"),
    ("Take a quiz", "quizzes/index.md"),
    ("Procedures", "procedures/index.md"),
    ("Look it up", "reference.md"),
)
"""The ways in, in the order of the menu; other pages are reached from them."""

FOOTER: tuple[tuple[str, str], ...] = (
    ("Take it along", "take-along.md"),
    ("On this device", "on-this-device.md"),
    ("Accessibility", ACCESSIBILITY_PAGE),
)
"""What stands at the foot of every page."""


@dataclass(frozen=True)
class SiteContent:
    """Everything that is published."""

    pages: tuple[Page, ...]
    assets: tuple[Asset, ...]


def build_site(
    kb: KnowledgeBase, *, bank: Bank | None = None, directory_urls: bool = False, site_url: str | None = None
) -> SiteContent:
    """Make every page and asset from the knowledge base.

    Args:
        kb: the knowledge base.
        bank: the question bank, read for practice only; None for a site without quizzes.
        directory_urls: True when the static-site tool publishes pages as folders.
        site_url: where the site will be published, when that is known.

    Raises:
        ContentError: when two pages would have one address, or something private would be published.
    """
    practice = practice_of(bank, kb) if bank else ()
    papers = read_printed(kb.own)
    renderer = Renderer(
        kb, directory_urls=directory_urls, practice=practice_lines(practice), on_paper=card_lines(papers)
    )
    sheets = all_sheets(kb)
    pages = [
        *index_pages(kb, renderer, read_handwritten(*kb.folders), quizzes=bool(practice)),
        *record_pages(kb, renderer, sheets),
        *tree_pages(kb, renderer),
        *set_up_pages(kb, renderer, sheets),
        *advice_pages(kb, renderer),
        *benchlog_page(kb, renderer),
        *held_cans_page(kb, renderer),
        *practice_bench_page(kb, renderer),
        *certificate_page(kb, renderer),
        *carry_pages(renderer),
        accessibility_page(renderer),
        print_page(kb, renderer, papers),
    ]
    assets = [
        *_package_assets(),
        *photo_assets(kb),
        *(Asset(name, content) for name, content in read_pictures(*kb.folders).items()),
        *print_assets(kb, papers),
        *advice_assets(kb, renderer),
        *benchlog_assets(kb, renderer, sheets),
        *practice_bench_assets(kb, renderer),
        *certificate_assets(kb),
        *exchange_assets(kb, directory_urls=directory_urls, site_url=site_url),
    ]
    if bank and practice:
        pages += quiz_pages(kb, bank, practice, renderer)
        assets += quiz_assets(kb, bank, practice, renderer)
    quizzes = quiz_descriptions(kb, bank, practice) if bank else {}
    described = with_structured_data(kb, pages, quizzes=quizzes, directory_urls=directory_urls, site_url=site_url)
    site = SiteContent(tuple(described), tuple(assets))
    _refuse_one_address_for_two(site, directory_urls=directory_urls)
    refuse_private((page.uri, page.text.encode()) for page in site.pages)
    refuse_private((asset.uri, asset.content) for asset in site.assets if not asset.uri.startswith(_FROM_THE_PACKAGE))
    return site


_FROM_THE_PACKAGE = ("assets/icon", "assets/search.js", "vendor/")


def _refuse_one_address_for_two(site: SiteContent, *, directory_urls: bool) -> None:
    """Refuse a site in which one page would take the place of another, on some servers at least.

    Raises:
        ContentError: naming the two.
    """
    taken: dict[str, str] = {}
    problems = []
    items: list[Page | Asset] = [*site.pages, *site.assets]
    for item in items:
        address = address_of(item.uri, directory_urls=directory_urls).casefold()
        first = taken.setdefault(address, item.uri)
        if first is not item.uri:
            problems.append(Problem(item.uri, 1, 1, "", f"{first} has this address already: rename one of the two"))
    if problems:
        raise ContentError(problems)


def _package_assets() -> Iterator[Asset]:
    """Yield the style sheets, pictures and scripts that come with the package."""
    found = {**_files_of("assets"), **_scripts()}
    figures = asset_of("figures", "figures.css").encode()  # on almost every page: no request of its own
    found["tinwright.css"] = b"\n".join([found["tinwright.css"], figures])
    for name, content in sorted(found.items()):
        yield Asset(f"assets/{name}", content)
    vendor = _files_of("vendor")
    yield Asset(SEARCHER, searcher(vendor))
    for name in ("iframe-worker.js", *(name for name in vendor if name.endswith(".txt"))):
        yield Asset(f"vendor/{name}", vendor[name])


def _files_of(folder: str) -> dict[str, bytes]:
    entries = sorted(files("tinwright.site").joinpath(folder).iterdir(), key=lambda entry: entry.name)
    return {e.name: e.read_bytes() for e in entries if e.is_file() and not e.name.startswith((".", "__"))}


@remembered
def _scripts() -> dict[str, bytes]:
    return published_scripts()
