"""Small forms and keys for tests."""

from __future__ import annotations

import datetime as dt
from decimal import Decimal
from typing import Any

from tinwright.examining.form import ExamForm, ExamKey, FormItem, KeyArea, KeyItem

__all__ = ["a_form", "a_key"]

ITEMS = (
    (
        FormItem("x-one", "one-answer", "Which roller goes first?", ("The first", "The second", "Neither")),
        KeyItem("x-one", "first-roller", "one-answer", (0,), critical=True, teaches=("part/first-roller",)),
    ),
    (
        FormItem("x-several", "several-answers", "Which are parts of a can?", ("Body", "Bench", "End", "Wire")),
        KeyItem("x-several", "parts", "several-answers", (0, 2)),
    ),
    (
        FormItem("x-order", "order", "In which order?", ("Lock", "Turn", "Loosen")),
        KeyItem("x-order", "set-up", "order", (2, 1, 0)),
    ),
    (
        FormItem("x-match", "match", "What belongs together?", ("Deep", "Shallow", "None"), ("First", "Second")),
        KeyItem("x-match", "parts", "match", (0, 1)),
    ),
    (
        FormItem("x-number", "number", "What is 0.040 less 0.004?", unit="in"),
        KeyItem(
            "x-number", "measuring", "number", low=Decimal("0.0355"), high=Decimal("0.0365"), answer=Decimal("0.036")
        ),
    ),
)


def a_form(**changes: Any) -> ExamForm:
    """Make a form of one question of each kind but pointing."""
    values: dict[str, Any] = {
        "exam": "volunteer",
        "title": "Seam volunteer",
        "form": "A",
        "seed": 7,
        "made_on": dt.date(2026, 11, 25),
        "demonstration": True,
        "minutes": 30,
        "items": tuple(shown for shown, _ in ITEMS),
    }
    return ExamForm(**{**values, **changes})


def a_key(form: ExamForm, **changes: Any) -> ExamKey:
    """Make the key that belongs to the form."""
    values: dict[str, Any] = {
        "exam": form.exam,
        "form": form.form,
        "form_digest": form.digest,
        "cut": 4,
        "cut_raw": "3.45",
        "areas": (KeyArea("Rollers", ("x-one",), 1),),
        "items": tuple(right for _, right in ITEMS),
    }
    return ExamKey(**{**values, **changes})
