"""What a few checked cans show, in words."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tinwright.benchlog.sampling import chance_of_passing, most_bad, sampling_in_words, to_check


@pytest.mark.parametrize(
    ("lot", "checked", "words"),
    [
        (
            24,
            1,
            "One of 24 cans checked, none bad, proves little: if 2 of the 24 were bad, such a draw would miss them 92 times in 100. Even with 22 bad, fewer than 95 draws in 100 would show one.",
        ),
        (
            24,
            19,
            "19 of 24 cans checked, none bad, prove something: if 2 of the 24 were bad, such a draw would miss them 4 times in 100. Even with 1 bad, fewer than 95 draws in 100 would show one.",
        ),
        (
            3,
            2,
            "Two of 3 cans checked, none bad, prove little: if 1 of the 3 was bad, such a draw would miss it 33 times in 100. Even with 1 bad, fewer than 95 draws in 100 would show one.",
        ),
        (24, 0, "None of the 24 cans was checked: that shows nothing."),
        (24, 24, "All 24 cans were checked."),
        (
            24,
            22,
            "22 of 24 cans checked, none bad, prove something: if 2 of the 24 were bad, such a draw would miss them once in 100 or less. Even with 1 bad, fewer than 95 draws in 100 would show one.",
        ),
    ],
)
def test_the_words_fit_the_numbers(lot: int, checked: int, words: str) -> None:
    assert sampling_in_words(lot, checked) == words


def test_no_more_can_be_checked_than_there_are() -> None:
    with pytest.raises(ValueError, match="expected 0 to 5 cans bad and checked, got 6 and 1"):
        chance_of_passing(5, 6, 1)


@given(st.integers(1, 60), st.data())
def test_checking_more_never_shows_less(lot: int, data: st.DataObject) -> None:
    checked = data.draw(st.integers(0, lot - 1))
    bad = data.draw(st.integers(0, lot))
    assert chance_of_passing(lot, bad, checked + 1) <= chance_of_passing(lot, bad, checked)
    assert most_bad(lot, checked + 1) <= most_bad(lot, checked)
    assert most_bad(lot, to_check(lot, 10)) < max(1, lot // 10)
