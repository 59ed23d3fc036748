"""Graded sheets as the register takes them, and which sitting a sheet that was typed in again takes the place of."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tinwright.examining.results import sitting_of
from tinwright.register.sittings import standing

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from tinwright.examining.grading import GradedSheet
    from tinwright.examining.responses import AnswerSheet
    from tinwright.register.entries import ItemResponse, Sitting

__all__ = ["sittings_to_record"]


def sittings_to_record(
    graded: Iterable[GradedSheet], before: Sequence[Sitting], *, retyped: bool, public_bank: bool = False
) -> list[tuple[Sitting, tuple[ItemResponse, ...]]]:
    """Return the entries for `Register.record_sittings`.

    Args:
        graded: the sheets.
        before: every sitting there is in the register.
        retyped: whether a sheet with other answers takes the place of that of the same person, form and day.
        public_bank: whether anybody can read the questions of the form, as those of a demonstration.
    """
    counting = standing(before) if retyped else []
    return [sitting_of(row, supersedes=_replaced_by(row.sheet, counting), public_bank=public_bank) for row in graded]


def _replaced_by(sheet: AnswerSheet, counting: Iterable[Sitting]) -> str | None:
    """Name the sitting, of those that still count, that the sheet was typed in again for."""
    same = (sheet.person, sheet.exam, sheet.form, sheet.taken_on)
    for sitting in counting:
        its = (sitting.volunteer_id, sitting.exam, sitting.form, sitting.taken_on)
        if its == same and sitting.digest != sheet.digest:
            return sitting.id
    return None
