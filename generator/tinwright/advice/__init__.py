"""At the bench: a knowledge base and what was read or seen, turned into advice.

from tinwright.advice import advise_on_sheet, read_sheet, seam_lines

for advice in advise_on_sheet(kb, read_sheet(Path("readings.csv"), kb)):
    for line in seam_lines(kb, advice):
        print(line)
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from tinwright.when_asked import loaded_when_asked

if TYPE_CHECKING:
    from tinwright.advice.advice import (
        CauseAdvice,
        SeamAdvice,
        advise_on_seam,
        advise_on_sheet,
        advise_on_signs,
        signs_from,
    )
    from tinwright.advice.readings_file import (
        BLANK_FORM,
        CanReadings,
        ReadingsSheet,
        find_defect,
        read_sheet,
    )
    from tinwright.advice.report import report_html
    from tinwright.advice.spoken import cause_lines, seam_lines

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

__getattr__ = loaded_when_asked(
    __name__,
    {
        "advice": "CauseAdvice SeamAdvice advise_on_seam advise_on_sheet advise_on_signs signs_from",
        "readings_file": "BLANK_FORM CanReadings ReadingsSheet find_defect read_sheet",
        "report": "report_html",
        "spoken": "cause_lines seam_lines",
    },
)
