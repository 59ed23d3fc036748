"""Twins: the cosine agrees with a reference library, and each way of being a twin is found."""

from __future__ import annotations

from decimal import Decimal

import pytest
from sklearn.feature_extraction.text import TfidfVectorizer

from tinwright.quizzes.questions import Choice, Question
from tinwright.quizzes.twins import cosines, find_twins, kept_apart

WRINKLES = "A stripped cover hook is 0.080 in long. The deepest wrinkle runs in 0.020 in. What tightness do you write?"
OTHERS = (
    "You lift an empty can and the lever will not go home. What do you look at first?",
    "A box of lids bears another code than the box of cans. Where do you put it?",
    "The belt guard has a crack. Twelve filled cans wait for their lids. What now?",
    "A helper wants to wipe warm cans with a towel. What do you say to the helper?",
    "Bubbles rise from the side seam of a test can. Which screw do you turn?",
    "The chuck wobbles after you cleaned its seat. May you seal with this chuck?",
    "A crank jerks in mid turn and then goes stiff. What becomes of the can?",
)


def number(name: str, text: str, answer: str) -> Question:
    value = Decimal(answer)
    return Question(name, "t", "number", text, unit="percent", answer=value, low=value, high=value)


def one(name: str, text: str, right: str = "Stop the sealer", **more: str) -> Question:
    return Question(name, "t", "one-answer", text, (Choice(right), Choice("Go on"), Choice("Ask")), (0,), **more)


def others() -> list[Question]:
    return [one(f"other-{place}", text, f"Answer {place}") for place, text in enumerate(OTHERS)]


def test_the_cosines_are_those_of_the_reference_library() -> None:
    # scikit-learn's TfidfVectorizer: smoothed rarity, Euclidean length
    texts = [text.lower().replace(".", "").replace("?", "").split() for text in (WRINKLES, *OTHERS)]
    weights = TfidfVectorizer(analyzer=lambda words: words).fit_transform(texts).toarray()
    ours = cosines(texts)
    for here in range(len(texts)):
        for there in range(here + 1, len(texts)):
            assert ours.get((here, there), 0.0) == pytest.approx(float(weights[here] @ weights[there]), abs=1e-12)


def test_a_sum_asked_again_with_other_words_around_it_is_a_twin() -> None:
    again = "A cover hook of 0.080 in has three lines in it, and the worst of them is 0.020 in. Rate its tightness."
    pair = [number("x-one", WRINKLES, "75"), *others(), number("x-two", again, "75.0")]
    assert [(twins.one, twins.other) for twins in find_twins(pair)] == [("x-one", "x-two")]
    assert "same answer" in find_twins(pair)[0].why


def test_other_questions_are_no_twins() -> None:
    assert find_twins([number("x-one", WRINKLES, "75"), *others()]) == ()
    assert kept_apart([number("x-one", WRINKLES, "75"), *others()]) == {}


def test_one_question_about_two_drawings_is_no_twin() -> None:
    text = "This seam was cut across. Which defect is drawn here?"
    drawn = [one("a", text, "Droop", drawing="droop"), one("b", text, "Vee", drawing="vee"), *others()]
    assert find_twins(drawn) == ()


def test_what_comes_near_is_kept_apart_in_a_form_and_is_no_problem() -> None:
    near = one("near", "The belt guard has a crack, and twelve filled cans stand open. Do you seal?", "No")
    items = [*others(), near]
    assert find_twins(items) == ()
    assert kept_apart(items) == {"other-2": {"near"}, "near": {"other-2"}}
