"""Forms made from a bank: chosen, arranged, repeatable, and cut as the judges rated."""

from __future__ import annotations

from decimal import Decimal
from math import ceil
from random import Random
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from examining.exam_banks import lay_bank, made_from
from tinwright.advice.item_questions import question_of
from tinwright.errors import ContentError, QuizError
from tinwright.examining.arranging import arranged, rising
from tinwright.examining.form import questions_of
from tinwright.examining.ratings import cut_of, read_ratings
from tinwright.knowledge.bank import load_bank
from tinwright.quizzes.questions import Choice, Question

if TYPE_CHECKING:
    from pathlib import Path

    from tinwright.knowledge import KnowledgeBase


def test_the_same_seed_makes_the_same_forms_and_another_makes_others(tmp_path: Path, kb: KnowledgeBase) -> None:
    root = lay_bank(tmp_path)
    once, again, other = (made_from(root, kb, seed=seed) for seed in (7, 7, 8))
    assert [one.form for one in once] == [one.form for one in again]
    assert [one.key for one in once] == [one.key for one in again]
    assert [one.form.digest for one in once] != [one.form.digest for one in other]


def test_no_item_stands_in_two_forms_unless_it_is_an_anchor(tmp_path: Path, kb: KnowledgeBase) -> None:
    first, second = made_from(lay_bank(tmp_path), kb)
    assert {item.id for item in first.form.items}.isdisjoint(item.id for item in second.form.items)


def test_anchors_may_stand_in_several_forms(tmp_path: Path, kb: KnowledgeBase) -> None:
    """Nine items a topic are too few for two forms of six unless some may come again."""
    root = lay_bank(tmp_path, each=9, anchors=6, blueprint={"critical_areas": []})
    first, second = made_from(root, kb)
    both = {item.id for item in first.form.items} & {item.id for item in second.form.items}
    assert both
    bank = load_bank(root, kb, examination=root / "examination")
    assert all(bank.examination[id_].anchor for id_ in both)


def test_items_of_earlier_forms_do_not_come_again(tmp_path: Path, kb: KnowledgeBase) -> None:
    root = lay_bank(tmp_path)
    (earlier,) = made_from(root, kb, forms=1)
    used = tuple(item.id for item in earlier.form.items)
    (later,) = made_from(root, kb, forms=1, used=used)
    assert not set(used) & {item.id for item in later.form.items}


def test_a_form_for_a_sealer_asks_nothing_of_another_drive(tmp_path: Path, kb: KnowledgeBase) -> None:
    root = lay_bank(tmp_path)
    file = root / "examination" / "sealing.yml"
    text = file.read_text(encoding="utf-8")
    of_motors = {f"x-sealing-{number}" for number in range(1, 20, 3)}
    for name in of_motors:
        text = text.replace(f"id: {name}\n", f"id: {name}\n  drives: [motor]\n")
    file.write_text(text, encoding="utf-8")
    crank = [sealer for sealer in kb.sealers.values() if sealer.drive == "crank-cam"]
    for_crank, for_all = (
        {item.id for one in made_from(root, kb, forms=1, sealers=sealers) for item in one.form.items}
        for sealers in (crank, ())
    )
    assert not for_crank & of_motors
    assert for_all & of_motors


def test_twins_never_stand_in_one_form(tmp_path: Path, kb: KnowledgeBase) -> None:
    root = lay_bank(tmp_path)
    file = root / "examination" / "sealing.yml"
    text = file.read_text(encoding="utf-8")
    copies = ["x-sealing-0", "x-sealing-7", "x-sealing-8"]
    # one question in three places, each with its own options
    for number in (0, 7, 8):
        text = text.replace(f"What is asked in sealing question s{number}?", "Which way do you turn the brass wheel?")
    file.write_text(text, encoding="utf-8")
    for seed in range(6):
        for one in made_from(root, kb, seed=seed):
            assert len({item.id for item in one.form.items} & set(copies)) <= 1


def test_the_cell_that_is_short_is_named(tmp_path: Path, kb: KnowledgeBase) -> None:
    with pytest.raises(QuizError, match="topic sealing: 2 forms of 6 need 12 items, only 8 can be placed"):
        made_from(lay_bank(tmp_path, each=8), kb)


def test_every_key_says_the_same_in_the_new_order_as_the_item_in_its_file(tmp_path: Path, kb: KnowledgeBase) -> None:
    root = lay_bank(tmp_path)
    bank = load_bank(root, kb, examination=root / "examination")
    for made in made_from(root, kb):
        for shown in questions_of(made.form, made.key):
            filed = question_of(bank.examination[shown.id])
            right = [choice.text for choice in filed.choices]
            wanted = [right[place] for place in filed.key]
            got = [shown.choices[place].text for place in shown.key]
            assert (sorted(got) if shown.asks == "several-answers" else got) == (
                sorted(wanted) if shown.asks == "several-answers" else wanted
            )
            assert sorted(right) == sorted(choice.text for choice in shown.choices)
            if shown.asks == "point":
                assert [choice.text for choice in shown.choices] == right


def test_the_cut_is_the_sum_of_the_mean_ratings_rounded_up(tmp_path: Path, kb: KnowledgeBase) -> None:
    """Modified Angoff worked out in exact decimals: the sum over the items of the mean over the judges."""
    root = lay_bank(tmp_path)
    lines = (root / "blueprints" / "small-ratings.csv").read_text(encoding="utf-8").splitlines()[2:]
    rated = [(item, Decimal(rating)) for item, _, rating in (line.split(",") for line in lines)]
    for made in made_from(root, kb):
        own = {item.id for item in made.form.items}
        cut = sum((rating for item, rating in rated if item in own), Decimal(0)) / 3
        assert made.key.cut == ceil(cut)
        assert abs(Decimal(made.key.cut_raw) - cut) < Decimal("0.000001")


def _asked(number: int, key: int, choices: int) -> Question:
    texts = tuple(Choice(f"answer {letter} of {number}") for letter in "abcde"[:choices])
    return Question(f"q{number}", "t", "one-answer", "Which?", texts, (key,))


@given(
    st.lists(st.tuples(st.integers(0, 2), st.integers(3, 5)), min_size=1, max_size=40),
    st.integers(0, 10**6),
)
def test_each_letter_is_right_about_as_often_as_every_other(items: list[tuple[int, int]], seed: int) -> None:
    asked = [_asked(number, key, choices) for number, (key, choices) in enumerate(items)]
    shown = arranged(asked, Random(seed))  # noqa: S311 - to be repeatable
    assert [question.id for question in shown] == [question.id for question in asked]
    counts = [sum(question.key[0] == place for question in shown) for place in range(3)]
    assert max(counts) - min(counts) <= 1
    for before, after in zip(asked, shown, strict=True):
        assert after.choices[after.key[0]] == before.choices[before.key[0]]


@given(st.integers(0, 10**6), st.integers(3, 6))
def test_steps_are_never_shown_in_their_right_order(seed: int, size: int) -> None:
    steps = tuple(Choice(f"step {number}") for number in range(size))
    asked = Question("q", "t", "order", "Order?", steps, tuple(range(size)))
    (shown,) = arranged([asked], Random(seed))  # noqa: S311 - to be repeatable
    assert shown.key != tuple(range(size))


@pytest.mark.parametrize(
    ("texts", "order"),
    [
        (["10 cans", "2 cans", "1 can"], (2, 1, 0)),
        (["3/16 in", "1/8 in", "1 1/8 in"], (1, 0, 2)),
        (["0.5", ".25", "-1"], (2, 1, 0)),
        (["2 11/16 in", "2 cans", "4 in"], None),
        (["A roller", "1 in", "2 in"], None),
        (["1/0 in", "2 in"], None),
    ],
)
def test_numbers_of_one_unit_stand_in_rising_order(texts: list[str], order: tuple[int, ...] | None) -> None:
    assert rising(texts) == order


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("", "ratings.csv:1:1: expected the heading item,judge,rating, found none"),
        (
            "item;judge;rating\n",
            "ratings.csv:1:1: expected commas between the cells, got semicolons: in the spreadsheet save it as CSV with commas",
        ),
        ("# ours\nitem,judge,rating\na,judge 1,70\n", "ratings.csv:3:11: a: expected a rating from 0 to 1, got '70'"),
        ("item,judge,rating\na,judge 1,nan\n", "ratings.csv:2:11: a: expected a rating from 0 to 1, got 'nan'"),
        ("item,judge,rating\na,judge 1\n", "ratings.csv:2:1: expected item, judge and rating, got 'a,judge 1'"),
        ("item,judge,rating\na,judge 1,.5\na,judge 1,.6\n", "ratings.csv:3:1: a: judge 1 has rated it twice"),
    ],
)
def test_a_rating_that_cannot_be_read_is_told_with_its_place(tmp_path: Path, text: str, told: str) -> None:
    file = tmp_path / "ratings.csv"
    file.write_text(text, encoding="utf-8")
    with pytest.raises(ContentError) as caught:
        read_ratings(file)
    assert str(caught.value).endswith(told)


def test_an_item_without_a_rating_of_every_judge_is_named() -> None:
    ratings = {"a": {"judge 1": 0.5, "judge 2": 0.6}, "b": {"judge 1": 0.5}}
    with pytest.raises(QuizError, match=r"r\.csv: expected a rating of every item by every judge, got none of b by ju"):
        cut_of(ratings, ["a", "b"], name="r.csv")
    with pytest.raises(QuizError, match=r"r\.csv: expected ratings of every item of the form, got none for c"):
        cut_of(ratings, ["a", "c"], name="r.csv")
