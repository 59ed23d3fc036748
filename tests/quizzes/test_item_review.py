"""A flaw of every kind, put into sound items one at a time, is found; sound items pass."""

from __future__ import annotations

import dataclasses
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tinwright.quizzes.bank_review import not_filled, not_taught, topics_without
from tinwright.quizzes.item_review import Reviewed, review_items
from tinwright.quizzes.questions import Choice, Question

OPTIONS = ("Tighten the first roller", "Loosen the first roller", "Tighten the second roller", "Raise the base plate")


def an_item(
    *options: str,
    id_: str = "one",
    text: str = "What do you do first?",
    key: int = 0,
    use: str = "practice",
    enemies: tuple[str, ...] = (),
    **more: Any,
) -> Reviewed:
    choices = tuple(Choice(option) for option in options or OPTIONS)
    question = Question(id_, "set-up", "one-answer", text, choices, (key,), teaches=("defect/droop",))
    return Reviewed(dataclasses.replace(question, **more), use, enemies)


def messages(*items: Reviewed) -> list[str]:
    return [f"{finding.item}: {finding.message}" for finding in review_items(items)]


def distinct_items(keys: list[int], *options: str) -> list[Reviewed]:
    """Items whose questions share no words, so that only their keys and options are under review."""
    return [
        an_item(*options, id_=f"i{n}", text=f"alpha{n} beta{n} gamma{n} delta{n}", key=key)
        for n, key in enumerate(keys)
    ]


def test_sound_items_pass() -> None:
    assert messages(an_item(), an_item(id_="two", text="Which way does the screw turn?", key=2)) == []


def test_a_right_option_that_is_the_longest_by_far_is_found() -> None:
    long = "Tighten the first roller by one small step and make a new test can"
    assert messages(an_item(long, *OPTIONS[1:])) == [
        f"one: the right option is the longest by far: {len(long)} characters, the next 25"
    ]
    assert messages(an_item(long, *OPTIONS[1:], key=1)) == []


@given(st.integers(3, 60), st.integers(3, 60))
def test_length_is_a_cue_only_past_a_quarter_and_twelve_characters(right: int, wrong: int) -> None:
    found = messages(an_item("r" * right, "w" * wrong, "v" * (wrong - 1), "u" * (wrong - 2)))
    assert bool(found) == (right > wrong * 1.25 and right > wrong + 12)


def test_a_file_where_the_right_option_is_mostly_the_longest_is_found_once() -> None:
    keys = [0, 1, 2, 0, 1, 2]
    options = ["short word", "small word", "tiny words"]
    items = distinct_items(keys, *options)
    for number in range(3):
        question = items[number].question
        choices = list(question.choices)
        choices[question.key[0]] = Choice("rather longer one")
        items[number] = Reviewed(dataclasses.replace(question, choices=tuple(choices)), "practice")
    assert messages(*items) == [
        "i2: in the practice items on set-up the right option is the longest in 3 of 6: shorten it in some"
    ]
    # 2 of 6 is a third: allowed
    assert messages(*items[1:], *distinct_items([0], *options)) == []


@pytest.mark.parametrize(
    ("options", "expected"),
    [
        (("It leaks.", "It holds", "It turns"), "some options end with a period"),
        (("it leaks", "It holds", "It turns"), "some options begin with a capital letter"),
        (("The roller", "The chuck", "All of the above"), "an option points at the others: 'All of the above'"),
        (("The roller", "The chuck", "None of these"), "an option points at the others: 'None of these'"),
        (("The roller", "The chuck", "the chuck."), "two options say the same"),
        (("Set it aside", "Never set it aside", "Open it"), "'never' stands in wrong options alone"),
        (("A can", " ".join(["word"] * 26), "The lid"), "expected at most 25 words in an option, got 26"),
    ],
)
def test_a_cue_in_the_options_is_found(options: tuple[str, ...], expected: str) -> None:
    found = messages(an_item(*options))
    assert any(expected in message for message in found)


def test_numbers_have_no_capitals_and_an_absolute_word_in_the_right_option_too_is_no_cue() -> None:
    assert messages(an_item("1/8 turn", "Half a turn", "2 turns")) == []
    assert messages(an_item("Never open it", "Never heat it", "Mend it")) == []
    assert messages(an_item("Set all of it aside", "Put all cans above", "Both of the lids")) == []


@pytest.mark.parametrize(
    ("ending", "clean"), [("You look for an", False), ("You look for a", False), ("You see", True)]
)
def test_an_article_that_fits_only_some_options_is_found(ending: str, clean: bool) -> None:
    assert (messages(an_item("open seam", "droop", "vee", text=f"{ending}:")) == []) is clean
    assert messages(an_item("droop", "vee", "pleat", text="You look for a:")) == []


def test_the_same_place_three_times_running_is_found_at_the_third() -> None:
    assert messages(*distinct_items([0, 1, 1, 1, 2])) == ["i3: the right option stands at B 3 times running"]
    assert messages(*distinct_items([1, 1, 0, 1, 1])) == []


def test_a_lopsided_key_is_found() -> None:
    # four places, 12 items at A and 2 at each other: expected 4.5, chi-square (7.5**2 + 3 * 2.5**2) / 4.5 = 16.67,
    # above 7.815, the 5 percent point at 3 degrees of freedom
    keys = [0, 0, 1, 0, 0, 2, 0, 0, 3, 0, 0, 1, 0, 0, 2, 0, 0, 3]
    assert messages(*distinct_items(keys)) == [
        "i0: in the practice items on set-up the right option does not stand equally often at each place: "
        "A 12, B 2, C 2, D 2"
    ]
    assert messages(*distinct_items([0, 1, 2, 3] * 4)) == []


def test_keys_of_the_two_uses_are_reviewed_apart() -> None:
    items = distinct_items([1, 1, 1])
    items[1] = dataclasses.replace(items[1], use="examination")
    assert messages(*items) == []


def test_near_copies_that_are_no_enemies_are_found() -> None:
    text = "The cover hook is short and the body hook is long on every can. What is the cause?"
    one, two = an_item(text=text), an_item(id_="two", text=text.replace("every", "each"), key=1)
    assert messages(one, two) == ["two: asks nearly the same as one: name them as enemies, or drop one"]
    assert messages(dataclasses.replace(one, enemies=("two",)), dataclasses.replace(two, enemies=("one",))) == []
    assert messages(one, dataclasses.replace(two, use="examination")) == []


def test_the_same_question_about_two_drawings_is_no_copy() -> None:
    items = [
        an_item(text="Which defect is drawn?", drawing="vee"),
        an_item(id_="two", text="Which defect is drawn?", key=1),
    ]
    assert messages(*items) == []


def test_a_question_that_says_another_answer_is_found() -> None:
    told = an_item("Hold each can since the last good check", "Hold each can since the last lunch break", "Mend it")
    telling = an_item(id_="two", text="You hold each can since the last good check. Where do you put them?", key=1)
    assert messages(told, telling)[-1] == (
        "two: its question gives away the answer of one ('Hold each can since the last good check'): name them as "
        "enemies, or change one"
    )
    assert not any("gives away" in m for m in messages(told, dataclasses.replace(telling, enemies=("one",))))


def test_a_short_answer_in_another_question_gives_nothing_away() -> None:
    told = an_item("The first roller", "The chuck", "The base plate")
    telling = an_item(id_="two", text="The first roller is worn. How do you see it?", key=1)
    assert messages(told, telling) == []


def test_an_enemy_that_does_not_name_the_other_back_is_found() -> None:
    one = an_item(enemies=("two",))
    two = an_item(id_="two", text="Which way does the screw turn?", key=1)
    assert messages(one, two) == ["two: one names it as an enemy: name one there, too"]
    assert messages(one, dataclasses.replace(two, enemies=("one",))) == []


def test_topics_and_records_without_items_are_named() -> None:
    item = an_item()
    assert topics_without(["set-up", "defects"], [item], "practice") == ("defects",)
    assert topics_without(["set-up"], [item], "examination") == ("set-up",)
    assert not_taught(["defect/droop", "defect/vee"], [item.question]) == ("defect/vee",)


def test_a_blueprint_the_bank_cannot_fill_is_told_with_both_numbers() -> None:
    bank = [an_item(id_=f"x{n}", use="examination", critical=n == 0) for n in range(3)] + [an_item()]
    assert list(not_filled({"set-up": 3}, [], bank)) == []
    assert list(not_filled({"set-up": 4}, [("Hands", ["set-up"], 1)], bank)) == [
        "a form has 4 examination items on set-up, the bank 3",
        "a form and its second try have 2 critical items of 'Hands', the bank 1",
    ]


def test_numbers_pass_without_choices() -> None:
    number = Question(
        "n", "set-up", "number", "How high?", unit="in", answer=Decimal(1), low=Decimal(1), high=Decimal(1)
    )
    assert messages(Reviewed(number, "practice")) == []
