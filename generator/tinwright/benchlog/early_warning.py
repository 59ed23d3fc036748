"""A gentle early warning: defects add up faster than they should.

The cumulative sum of 7 CFR 42.132 and 42.133, with its own parameters. There it decides on lots of a plant, from
subgroups of many containers. Here a subgroup is one check of one can, so it decides nothing: it accepts no can, it
releases none and it holds none. It only says early that small things are piling up, cosmetic ones among them.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from types import MappingProxyType
from typing import TYPE_CHECKING

from tinwright.benchlog.checks import CHECKS, outcome_of
from tinwright.benchlog.writing import in_order

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from tinwright.benchlog.events import Event

__all__ = ["PLANS", "WHAT_IT_IS", "Plan", "Step", "defects_per_check", "walk"]

WHAT_IT_IS = (
    "An early warning, no more: it adds up the defects found at each check and takes off what is tolerated "
    "(7 CFR 42.132 and 42.133, there for many cans at a time). No warning does not mean that the cans are good."
)
"""What to print beside it."""


@dataclass(frozen=True)
class Plan:
    """Parameters of 7 CFR 42.133 for one acceptable quality level and one stage of inspection."""

    tolerance: Fraction
    """T: defects taken off at each check."""
    limit: Fraction
    """L: the sum above which it warns."""
    start: Fraction
    """S: the sum it starts with."""


def _plan(tolerance: str, limit: str, start: str) -> Plan:
    return Plan(Fraction(tolerance), Fraction(limit), Fraction(start))


PLANS: Mapping[tuple[str, str], Plan] = MappingProxyType(
    {
        ("0.25", "normal"): _plan(".05", ".95", ".35"),
        ("0.25", "tightened"): _plan(".1", ".9", ".3"),
        ("0.25", "reduced"): _plan("0", "0", "0"),
        ("1.5", "normal"): _plan(".5", "2", "1"),
        ("1.5", "tightened"): _plan(".8", "1.6", ".4"),
        ("1.5", "reduced"): _plan(".5", ".5", "0"),
        ("6.5", "normal"): _plan("2", "3", "1"),
        ("6.5", "tightened"): _plan("2.5", "3", "1"),
        ("6.5", "reduced"): _plan("1", "2", "1"),
    }
)
"""Acceptable quality level in percent and stage: T, L and S."""


@dataclass(frozen=True)
class Step:
    """One check on the way."""

    defects: int
    """Defects found at it."""
    total: Fraction
    """The sum it is judged by."""
    warns: bool
    """Whether the sum is above the limit."""


def walk(defects: Iterable[int], plan: Plan = PLANS["1.5", "normal"]) -> list[Step]:
    """Return the sum after each check: add the defects, take off T, judge, then set it back into 0 to L.

    Args:
        defects: Defects at each check, in order; 0 or more.
        plan: The parameters; those for major defects and normal inspection unless said otherwise.

    >>> [(float(step.total), step.warns) for step in walk([0, 2, 1])]
    [(0.5, False), (2.0, False), (2.5, True)]
    """
    total, steps = plan.start, []
    for found in defects:
        total += found - plan.tolerance
        steps.append(Step(found, total, total > plan.limit))
        total = min(max(total, Fraction(0)), plan.limit)
    return steps


def defects_per_check(events: Iterable[Event]) -> list[tuple[Event, int]]:
    """Return each check of a session and how many different defects were found at it, in order.

    What was found between two checks belongs to the earlier one; before the first check, to the first. A failed check
    that names no defect counts one. Cosmetic defects count: they are what warns early.
    """
    found: list[tuple[Event, set[str]]] = []
    waiting: set[str] = set()
    for event in in_order(event for event in events if not event.struck):
        if event.kind in CHECKS:
            found.append((event, waiting))
            waiting = set()
        if event.defect and event.kind in CHECKS | {"defect"}:
            (found[-1][1] if found else waiting).add(event.defect)
    return [(event, len(names) or int(outcome_of(event) == "failed")) for event, names in found]
