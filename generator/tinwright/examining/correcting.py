"""Corrections of a key: another answer, or an item dropped for everybody; each makes a new revision and says why."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

from tinwright.errors import ExamError, QuizError
from tinwright.examining.digested import decimal_text
from tinwright.examining.form import questions_of
from tinwright.knowledge.wording import nearest
from tinwright.quizzes.scoring import read_answer

if TYPE_CHECKING:
    import datetime as dt
    from decimal import Decimal

    from tinwright.examining.form import ExamForm, ExamKey, KeyItem

__all__ = ["drop_item", "dropped_items", "find_item", "right_answer"]

_ANSWERED, _DROPPED = "other-answer", "dropped"


def find_item(key: ExamKey, name: str) -> str:
    """Return the id of an item named by its id or by its number on the form.

    Raises:
        ExamError: when the form has no such item.
    """
    ids = [item.id for item in key.items]
    if name.isdecimal() and 1 <= int(name) <= len(ids):
        return ids[int(name) - 1]
    if name not in ids:
        raise ExamError(
            f"form {key.form}: no item is called {name[:60]!r}{nearest(name, ids)}; "
            f"expected an id or a number from 1 to {len(ids)}"
        )
    return name


def dropped_items(key: ExamKey) -> frozenset[str]:
    """Return the ids of the items that count as right for everybody; the last correction of an item holds."""
    last = {str(correction.get("item")): correction.get("what") for correction in key.corrections}
    return frozenset(item for item, what in last.items() if what == _DROPPED)


def right_answer(
    form: ExamForm,
    key: ExamKey,
    item_id: str,
    right: str,
    *,
    reason: str,
    on: dt.date,
    low: Decimal | None = None,
    high: Decimal | None = None,
) -> ExamKey:
    """Return the next revision of a key, with another right answer to an item.

    Args:
        form: the form the key belongs to.
        key: the key to correct.
        item_id: the item, see `find_item`.
        right: the right answer, typed as on an answer sheet.
        reason: why.
        on: day of the correction.
        low: for a number, the lowest that counts as right; the answer itself when left out.
        high: for a number, the highest that counts as right; the answer itself when left out.

    Raises:
        ExamError: when the answer does not fit the item, or nothing changes.
    """
    question = next(question for question in questions_of(form, key) if question.id == item_id)
    old = next(item for item in key.items if item.id == item_id)
    try:
        answer = read_answer(question, right)
    except QuizError as error:
        raise ExamError(str(error)) from error
    if answer is None:
        raise ExamError(f"{item_id}: expected the right answer, got nothing")
    if isinstance(answer, tuple):
        if low is not None or high is not None:
            raise ExamError(f"{item_id}: only a number has a lowest and a highest right answer")
        new = replace(old, key=answer)
    else:
        new = replace(old, answer=answer, low=answer if low is None else low, high=answer if high is None else high)
    if new == old and item_id not in dropped_items(key):
        raise ExamError(f"{item_id}: that is the answer in the key already")
    corrected = _next(key, new, _ANSWERED, reason=reason, on=on, was=_answer(old), now=_answer(new))
    questions_of(form, corrected)
    return corrected


def drop_item(key: ExamKey, item_id: str, *, reason: str, on: dt.date) -> ExamKey:
    """Return the next revision of a key, with an item that counts as right for everybody.

    Raises:
        ExamError: when it is dropped already.
    """
    if item_id in dropped_items(key):
        raise ExamError(f"{item_id}: it is dropped already")
    old = next(item for item in key.items if item.id == item_id)
    return _next(key, old, _DROPPED, reason=reason, on=on, was=_answer(old), now=None)


def _next(key: ExamKey, item: KeyItem, what: str, *, reason: str, on: dt.date, was: Any, now: Any) -> ExamKey:
    if not reason.strip():
        raise ExamError(f"{item.id}: expected a reason, got nothing")
    correction = {
        "revision": key.revision + 1,
        "item": item.id,
        "what": what,
        "was": was,
        "now": now,
        "reason": reason.strip(),
        "on": on.isoformat(),
    }
    return replace(
        key,
        revision=key.revision + 1,
        items=tuple(item if old.id == item.id else old for old in key.items),
        corrections=(*key.corrections, correction),
    )


def _answer(item: KeyItem) -> dict[str, Any]:
    if item.asks == "number":
        return {
            "low": decimal_text(item.low),
            "answer": decimal_text(item.answer),
            "high": decimal_text(item.high),
        }
    return {"key": list(item.key)}
