"""Check a seam and Find the cause: the pages beside the machine, and the data their scripts need."""

from __future__ import annotations

from typing import TYPE_CHECKING

from markupsafe import Markup

from tinwright.advice.readings_file import BLANK_FORM, POINT_NAMES
from tinwright.advice.seen_here import confirmed_of
from tinwright.advice.worked_example import worked_example
from tinwright.browser import needed_scripts
from tinwright.seaming import FORMULAS, SIDE_SEAM_NOTE
from tinwright.site.advice_data import SEAM_CHECK_PAGE, BenchData
from tinwright.site.pages_and_assets import Asset, Page
from tinwright.site.rendering import script_json

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tinwright.knowledge import KnowledgeBase
    from tinwright.site.rendering import Renderer

__all__ = ["advice_assets", "advice_pages"]


def advice_pages(kb: KnowledgeBase, renderer: Renderer) -> Iterator[Page]:
    """Yield the seam check, the cause finder and the blank form to print."""
    needs = {"cautions": [id_ for id_ in ("bad-seam", "never-taste") if id_ in kb.cautions]}
    yield Page(
        SEAM_CHECK_PAGE,
        renderer.render(
            "seam-check.md.j2",
            SEAM_CHECK_PAGE,
            scripts=("bench-data.js", *needed_scripts("seam-check.js")),
            formulas=[(formula, _mathml(formula.mathml)) for formula in FORMULAS.values()],
            example=worked_example(),
            side_seam=SIDE_SEAM_NOTE,
            **needs,
        ),
    )
    here = "find-the-cause.md"
    yield Page(
        here,
        renderer.render(
            "find-the-cause.md.j2",
            here,
            scripts=("bench-data.js", *needed_scripts("find-cause.js")),
            confirmed=confirmed_of(kb),
            **needs,
        ),
    )
    here = "seam-form.md"
    yield Page(here, renderer.render("seam-form.md.j2", here, points=POINT_NAMES, side_seam=SIDE_SEAM_NOTE, **needs))


def _mathml(text: str) -> Markup:
    return Markup(text)  # noqa: S704 made of the formula's own symbols


def advice_assets(kb: KnowledgeBase, renderer: Renderer) -> Iterator[Asset]:
    """Yield the data script of these pages and the blank form as a file."""
    text = f"globalThis.tinwrightData = {script_json(BenchData(kb, renderer).all())};\n"
    yield Asset("assets/bench-data.js", text.encode())
    yield Asset("assets/seam-readings.csv", BLANK_FORM.encode())
