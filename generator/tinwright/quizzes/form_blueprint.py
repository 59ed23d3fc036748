"""What a form is made of: the items to choose from, the blueprint, and the forms chosen, checked against both."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from types import MappingProxyType
from typing import TYPE_CHECKING

from tinwright.errors import QuizError

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable, Mapping, Sequence

__all__ = ["CandidateItem", "CriticalCell", "Form", "FormBlueprint", "check_forms"]

_ROUNDING = 1e-6
"""What the solver's arithmetic may add to a tolerance."""


@dataclass(frozen=True)
class CandidateItem:
    """An item that a form may take."""

    id: str
    """Its name."""
    topic: str
    """Topic of the blueprint it belongs to."""
    difficulty: float
    """Share expected to have it right, 0 to 1."""
    critical: bool = False
    """Whether nobody may pass who has it wrong."""
    enemies: frozenset[str] = frozenset()
    """Items that must not be on the same form; saying it of one of two is enough."""
    anchor: bool = False
    """Whether it may be on several forms, where the blueprint allows that."""

    def __post_init__(self) -> None:
        # NaN compares false, so it is refused too.
        if not 0 <= self.difficulty <= 1:
            raise QuizError(f"item {self.id}: expected a difficulty from 0 to 1, got {self.difficulty:g}")
        if self.id in self.enemies:
            raise QuizError(f"item {self.id}: an item cannot be its own enemy")


@dataclass(frozen=True)
class CriticalCell:
    """A number of critical items out of some topics."""

    title: str
    """Its name, for messages."""
    topics: frozenset[str]
    """Topics whose critical items count."""
    items: int
    """How many of them a form has, no more and no fewer."""


@dataclass(frozen=True)
class FormBlueprint:
    """What every form must hold."""

    topics: Mapping[str, int]
    """How many items of each topic, one or more."""
    forms: int = 1
    """How many forms."""
    critical: int = 0
    """Fewest critical items on each form."""
    tolerance: float = 0.05
    """How far the mean difficulty of a form may lie from the target."""
    target: float | None = None
    """Mean difficulty to aim at, 0 to 1; None takes that of the items to choose from, topic by topic."""
    anchors: bool = False
    """Whether an anchor may be on several forms."""
    critical_cells: tuple[CriticalCell, ...] = ()
    """Exact numbers of critical items on each form, out of some topics each; no topic in two cells."""
    second_tries: int = 0
    """Further sheets of nothing but the critical items of every cell; form n goes with the one of n modulo this."""

    def __post_init__(self) -> None:
        for topic, count in self.topics.items():
            if count < 1:
                raise QuizError(f"topic {topic}: expected one item or more, got {count}")
        object.__setattr__(self, "topics", MappingProxyType(dict(self.topics)))
        if not self.topics:
            raise QuizError("expected a blueprint with at least one topic")
        if self.forms < 1:
            raise QuizError(f"expected one form or more, got {self.forms}")
        if not 0 <= self.critical <= self.items:
            raise QuizError(f"expected from 0 to {self.items} critical items on a form, got {self.critical}")
        if self.second_tries and not self.critical_cells:
            raise QuizError("expected critical cells for a second try, got none")
        if not self.tolerance >= 0:
            raise QuizError(f"expected a tolerance of zero or more, got {self.tolerance:g}")
        if self.target is not None and not 0 <= self.target <= 1:
            raise QuizError(f"expected a target difficulty from 0 to 1, got {self.target:g}")

    @property
    def items(self) -> int:
        """How many items a form has."""
        return sum(self.topics.values())

    @property
    def sheets(self) -> int:
        """How many sheets there are: the forms, then the second tries."""
        return self.forms + self.second_tries

    def aim(self, items: Iterable[CandidateItem]) -> float:
        """Return the mean difficulty to aim at: the one given, or that of a form drawn blindly from the items.

        >>> FormBlueprint({"cans": 1}).aim([CandidateItem("a", "cans", 0.6), CandidateItem("b", "cans", 0.8)])
        0.7
        """
        if self.target is not None:
            return self.target
        pools: dict[str, list[float]] = {topic: [] for topic in self.topics}
        for item in items:
            if item.topic in pools:
                pools[item.topic].append(item.difficulty)
        means = {topic: sum(pool) / len(pool) for topic, pool in pools.items() if pool}
        return sum(self.topics[topic] * mean for topic, mean in means.items()) / self.items


@dataclass(frozen=True)
class Form:
    """One form."""

    number: int
    """Its number, from 1."""
    ids: tuple[str, ...]
    """Its items, in the order they are asked."""
    difficulty: float
    """Their mean difficulty."""
    critical: int
    """How many of them are critical."""


def check_forms(
    forms: Sequence[Form], items: Iterable[CandidateItem], blueprint: FormBlueprint, used: Collection[str] = ()
) -> None:
    """Check that forms are what the blueprint asks for; also for forms that were kept or changed by hand.

    Args:
        forms: the forms.
        items: the items they were chosen from.
        blueprint: what every form must hold.
        used: items of earlier forms, which must not come again unless they may as anchors.

    Raises:
        QuizError: at the first thing that does not fit, naming the form.
    """
    by_id = {item.id: item for item in items}
    # The same choice that the forms were made from, so that the same difficulty is aimed at.
    aim = blueprint.aim(item for item in by_id.values() if item.id not in used or _may_repeat(item, blueprint))
    if len(forms) != blueprint.sheets:
        raise QuizError(f"expected {blueprint.sheets} form(s), got {len(forms)}")
    placed: dict[str, int] = {}
    for form in forms:
        if form.number > blueprint.forms:
            _check_second_try(form, by_id, blueprint, placed, used)
            continue
        where = f"form {form.number}"
        unknown = sorted(set(form.ids) - by_id.keys())
        if unknown:
            raise QuizError(f"{where}: no such item: {', '.join(unknown)}")
        chosen = [by_id[name] for name in form.ids]
        counts = Counter(item.topic for item in chosen)
        for topic in sorted(blueprint.topics.keys() | counts.keys()):
            if counts[topic] != blueprint.topics.get(topic, 0):
                wanted = blueprint.topics.get(topic, 0)
                raise QuizError(f"{where}: topic {topic}: expected {wanted} item(s), got {counts[topic]}")
        for item in chosen:
            _check_place(item, form, blueprint, placed, used)
            placed[item.id] = form.number
            for enemy in sorted(item.enemies & set(form.ids)):
                raise QuizError(f"{where}: {item.id} and {enemy} must not be on the same form")
        critical = sum(item.critical for item in chosen)
        if critical < blueprint.critical:
            raise QuizError(f"{where}: expected {blueprint.critical} critical item(s) or more, got {critical}")
        _check_cells(form, chosen, blueprint)
        difficulty = sum(item.difficulty for item in chosen) / len(chosen)
        if abs(difficulty - aim) > blueprint.tolerance + _ROUNDING:
            allowed = f"{aim:.3f} give or take {blueprint.tolerance:g}"
            raise QuizError(f"{where}: expected a mean difficulty of {allowed}, got {difficulty:.3f}")
        if form.critical != critical or abs(form.difficulty - difficulty) > _ROUNDING:
            raise QuizError(f"{where}: its mean difficulty or its critical items are not those of its items")


def _check_cells(form: Form, chosen: Sequence[CandidateItem], blueprint: FormBlueprint) -> None:
    for cell in blueprint.critical_cells:
        got = sum(item.critical and item.topic in cell.topics for item in chosen)
        if got != cell.items:
            raise QuizError(f"form {form.number}: {cell.title}: expected {cell.items} critical item(s), got {got}")


def _check_second_try(
    form: Form,
    by_id: Mapping[str, CandidateItem],
    blueprint: FormBlueprint,
    placed: dict[str, int],
    used: Collection[str],
) -> None:
    chosen = [by_id[name] for name in form.ids]
    for item in chosen:
        _check_place(item, form, blueprint, placed, used)
        placed[item.id] = form.number
    _check_cells(form, chosen, blueprint)
    if len(chosen) != sum(cell.items for cell in blueprint.critical_cells):
        raise QuizError(f"form {form.number}: expected nothing but the critical items of the second try")


def _may_repeat(item: CandidateItem, blueprint: FormBlueprint) -> bool:
    return item.anchor and blueprint.anchors


def _check_place(
    item: CandidateItem, form: Form, blueprint: FormBlueprint, placed: Mapping[str, int], used: Collection[str]
) -> None:
    earlier = placed.get(item.id)
    if earlier == form.number or form.ids.count(item.id) > 1:
        raise QuizError(f"form {form.number}: {item.id} is on it twice")
    if _may_repeat(item, blueprint):
        return
    if earlier is not None:
        raise QuizError(f"form {form.number}: {item.id} is on form {earlier} already, and is no anchor")
    if item.id in used:
        raise QuizError(f"form {form.number}: {item.id} was used before")
