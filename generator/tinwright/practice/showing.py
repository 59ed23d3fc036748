"""What a finished seam shows to eye and finger, by the ids of the defect records."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from tinwright.practice.setting import ANGLES, STEP_IN, Setting

if TYPE_CHECKING:
    from collections.abc import Sequence

__all__ = ["RULES", "Rule", "Shown", "find_shown"]


class Rule(NamedTuple):
    """When a defect shows at an angle."""

    defect: str
    """Id of its record."""
    part: str
    """Field of `Setting` it comes from."""
    least: float
    """Least size of that, in steps or percent, from which it shows; below zero: at this size and beyond it."""
    extent: str = "any"
    """`any` angle that is that far off, or `all` of them."""


RULES: tuple[Rule, ...] = (
    Rule("no-second-operation", "second", 7.5),
    Rule("no-pressure-ridge", "second", 2.5),
    Rule("loose-seam", "second", 2.5),
    Rule("loose-seam", "slack", 2.5),
    Rule("cutover", "second", -4.5),
    Rule("sharp-seam", "second", -2.5),
    Rule("sharp-seam", "first", -3.5),
    Rule("droop", "first", 3.5),
    Rule("droop", "bump", 1.5),
    Rule("spinner", "press", -4.5, "all"),
    Rule("pucker", "wrinkle", 15.0),
    Rule("broken-chuck-mark", "broken", 7.0),
)
"""From which size on each defect shows; the sizes are the teaching model's."""


class Shown(NamedTuple):
    """A defect that shows."""

    defect: str
    """Id of its record."""
    at: int
    """Where it begins, in degrees from the side seam; 0 all around."""
    degrees: int
    """How far it goes around: 360 all around."""


def find_shown(settings: Sequence[Setting]) -> tuple[Shown, ...]:
    """Return what shows on a seam made with these settings, each defect once.

    >>> find_shown([Setting(second=4 * STEP_IN)] * ANGLES)[0]
    Shown(defect='no-pressure-ridge', at=0, degrees=360)
    """
    found: dict[str, Shown] = {}
    for rule in RULES:
        at = _reached(rule, settings)
        if rule.defect not in found and (all(at) if rule.extent == "all" else any(at)):
            found[rule.defect] = _spanned(rule.defect, at)
    return tuple(found.values())


def _reached(rule: Rule, settings: Sequence[Setting]) -> list[bool]:
    """Say of each angle whether the rule's size is reached there."""
    place = Setting._fields.index(rule.part)
    least = rule.least if rule.part in {"wrinkle", "broken"} else rule.least * STEP_IN
    if least > 0.0:
        return [setting[place] >= least for setting in settings]
    return [setting[place] <= least for setting in settings]


def _spanned(defect: str, at: Sequence[bool]) -> Shown:
    """Return the first run of angles at which a defect shows."""
    if all(at):
        return Shown(defect, 0, 360)
    begin = next(angle for angle in range(ANGLES) if at[angle] and not at[angle - 1])
    length = next(length for length in range(ANGLES) if not at[(begin + length) % ANGLES])
    return Shown(defect, begin * 360 // ANGLES, length * 360 // ANGLES)
