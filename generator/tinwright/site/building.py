"""The whole site from one knowledge base, before any static-site tool has seen it."""

from __future__ import annotations

import re
from dataclasses import dataclass
from importlib.resources import files
from types import MappingProxyType
from typing import TYPE_CHECKING

from tinwright.bench.set_ups import all_sheets
from tinwright.errors import ContentError, Problem
from tinwright.knowledge.handwritten import read_handwritten, read_pictures
from tinwright.knowledge.printed import read_printed
from tinwright.remembering import remembered
from tinwright.site.accessibility_page import ACCESSIBILITY_PAGE, accessibility_page
from tinwright.site.bench_log_page import bench_log_assets, bench_log_page
from tinwright.site.bench_pages import bench_assets, bench_pages
from tinwright.site.carry_pages import carry_pages
from tinwright.site.certificate_page import certificate_assets, certificate_page
from tinwright.site.exchange_assets import exchange_assets, with_structured_data
from tinwright.site.held_cans_page import held_cans_page
from tinwright.site.index_pages import index_pages
from tinwright.site.page import Asset, Page, address_of
from tinwright.site.photos import photo_assets
from tinwright.site.print_page import card_lines, print_assets, print_page
from tinwright.site.private_scan import refuse_private
from tinwright.site.quiz_pages import practice_lines, practice_of, quiz_assets, quiz_descriptions, quiz_pages
from tinwright.site.record_pages import record_pages
from tinwright.site.rendering import Renderer
from tinwright.site.set_up_pages import set_up_pages
from tinwright.site.tree_pages import tree_pages

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from tinwright.knowledge import KnowledgeBase
    from tinwright.knowledge.bank import Bank

__all__ = ["FOOTER", "JOINED", "NAVIGATION", "SCRIPTS", "STYLES", "SiteContent", "build_site"]

STYLES = ("assets/tinwright.css",)
"""Style sheets every page needs, independent of the theme."""

SCRIPTS = ("assets/offline.js",)
"""Scripts every page needs; those of one page are named on that page."""

JOINED: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "tinwright.css": ("tinwright.css", "figures.css"),
        "quiz-progress.js": ("quiz-progress.js", "quiz-store.js"),
        "seaming.js": ("seaming-formulas.js", "seaming.js"),
        "bench-advice.js": ("bench-advice.js", "bench-slip.js"),
        "seam-check.js": ("seam-drawing.js", "seam-picture.js", "seam-check.js"),
        "offline.js": ("offline.js", "needs-network.js", "theme-keys.js"),
        "bench-log.js": tuple(
            f"bench-log{part}.js"
            for part in (
                "-rules",
                "-due",
                "-holding",
                "-charts",
                "-second-copy",
                "-store",
                "-words",
                "-drawing",
                "-measured",
                "-start",
                "-panel",
                "-file",
                "-view",
                "-days",
                "",
            )
        ),
    }
)
"""Files that always go together, in their order, by the one they are published as: fewer requests."""

_LINE_COMMENT = re.compile(rb"^[ \t]*//.*\n", re.MULTILINE)
_BLOCK_COMMENT = re.compile(rb"^[ \t]*/\*\*(?:(?!\*/).)*\*/[ \t]*\n", re.MULTILINE | re.DOTALL)
"""Comments that have their lines to themselves; they are for those who read the sources, not for a phone."""

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
    papers = read_printed(kb.root)
    renderer = Renderer(
        kb, directory_urls=directory_urls, practice=practice_lines(practice), on_paper=card_lines(papers)
    )
    sheets = all_sheets(kb)
    pages = [
        *index_pages(kb, renderer, read_handwritten(kb.root), quizzes=bool(practice)),
        *record_pages(kb, renderer, sheets),
        *tree_pages(kb, renderer),
        *set_up_pages(kb, renderer, sheets),
        *bench_pages(kb, renderer),
        *bench_log_page(kb, renderer),
        *held_cans_page(kb, renderer),
        *certificate_page(kb, renderer),
        *carry_pages(renderer),
        accessibility_page(renderer),
        print_page(kb, renderer, papers),
    ]
    assets = [
        *_package_assets(),
        *photo_assets(kb),
        *(Asset(name, content) for name, content in read_pictures(kb.root).items()),
        *print_assets(kb, papers),
        *bench_assets(kb, renderer),
        *bench_log_assets(kb, renderer, sheets),
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


_FROM_THE_PACKAGE = ("assets/icon", "vendor/")


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
    """Yield the style sheets and scripts that come with the package."""
    for folder in ("assets", "vendor"):
        found = {
            entry.name: entry.read_bytes()
            for entry in sorted(files("tinwright.site").joinpath(folder).iterdir(), key=lambda e: e.name)
            if entry.is_file() and not entry.name.startswith((".", "__"))
        }
        for whole, parts in JOINED.items():
            if whole in found:
                found[whole] = b"\n".join([found.pop(part) for part in parts])
        for name, content in sorted(found.items()):
            ours = folder == "assets" and name.endswith(".js")
            yield Asset(f"{folder}/{name}", _without_comments(content) if ours else content)


@remembered
def _without_comments(script: bytes) -> bytes:
    return _BLOCK_COMMENT.sub(b"", _LINE_COMMENT.sub(b"", script))
