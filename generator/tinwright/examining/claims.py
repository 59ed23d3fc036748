"""What a whole pass rule claims: how likely somebody passes who is ready, just qualified or not ready.

Score cut, critical areas, second try and retakes together, by `quizzes.pass_rule`. Each is computed twice: with hard
items that stay hard, as the judges rate them, and with all items alike; the worse of the two is what is claimed.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, floor
from typing import TYPE_CHECKING

from tinwright.errors import QuizError
from tinwright.examining.candidates import candidates_of, form_blueprint_of
from tinwright.quizzes.pass_rule import AreaRule, PassChances, PassRule, all_tries, chances_at, pass_chances

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from tinwright.examining.form import ExamKey
    from tinwright.knowledge.bank import Bank
    from tinwright.knowledge.models.examination import Blueprint, Claims

__all__ = ["Level", "RuleClaims", "claims_lines", "claims_of_blueprint", "claims_of_key", "curve_of", "unmet"]

_CURVE = tuple(step / 100 for step in range(40, 100, 2))
"""Shares of the points at which the curve is drawn."""


@dataclass(frozen=True)
class Level:
    """How likely somebody of one ability passes."""

    share: float
    """Share of the points they earn on average."""
    at_once: float
    """In one sitting, without the second try."""
    same_day: float
    """In one sitting with its second try."""
    two_sittings: float
    """Within two sittings, or the one that is allowed."""
    all_sittings: float
    """Within all sittings that the programme allows, learning nothing between them."""


@dataclass(frozen=True)
class RuleClaims:
    """What the rule does at the three abilities that matter."""

    cut: int
    """Fewest points that pass."""
    out_of: int
    """Points there are."""
    sittings: int
    """How many sittings are allowed."""
    not_ready: Level
    """Somebody who must not pass: the highest chances."""
    just_qualified: Level
    """Somebody just qualified, as the judges see them: the lowest chances."""
    ready: Level
    """Somebody who must pass: the lowest chances."""


def claims_of_key(key: ExamKey) -> RuleClaims:
    """Compute the claims of a form from its key."""
    place = {item.id: number for number, item in enumerate(key.items)}
    areas = tuple(AreaRule(tuple(place[id_] for id_ in area.items), area.right) for area in key.areas)
    return _claims(
        [item.difficulty for item in key.items],
        PassRule(len(key.items), key.cut, areas),
        levels=(key.not_ready, key.ready),
        sittings=key.sittings,
    )


def claims_of_blueprint(
    blueprint: Blueprint, bank: Bank, ratings: Mapping[str, Mapping[str, float]], *, sittings: int
) -> RuleClaims:
    """Compute the claims that every form of a blueprint keeps, whichever items it draws.

    Raises:
        QuizError: when the bank has no items for a topic or for a critical area.
    """
    pattern, rule_areas = _pattern(blueprint, bank, ratings)
    plan = form_blueprint_of(blueprint, candidates_of(bank, ratings))
    aim, reach = (plan.target or 0.0) * plan.items, plan.tolerance * plan.items
    sums = [aim - reach, aim + reach]
    # Just above a whole number the cut is hardest to reach for what the judges expect.
    sums += [whole + 1e-6 for whole in range(ceil(aim - reach), floor(aim + reach) + 1)]
    found = []
    for total in sums:
        ratings_then = chances_at(pattern, min(max(total / len(pattern), 0.02), 0.98))
        rule = PassRule(len(pattern), min(ceil(round(total, 9)), len(pattern)), rule_areas)
        levels = (blueprint.claims.not_ready, blueprint.claims.ready)
        found.append(_claims(ratings_then, rule, levels=levels, sittings=sittings))
    return RuleClaims(
        cut=max(one.cut for one in found),
        out_of=len(pattern),
        sittings=sittings,
        not_ready=max((one.not_ready for one in found), key=lambda level: level.all_sittings),
        just_qualified=min((one.just_qualified for one in found), key=lambda level: level.two_sittings),
        ready=min((one.ready for one in found), key=lambda level: level.same_day),
    )


def unmet(found: RuleClaims, claims: Claims) -> list[str]:
    """Say which claims of a blueprint are not met; nothing when all are."""
    problems = []
    if found.just_qualified.share <= claims.not_ready:
        problems.append(
            f"the judges expect {found.just_qualified.share:.0%} of the points of somebody just qualified, and "
            f"not_ready says that whoever earns {claims.not_ready:.0%} must not pass: rate again, or change not_ready"
        )
    if found.not_ready.all_sittings > claims.false_pass:
        problems.append(
            f"false_pass: somebody who earns {claims.not_ready:.0%} of the points passes in "
            f"{found.not_ready.all_sittings:.1%} of cases within {found.sittings} sitting(s), claimed are at most "
            f"{claims.false_pass:.1%}"
        )
    if 1 - found.ready.same_day > claims.false_fail:
        problems.append(
            f"false_fail: somebody who earns {claims.ready:.0%} of the points fails in {1 - found.ready.same_day:.1%} "
            f"of cases, second try included, claimed are at most {claims.false_fail:.1%}"
        )
    if found.just_qualified.two_sittings < claims.just_qualified:
        problems.append(
            f"just_qualified: somebody just qualified passes in {found.just_qualified.two_sittings:.1%} of cases "
            f"within two sittings, claimed are at least {claims.just_qualified:.1%}"
        )
    return problems


def claims_lines(found: RuleClaims) -> list[str]:
    """Say in words how many of 100 people pass."""
    within = "2 sittings" if found.sittings > 1 else "the one sitting allowed"
    low, just, high = found.not_ready, found.just_qualified, found.ready
    once, day, two = (floor(chance * 100) for chance in (high.at_once, high.same_day, high.two_sittings))
    not_ready = (
        f"Of 100 who earn {low.share:.0%} of the points and are not ready, at most {_people(low.all_sittings)} pass in "
        f"all sittings allowed ({found.sittings})."
    )
    qualified = (
        f"Of 100 only just qualified ({just.share:.0%} of the points), at least {floor(just.same_day * 100)} pass in "
        f"one sitting with its second try, {floor(just.two_sittings * 100)} within {within}."
    )
    ready = (
        f"Of 100 who earn {high.share:.0%} of the points, at least {once} pass at once, {day} with the second try of "
        f"the same day, {two} within {within}."
    )
    return [not_ready, qualified, ready]


def curve_of(key: ExamKey) -> list[tuple[float, PassChances, float]]:
    """Return the curve of a form: share of the points, chances in one sitting, chance in all sittings allowed."""
    place = {item.id: number for number, item in enumerate(key.items)}
    areas = tuple(AreaRule(tuple(place[id_] for id_ in area.items), area.right) for area in key.areas)
    rule, rated = PassRule(len(key.items), key.cut, areas), [item.difficulty for item in key.items]
    rows = []
    for share in _CURVE:
        chances = pass_chances(chances_at(rated, share), rule)
        rows.append((share, chances, all_tries(chances.same_day, key.sittings)))
    return rows


def _people(chance: float) -> str:
    return f"{chance * 100:.1f}".removesuffix(".0")


def _claims(ratings: Sequence[float], rule: PassRule, *, levels: tuple[float, float], sittings: int) -> RuleClaims:
    low, high = levels
    just = sum(ratings) / len(ratings)

    def at(share: float) -> list[Level]:
        return [
            _level(share, chances, rule, sittings) for chances in (chances_at(ratings, share), [share] * rule.items)
        ]

    return RuleClaims(
        cut=rule.cut,
        out_of=rule.items,
        sittings=sittings,
        not_ready=max(at(low), key=lambda level: level.all_sittings),
        just_qualified=min(
            [_level(just, ratings, rule, sittings), _level(just, [just] * rule.items, rule, sittings)],
            key=lambda level: level.two_sittings,
        ),
        ready=min(at(high), key=lambda level: level.same_day),
    )


def _level(share: float, chances: Sequence[float], rule: PassRule, sittings: int) -> Level:
    found = pass_chances(chances, rule)
    return Level(
        share,
        found.at_once,
        found.same_day,
        all_tries(found.same_day, min(2, sittings)),
        all_tries(found.same_day, sittings),
    )


def _pattern(
    blueprint: Blueprint, bank: Bank, ratings: Mapping[str, Mapping[str, float]]
) -> tuple[list[float], tuple[AreaRule, ...]]:
    """Return the mean ratings of a form of the bank, critical items as their areas have them, and where these stand."""
    rated = candidates_of(bank, ratings)
    by_topic: dict[str, list[float]] = {row.topic: [] for row in blueprint.topics}
    for item in rated:
        if item.topic in by_topic:
            by_topic[item.topic].append(item.difficulty)
    if empty := sorted(topic for topic, own in by_topic.items() if not own):
        raise QuizError(f"the bank has no examination items on {', '.join(empty)}")
    pattern: list[float] = []
    for row in blueprint.topics:
        pattern += [sum(by_topic[row.topic]) / len(by_topic[row.topic])] * row.items
    aim = sum(pattern)
    areas = []
    start = 0
    for area in blueprint.critical_areas:
        own = [item.difficulty for item in rated if item.critical and item.topic in area.topics]
        if len(own) < area.items:
            raise QuizError(f"{area.title}: a form has {area.items} critical items, the bank {len(own)}")
        areas.append(AreaRule(tuple(range(start, start + area.items)), area.right))
        pattern[start : start + area.items] = [sum(own) / len(own)] * area.items
        start += area.items
    # Critical items may be harder or easier than the rest; the sum stays what a form comes to.
    rest = len(pattern) - start
    over = (sum(pattern) - aim) / rest if rest else 0.0
    return pattern[:start] + [min(max(value - over, 0.02), 0.98) for value in pattern[start:]], tuple(areas)
