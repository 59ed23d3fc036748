"""The verdict on a seam: each dimension against the chosen limits, the worst reading deciding.

    from tinwright.seaming import Limit, SeamLimits, judge

    judge(seam, SeamLimits((Limit("body-hook", 0.072, None, 0.084),)), {"body-hook": 0.0005}).outcome

There are no limits of its own: with none given, values come without a verdict.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import TYPE_CHECKING

from tinwright.errors import SeamingError
from tinwright.seaming.computed import DIMENSION_OF, Computed, compute
from tinwright.seaming.guard import (
    ACCEPT,
    MEASURE_AGAIN,
    REJECT,
    compare,
    conformance_probability,
    reading_uncertainty,
)
from tinwright.seaming.limits import Limit, SeamLimits
from tinwright.seaming.questions import find_questions
from tinwright.seaming.wording import DIMENSIONS, LABELS, span_text, value_text

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from tinwright.seaming.limits import SeenDefect
    from tinwright.seaming.readings import SeamReadings

__all__ = ["DimensionVerdict", "SeamVerdict", "find_amounts", "find_directions", "judge"]

NO_LIMIT, NOT_MEASURED = "no-limit", "not-measured"
TOLD_AS: Mapping[str, str] = MappingProxyType({"percent-overlap": "overlap"})
"""A share that is short is told as the length it is a share of."""
_WORSE = (ACCEPT, MEASURE_AGAIN, REJECT)
_EYE_NOTE = "Measuring is half of it: the seam must also look and feel right all the way round."
_ASKED = "A question about these readings is open. Answer it before you accept this can."
_UNIT = "The readings fit another unit than the one chosen. Nothing is judged until that is settled."
_NO_LIMITS = (
    "No seam specification was chosen, so these are values without a verdict. "
    "Ask your can supplier for the sheet for this can."
)


@dataclass(frozen=True)
class DimensionVerdict:
    """One dimension, judged."""

    dimension: str
    """What it is: a dimension or a computed value, as in `wording.LABELS`."""
    least: float | None
    """Least value, inches or percent; None when there is none."""
    greatest: float | None
    """Greatest value."""
    low: float | None
    """Least value allowed."""
    aim: float | None
    """Value to aim for."""
    high: float | None
    """Greatest value allowed."""
    uncertainty: float
    """Standard uncertainty of the value that decided, in the same unit; for computed values the combined one."""
    outcome: str
    """`accept`, `measure-again`, `reject`, `no-limit` or `not-measured`."""
    probability: float | None
    """Probability that the worst value conforms; None without limits. For the technician, not for the page."""
    out_by: float
    """How far the worst value lies outside its limits, in the same unit; 0 when inside."""
    formula: str
    """Name of the formula it was computed with; empty when it was read."""
    reason: str
    """Why, in plain words."""
    inputs: tuple[tuple[str, float], ...] = ()
    """What was put into the formula for the least value, by symbol; empty when it was read."""
    way: str = ""
    """`smaller`, `larger` or, for both, `varies`: which way it is out beyond doubt; empty when it is not."""
    unit: str = "in"
    """What its lengths are written in, `in` or `mm`."""


@dataclass(frozen=True)
class SeamVerdict:
    """The whole seam, judged."""

    outcome: str
    """`accept`, `measure-again`, `reject` or `no-limit`: the worst of its parts."""
    parts: tuple[DimensionVerdict, ...]
    """Each dimension and computed value, in the order shown."""
    reasons: tuple[str, ...]
    """What decided, in plain words."""


def judge(
    seam: SeamReadings,
    limits: SeamLimits | None,
    uncertainties: Mapping[str, float],
    defects: Sequence[SeenDefect] = (),
    variant: str = "A",
) -> SeamVerdict:
    """Judge a seam from its readings, the chosen limits and what was seen on it.

    Args:
        seam: the readings; the least and the greatest of each dimension are both judged.
        limits: the specification; None gives values without verdict.
        uncertainties: standard uncertainty of the instrument by dimension, inches (percent for tightness); also
            `end-plate` and `body-plate`. Left out counts as none stated. The rounding of each reading is added.
        defects: what was seen or felt; one to reject overrides any measurement.
        variant: formula for percent overlap where `limits` is None.

    Raises:
        SeamingError: when an uncertainty is negative, or the variant is unknown.

    >>> from tinwright.seaming.readings import Reading, SeamReadings
    >>> hooks = tuple(Reading("body-hook", point, 0.078) for point in "123")
    >>> limits = SeamLimits((Limit("body-hook", 0.072, 0.078, 0.084),))
    >>> judge(SeamReadings("micrometer", hooks, 0.010, 0.010), limits, {"body-hook": 0.0005}).outcome
    'accept'
    """
    if any(value < 0 for value in uncertainties.values()):
        raise SeamingError("expected standard uncertainties of zero or more")
    given = SeamLimits(overlap_variant=variant) if limits is None else limits
    by_dimension = {limit.dimension: limit for limit in given.limits}
    if given.tightness_low is not None:
        by_dimension["tightness"] = Limit("tightness", given.tightness_low)
    parts: list[DimensionVerdict] = []
    for dimension in DIMENSIONS:
        if dimension == "overlap":
            continue
        part = _measured(seam, dimension, by_dimension.get(dimension), uncertainties.get(dimension, 0.0))
        if part is not None:
            parts.append(part)
    for computed in compute(seam, given.overlap_variant, uncertainties):
        limit = by_dimension.get("overlap") if computed.quantity == "overlap" else None
        if computed.quantity == "percent-overlap" and given.percent_overlap_low is not None:
            limit = Limit("percent-overlap", given.percent_overlap_low)
        elif computed.quantity == "body-hook-butting" and given.butting_low is not None:
            limit = Limit("body-hook-butting", given.butting_low)
        part = _computed(computed, limit, seam.unit)
        if part is not None:
            parts.append(part)
    asked = {question.kind for question in find_questions(seam, given, uncertainties)}
    if "unit" in asked:
        # Numbers in the wrong unit judge nothing; what was seen still does.
        outcome = REJECT if any(_is_unusable(defect) for defect in defects) else MEASURE_AGAIN
        return SeamVerdict(outcome, (), (*_told_by(defects), _UNIT))
    return _whole(tuple(parts), limits, defects, uncertainties, asked=bool(asked))


def find_directions(verdict: SeamVerdict) -> dict[str, str]:
    """Say of each dimension that was read and has a limit whether it is `larger`, `smaller`, `normal` or `varies`.

    What is too near a limit to tell is left out. So are computed values, which follow from the others and would count
    the same fact twice, unless they alone are out: then each of them is told, and what they were computed from is not
    called normal, for together it is not.

    >>> find_directions(SeamVerdict("no-limit", (), ()))
    {}
    """
    read = [part for part in verdict.parts if not part.formula]
    directions = {part.dimension: part.way or "normal" for part in read if part.way or part.outcome == ACCEPT}
    if any(part.way for part in read):
        return directions
    for part in verdict.parts:
        if part.formula and part.way:
            directions[TOLD_AS.get(part.dimension, part.dimension)] = part.way
            for symbol, _ in part.inputs:
                directions.pop(DIMENSION_OF[symbol], None)
    return directions


def find_amounts(verdict: SeamVerdict) -> dict[str, float]:
    """Say how far each value that is out beyond doubt lies outside its limits, inches or percent.

    >>> find_amounts(SeamVerdict("no-limit", (), ()))
    {}
    """
    return {part.dimension: part.out_by for part in verdict.parts if part.way}


def _measured(seam: SeamReadings, dimension: str, limit: Limit | None, stated: float) -> DimensionVerdict | None:
    found = seam.extremes(dimension)
    if found is None:
        return None if limit is None or _is_open(limit) else _not_measured(dimension, limit, seam.unit)
    values = [
        (reading.value, reading_uncertainty(stated, reading.step))
        for reading in seam.readings
        if reading.dimension == dimension
    ]
    part = _judged(dimension, values, limit, "", seam.unit)
    needed = seam.points_needed(dimension)
    if part.outcome != ACCEPT or found.points >= needed:
        return part
    reason = f"{LABELS[dimension]} was read at {found.points} of {needed} points: read the others before you accept."
    return replace(part, outcome=MEASURE_AGAIN, reason=reason)


def _computed(computed: Computed, limit: Limit | None, unit: str) -> DimensionVerdict | None:
    name = computed.quantity
    least, greatest = computed.least, computed.greatest
    if least is None or greatest is None:
        return None if limit is None or _is_open(limit) else _not_measured(name, limit, unit)
    errors = (computed.uncertainty, computed.uncertainty_most)
    values = [(value, error) for error in errors for value in (least, greatest)]
    part = _judged(name, values, limit, computed.formula, unit)
    part = replace(part, inputs=computed.inputs)
    if name == "overlap" and part.outcome != REJECT and least < 0:
        # No limit is needed for this one: hooks that do not meet are a false seam by definition.
        outcome = compare(least, 0.0, None, computed.uncertainty)
        told = value_text(name, least, unit)
        if outcome == MEASURE_AGAIN:
            return replace(part, outcome=outcome, reason=f"Overlap {told}: the hooks may not meet. Measure again.")
        reason = f"Overlap {told}: the hooks do not meet. That is a false seam."
        return replace(part, outcome=outcome, reason=reason, way="smaller")
    if limit is not None and part.outcome == ACCEPT and not computed.enough_points:
        reason = f"{LABELS[name]} comes from too few points: read the others before you accept."
        return replace(part, outcome=MEASURE_AGAIN, reason=reason)
    return part


def _is_open(limit: Limit) -> bool:
    return limit.low is None and limit.high is None


def _not_measured(name: str, limit: Limit, unit: str) -> DimensionVerdict:
    reason = f"{LABELS[name]} has a limit but was not measured."
    return DimensionVerdict(
        name, None, None, limit.low, limit.aim, limit.high, 0.0, NOT_MEASURED, None, 0.0, "", reason, unit=unit
    )


def _judged(
    name: str, values: Sequence[tuple[float, float]], limit: Limit | None, formula: str, unit: str
) -> DimensionVerdict:
    """Judge values, each with its own standard uncertainty: the worst of them decides."""
    low, aim, high = (None, None, None) if limit is None else (limit.low, limit.aim, limit.high)
    least, greatest = min(value for value, _ in values), max(value for value, _ in values)
    if low is None and high is None:
        reason = f"{LABELS[name]} {span_text(name, least, greatest, unit)}: no limit given."
        error = max(error for _, error in values)
        return DimensionVerdict(
            name, least, greatest, low, aim, high, error, NO_LIMIT, None, 0.0, formula, reason, unit=unit
        )
    outcomes = [compare(value, low, high, error) for value, error in values]
    outcome = max(outcomes, key=_WORSE.index)
    probability = min(conformance_probability(value, low, high, error) for value, error in values)
    error = max(error for (_, error), each in zip(values, outcomes, strict=True) if each == outcome)
    short = low - least if low is not None and least < low else 0.0
    over = greatest - high if high is not None and greatest > high else 0.0
    small = [value for value, error in values if compare(value, low, None, error) == outcome]
    large = [value for value, error in values if compare(value, None, high, error) == outcome]
    way = "varies" if small and large else "smaller" if small else "larger"
    if outcome == ACCEPT:
        how = " by more than the error of the readings" if error > 0 else ""
        said = f"{span_text(name, least, greatest, unit)}: inside its limits{how}"
    else:
        sides = [(min(small, default=None), low, "below the least"), (max(large, default=None), high, "above the most")]
        said = " and ".join(
            _side(name, value, limit, words, outcome, unit)
            for value, limit, words in sides
            if value is not None and limit is not None
        )
    return DimensionVerdict(
        name,
        least,
        greatest,
        low,
        aim,
        high,
        error,
        outcome,
        probability,
        max(short, over),
        formula,
        f"{LABELS[name]} {said}.",
        way=way if outcome == REJECT else "",
        unit=unit,
    )


def _side(name: str, value: float, limit: float, words: str, outcome: str, unit: str) -> str:
    told, bound = value_text(name, value, unit), value_text(name, limit, unit)
    if outcome == REJECT:
        return f"{told} is {words} allowed, {bound}"
    return f"{told} is too near the limit {bound} to tell"


def _is_unusable(defect: SeenDefect) -> bool:
    return defect.disposition in {"reject", "discard-part"}


def _is_held(defect: SeenDefect) -> bool:
    return defect.disposition == "hold"


def _told_by(defects: Sequence[SeenDefect]) -> list[str]:
    """Say what each defect seen means for the can, the worst first."""
    unusable = [f"{each.title}: do not use this can, whatever it measures." for each in defects if _is_unusable(each)]
    return [
        *unusable,
        *(f"{each.title}: hold this can until it has been judged." for each in defects if _is_held(each)),
    ]


def _whole(
    parts: tuple[DimensionVerdict, ...],
    limits: SeamLimits | None,
    defects: Sequence[SeenDefect],
    uncertainties: Mapping[str, float],
    *,
    asked: bool,
) -> SeamVerdict:
    reasons = _told_by(defects)
    outcomes = {part.outcome for part in parts}
    for outcome in (REJECT, MEASURE_AGAIN, NOT_MEASURED):
        reasons += [part.reason for part in parts if part.outcome == outcome]
    if any(_is_unusable(defect) for defect in defects) or REJECT in outcomes:
        overall = REJECT
    elif any(_is_held(defect) for defect in defects) or MEASURE_AGAIN in outcomes or NOT_MEASURED in outcomes:
        overall = MEASURE_AGAIN
    elif ACCEPT in outcomes and asked:
        overall = MEASURE_AGAIN
        reasons.append(_ASKED)
    elif ACCEPT in outcomes:
        overall = ACCEPT
        reasons.append("Every dimension with a limit is inside it.")
    else:
        overall = NO_LIMIT
    if limits is None:
        reasons.append(_NO_LIMITS)
    elif overall == NO_LIMIT:
        reasons.append("Nothing that was measured has a limit in this specification.")
    else:
        unstated = [LABELS[part.dimension] for part in parts if _lacks_error(part, uncertainties)]
        if unstated:
            names = ", ".join(unstated)
            reasons.append(f"No error of the instrument is stated for: {names}. Near a limit, be careful.")
    if overall in {ACCEPT, NO_LIMIT}:
        reasons.append(_EYE_NOTE)
    return SeamVerdict(overall, parts, tuple(reasons))


def _lacks_error(part: DimensionVerdict, uncertainties: Mapping[str, float]) -> bool:
    judged = part.outcome in {ACCEPT, MEASURE_AGAIN, REJECT}
    return judged and not part.formula and part.dimension != "tightness" and part.dimension not in uncertainties
