from __future__ import annotations

import itertools
from statistics import correlation, mean

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tinwright.errors import QuizError
from tinwright.quizzes.item_statistics import (
    EVERYBODY_RIGHT,
    NEGATIVE,
    NOBODY_RIGHT,
    analyse_items,
    corrected_discriminations,
    difficulties,
    discriminations,
    rest_scores,
    upper_lower,
)
from tinwright.quizzes.statistic import MIN_PEOPLE

points = st.sampled_from([0.0, 0.25, 0.5, 1.0])
tables = st.integers(2, 6).flatmap(
    lambda items: st.lists(st.lists(points, min_size=items, max_size=items), min_size=2, max_size=12)
)


def a_cohort(people: int = 60, items: int = 8, seed: int = 1) -> list[list[int]]:
    rng = np.random.default_rng(seed)
    return [[int(rng.random() < person / people) for _ in range(items)] for person in range(people)]


@given(table=tables)
def test_discrimination_is_the_plain_correlation_with_the_rest_score(table: list[list[float]]) -> None:
    for item, found in enumerate(corrected_discriminations(table)):
        scores = [row[item] for row in table]
        rests = [sum(row) - row[item] for row in table]
        if len(set(scores)) == 1 or len(set(rests)) == 1:
            assert found.value is None
            assert found.reason
        else:
            assert found.value == pytest.approx(correlation(scores, rests), abs=1e-9)


@given(table=tables)
def test_raw_discrimination_is_the_plain_correlation_with_the_total(table: list[list[float]]) -> None:
    totals = [sum(row) for row in table]
    for item, found in enumerate(discriminations(table)):
        scores = [row[item] for row in table]
        if len(set(scores)) == 1 or len(set(totals)) == 1:
            assert found.value is None
        else:
            assert found.value == pytest.approx(correlation(scores, totals), abs=1e-9)


@given(table=tables, data=st.data())
def test_nothing_depends_on_the_order_of_the_rows(table: list[list[float]], data: st.DataObject) -> None:
    shuffled = data.draw(st.permutations(table))
    for one, other in zip(upper_lower(table, 0.3), upper_lower(shuffled, 0.3), strict=True):
        assert one.reason == other.reason
        assert one.value == pytest.approx(other.value, abs=1e-12)


def test_ties_at_the_edge_of_a_group_count_as_the_mean_over_all_ways_to_break_them() -> None:
    table = [[1, 1, 1], [1, 1, 0], [1, 0, 1], [0, 1, 1], [1, 0, 0], [0, 1, 0], [0, 0, 0]]
    gaps = []
    for order in itertools.permutations(table):
        ranked = sorted(order, key=sum)  # stable, so the order breaks the ties
        gaps.append(
            [mean(row[item] for row in ranked[-2:]) - mean(row[item] for row in ranked[:2]) for item in range(3)]
        )
    expected = np.mean(gaps, axis=0).tolist()
    assert [found.value for found in upper_lower(table, 0.3)] == pytest.approx(expected)


def test_part_credits_that_add_up_alike_tie() -> None:
    # 0.1 + 0.2 + 0.3 is more than 0.3 + 0.2 + 0.1, in binary
    table = [[0.1, 0.2, 0.3], [0.3, 0.2, 0.1], [0, 0, 0]]
    assert upper_lower(table, 0.34)[0].value == pytest.approx(0.2)


def test_groups_are_whole_people() -> None:
    # 0.29 of 100 is 29 people, though it is a little less in binary; of 99 it is 28
    table = [[0, 0]] * 28 + [[1, 0]] * 2 + [[1, 1]] * 70
    assert upper_lower(table, 0.29)[0].value == pytest.approx(28 / 29)
    assert upper_lower(table[:-1], 0.29)[0].value == 1


def test_a_group_too_small_for_one_person_is_no_group() -> None:
    assert upper_lower([[1, 1], [0, 0], [1, 0]], 0.27)[0].reason == "too few people for an upper and a lower group"


@pytest.mark.parametrize("share", [0, 0.6, -1])
def test_groups_that_overlap_or_are_empty_are_refused(share: float) -> None:
    with pytest.raises(QuizError, match=r"expected groups above 0 and at most 0.5 of the people"):
        upper_lower([[1, 0], [0, 1]], share)


def test_what_is_undefined_is_missing_with_its_reason_and_never_0() -> None:
    table = [[1, 0, 1, 1], [1, 0, 0, 1], [1, 0, 1, 0]]
    corrected = corrected_discriminations(table)
    assert [found.value is None for found in corrected] == [True, True, False, False]
    assert corrected[0].reason == "everybody has the same score on it"
    level = [[1, 0], [0, 1]]
    assert {found.reason for found in discriminations(level)} == {"everybody has the same score"}
    assert {found.reason for found in upper_lower(level, 0.5)} == {"everybody has the same score"}
    flat = [[1, 0, 0], [0, 1, 0], [0, 0, 0]]
    assert (
        corrected_discriminations([[1, 1, 0], [0, 1, 0]])[0].reason == "everybody has the same score on the other items"
    )
    assert corrected_discriminations(flat)[2].reason == "everybody has the same score on it"


def test_an_item_that_was_not_on_the_form_is_left_out_and_a_blank_is_wrong() -> None:
    table = [[1, 1, None], [0, 1, None], [1, None, 0], [1, None, 1]]
    assert [found.value for found in difficulties(table)] == [0.75, 1.0, 0.5]
    assert np.isnan(rest_scores(table)[0, 2])
    assert rest_scores(table)[0, :2].tolist() == [1.0, 1.0]


def test_people_with_different_forms_are_compared_by_their_share_right() -> None:
    # the same people on one long form and the rest of it: only those who saw the item count
    first = a_cohort(40, 6, seed=2)
    table = [[*row, None, None] for row in first] + [
        [*row[:4], None, None, *row[4:]] for row in a_cohort(40, 6, seed=3)
    ]
    alone = corrected_discriminations(first)
    together = corrected_discriminations(table)
    assert together[4].value == pytest.approx(alone[4].value)
    assert together[5].value == pytest.approx(alone[5].value)
    gaps = upper_lower(table)
    assert gaps[4].value == pytest.approx(upper_lower(first)[4].value)
    everyone = [[cell for cell in row if cell is not None] for row in table]
    rests = [(sum(row) - row[0]) / 5 for row in everyone]
    assert together[0].value == pytest.approx(correlation([row[0] for row in everyone], rests))


def test_an_item_nobody_saw_says_so() -> None:
    table = [[1, 0, None], [0, 1, None], [1, 1, None]]
    for found in (difficulties(table), discriminations(table), corrected_discriminations(table)):
        assert found[2].value is None
        assert found[2].reason == "nobody saw it"
    assert upper_lower(table, 0.4)[2].value is None


def test_too_few_people_give_nothing_but_how_many_it_takes() -> None:
    found = analyse_items(a_cohort(29))
    assert (found.people, found.people_needed, found.items) == (29, 30, ())
    assert found.reason == "needs 30 people, has 29"
    assert len(analyse_items(a_cohort(MIN_PEOPLE)).items) == 8


def test_an_item_that_too_few_saw_gives_nothing_but_how_many_it_takes() -> None:
    table: list[list[int | None]] = [[*row, None] for row in a_cohort(40)]
    for row in table[:12]:
        row[8] = 1
    item = analyse_items(table).items[8]
    assert item.people == 12
    assert item.flags == ()
    for statistic in (item.difficulty, item.discrimination, item.corrected, item.upper_lower):
        assert (statistic.value, statistic.reason) == (None, "needs 30 people, has 12 who saw it")


def test_items_worth_a_look_are_flagged() -> None:
    table = [[*row, 1, 0, 1 - round(sum(row) / 8)] for row in a_cohort()]
    flags = [item.flags for item in analyse_items(table).items]
    assert flags == [()] * 8 + [(EVERYBODY_RIGHT,), (NOBODY_RIGHT,), (NEGATIVE,)]


@pytest.mark.parametrize(
    ("table", "message"),
    [
        ([[1, 0], [1]], "expected a table of scores with one row for each person, all of one length"),
        ([["right", "wrong"]], "expected a table of scores with one row for each person, all of one length"),
        ([1, 0], "expected a table of scores, people by items, got 1 dimension"),
        ([[1, 0], [0, 2]], "expected scores from 0 to 1, got 2 for person 2, item 2"),
        ([[1, 0], [-1, 0]], "expected scores from 0 to 1, got -1 for person 2, item 1"),
        ([[1], [0]], "expected at least two items scored for each person, got 1 for person 1"),
    ],
)
def test_a_table_that_cannot_be_read_is_refused(table: object, message: str) -> None:
    with pytest.raises(QuizError, match=message):
        analyse_items(table)  # type: ignore[arg-type]


def test_the_table_given_is_left_as_it_was() -> None:
    table = np.array(a_cohort(), dtype=float)
    table[0, 0] = np.nan
    before = table.copy()
    analyse_items(table)
    assert np.array_equal(table, before, equal_nan=True)
