"""Sheets to fill in by hand: seam readings, as `tinwright seam` reads them, and what is seen and felt."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tinwright.advice.profiles import visible_defects
from tinwright.advice.readings_file import COLUMNS, POINT_NAMES, SETTINGS
from tinwright.benchlog import KINDS, sheet
from tinwright.figures import good_beside
from tinwright.knowledge.models.trouble import FoundBy, Place
from tinwright.seaming import SIDE_SEAM_NOTE

if TYPE_CHECKING:
    from tinwright.knowledge import KnowledgeBase
    from tinwright.knowledge.models import Defect
    from tinwright.paper.press import Press, Printed

__all__ = ["bench_log_sheet", "seam_readings_sheet", "visual_check_sheet"]

_CANS_MEASURED = 4
_CANS_LOOKED_AT = 10
_WIDE = {"what": 13, "defect": 10, "which": 10, "readings": 14, "note": 12}
_NARROW = 41
"""Width in percent of the columns that hold words, and of all others together."""


def seam_readings_sheet(press: Press) -> Printed:
    """Print the blank form for seam readings: the settings and columns of the CSV form, a line for each point.

    Raises:
        MissingExtraError: when the libraries of the extra `paper` are not installed.
    """
    return press.print(
        "seam-readings.pdf",
        "seam-readings.html.j2",
        title="Seam readings",
        cards=["seam-readings"],
        settings=SETTINGS,
        columns=COLUMNS,
        points=POINT_NAMES,
        cans=range(1, _CANS_MEASURED + 1),
        side_seam=SIDE_SEAM_NOTE,
    )


def visual_check_sheet(press: Press) -> Printed:
    """Print the blank form for looking at and feeling seams: a row for each thing to look for, a column for a can.

    Raises:
        PaperError: when there are more defects than fit one page.
        MissingExtraError: when the libraries of the extra `paper` are not installed.
    """
    return press.print(
        "visual-check.pdf",
        "visual-check.html.j2",
        title="Look and feel: check sheet",
        cards=["visual-check"],
        groups=_by_place(press.kb),
        whole_cans=[defect for defect in _felt_or_seen(press.kb) if _of_whole_can(defect)],
        cans=range(1, _CANS_LOOKED_AT + 1),
    )


def bench_log_sheet(press: Press) -> Printed:
    """Print the blank sheet of the bench log: the head and the columns of its CSV form, with the rules of the program.

    Raises:
        MissingExtraError: when the libraries of the extra `paper` are not installed.
    """
    narrow = _NARROW / (len(sheet.COLUMNS) - len(_WIDE))
    return press.print(
        "bench-log.pdf",
        "bench-log.html.j2",
        title="Bench log",
        cards=["bench-log"],
        settings=sheet.SETTINGS,
        columns=sheet.COLUMNS,
        widths={name: _WIDE.get(name, round(narrow, 2)) for name in sheet.COLUMNS},
        lines=range(1, sheet.LINES + 1),
        kinds=[kind.label.lower() for kind in KINDS.values()],
    )


def _felt_or_seen(kb: KnowledgeBase) -> list[Defect]:
    return [d for d in visible_defects(kb) if {FoundBy.SEE, FoundBy.FEEL} & set(d.found_by)]


def _of_whole_can(defect: Defect) -> bool:
    """Tell a fault of the closed can, which shows after heating or on the shelf, from one of the seam as it is made."""
    outside = defect.figure.outside
    return outside is not None and good_beside(outside.feature) == "sound-can"


def _by_place(kb: KnowledgeBase) -> list[tuple[Place, list[Defect]]]:
    """Group the defects that are found without a tool under the first place they show in."""
    shown = [defect for defect in _felt_or_seen(kb) if not _of_whole_can(defect)]
    groups = [(place, [defect for defect in shown if defect.places[0] == place]) for place in Place]
    return [(place, found) for place, found in groups if found]
