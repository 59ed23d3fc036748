from __future__ import annotations

import itertools
import re
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tinwright.errors import QuizError
from tinwright.quizzes.form_blueprint import CandidateItem, Form, FormBlueprint, check_forms
from tinwright.quizzes.forms import assemble_forms

TOPICS = {"cans": 5, "set-up": 4, "defects": 3}


def an_item(id_: str = "a", topic: str = "cans", difficulty: float = 0.7, **other: object) -> CandidateItem:
    enemies = frozenset(str(other.pop("enemies", "")).split())
    return CandidateItem(id_, topic, difficulty, enemies=enemies, **other)  # type: ignore[arg-type]


def a_bank(each: int = 20, seed: int = 1) -> list[CandidateItem]:
    rng = np.random.default_rng(seed)
    bank = [
        an_item(f"{topic}-{number}", topic, round(float(rng.uniform(0.4, 0.95)), 2), critical=bool(rng.random() < 0.3))
        for topic in TOPICS
        for number in range(each)
    ]
    return [
        replace(item, enemies=frozenset({bank[place - 7].id}) if place % 9 == 8 else frozenset())
        for place, item in enumerate(bank)
    ]


def test_every_form_is_what_the_blueprint_asks_for() -> None:
    bank, blueprint = a_bank(), FormBlueprint(TOPICS, forms=4, critical=2, tolerance=0.02)
    forms = assemble_forms(bank, blueprint, seed=1)
    by_id = {item.id: item for item in bank}
    aim = (
        sum(
            count * np.mean([item.difficulty for item in bank if item.topic == topic])
            for topic, count in TOPICS.items()
        )
        / 12
    )
    everything = [name for form in forms for name in form.ids]
    assert len(forms) == 4
    assert len(set(everything)) == len(everything) == 48
    for number, form in enumerate(forms, 1):
        chosen = [by_id[name] for name in form.ids]
        assert form.number == number
        assert {topic: sum(item.topic == topic for item in chosen) for topic in TOPICS} == TOPICS
        assert abs(np.mean([item.difficulty for item in chosen]) - aim) <= 0.02 + 1e-6
        assert sum(item.critical for item in chosen) == form.critical >= 2
        assert not any(item.enemies & set(form.ids) for item in chosen)


def test_the_seed_decides_and_the_order_of_the_bank_does_not() -> None:
    bank, blueprint = a_bank(), FormBlueprint(TOPICS, forms=2)
    forms = assemble_forms(bank, blueprint, seed=7)
    assert assemble_forms(bank[::-1], blueprint, seed=7) == forms
    others = assemble_forms(bank, blueprint, seed=8)
    assert {name for form in others for name in form.ids} != {name for form in forms for name in form.ids}


def test_the_items_come_in_a_mixed_order() -> None:
    form = assemble_forms(a_bank(), FormBlueprint(TOPICS), seed=3)[0]
    topics = [name.rsplit("-", 1)[0] for name in form.ids]
    assert topics != sorted(topics)
    assert list(form.ids) != sorted(form.ids)


def test_over_many_seeds_every_item_has_its_turn() -> None:
    bank = a_bank(each=8)
    seen = {
        name
        for seed in range(40)
        for name in assemble_forms(bank, FormBlueprint(TOPICS, tolerance=0.2), seed=seed)[0].ids
    }
    assert seen == {item.id for item in bank}


def test_used_items_do_not_come_again() -> None:
    bank, blueprint = a_bank(), FormBlueprint(TOPICS)
    first = assemble_forms(bank, blueprint, seed=1)[0]
    second = assemble_forms(bank, blueprint, seed=1, used=first.ids)[0]
    assert not set(first.ids) & set(second.ids)


def test_an_anchor_may_be_on_several_forms_only_where_the_blueprint_allows() -> None:
    bank = [an_item("a", anchor=True), *(an_item(name) for name in "bc")]
    blueprint = FormBlueprint({"cans": 2}, forms=2, anchors=True)
    forms = assemble_forms(bank, blueprint, seed=1, used=["a"])
    assert all("a" in form.ids for form in forms)
    with pytest.raises(QuizError, match="only 3 can be placed"):
        assemble_forms(bank, replace(blueprint, anchors=False), seed=1)
    with pytest.raises(QuizError, match=r"only 2 can be placed \(2 there, 1 used before\)"):
        assemble_forms(bank, replace(blueprint, anchors=False), seed=1, used=["a"])


def test_an_anchor_fills_only_one_place_of_a_form() -> None:
    bank = [an_item("a", anchor=True), an_item("b", anchor=True), an_item("c")]
    with pytest.raises(QuizError, match="2 forms of 3 need 6 items, only 5 can be placed"):
        assemble_forms(bank, FormBlueprint({"cans": 3}, forms=2, anchors=True), seed=1)


def test_a_short_topic_is_named_with_its_numbers() -> None:
    bank = [an_item(f"{topic}-{number}", topic) for topic in "abcde" for number in range(12)]
    blueprint = FormBlueprint({"a": 4, "b": 6, "c": 2}, forms=3)
    with pytest.raises(QuizError) as caught:
        assemble_forms(bank, blueprint, seed=1, used=["b-3", "c-1"])
    assert str(caught.value) == "topic b: 3 forms of 6 need 18 items, only 11 can be placed (11 there, 1 used before)"


def test_a_topic_nobody_wrote_items_for_is_named() -> None:
    with pytest.raises(QuizError, match=r"topic cautions: 1 form of 2 need 2 items, only 0 can be placed \(0 there"):
        assemble_forms(a_bank(), FormBlueprint({"cautions": 2}), seed=1)


def test_enemies_that_leave_a_topic_short_are_counted() -> None:
    bank = [an_item("a", enemies="b c"), an_item("b", enemies="c"), an_item("c"), an_item("d"), an_item("e")]
    assert len(assemble_forms(bank, FormBlueprint({"cans": 3}), seed=1)[0].ids) == 3
    with pytest.raises(QuizError, match=r"only 3 can be placed \(5 there, 0 used before, enemies kept apart\)"):
        assemble_forms(bank, FormBlueprint({"cans": 4}), seed=1)


def test_too_few_critical_items_are_named() -> None:
    bank = [an_item("a", critical=True), an_item("b"), an_item("c"), an_item("d")]
    with pytest.raises(QuizError, match="critical items: 2 forms of 1 need 2 items, only 1 can be placed"):
        assemble_forms(bank, FormBlueprint({"cans": 2}, forms=2, critical=1), seed=1)
    crowded = [an_item(f"{n}", critical=True) for n in range(9)] + [an_item("x", "set-up"), an_item("y", "set-up")]
    with pytest.raises(QuizError, match="critical items: 1 form of 3 need 3 items, only 2 can be placed"):
        assemble_forms(crowded, FormBlueprint({"cans": 2, "set-up": 2}, critical=3), seed=1)


def test_critical_items_that_are_enemies_of_what_is_needed_are_told() -> None:
    bank = [an_item("a", critical=True, enemies="x y"), an_item("b"), an_item("x", "set-up"), an_item("y", "set-up")]
    with pytest.raises(QuizError, match="every topic can be filled, but not with 1 critical item on each form"):
        assemble_forms(bank, FormBlueprint({"cans": 1, "set-up": 1}, critical=1, tolerance=1), seed=1)


def test_enemies_across_topics_are_told() -> None:
    bank = [an_item("a", enemies="x"), an_item("x", "set-up")]
    with pytest.raises(QuizError, match="enemies in different topics leave no forms"):
        assemble_forms(bank, FormBlueprint({"cans": 1, "set-up": 1}), seed=1)


def test_a_difficulty_out_of_reach_is_told_with_what_is_in_reach() -> None:
    bank = [an_item(f"{place}", difficulty=difficulty) for place, difficulty in enumerate([0.4, 0.5, 0.6, 0.7])]
    with pytest.raises(QuizError) as caught:
        assemble_forms(bank, FormBlueprint({"cans": 2}, tolerance=0.05, target=0.9), seed=1)
    expected = "cannot make 1 form with a mean difficulty of 0.900 give or take 0.05; one form alone can have from 0.450 to 0.650"
    assert str(caught.value) == expected


def test_a_search_that_runs_out_of_time_does_not_say_there_are_none() -> None:
    rng = np.random.default_rng(1)
    bank = [an_item(f"{number}", difficulty=float(rng.uniform(0.4, 0.9))) for number in range(200)]
    with pytest.raises(QuizError, match="no forms found in 1e-09 seconds, and not known whether there are any"):
        assemble_forms(bank, FormBlueprint({"cans": 25}, forms=8, tolerance=1e-9), seed=1, seconds=1e-9)


def test_a_bank_or_blueprint_that_makes_no_sense_is_refused() -> None:
    for refused, message in [
        (lambda: assemble_forms([an_item(), an_item()], FormBlueprint({"cans": 1}), seed=1), "got a more than once"),
        (
            lambda: assemble_forms([an_item()], FormBlueprint({"cans": 1}), seed=-1),
            "expected a seed of zero or more, got -1",
        ),
        (lambda: an_item(difficulty=70), "item a: expected a difficulty from 0 to 1, got 70"),
        (lambda: an_item(difficulty=float("nan")), "item a: expected a difficulty from 0 to 1, got nan"),
        (lambda: an_item(enemies="a"), "item a: an item cannot be its own enemy"),
        (lambda: FormBlueprint({}), "a blueprint with at least one topic"),
        (lambda: FormBlueprint({"cans": 0}), "topic cans: expected one item or more, got 0"),
        (lambda: FormBlueprint({"cans": 1}, forms=0), "expected one form or more, got 0"),
        (lambda: FormBlueprint({"cans": 1}, critical=2), "expected from 0 to 1 critical items on a form, got 2"),
        (lambda: FormBlueprint({"cans": 1}, tolerance=-0.1), "a tolerance of zero or more, got -0.1"),
        (lambda: FormBlueprint({"cans": 1}, target=70), "a target difficulty from 0 to 1, got 70"),
    ]:
        with pytest.raises(QuizError, match=message):
            refused()


KEPT_BANK = [
    an_item("a", critical=True),
    an_item("b", difficulty=0.9),
    an_item("c", enemies="d"),
    an_item("d"),
    an_item("x", "set-up"),
]


@pytest.mark.parametrize(
    ("ids", "message"),
    [
        (["a c", "a d"], "form 2: a is on form 1 already, and is no anchor"),
        (["a a", "c d"], "form 1: a is on it twice"),
        (["c d", "a b"], "form 1: c and d must not be on the same form"),
        (["d c", "a b"], "form 1: c and d must not be on the same form"),
        (["a b c", "d"], "form 1: topic cans: expected 2 item(s), got 3"),
        (["a x", "c b"], "form 1: topic cans: expected 2 item(s), got 1"),
        (["a z", "c b"], "form 1: no such item: z"),
        (["a c"], "expected 2 form(s), got 1"),
        (["a c", "d b"], "form 2: expected a mean difficulty of 0.700 give or take 0.05, got 0.800"),
    ],
)
def test_forms_changed_by_hand_are_checked(ids: list[str], message: str) -> None:
    by_id = {item.id: item for item in KEPT_BANK}
    forms = []
    for number, text in enumerate(ids, 1):
        own = [by_id[name] for name in text.split() if name in by_id]
        difficulty = sum(item.difficulty for item in own) / len(own)
        forms.append(Form(number, tuple(text.split()), difficulty, sum(item.critical for item in own)))
    with pytest.raises(QuizError, match=f"^{re.escape(message)}$"):
        check_forms(forms, KEPT_BANK, FormBlueprint({"cans": 2}, forms=2, target=0.7))


def test_a_kept_form_without_its_critical_item_or_with_a_used_one_is_refused() -> None:
    form = Form(1, ("c", "b"), 0.8, 0)
    with pytest.raises(QuizError, match=r"form 1: expected 1 critical item\(s\) or more, got 0"):
        check_forms([form], KEPT_BANK, FormBlueprint({"cans": 2}, critical=1, tolerance=1))
    with pytest.raises(QuizError, match="form 1: b was used before"):
        check_forms([form], KEPT_BANK, FormBlueprint({"cans": 2}, tolerance=1), used=["b"])
    with pytest.raises(QuizError, match="its mean difficulty or its critical items"):
        check_forms([replace(form, difficulty=0.7)], KEPT_BANK, FormBlueprint({"cans": 2}, tolerance=1))
    check_forms([form], KEPT_BANK, FormBlueprint({"cans": 2}, tolerance=1))


@st.composite
def small_tasks(draw: st.DrawFn) -> tuple[list[CandidateItem], FormBlueprint, set[str]]:
    number = draw(st.integers(2, 9))
    names = [chr(97 + place) for place in range(number)]
    bank = [
        CandidateItem(
            name,
            draw(st.sampled_from(["cans", "set-up"])),
            draw(st.sampled_from([0.4, 0.6, 0.8])),
            critical=draw(st.booleans()),
            enemies=frozenset(draw(st.sets(st.sampled_from(names), max_size=2)) - {name}),
            anchor=draw(st.booleans()),
        )
        for name in names
    ]
    blueprint = FormBlueprint(
        {"cans": draw(st.integers(1, 2)), "set-up": draw(st.integers(1, 2))},
        forms=draw(st.integers(1, 2)),
        critical=draw(st.integers(0, 2)),
        tolerance=draw(st.sampled_from([0.01, 0.05, 0.15])),
        target=draw(st.sampled_from([None, 0.6])),
        anchors=draw(st.booleans()),
    )
    return bank, blueprint, draw(st.sets(st.sampled_from(names), max_size=2))


def brute_force(bank: list[CandidateItem], blueprint: FormBlueprint, used: set[str]) -> bool:
    """Whether any choice will do, by trying all of them; written without the checks of the package."""
    may_repeat = {item.id for item in bank if item.anchor and blueprint.anchors}
    pool = [item for item in bank if item.id in may_repeat or item.id not in used]
    aim = blueprint.target
    if aim is None:
        means = {t: [item.difficulty for item in pool if item.topic == t] for t in blueprint.topics}
        if not all(means.values()):
            return False
        aim = sum(n * sum(means[t]) / len(means[t]) for t, n in blueprint.topics.items()) / sum(
            blueprint.topics.values()
        )
    sound = []
    for chosen in itertools.combinations(pool, sum(blueprint.topics.values())):
        names = {item.id for item in chosen}
        if (
            all(sum(item.topic == t for item in chosen) == n for t, n in blueprint.topics.items())
            and not any(item.enemies & names for item in chosen)
            and sum(item.critical for item in chosen) >= blueprint.critical
            and abs(sum(item.difficulty for item in chosen) / len(chosen) - aim) <= blueprint.tolerance + 1e-9
        ):
            sound.append(names)
    if blueprint.forms == 1:
        return bool(sound)
    return any(not (one & other) - may_repeat for one in sound for other in sound)


@settings(deadline=None, max_examples=300)
@given(task=small_tasks())
def test_forms_are_found_exactly_where_trying_everything_finds_them(
    task: tuple[list[CandidateItem], FormBlueprint, set[str]],
) -> None:
    bank, blueprint, used = task
    possible = brute_force(bank, blueprint, used)
    if possible:
        assert len(assemble_forms(bank, blueprint, seed=1, used=used)) == blueprint.forms
    else:
        with pytest.raises(QuizError):
            assemble_forms(bank, blueprint, seed=1, used=used)
