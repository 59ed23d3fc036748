"""Parallel forms of an examination from a bank of items, by a blueprint and a seed.

    from tinwright.quizzes.form_blueprint import CandidateItem, FormBlueprint
    from tinwright.quizzes.forms import assemble_forms

    bank = [CandidateItem(f"can-{number}", "cans", 0.7) for number in range(12)]
    form_a, form_b = assemble_forms(bank, FormBlueprint({"cans": 5}, forms=2), seed=2027)

The same bank, blueprint and seed give the same forms with the same release of the solver. Another release may choose
others, so the ids chosen are kept with the examination.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

from tinwright.errors import QuizError
from tinwright.quizzes.form_blueprint import Form, check_forms
from tinwright.quizzes.form_programme import FormProgramme, enemy_pairs

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable

    from tinwright.quizzes.form_blueprint import CandidateItem, FormBlueprint

__all__ = ["assemble_forms"]


def assemble_forms(
    items: Iterable[CandidateItem],
    blueprint: FormBlueprint,
    *,
    seed: int,
    used: Collection[str] = (),
    seconds: float = 60.0,
) -> tuple[Form, ...]:
    """Choose the items of every form and put them in order.

    Args:
        items: the items to choose from, in any order.
        blueprint: what every form must hold.
        seed: zero or more; another seed makes other forms.
        used: ids of items that earlier forms have used; they are left out, unless they may repeat as anchors.
        seconds: when to give up looking.

    Returns:
        The forms, then the second tries, checked once more by `check_forms`.

    Raises:
        QuizError: when there are no such forms, naming the cell of the blueprint that is short.

    >>> from tinwright.quizzes.form_blueprint import CandidateItem, FormBlueprint
    >>> bank = [CandidateItem(name, "cans", 0.5) for name in "abcd"]
    >>> assemble_forms(bank, FormBlueprint({"cans": 3}, forms=2), seed=1)
    Traceback (most recent call last):
        ...
    tinwright.errors.QuizError: topic cans: 2 forms of 3 need 6 items, only 4 can be placed (4 there, 0 used before)
    """
    if seed < 0:
        raise QuizError(f"expected a seed of zero or more, got {seed}")
    # In the order of their ids, so that moving items about in a file changes nothing.
    bank = sorted(items, key=lambda item: item.id)
    twice = [name for name, count in Counter(item.id for item in bank).items() if count > 1]
    if twice:
        raise QuizError(f"expected each item once, got {', '.join(twice)} more than once")
    repeatable = frozenset(item.id for item in bank if item.anchor and blueprint.anchors)
    left_out = frozenset(used) - repeatable
    pool = [item for item in bank if item.topic in blueprint.topics and item.id not in left_out]
    programme = FormProgramme(pool, blueprint.forms, repeatable, blueprint.critical_cells, blueprint.second_tries)
    _check_cells(bank, programme, blueprint, left_out, seconds)
    aim = blueprint.aim(pool)
    band = ((aim - blueprint.tolerance) * blueprint.items, (aim + blueprint.tolerance) * blueprint.items)
    rng = np.random.default_rng(seed)
    costs = rng.random((len(pool), blueprint.sheets))
    chosen = programme.solve(
        blueprint.topics, costs=costs, critical=blueprint.critical, difficulty=band, seconds=seconds
    )
    if chosen is None:
        raise QuizError(_why_not(programme, blueprint, aim=aim, seconds=seconds))
    forms = []
    for number, places in enumerate(chosen, 1):
        own = [pool[place] for place in rng.permutation(places)]
        difficulty = sum(item.difficulty for item in own) / len(own)
        forms.append(Form(number, tuple(item.id for item in own), difficulty, sum(item.critical for item in own)))
    check_forms(forms, bank, blueprint, used)
    return tuple(forms)


def _check_cells(
    bank: list[CandidateItem],
    programme: FormProgramme,
    blueprint: FormBlueprint,
    left_out: frozenset[str],
    seconds: float,
) -> None:
    """Refuse a blueprint with a cell that cannot be filled, whatever the others hold."""
    foes = {programme.items[place].topic for pair in enemy_pairs(programme.items) for place in pair}
    cells = [
        (f"topic {topic}", blueprint.forms, count, {topic: count}, [item for item in bank if item.topic == topic])
        for topic, count in blueprint.topics.items()
    ]
    cells += [
        (
            f"critical items of {cell.title}",
            blueprint.sheets,
            cell.items,
            dict.fromkeys(sorted(cell.topics), cell.items),
            [item for item in bank if item.critical and item.topic in cell.topics],
        )
        for cell in blueprint.critical_cells
    ]
    if blueprint.critical:
        own = [item for item in bank if item.critical and item.topic in blueprint.topics]
        cells.append(("critical items", blueprint.forms, blueprint.critical, dict(blueprint.topics), own))
    for name, sheets, count, topics, items in cells:
        there = [item for item in items if item.id not in left_out]
        needed = sheets * count
        # Where every item has a place of its own and nobody an enemy, counting is enough.
        single = sum(item.id not in programme.repeatable for item in there)
        if len(topics) == 1 and single >= needed and not topics.keys() & foes:
            continue
        alone = FormProgramme(there, blueprint.forms, programme.repeatable, second_tries=sheets - blueprint.forms)
        placed = alone.most_placed(topics, count, seconds=seconds) if there else 0
        if placed < needed:
            used = len(items) - len(there)
            raise QuizError(
                f"{name}: {_sheets(blueprint, sheets)} of {count} need {_counted(needed, 'item')}, "
                f"only {placed} can be placed ({len(there)} there, {used} used before"
                f"{', enemies kept apart' if enemy_pairs(there) else ''})"
            )


def _why_not(
    programme: FormProgramme,
    blueprint: FormBlueprint,
    *,
    aim: float,
    seconds: float,
) -> str:
    """Find what stands in the way, now that every cell can be filled by itself."""
    plain = replace(programme, cells=(), second_tries=0)
    if plain.solve(blueprint.topics, seconds=seconds) is None:
        return "every topic can be filled by itself, but enemies in different topics leave no forms"
    if programme.solve(blueprint.topics, seconds=seconds) is None:
        return (
            "every topic can be filled, but not with the critical items that each critical area and its second try "
            "ask for: write more critical items, or ask for fewer items of the topics that have few others"
        )
    if programme.solve(blueprint.topics, critical=blueprint.critical, seconds=seconds) is None:
        return (
            f"every topic can be filled, but not with {_counted(blueprint.critical, 'critical item')} "
            "on each form and enemies kept apart"
        )
    alone = FormProgramme(programme.items, 1, programme.repeatable, programme.cells)
    difficulties = np.array([[item.difficulty] for item in programme.items])
    reach = []
    for sign in (1, -1):
        found = alone.solve(
            blueprint.topics, costs=sign * difficulties, critical=blueprint.critical, seconds=seconds, gap=0.0
        )
        places = [] if found is None else found[0]
        reach.append(sum(programme.items[place].difficulty for place in places) / blueprint.items)
    return (
        f"cannot make {_counted(blueprint.forms, 'form')} with a mean difficulty of {aim:.3f} give or take "
        f"{blueprint.tolerance:g}; one form alone can have from {reach[0]:.3f} to {reach[1]:.3f}"
    )


def _sheets(blueprint: FormBlueprint, sheets: int) -> str:
    forms = _counted(blueprint.forms, "form")
    return forms if sheets == blueprint.forms else f"{forms} and {blueprint.second_tries} for a second try"


def _counted(number: int, noun: str) -> str:
    return f"{number} {noun}" if number == 1 else f"{number} {noun}s"
