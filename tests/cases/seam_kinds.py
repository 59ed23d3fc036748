"""More of the seam's functions with cases: entries, formulas, words, questions, counts and the drawing's plates."""

from __future__ import annotations

import json
from dataclasses import asdict
from fractions import Fraction
from typing import TYPE_CHECKING, Any

from cases import from_plain
from cases.kind import Kind, rounded
from seaming.test_browser_twin import ENTRIES, some_limits, some_seam, some_signs
from seaming.twin import camel, files_of, in_browser, plain, run_node, seeded, some_causes
from tinwright.figures import GOOD_SEAM, SectionDimensions
from tinwright.figures.layers import good_layers
from tinwright.seaming import (
    ADJUSTERS,
    DIMENSIONS,
    FORMULAS,
    Confirmed,
    find_experience,
    find_next,
    find_questions,
    find_unit,
    judge,
    length_text,
    parse_percent,
    parse_reading,
    rank,
    span_text,
)
from tinwright.seaming.confirmed import hold_unconfirmed

if TYPE_CHECKING:
    from collections.abc import Callable

__all__ = ["SEAM_KINDS"]

DRAWN = ("body_hook", "cover_hook", "seam_width", "seam_thickness", "countersink", "end_plate", "body_plate")
MEASURED = {"short-overlap": {"body-hook": "smaller", "cover-hook": "smaller"}}


def _kind(name: str, called: str, python: Callable[..., Any], asked: Callable[[], list[list[Any]]]) -> Kind:
    return Kind(
        name, lambda given: rounded(python(*given)), lambda calls: rounded(list(in_browser(called, calls))), asked
    )


def _entry(found: Any) -> dict[str, Any]:
    return {name: float(value) if isinstance(value, Fraction) else value for name, value in asdict(found).items()}


def _some_lengths() -> list[float]:
    rng = seeded(51)
    return [rng.choice([rng.uniform(-0.01, 0.2), rng.randint(0, 400) / 100 / 25.4]) for _ in range(60)]


def _some_spans() -> list[list[Any]]:
    rng = seeded(52)
    return [
        [rng.choice(DIMENSIONS), *sorted(rng.sample(_some_lengths(), 2)), unit]
        for unit in ("in", "mm")
        for _ in "12345678"
    ]


def _some_units() -> list[list[Any]]:
    rng = seeded(53)
    return [[[rng.choice(["in", "mm"]) for _ in range(n % 5)], unit] for n in range(15) for unit in ("in", "mm")]


def _formula(name: str, values: dict[str, float], errors: dict[str, float]) -> list[float]:
    formula = FORMULAS[name]
    return [formula.value(values), formula.uncertainty(values, errors)]


def _formulas_in_browser(calls: list[list[Any]]) -> list[Any]:
    values = in_browser("formulaValue", [call[:2] for call in calls])
    return [list(both) for both in zip(values, in_browser("formulaUncertainty", calls), strict=True)]


def _some_formulas() -> list[list[Any]]:
    rng = seeded(54)
    low = {"CH": 70, "BH": 70, "W": 110, "S": 50, "Te": 8, "Tb": 8, "G": 2}
    errors = {"CH": 0.001, "BH": 0.001, "W": 0.001, "S": 0.0005, "Te": 0.0005, "Tb": 0.0003, "G": 0.0001}
    found = []
    for name, formula in FORMULAS.items():
        for _ in range(6):
            values = {symbol: (low[symbol] + rng.randint(0, 9)) / 1000 for symbol in formula.symbols}
            found.append([name, values, {symbol: errors[symbol] for symbol in formula.symbols if rng.random() < 0.8}])
    return found


def _questions(seam: Any, limits: Any, errors: dict[str, float]) -> Any:
    return plain(find_questions(from_plain.seam(seam), from_plain.limits(limits), errors))


def _some_readings() -> list[list[Any]]:
    rng = seeded(55)
    return [[plain(some_seam(rng)), plain(some_limits(rng)), {"body-hook": 0.001}] for _ in range(40)]


def _held_back(seam: Any, limits: Any, changed: str) -> Any:
    verdict = judge(from_plain.seam(seam), from_plain.limits(limits), {})
    return _shown(plain(hold_unconfirmed(verdict, changed)))


def _held_back_in_browser(calls: list[list[Any]]) -> list[Any]:
    judged = in_browser("judge", [[seam, limits, {}, [], "A"] for seam, limits, _ in calls])
    asked = [[verdict, changed] for verdict, (_, _, changed) in zip(judged, calls, strict=True)]
    return [_shown(found) for found in in_browser("holdUnconfirmed", asked)]


def _shown(verdict: dict[str, Any]) -> dict[str, Any]:
    return {"outcome": verdict["outcome"], "reasons": list(verdict["reasons"])}


def _some_unconfirmed() -> list[list[Any]]:
    rng = seeded(56)
    good = {"method": "micrometer", "readings": [{"dimension": "body-hook", "point": p, "value": 0.078} for p in "123"]}
    seams = [from_plain.seam(good | {"endPlateIn": None, "bodyPlateIn": None}), *(some_seam(rng) for _ in range(8))]
    limit = {"limits": [{"dimension": "body-hook", "low": 0.072, "aim": 0.078, "high": 0.084}]}
    limits = plain(from_plain.limits(limit))
    return [[plain(seam), limits, changed] for seam in seams for changed in ("", "The sheet was changed.")]


def _experience(counts: list[Any], measured: Any, signs: Any, sealer: str | None) -> Any:
    return plain(find_experience(_confirmed(counts), measured, from_plain.signs(signs), sealer))


def _confirmed(counts: list[dict[str, Any]]) -> list[Confirmed]:
    return [Confirmed(*each.values()) for each in counts]


def _some_counts() -> list[list[Any]]:
    rng = seeded(57)
    found = []
    for _ in range(30):
        counts = [
            Confirmed(
                rng.choice(("crank", "lever")),
                rng.choice(("droop", "vee", "short-overlap", "constructor")),
                rng.choice(("cause-0", "cause-1", "constructor")),
                rng.randint(1, 12),
            )
            for _ in range(rng.randint(0, 6))
        ]
        found.append([plain(counts), MEASURED, plain(some_signs(rng)), rng.choice(("crank", None))])
    return found


def _ranked_with_counts(causes: list[Any], signs: Any, counts: list[Any], sealer: str | None) -> list[Any]:
    given = tuple(map(from_plain.cause, causes)), from_plain.signs(signs)
    experience = find_experience(_confirmed(counts), MEASURED, given[1], sealer)
    return [plain(rank(*given, experience)), plain(find_next(*given, experience=experience))]


def _ranked_in_browser(calls: list[list[Any]]) -> list[Any]:
    counted = in_browser("findExperience", [[counts, MEASURED, signs, sealer] for _, signs, counts, sealer in calls])
    both = [[*call[:2], experience] for call, experience in zip(calls, counted, strict=True)]
    ranked = in_browser("rank", both)
    asked = in_browser("findNext", [[causes, signs, None, experience] for causes, signs, experience in both])
    return rounded([list(each) for each in zip(ranked, asked, strict=True)])  # type: ignore[no-any-return]


def _some_ranked() -> list[list[Any]]:
    rng = seeded(58)
    return [[plain(some_causes(rng, ADJUSTERS)), signs, counts, sealer] for counts, _, signs, sealer in _some_counts()][
        :16
    ]


def _plates(dims: dict[str, float]) -> Any:
    seam = SectionDimensions(*(dims[camel(name)] for name in DRAWN))
    return {metal.part: [list(point) for point in metal.outline] for metal in good_layers(seam).metal}


_LAYERS = """
load(%s);
const found = JSON.parse(input.toString()).map(([dims]) => globalThis.tinwrightSeamLayers.layers(dims));
process.stdout.write(JSON.stringify(found));
"""


def _plates_in_browser(calls: list[list[Any]]) -> list[Any]:
    found = json.loads(run_node(_LAYERS % files_of(["seam-layers.js"]), json.dumps(calls).encode()))
    return rounded(
        [{part: plates[part] for part in _plates(dims)} for plates, [dims] in zip(found, calls, strict=True)]
    )  # type: ignore[no-any-return]


def _some_seams_to_draw() -> list[list[Any]]:
    rng = seeded(59)
    good = [getattr(GOOD_SEAM, name) for name in DRAWN]
    seams = [good, *([round(each * rng.uniform(0.8, 1.2), 4) for each in good] for _ in range(5))]
    return [[dict(zip(map(camel, DRAWN), seam, strict=True))] for seam in seams]


SEAM_KINDS = (
    _kind(
        "parse-reading",
        "parseReading",
        lambda text, unit: _entry(parse_reading(text, unit)),
        lambda: [[text, unit] for text in ENTRIES for unit in ("in", "mm")],
    ),
    _kind(
        "parse-percent", "parsePercent", lambda text: _entry(parse_percent(text)), lambda: [[text] for text in ENTRIES]
    ),
    _kind(
        "length-text",
        "lengthText",
        length_text,
        lambda: [[value, unit] for value in _some_lengths() for unit in ("in", "mm")],
    ),
    _kind("span-text", "spanText", span_text, _some_spans),
    _kind("find-unit", "findUnit", find_unit, _some_units),
    Kind("formulas", lambda given: _formula(*given), _formulas_in_browser, _some_formulas),
    _kind("find-questions", "findQuestions", _questions, _some_readings),
    Kind("hold-unconfirmed", lambda given: _held_back(*given), _held_back_in_browser, _some_unconfirmed),
    _kind("find-experience", "findExperience", _experience, _some_counts),
    Kind("rank-with-counts", lambda given: rounded(_ranked_with_counts(*given)), _ranked_in_browser, _some_ranked),
    Kind("bend-plates", lambda given: rounded(_plates(*given)), _plates_in_browser, _some_seams_to_draw),
)
"""Every other function of the seam with cases."""
