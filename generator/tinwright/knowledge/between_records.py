"""What must hold between records, and between the records and the day they are read on."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

from tinwright.knowledge.models import Cause, Procedure, Source
from tinwright.knowledge.models.seen_here import SeenHere
from tinwright.knowledge.record_rules import dates_in

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    from tinwright.errors import Problem
    from tinwright.knowledge.record_files import PlacedRecord

__all__ = ["dated_ahead", "problems_between"]

_TOMORROW = dt.timedelta(days=1)
"""Somewhere on earth it is tomorrow already."""


def problems_between(placed: Mapping[tuple[str, str], PlacedRecord]) -> Iterator[Problem]:
    """Yield what does not fit between the records of one folder."""
    yield from _called_alike(placed)
    yield from _unrelated_retests(placed)


def dated_ahead(placed: Iterable[PlacedRecord], today: dt.date) -> Iterator[Problem]:
    """Yield a problem for each day in a record that has not come yet.

    Args:
        placed: the records.
        today: the day it is.
    """
    latest = today + _TOMORROW
    for item in placed:
        if isinstance(item.record, SeenHere):
            if item.record.through > latest.year:
                yield item.problem(("through",), f"expected a year up to {today.year}, got {item.record.through}")
            continue
        for path, day in dates_in(item.record):
            if day > latest:
                yield item.problem(path, f"{path[-1]}: expected a day up to today, {today}, got {day}")
        if isinstance(item.record, Source) and item.record.year.isdecimal() and int(item.record.year) > latest.year:
            yield item.problem(("year",), f"year: expected a year up to {today.year}, got {item.record.year}")


def _called_alike(placed: Mapping[tuple[str, str], PlacedRecord]) -> Iterator[Problem]:
    """Two records of a kind with one title cannot be told apart in a list, a search or a choice."""
    seen: dict[tuple[str, str], PlacedRecord] = {}
    for (kind, _), item in placed.items():
        # two editions of a document have one title; what stands after a statement is the short form
        shown = item.record.short if isinstance(item.record, Source) else item.record.name
        name = "".join(letter for letter in shown.casefold() if letter.isalnum())
        first = seen.setdefault((kind, name), item)
        if first is not item:
            field = (
                "short"
                if isinstance(item.record, Source)
                else "title"
                if "title" in type(item.record).model_fields
                else "id"
            )
            line, _ = first.file.at(first.path)
            where = f"{first.record.id!r} in {first.file.file}:{line}"
            yield item.problem((field,), f"has the same name as {where}: nobody could tell the two apart")


def _unrelated_retests(placed: Mapping[tuple[str, str], PlacedRecord]) -> Iterator[Problem]:
    """What is put right is tested by a procedure that judges a seam, not by one that sets or cleans something."""
    for item in placed.values():
        if not isinstance(item.record, Cause):
            continue
        procedure = placed.get((Procedure.kind, item.record.retest))
        if procedure is not None and isinstance(procedure.record, Procedure) and not procedure.record.judges_seam:
            message = f"retest: {item.record.retest!r} does not judge a seam (it has no 'judges_seam: true')"
            yield item.problem(("retest",), message)
