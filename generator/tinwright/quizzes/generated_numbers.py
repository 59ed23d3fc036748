"""Generated questions that ask for a number: the overlap from a set of readings, and the cans to hold.

Plain arithmetic, exact; what is asked and its figures are passed in. Wrong numbers are worked out from the slips people
make, and one that would count as right is left out.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import ROUND_HALF_EVEN, Decimal
from typing import TYPE_CHECKING

from tinwright.quizzes.questions import Question

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

__all__ = ["MicrometerSet", "Watch", "hold_question", "overlap_question", "worst_overlap"]

_HALF_THOUSANDTH = Decimal("0.0005")
"""A micrometer is read to a thousandth of an inch, so an answer within half of one is right."""


@dataclass(frozen=True)
class MicrometerSet:
    """The readings of one torn-down seam in inches, point by point."""

    cover_hook_in: tuple[Decimal, ...]
    """Cover hook at each point."""
    body_hook_in: tuple[Decimal, ...]
    """Body hook at each point."""
    seam_width_in: tuple[Decimal, ...]
    """Seam width at each point."""
    lid_plate_in: Decimal
    """Thickness of the lid plate."""


@dataclass(frozen=True)
class Watch:
    """Counts of one sealer between a good check and a failed one."""

    good: int
    """Number of the can at the last good check."""
    changed: int
    """Number of the can after which somebody touched the sealer."""
    failed: int
    """Number of the can at the check that failed."""


def worst_overlap(readings: MicrometerSet) -> Decimal:
    """Return the least overlap the readings allow, in inches: shortest hooks, lid plate, less the widest seam.

    Overlap = cover hook + body hook + end plate - seam width (21 CFR 113.60(a)(1)(iii)); the worst case is trade
    practice, as in `seaming.computed`.

    >>> thousandths = [tuple(Decimal(n).scaleb(-3) for n in row) for row in ((75, 76), (78, 77), (118, 119))]
    >>> worst_overlap(MicrometerSet(*thousandths, Decimal("0.010")))
    Decimal('0.043')
    """
    hooks = min(readings.cover_hook_in) + min(readings.body_hook_in)
    return hooks + readings.lid_plate_in - max(readings.seam_width_in)


def overlap_question(id_: str, readings: MicrometerSet, sheet: str, teaches: tuple[str, ...]) -> Question | None:
    """Ask for the overlap at its worst; None when the hooks of these readings do not meet.

    Args:
        id_: name of the item.
        readings: what the micrometer shows.
        sheet: whose lid plate it is, such as the title of a seam specification.
        teaches: records that teach it.
    """
    answer = worst_overlap(readings)
    if answer <= _HALF_THOUSANDTH:
        return None
    points = list(zip(readings.cover_hook_in, readings.body_hook_in, readings.seam_width_in, strict=True))
    plate = readings.lid_plate_in
    each = [cover + body + plate - width for cover, body, width in points]
    slips = [
        (
            min(readings.cover_hook_in) + min(readings.body_hook_in) + plate + max(readings.seam_width_in),
            "You added the seam width. It has to be taken off: the hooks share that space.",
        ),
        (answer - plate, "You left out the lid plate."),
        (
            (sum(each, Decimal(0)) / len(each)).quantize(Decimal("0.0001"), ROUND_HALF_EVEN),
            "You took the average. A can leaks at its worst place, and an average hides it.",
        ),
        (
            max(readings.cover_hook_in) + max(readings.body_hook_in) + plate - min(readings.seam_width_in),
            "You took the longest hooks and the narrowest seam. That is the overlap at its best.",
        ),
        (min(each), "You took point by point. On the safe side each reading stands at its own worst."),
    ]
    low, high = answer - _HALF_THOUSANDTH, answer + _HALF_THOUSANDTH
    return Question(
        id_,
        "measuring",
        "number",
        "You tear down a test can and read it at three points. "
        f"Cover hook: {_listed(readings.cover_hook_in)} in. Body hook: {_listed(readings.body_hook_in)} in. "
        f"Seam width: {_listed(readings.seam_width_in)} in. The lid plate is {plate} in ({sheet}). "
        "How long is the overlap at its worst? Put each reading at its own worst.",
        unit="in",
        answer=answer,
        low=low,
        high=high,
        wrong_numbers=_wrong(slips, low, high),
        difficulty=0.55,
        why=(
            f"The shortest hooks and the widest seam: {min(readings.cover_hook_in)} + {min(readings.body_hook_in)} + "
            f"{plate} - {max(readings.seam_width_in)} = {answer} in."
        ),
        teaches=teaches,
    )


def hold_question(id_: str, watch: Watch, sealer: str, teaches: tuple[str, ...]) -> Question:
    """Ask how many cans are held after a failed check; every can after the last good one, the failed one counted.

    Args:
        id_: name of the item.
        watch: the counts, rising.
        sealer: name of the sealer.
        teaches: records that teach it.
    """
    answer = Decimal(watch.failed - watch.good)
    slips = [
        (Decimal(1), "You held just the can that failed. Each can since the last good one may be as bad."),
        (
            Decimal(watch.failed - watch.changed),
            "You counted from the change. The fault may be older: count from the last good check.",
        ),
        (answer + 1, "You counted the good can too. It was checked and passed."),
        (answer - 1, "You left out the can that failed. It is held with the others."),
    ]
    return Question(
        id_,
        "running",
        "number",
        f"On the {sealer}, can {watch.good} is the last that passed a check. After can {watch.changed} somebody sets "
        f"a roller. Can {watch.failed} fails its check. No can was torn down in between. How many cans do you hold, "
        "the failed one with them?",
        unit="cans",
        answer=answer,
        low=answer,
        high=answer,
        wrong_numbers=_wrong(slips, answer, answer),
        critical=True,
        difficulty=0.7,
        why=(
            f"Hold each can sealed since the last good check: {watch.failed} less {watch.good} is {answer}. "
            "Nobody knows at which can the fault began."
        ),
        teaches=teaches,
    )


def _listed(readings: Sequence[Decimal]) -> str:
    return ", ".join(map(str, readings))


def _wrong(slips: Iterable[tuple[Decimal, str]], low: Decimal, high: Decimal) -> tuple[tuple[Decimal, str], ...]:
    """Keep the first slip of each number, and none that counts as right."""
    kept: dict[Decimal, str] = {}
    for number, why in slips:
        if not low <= number <= high:
            kept.setdefault(number, why)
    return tuple(kept.items())
