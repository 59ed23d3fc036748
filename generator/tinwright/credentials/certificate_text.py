"""What a certificate says in words, and what it says that it is not."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tinwright.knowledge.plain_words import say

if TYPE_CHECKING:
    from datetime import date

__all__ = ["ACHIEVEMENT", "TITLE", "criteria_words", "date_words", "exam_words", "limits_words", "practical_words"]

TITLE = "Volunteer certificate: hand-worked can sealers"
"""Title of every certificate."""

ACHIEVEMENT = "Setting up a hand-worked can sealer, judging a double seam and putting it right"
"""What the holder has shown, in one line."""


def exam_words(exam: str, form: str) -> str:
    """Say which examination was passed.

    >>> exam_words("Seam volunteer 2026", "B")
    'Written examination: Seam volunteer 2026, form B'
    """
    return f"Written examination: {exam}, form {form}"


def practical_words(drive: str) -> str:
    """Say on what the holder was observed.

    >>> practical_words("hand-lever")
    'Observed at the machine: hand lever'
    """
    return f"Observed at the machine: {say(drive)}"


def date_words(day: date) -> str:
    """Write a day as people read it.

    >>> from datetime import date
    >>> date_words(date(2026, 11, 5))
    'November 5, 2026'
    """
    return f"{day:%B} {day.day}, {day.year}"


def criteria_words(office: str) -> str:
    """Say what had to be done for a certificate."""
    return (
        f"Passed the written examination of {office}, and was observed at a hand-worked sealer of each kind named: "
        "set it up, set both rollers, made a test can, judged its seam, and fixed a fault set by the examiner."
    )


def limits_words(office: str, *, demonstration: bool = False, public_bank: bool = False, trial: bool = False) -> str:
    """Say what a certificate is not.

    The rules named are those for commercial and inspected canning, where a closure supervisor must have finished an
    approved school: 21 CFR 108.35(g), 113.10 and 114, and 9 CFR 431.

    Args:
        office: the Extension office.
        demonstration: True when the office is invented.
        public_bank: True when anybody could read the questions of the examination.
        trial: True when it was made from the register for trying things out.
    """
    text = (
        f"This is a local volunteer record of {office}. It is not a Better Process Control School certificate, not a "
        "license, and not an approval of any recipe or process. It does not make the holder a process authority, or a "
        "closure technician or supervisor under 21 CFR 108, 113 or 114 or 9 CFR 431. It does not permit the sale or "
        "the public distribution of canned food. If food is canned for a church, a school, an institution or for sale, "
        "ask your State food program."
    )
    before = [
        "Made in a trial: nobody was examined." if trial else "",
        f"A demonstration: {office} is invented." if demonstration else "",
        "The questions of its examination are public: anybody could read them beforehand." if public_bank else "",
    ]
    return " ".join([*filter(None, before), text])
