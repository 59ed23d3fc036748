"""At the bench: a knowledge base and what was read or seen, turned into advice.

from tinwright.bench import advise_on_seam, read_sheet

sheet = read_sheet(Path("readings.csv"), kb)
advise_on_seam(kb, sheet.cans[0], kb.seam_specifications["demo-307"], kb.sealers["bench-crank-sealer"])
"""

from tinwright.bench.advice import CauseAdvice, SeamAdvice, advise_on_seam, advise_on_signs
from tinwright.bench.readings_file import BLANK_FORM, CanReadings, ReadingsSheet, read_sheet
from tinwright.bench.report import report_html

__all__ = [
    "BLANK_FORM",
    "CanReadings",
    "CauseAdvice",
    "ReadingsSheet",
    "SeamAdvice",
    "advise_on_seam",
    "advise_on_signs",
    "read_sheet",
    "report_html",
]
