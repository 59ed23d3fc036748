"""What was confirmed before moves a ranking, and never past what is measured now."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from seaming.twin import ANSWERS, DEFECT_IDS, a_cause, in_browser, plain, seeded, some_causes
from tinwright.seaming import (
    ADJUSTERS,
    Confirmed,
    Experience,
    Signs,
    find_experience,
    find_next,
    rank,
)

if TYPE_CHECKING:
    from collections.abc import Callable

LOOSE = a_cause(
    "first-roller-loose", "first-roller", likelihoods={"droop": "common"}, effects={"cover-hook": "smaller"}
)
WORN = a_cause("chuck-worn", "chuck", likelihoods={"droop": "occasional"}, effects={"cover-hook": "larger"})
DROOP = Signs(defects=("droop",))


def seen(own: dict[str, int], others: dict[str, int]) -> Experience | None:
    """Return what was confirmed behind a droop, on this sealer and on another."""
    counts = [Confirmed(on, "droop", cause, n) for on, row in (("own", own), ("x", others)) for cause, n in row.items()]
    return find_experience(counts, {}, DROOP, "own")


def shares(signs: Signs, experience: Experience | None = None) -> dict[str, float]:
    return {ranked.cause: ranked.share for ranked in rank([LOOSE, WORN], signs, experience).causes}


def test_cases_are_added_to_ten_that_somebody_has_seen() -> None:
    before, after = shares(DROOP), shares(DROOP, seen({}, {"chuck-worn": 5}))
    assert before["chuck-worn"] == pytest.approx(0.3 / 0.95)
    assert after["chuck-worn"] == pytest.approx((10 * 0.3 / 0.95 + 5) / 15)


def test_a_single_case_does_not_turn_the_order_and_four_do() -> None:
    for times, first in ((1, "first-roller-loose"), (4, "chuck-worn")):
        assert rank([LOOSE, WORN], DROOP, seen({"chuck-worn": times}, {})).causes[0].cause == first


def test_a_sealers_own_cases_outweigh_any_number_on_the_others() -> None:
    mixed = seen({"first-roller-loose": 30}, {"chuck-worn": 10_000})
    assert rank([LOOSE, WORN], DROOP, mixed).causes[0].cause == "first-roller-loose"


def test_a_reading_outvotes_a_history() -> None:
    measured = Signs(defects=("droop",), directions={"cover-hook": "smaller"})
    assert rank([LOOSE, WORN], measured, seen({"chuck-worn": 20}, {})).causes[0].cause == "first-roller-loose"


def test_a_history_makes_a_cause_that_no_link_names_worth_a_look() -> None:
    other = a_cause("lid-wrong", "can-and-lid")
    ranking = rank([LOOSE, WORN, other], DROOP, seen({}, {"lid-wrong": 4}))
    assert {ranked.cause: ranked.word for ranked in ranking.causes}["lid-wrong"] == "likely"


def test_a_confirmed_case_speaks_for_a_cause_that_no_link_names() -> None:
    other = a_cause("lid-wrong", "can-and-lid")
    [reason] = next(
        r for r in rank([LOOSE, other], DROOP, seen({}, {"lid-wrong": 4})).causes if r.cause == "lid-wrong"
    ).reasons
    assert reason.stance == "supports"


def test_food_in_the_seam_wins_over_ten_confirmed_roller_cases_and_over_ten_thousand() -> None:
    food = a_cause("product-in-seam", "filling", likelihoods={"droop": "common", "seam-inclusion": "common"})
    told = Signs(defects=("seam-inclusion", "droop"))
    for times in (10, 10_000):
        ranking = rank([LOOSE, food], told, seen({"first-roller-loose": times}, {"first-roller-loose": times}))
        assert ranking.causes[0].cause == "product-in-seam"
        assert ranking.causes[1].word == "unlikely"


def test_only_counts_of_the_defects_told_are_taken() -> None:
    counts = [
        Confirmed("crank", "droop", "chuck-worn", 2),
        Confirmed("lever", "droop", "chuck-worn", 1),
        Confirmed("lever", "vee", "lid-wrong", 9),
    ]
    found = find_experience(counts, {}, DROOP, "crank")
    assert found == Experience({"droop": {"chuck-worn": 2}}, {"droop": {"chuck-worn": 1}}, {"chuck-worn": ("droop",)})
    assert found.times("chuck-worn") == (3, 3)
    assert found.own_times("chuck-worn") == (2, 2)
    assert find_experience(counts, {}, Signs(defects=("spinner",))) is None


def test_a_defect_that_is_measured_is_told_by_all_of_its_dimensions() -> None:
    counts = [Confirmed("crank", "short-overlap", "chuck-worn", 2)]
    measured = {"short-overlap": {"body-hook": "smaller", "cover-hook": "smaller"}}
    half = Signs(directions={"body-hook": "smaller", "cover-hook": "normal"})
    whole = Signs(directions={"body-hook": "smaller", "cover-hook": "smaller"})
    assert find_experience(counts, measured, half) is None
    keys = ("body-hook", "cover-hook")
    assert find_experience(counts, measured, whole) == Experience(
        {}, {"body-hook": {"chuck-worn": 2}}, {"chuck-worn": keys}
    )


def test_nothing_confirmed_leaves_every_share_as_it_was_to_the_last_bit() -> None:
    rng = seeded(21)
    for _ in range(300):
        causes, signs = some_causes(rng, ADJUSTERS), Signs(defects=tuple(d for d in DEFECT_IDS if rng.random() < 0.4))
        experience = find_experience([Confirmed("s", "unseen", "cause-0", 3)], {}, signs)
        assert rank(causes, signs) == rank(causes, signs, experience)
        assert find_next(causes, signs) == find_next(causes, signs, experience=experience)


def test_the_browser_reckons_alike_with_counts(cases_of: Callable[[int], int]) -> None:
    rng = seeded(22)
    given = []
    for _ in range(cases_of(1500)):
        causes = some_causes(rng, ADJUSTERS)
        signs = Signs(
            tuple(defect for defect in DEFECT_IDS if rng.random() < 0.4),
            (),
            {name: rng.choice(("larger", "smaller")) for name in ("body-hook", "cover-hook") if rng.random() < 0.6},
            rng.choice((None, *ANSWERS["extent"])),
        )
        counts = [
            Confirmed(
                rng.choice(("crank", "lever")),
                rng.choice((*DEFECT_IDS, "short-overlap", "constructor")),
                rng.choice(("cause-0", "cause-1", "cause-2", "constructor")),
                rng.randint(1, 12),
            )
            for _ in range(rng.randint(0, 6))
        ]
        given.append((causes, signs, counts, rng.choice(("crank", None))))
    measured = {"short-overlap": {"body-hook": "smaller", "cover-hook": "smaller"}}
    experiences = [find_experience(counts, measured, signs, sealer) for _, signs, counts, sealer in given]
    arguments = [[plain(counts), measured, plain(signs), sealer] for _, signs, counts, sealer in given]
    assert [plain(each) for each in experiences] == in_browser("findExperience", arguments)
    assert sum(each is not None for each in experiences) > len(given) / 5
    ranked = in_browser("rank", [[plain(g[0]), plain(g[1]), plain(e)] for g, e in zip(given, experiences, strict=True)])
    asked = in_browser(
        "findNext", [[plain(g[0]), plain(g[1]), None, plain(e)] for g, e in zip(given, experiences, strict=True)]
    )
    for (causes, signs, _, _), experience, ranking, ask in zip(given, experiences, ranked, asked, strict=True):
        assert plain(rank(causes, signs, experience)) == ranking
        assert plain(find_next(causes, signs, experience=experience)) == ask
