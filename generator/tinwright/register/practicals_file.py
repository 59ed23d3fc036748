"""Practical checks typed in from their observed checklists as one CSV file.

    person,observed_on,drive,sealer,examiner,assemble,set-rollers,test-can,judge,correct-fault,passed
    V0001,2026-11-02,hand-lever,bench-lever-sealer,AE,done,done,done,done,done,

A step is `done` or `not-done`, in small or capital letters. The check is passed when every step is done, unless `no`
stands under `passed`.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from tinwright.errors import RecordError
from tinwright.knowledge.models.machine import Drive
from tinwright.knowledge.wording import commas_asked, nearest
from tinwright.register.entries import Practical
from tinwright.register.practicals import DONE, NOT_DONE, STEPS, mark_typed
from tinwright.store.typed_table import day_typed, typed_rows, typed_text

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Collection, Sequence
    from pathlib import Path

    from tinwright.store.typed_table import TypedRow

__all__ = ["PRACTICALS_HEAD", "read_practicals"]

PRACTICALS_HEAD = ("person", "observed_on", "drive", "sealer", "examiner", *STEPS, "passed")
"""Headings of the file, in this order; the last one may be left out."""

_MAX_BYTES = 2_000_000


def read_practicals(
    file: Path, *, people: Collection[str], sealers: Collection[str] | None, latest: dt.date
) -> tuple[list[Practical], list[str]]:
    """Read practical checks, and return them with one line for each thing that is wrong.

    Args:
        file: the CSV file.
        people: the ids there are in the register.
        sealers: the ids of sealers there are; None to take any.
        latest: last day on which a check can have been observed.

    Raises:
        RecordError: when the file cannot be read at all.
    """
    rows = typed_rows(typed_text(file, _MAX_BYTES))
    _check_head(file, next(rows, None))
    checks: list[Practical] = []
    problems: list[str] = []
    for row in rows:
        found = _problems(row, people, sealers, latest)
        problems += [f"{file}:{problem}" for problem in found]
        if not found:
            checks.append(_check(row))
    if not checks and not problems:
        problems.append(f"{file}: expected a row for each check, found none")
    return checks, problems


def _check_head(file: Path, head: TypedRow | None) -> None:
    if head is None:
        raise RecordError(f"{file}:1:1: expected the headings {','.join(PRACTICALS_HEAD)}, got an empty file")
    if said := commas_asked(head.cell(0), PRACTICALS_HEAD[:1]):
        raise RecordError(f"{file}:{head.at(0)}: {said}")
    for place, name in enumerate(PRACTICALS_HEAD):
        got = head.cell(place)
        if got.lower() != name and not (name == "passed" and not got):
            raise RecordError(f"{file}:{head.at(place)}: expected the heading {name}, got {got[:40]!r}")
    if len(head.cells) > len(PRACTICALS_HEAD):
        more = head.cells[len(PRACTICALS_HEAD)]
        raise RecordError(f"{file}:{head.at(len(PRACTICALS_HEAD))}: expected no more headings, got {more[:40]!r}")


def _problems(
    row: TypedRow, people: Collection[str], sealers: Collection[str] | None, latest: dt.date
) -> Sequence[str]:
    person, day, drive, sealer, examiner = (row.cell(place) for place in range(5))
    found = []
    if person.upper() not in people:
        got = person.upper()
        found.append(f"{row.at(0)}: person: {got[:40]!r} is not in the register{nearest(got, people)}")
    observed_on = day_typed(day)
    if observed_on is None:
        found.append(f"{row.at(1)}: observed_on: expected a day such as 2026-11-02, got {day[:40]!r}")
    elif observed_on > latest:
        found.append(f"{row.at(1)}: observed_on: {observed_on} is in the future")
    drives = [str(known) for known in Drive]
    drive = drive.casefold()
    if drive not in drives:
        found.append(f"{row.at(2)}: drive: expected {' or '.join(drives)}, got {drive[:40]!r}{nearest(drive, drives)}")
    if sealer and sealers is not None and sealer not in sealers:
        found.append(f"{row.at(3)}: no sealer is called {sealer[:40]!r}{nearest(sealer, sealers)}")
    if not examiner:
        found.append(f"{row.at(4)}: examiner: expected who observed, got nothing")
    for place, step in enumerate(STEPS, 5):
        if mark_typed(row.cell(place)) is None:
            found.append(f"{row.at(place)}: {step}: expected {DONE} or {NOT_DONE}, got {row.cell(place)[:40]!r}")
    if row.cell(10).lower() not in {"", "yes", "no"}:
        found.append(f"{row.at(10)}: passed: expected yes, no or nothing, got {row.cell(10)[:40]!r}")
    elif row.cell(10).lower() == "yes" and NOT_DONE in {mark_typed(row.cell(place)) for place in range(5, 10)}:
        found.append(f"{row.at(10)}: passed: expected no, since not every step is done, got 'yes'")
    if len(row.cells) > len(PRACTICALS_HEAD):
        found.append(f"{row.at(11)}: expected {len(PRACTICALS_HEAD)} cells, got another: {row.cell(11)[:40]!r}")
    return found


def _check(row: TypedRow) -> Practical:
    steps = {step: mark_typed(row.cell(place)) or NOT_DONE for place, step in enumerate(STEPS, 5)}
    observed_on = day_typed(row.cell(1))
    assert observed_on is not None  # noqa: S101 - `_problems` has seen to it
    return Practical(
        id="",
        volunteer_id=row.cell(0).upper(),
        drive=row.cell(2).casefold(),
        sealer=row.cell(3) or None,
        observed_on=observed_on,
        examiner=row.cell(4),
        passed=NOT_DONE not in steps.values() and row.cell(10).lower() != "no",
        steps=steps,
    )
