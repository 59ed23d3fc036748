"""Values of the Python half from what the files hold."""

from __future__ import annotations

import re
from decimal import Decimal
from fractions import Fraction
from typing import Any

from tinwright.quizzes.questions import Choice, Question
from tinwright.seaming import CauseProfile, Check, Limit, Reading, Screw, SeamLimits, SeamReadings, SeenDefect, Signs

__all__ = ["cause", "check", "defect", "limits", "question", "screw", "seam", "signs"]


def _made(kind: Any, plain: dict[str, Any], **parts: Any) -> Any:
    """Make a value of a kind from its fields, camelCase to snake_case, lists to tuples; `parts` are made already."""
    fields = {re.sub(r"[A-Z]", lambda found: "_" + found[0].lower(), name): value for name, value in plain.items()}
    fields = {name: tuple(value) if isinstance(value, list) else value for name, value in fields.items()}
    return kind(**fields | parts)


def cause(plain: dict[str, Any]) -> CauseProfile:
    made: CauseProfile = _made(CauseProfile, plain)
    return made


def signs(plain: dict[str, Any]) -> Signs:
    made: Signs = _made(Signs, plain)
    return made


def check(plain: dict[str, Any]) -> Check:
    made: Check = _made(Check, plain)
    return made


def defect(plain: dict[str, Any]) -> SeenDefect:
    made: SeenDefect = _made(SeenDefect, plain)
    return made


def seam(plain: dict[str, Any]) -> SeamReadings:
    readings = tuple(_made(Reading, each) for each in plain["readings"])
    made: SeamReadings = _made(SeamReadings, plain, readings=readings)
    return made


def limits(plain: dict[str, Any] | None) -> SeamLimits | None:
    if plain is None:
        return None
    each = tuple(_made(Limit, limit) for limit in plain["limits"])
    made: SeamLimits = _made(SeamLimits, plain, limits=each)
    return made


def screw(plain: dict[str, Any] | None) -> Screw | None:
    if plain is None:
        return None
    step = plain["safeStep"]
    made: Screw = _made(Screw, plain, safe_step=None if step is None else Fraction(*step))
    return made


def question(plain: dict[str, Any]) -> Question:
    """Make a question from what the site's data has of it; a number's right answer is its lowest, which scores alike."""
    low, high = (Decimal(plain[name]) if name in plain else None for name in ("low", "high"))
    return Question(
        plain["id"],
        "cases",
        plain["asks"],
        "?",
        tuple(Choice(choice["text"]) for choice in plain["choices"]),
        tuple(plain["key"]),
        tuple(plain["lefts"]),
        answer=low,
        low=low,
        high=high,
        critical=plain["critical"],
    )
