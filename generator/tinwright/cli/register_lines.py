"""Entries of the register, each told in one line."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import datetime as dt

    from tinwright.register import Certificate, Coaching, Practical, Sitting

__all__ = [
    "certificate_line",
    "coaching_line",
    "drives_until",
    "practical_line",
    "sitting_line",
    "standing_line",
]


def sitting_line(row: Sitting, *, superseded: bool) -> str:
    """Tell a sitting in one line."""
    state = "graded again since" if superseded else "passed" if row.passed else "not passed"
    if row.voided is not None:
        state = f"VOID: {row.voided}"
    second = f" (second try after {row.second_of})" if row.second_of else ""
    allowed = f"; allowed: {row.allowed}" if row.allowed else ""
    return (
        f"{row.id}  {row.taken_on}  examination {row.exam}, form {row.form}{second}: {row.score} of {row.out_of}, "
        f"{state}{allowed}"
    )


def practical_line(row: Practical) -> str:
    """Tell a practical check in one line."""
    missed = [step for step, mark in row.steps.items() if mark == "not-done"]
    state = "passed" if row.passed else f"not passed{' (' + ', '.join(missed) + ')' if missed else ''}"
    if row.voided is not None:
        state = f"VOID: {row.voided}"
    return f"{row.id}  {row.observed_on}  practical check on {row.drive}: {state}"


def coaching_line(row: Coaching) -> str:
    """Tell a coaching in one line."""
    return f"{row.id}  {row.coached_on}  coached by {row.coach}: {row.about}"


def standing_line(row: Certificate | None, day: dt.date) -> str:
    """Tell first whether somebody may supervise on a day."""
    if row is None:
        return f"no certificate in force on {day}"
    return f"certificate in force on {day}: {drives_until(row)} ({row.id})"


def certificate_line(row: Certificate, day: dt.date) -> str:
    """Tell a certificate in one line, as it is on a day."""
    if row.revoked_on is not None:
        return f"{row.id}  issued on {row.issued_on}, revoked on {row.revoked_on}: {row.revoked_reason}"
    state = "" if row.in_force(day) else ", not in force"
    return f"{row.id}  issued on {row.issued_on}, {drives_until(row)}{state}"


def drives_until(row: Certificate) -> str:
    """Tell what a certificate is for, and until when."""
    return f"{', '.join(row.drives)} until {row.valid_until}"
