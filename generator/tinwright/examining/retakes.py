"""Whether somebody may sit a form on a day, by the programme's policy: another form, a wait, how many, coaching."""

from __future__ import annotations

import calendar
import datetime as dt
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tinwright.register.sittings import standing

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tinwright.examining.form import ExamKey, FirstTry
    from tinwright.examining.responses import AnswerSheet
    from tinwright.knowledge.models.programme import Policy
    from tinwright.register.entries import Coaching, ItemResponse, Sitting

__all__ = ["RetakePolicy", "SecondTry", "policy_of", "refusal", "second_try_of"]


@dataclass(frozen=True)
class RetakePolicy:
    """When an examination that was not passed may be sat again; `programme.yml` says it."""

    sittings: int = 2
    """Most sittings within `months`, since the last one that was passed."""
    months: int = 12
    """Months in which they are counted."""
    wait_days: int = 14
    """Fewest days from one to the next."""
    coaching: bool = True
    """Whether coaching must be noted in between."""


@dataclass(frozen=True)
class SecondTry:
    """What a second try is to repair."""

    of: Sitting
    """The sitting of the same day."""
    areas: tuple[str, ...]
    """The areas that were missed there."""


def policy_of(policy: Policy) -> RetakePolicy:
    """Return the policy as a programme says it."""
    return RetakePolicy(policy.exam_sittings, policy.exam_months, policy.exam_wait_days, policy.exam_coaching)


def refusal(
    sheet: AnswerSheet, history: Sequence[Sitting], coached: Sequence[Coaching], policy: RetakePolicy
) -> str | None:
    """Say why a sheet of a form cannot count; None when it can.

    Args:
        sheet: the sheet.
        history: the sittings of its person, all of them.
        coached: the coachings of its person.
        policy: the programme's policy.
    """
    before = [
        row
        for row in standing(history)
        if row.exam == sheet.exam and row.taken_on <= sheet.taken_on and (row.form, row.taken_on) != _same(sheet)
    ]
    if seen := next((row for row in before if row.form == sheet.form), None):
        return f"{sheet.person} sat form {sheet.form} on {seen.taken_on} already: another form is needed"
    passed = max((row.taken_on for row in before if row.passed), default=dt.date.min)
    failed = [row for row in before if row.second_of is None and not row.passed and row.taken_on > passed]
    if not failed:
        return None
    last = failed[-1]
    if (first := last.taken_on + dt.timedelta(days=policy.wait_days)) > sheet.taken_on:
        return f"{sheet.person} did not pass on {last.taken_on}: the next sitting can be on {first} or later"
    counted = [row for row in failed if row.taken_on > _months_before(sheet.taken_on, policy.months)]
    if len(counted) >= policy.sittings:
        return (
            f"{sheet.person} has had {len(counted)} sitting(s) in {policy.months} months, as many as the program "
            "allows: the whole course comes first"
        )
    if policy.coaching and not any(last.taken_on <= row.coached_on <= sheet.taken_on for row in coached):
        return (
            f"{sheet.person} did not pass on {last.taken_on}, and no coaching is noted since: "
            f"tinwright register coach {sheet.person} --by WHO --about WHAT"
        )
    return None


def second_try_of(
    sheet: AnswerSheet,
    key: ExamKey,
    history: Sequence[Sitting],
    responses: Sequence[ItemResponse],
    coached: Sequence[Coaching],
    policy: RetakePolicy,
) -> SecondTry | str:
    """Return what a sheet of a second try is to repair, or say why it cannot count.

    Args:
        sheet: the sheet.
        key: the key of the second try.
        history: the sittings of its person, all of them.
        responses: what the person answered in the sittings that count.
        coached: the coachings of its person.
        policy: the programme's policy.
    """
    firsts = {first.code: first for first in key.second_try_of}
    rows = [row for row in standing(history) if row.exam == sheet.exam]
    if any(row.form == sheet.form and row.taken_on != sheet.taken_on for row in rows):
        return f"{sheet.person} has had the second try {sheet.form} before: other questions are needed"
    sat = next((row for row in rows if row.form in firsts and row.taken_on == sheet.taken_on), None)
    if sat is None:
        return (
            f"{sheet.person} has no sitting of form {' or '.join(firsts)} on {sheet.taken_on} that counts: "
            "a second try is on the day of the first, and that is graded before"
        )
    if sat.passed:
        return f"{sheet.person} passed form {sat.form} on {sat.taken_on}: there is nothing to repair"
    first = firsts[sat.form]
    if float(sat.score) < first.cut:
        return (
            f"{sheet.person} has {sat.score} points of form {sat.form}, {first.cut} are needed: a second try repairs "
            "areas, not points"
        )
    if policy.coaching and not any(row.coached_on == sheet.taken_on for row in coached):
        return (
            f"{sheet.person}: no coaching is noted on {sheet.taken_on}: "
            f"tinwright register coach {sheet.person} --by WHO --about WHAT --on {sheet.taken_on}"
        )
    return SecondTry(sat, _missed(first, sat, responses))


def _missed(first: FirstTry, sat: Sitting, responses: Sequence[ItemResponse]) -> tuple[str, ...]:
    right = {row.item_id for row in responses if row.sitting_id == sat.id and row.score == "1"}
    return tuple(area.title for area in first.areas if len(right & set(area.items)) < area.right)


def _same(sheet: AnswerSheet) -> tuple[str, dt.date]:
    return sheet.form, sheet.taken_on


def _months_before(day: dt.date, months: int) -> dt.date:
    year, month = divmod(day.year * 12 + day.month - 1 - months, 12)
    return dt.date(year, month + 1, min(day.day, calendar.monthrange(year, month + 1)[1]))
