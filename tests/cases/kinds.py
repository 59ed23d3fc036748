"""Which functions have cases: how each answers in Python and in the browser, and what it is asked."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

from browser.test_quiz_parity import as_data, in_python, made_up, typed
from cases import from_plain
from cases.kind import Kind
from cases.log_kinds import LOG_KINDS
from cases.seam_kinds import SEAM_KINDS
from seaming.test_browser_twin import some_limits, some_seam, some_signs
from seaming.twin import files_of, in_browser, plain, run_node, seeded, some_causes, some_screw
from tinwright.seaming import (
    ADJUSTERS,
    Check,
    Limit,
    Reading,
    SeamLimits,
    SeamReadings,
    SeenDefect,
    correct,
    judge,
    order_checks,
    rank,
)
from tinwright.seaming.correction import SET_IN_STEPS

if TYPE_CHECKING:
    from collections.abc import Callable

__all__ = ["KINDS", "Kind", "cases_text"]

_WAYS = ("tighten", "loosen", "raise", "lower", "replace", "refit", "clean", "sort-out", "redo")
_ERRORS = ("countersink", "seam-width", "seam-thickness", "body-hook", "cover-hook", "tightness", "end-plate")


def _plain(value: Any) -> Any:
    """Turn an answer into what a file holds: plain values, probabilities to nine places."""
    given = plain(value)
    if isinstance(given, dict):
        return {
            name: round(each, 9) if name == "probability" and each is not None else _plain(each)
            for name, each in given.items()
        }
    return [_plain(each) for each in given] if isinstance(given, list) else given


def _seaming(name: str) -> Callable[[list[list[Any]]], list[Any]]:
    return lambda calls: [_plain(found) for found in in_browser(name, calls)]


def _judged(given: list[Any]) -> Any:
    seam, limits, errors, defects, variant = given
    seen = tuple(map(from_plain.defect, defects))
    return _plain(judge(from_plain.seam(seam), from_plain.limits(limits), errors, seen, variant))


def _some_seams() -> list[list[Any]]:
    rng = seeded(31)
    found = []
    for _ in range(24):
        errors = {name: rng.choice([0.0, 0.0005, 0.001]) for name in _ERRORS if rng.random() < 0.7}
        ways = [way for way in ("reject", "hold", "cosmetic", "discard-part") if rng.random() < 0.05]
        defects = [SeenDefect("d", "A defect", way) for way in ways]
        found.append([plain(some_seam(rng)), plain(some_limits(rng)), errors, plain(defects), rng.choice("ABC")])
    hooks = tuple(Reading("body-hook", point, 0.078, 0.001) for point in "123")
    good = SeamReadings("micrometer", hooks, 0.010, 0.010)
    some = (SeamLimits((Limit("body-hook", 0.072, 0.078, 0.084),)), SeamLimits(), None)
    return [*found, *([plain(good), plain(given), {"body-hook": 0.0005}, [], "A"] for given in some)]


def _ranked(given: list[Any]) -> Any:
    return plain(rank(tuple(map(from_plain.cause, given[0])), from_plain.signs(given[1])))


def _some_causes() -> list[list[Any]]:
    rng = seeded(32)
    return [[plain(some_causes(rng, ADJUSTERS)), plain(some_signs(rng))] for _ in range(24)]


def _ordered(given: list[Any]) -> Any:
    return plain(order_checks(tuple(map(from_plain.check, given[0]))))


def _some_checks() -> list[list[Any]]:
    rng = seeded(33)
    shares = (0.0, 0.05, 0.1, 0.3)
    return [
        [[plain(Check(f"c{at}", rng.choice(ADJUSTERS), rng.randint(1, 20), rng.choice(shares))) for at in range(size)]]
        for size in [0, 1, 2, *(rng.randint(3, 9) for _ in range(60))]
    ]


def _corrected(given: list[Any]) -> Any:
    adjuster, direction, screw, out_by = given
    return plain(correct(adjuster, direction, from_plain.screw(screw), out_by))


def _some_corrections() -> list[list[Any]]:
    rng = seeded(34)
    found = []
    for _ in range(150):
        screw = some_screw(rng)
        out_by = rng.choice([None, 0.0, 0.003, 0.00625, 0.0078125, 0.0125, 0.03])
        adjuster = rng.choice((*ADJUSTERS, *[*sorted(SET_IN_STEPS)] * 4))
        found.append([adjuster, rng.choice((*_WAYS, *_WAYS[:4] * 3)), plain(rng.choice([screw, screw, None])), out_by])
    return found


_SCORE = """
load(%s);
const { AnswerError, readAnswer, score } = globalThis.tinwrightScoring;
const found = JSON.parse(input.toString()).map(([question, typed]) => {
  try {
    return score(question, readAnswer(question, typed));
  } catch (error) {
    if (!(error instanceof AnswerError)) throw error;
    return null;
  }
});
process.stdout.write(JSON.stringify(found));
"""


def _scored_in_browser(calls: list[list[Any]]) -> list[Any]:
    found: list[Any] = json.loads(run_node(_SCORE % files_of(["quiz-scoring.js"]), json.dumps(calls).encode()))
    return found


def _scored(given: list[Any]) -> Any:
    return in_python(from_plain.question(given[0]), given[1])


def _some_answers() -> list[list[Any]]:
    rng = seeded(35)
    questions = [made_up(rng, number) for number in range(150)]
    return [[as_data(question), typed(question, rng)] for question in questions]


KINDS = (
    Kind("judge", _judged, _seaming("judge"), _some_seams),
    Kind("rank", _ranked, _seaming("rank"), _some_causes),
    Kind("order-checks", _ordered, _seaming("orderChecks"), _some_checks),
    Kind("correct", _corrected, _seaming("correct"), _some_corrections),
    Kind("score", _scored, _scored_in_browser, _some_answers),
    *SEAM_KINDS,
    *LOG_KINDS,
)
"""Every function with cases."""


def cases_text(kind: Kind) -> str:
    """Write the cases of a function, one to a line."""
    lines = [json.dumps({"given": given, "expected": kind.python(given)}, ensure_ascii=True) for given in kind.asked()]
    return "[\n" + ",\n".join(lines) + "\n]\n"
