"""The wall chart: every defect that is seen or felt from outside, with what to do with the can."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tinwright.advice import drawings
from tinwright.advice.seen_here import causes_in_order
from tinwright.knowledge.models.trouble import Place

if TYPE_CHECKING:
    from markupsafe import Markup

    from tinwright.knowledge import KnowledgeBase
    from tinwright.knowledge.models import Cause, Defect
    from tinwright.paper.press import Press, Printed

__all__ = ["outside_defects", "wall_chart"]

_ON_A_SHEET = 12
"""Defects on a Letter sheet: four rows of three."""


@dataclass(frozen=True)
class Cell:
    """One defect of the chart."""

    defect: Defect
    svg: Markup
    """Its drawing, as seen from outside."""
    first: Cause
    """Its commonest cause."""


def wall_chart(press: Press, *, letter: bool = False) -> Printed:
    """Print the wall chart: one sheet of 11 by 17 inches, or Letter sheets to hang side by side.

    Raises:
        PaperError: when the chart does not fit its sheet.
        MissingExtraError: when the libraries of the extra `paper` are not installed.
    """
    cells = [_cell(press.kb, defect) for defect in outside_defects(press.kb)]
    per_sheet = _ON_A_SHEET if letter else max(len(cells), 1)
    sheets = [
        (f"sheet-{at // per_sheet + 1}", cells[at : at + per_sheet]) for at in range(0, len(cells) or 1, per_sheet)
    ]
    return press.print(
        f"wall-chart-{'letter' if letter else '11x17'}.pdf",
        "wall-chart.html.j2",
        title=f"Wall chart of defects, {'Letter' if letter else '11 × 17 in'}",
        cards=[id_ for id_, _ in sheets],
        of=[tuple(f"defects/{cell.defect.id}.md" for cell in found) for _, found in sheets],
        sheets=sheets,
        letter=letter,
        cautions=[press.kb.cautions[id_] for id_ in ("bad-seam", "never-taste") if id_ in press.kb.cautions],
    )


def outside_defects(kb: KnowledgeBase) -> list[Defect]:
    """Return the defects that show from outside, in the order of the places they show in."""
    places = list(Place)
    shown = [defect for defect in kb.defects.values() if defect.figure.outside is not None and not defect.measured]
    return sorted(shown, key=lambda defect: (places.index(defect.places[0]), defect.title.casefold()))


def _cell(kb: KnowledgeBase, defect: Defect) -> Cell:
    return Cell(defect, drawings.thumbnail(defect, named=False), kb.causes[causes_in_order(kb, defect)[0].cause])
