"""At the bench: a knowledge base and what was read or seen, turned into advice.

from tinwright.bench import advise_on_sheet, read_sheet, seam_lines

for advice in advise_on_sheet(kb, read_sheet(Path("readings.csv"), kb)):
    for line in seam_lines(kb, advice):
        print(line)
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from tinwright.bench.advice import (
        CauseAdvice,
        SeamAdvice,
        advise_on_seam,
        advise_on_sheet,
        advise_on_signs,
        signs_from,
    )
    from tinwright.bench.readings_file import BLANK_FORM, CanReadings, ReadingsSheet, find_defect, read_sheet
    from tinwright.bench.report import report_html
    from tinwright.bench.spoken import cause_lines, seam_lines

__all__ = [
    "BLANK_FORM",
    "CanReadings",
    "CauseAdvice",
    "ReadingsSheet",
    "SeamAdvice",
    "advise_on_seam",
    "advise_on_sheet",
    "advise_on_signs",
    "cause_lines",
    "find_defect",
    "read_sheet",
    "report_html",
    "seam_lines",
    "signs_from",
]

_HOMES = {
    "BLANK_FORM": "readings_file",
    "CanReadings": "readings_file",
    "CauseAdvice": "advice",
    "ReadingsSheet": "readings_file",
    "SeamAdvice": "advice",
    "advise_on_seam": "advice",
    "advise_on_sheet": "advice",
    "advise_on_signs": "advice",
    "cause_lines": "spoken",
    "find_defect": "readings_file",
    "read_sheet": "readings_file",
    "report_html": "report",
    "seam_lines": "spoken",
    "signs_from": "advice",
}
"""The module each name comes from; it is loaded when the name is first asked for, since few commands draw or report."""


def __getattr__(name: str) -> object:
    if name not in _HOMES:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    return getattr(import_module(f"{__name__}.{_HOMES[name]}"), name)
