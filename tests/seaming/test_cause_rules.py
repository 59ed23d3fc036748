"""What must hold of every ranking, whatever the records say: the rules in words, over small made-up knowledge."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import assume, given
from hypothesis import strategies as st

from seaming.small_knowledge import CAUSES, COUNTS, MEASURED, lists, told, untold, with_sign
from seaming.twin import a_cause, in_browser, plain, seeded, some_causes
from tinwright.seaming import (
    ADJUSTERS,
    CauseProfile,
    Confirmed,
    Ranking,
    Sign,
    Signs,
    find_experience,
    find_next,
    list_signs,
    rank,
)

ALMOST = 1e-9
WORDS = ("unlikely", "possible", "likely")


def ranked(causes: list[CauseProfile], signs: Signs, counts: list[Confirmed]) -> Ranking:
    return rank(causes, signs, find_experience(counts, MEASURED, signs, "ours"))


def shares(ranking: Ranking) -> dict[str, float]:
    return {each.cause: each.share for each in ranking.causes}


def words(ranking: Ranking) -> dict[str, str]:
    return {each.cause: each.word for each in ranking.causes}


def is_no_likelier(cause: str, after: Ranking, before: Ranking) -> bool:
    """Compare odds against none of these, without dividing."""
    return shares(after)[cause] * before.unknown_share <= shares(before)[cause] * after.unknown_share + ALMOST


@given(CAUSES, told(), COUNTS)
def test_a_cause_is_offered_only_where_a_fault_told_speaks_for_it(
    causes: list[CauseProfile], signs: Signs, counts: list[Confirmed]
) -> None:
    ranking = ranked(causes, signs, counts)
    faults = [s for s in list_signs(signs) if s.kind == "defect" or (s.kind == "direction" and s.answer != "normal")]
    for each in ranking.causes:
        for_it = {reason.sign for reason in each.reasons if reason.stance == "supports"}
        assert each.word == "unlikely" or for_it & set(faults)
    assert faults or not ranking.explained


@given(CAUSES, told(), COUNTS, st.data())
def test_what_is_as_it_should_be_or_not_found_only_rules_out(
    causes: list[CauseProfile], signs: Signs, counts: list[Confirmed], data: st.DataObject
) -> None:
    harmless = [sign for sign in untold(signs) if sign.kind == "absent" or sign.answer == "normal"]
    assume(harmless)
    before, after = (
        ranked(causes, each, counts) for each in (signs, with_sign(signs, data.draw(st.sampled_from(harmless))))
    )
    assert all(is_no_likelier(cause.cause, after, before) for cause in causes)
    assert before.explained or not after.explained


@given(CAUSES, told(), COUNTS, st.data())
def test_a_sign_that_a_cause_lists_never_lowers_its_odds_against_none_of_these(
    causes: list[CauseProfile], signs: Signs, counts: list[Confirmed], data: st.DataObject
) -> None:
    listed = [(cause, sign) for cause in causes for sign in untold(signs) if lists(cause, sign)]
    assume(listed)
    cause, sign = data.draw(st.sampled_from(listed))
    before, after = (ranked(causes, each, counts) for each in (signs, with_sign(signs, sign)))
    assert is_no_likelier(cause.cause, before, after)
    if sign.kind in {"extent", "repeats", "last-change"}:
        assert WORDS.index(words(after)[cause.cause]) >= WORDS.index(words(before)[cause.cause])


@given(CAUSES, told(), st.data())
def test_how_many_places_a_cause_lists_says_nothing(
    causes: list[CauseProfile], signs: Signs, data: st.DataObject
) -> None:
    assume(signs.extent)
    one = replace(causes[0], extents=(signs.extent,))
    more = data.draw(st.lists(st.sampled_from(("all-round", "part-round", "one-place", "side-seam")), unique=True))
    several = replace(one, extents=tuple({*more, signs.extent}))
    assert shares(rank([one, *causes[1:]], signs)) == shares(rank([several, *causes[1:]], signs))


@given(CAUSES, told(), COUNTS)
def test_a_history_never_lifts_a_cause_over_a_sign_against_it(
    causes: list[CauseProfile], signs: Signs, counts: list[Confirmed]
) -> None:
    before, after = rank(causes, signs), ranked(causes, signs, counts)
    against = {each.cause for each in after.causes if any(reason.stance == "contradicts" for reason in each.reasons)}
    for one in against:
        for other in causes:
            if shares(before)[one] <= shares(before)[other.cause]:
                assert shares(after)[one] <= shares(after)[other.cause] + ALMOST
        assert is_no_likelier(one, after, before)


@given(CAUSES, told(), COUNTS, st.randoms(use_true_random=False))
def test_the_order_of_signs_changes_nothing(
    causes: list[CauseProfile], signs: Signs, counts: list[Confirmed], chance: object
) -> None:
    def mixed(items: object) -> list:
        found = list(items)  # type: ignore[call-overload]
        chance.shuffle(found)  # type: ignore[attr-defined]
        return found

    other = replace(
        signs,
        defects=tuple(mixed(signs.defects)),
        absent=tuple(mixed(signs.absent)),
        directions=dict(mixed(signs.directions.items())),
    )
    mixed_causes, mixed_counts = mixed(causes), mixed(counts)
    assert ranked(mixed_causes, other, mixed_counts) == ranked(causes, signs, counts)
    first, second = (
        find_next(some, told_, experience=find_experience(given_, MEASURED, told_, "ours"))
        for some, told_, given_ in ((causes, signs, counts), (mixed_causes, other, mixed_counts))
    )
    assert first == second


def test_the_order_of_signs_changes_nothing_on_the_phone() -> None:
    chance = seeded(31)
    given_, mixed = [], []
    for _ in range(1000):
        causes = some_causes(chance, ADJUSTERS)
        defects = [name for name in ("droop", "vee", "sharp-seam", "spinner") if chance.random() < 0.6]
        directions = [(name, chance.choice(("larger", "smaller", "normal"))) for name in ("body-hook", "cover-hook")]
        for into in (given_, mixed):
            into.append([plain(causes), plain(Signs(tuple(defects), (), dict(directions)))])
            chance.shuffle(causes)
            chance.shuffle(defects)
            chance.shuffle(directions)
    for name in ("rank", "findNext"):
        assert in_browser(name, given_) == in_browser(name, mixed)


def test_causes_that_the_signs_fit_alike_stay_tied_whichever_factor_comes_first() -> None:
    # .6 x .1 x .1 and .1 x .1 x .6 differ in the last digit that a computer keeps
    likelihoods = ("common", "rare", "rare")
    defects = ("droop", "spinner", "vee")
    causes = [
        a_cause(f"cause-{place}", "chuck", likelihoods=dict(zip(defects, words_, strict=True)))
        for place, words_ in enumerate((likelihoods, likelihoods[::-1], (*likelihoods[1:], likelihoods[0])))
    ]
    ranking = rank(causes, Signs(defects))
    assert len({each.share for each in ranking.causes}) == 1
    assert [each.cause for each in ranking.causes] == ["cause-0", "cause-1", "cause-2"]


def test_one_dimension_out_and_five_as_they_should_be_accuse_nobody() -> None:
    causes = [
        a_cause("chuck-wrong-size", "chuck", extents=("all-round",)),
        a_cause("chuck-worn", "chuck", effects={"cover-hook": "varies"}, extents=("all-round",)),
        a_cause("rough-handling", "handling"),
    ]
    others = dict.fromkeys(("countersink", "seam-thickness", "body-hook", "cover-hook", "tightness"), "normal")
    for signs in (
        Signs(directions={"seam-width": "larger"}),
        Signs(directions={"seam-width": "larger", **others}),
        Signs(directions={"seam-width": "larger", **others}, extent="all-round", repeats="every-can"),
    ):
        ranking = rank(causes, signs)
        assert not ranking.explained
        assert set(words(ranking).values()) == {"unlikely"}


def test_where_and_how_often_alone_accuse_nobody() -> None:
    worn = a_cause("chuck-worn", "chuck", extents=("one-place",), repeats=("same-place",), after=("chuck",))
    ranking = rank([worn], Signs(extent="one-place", repeats="same-place", last_change="chuck"))
    assert not ranking.explained
    assert words(ranking) == {"chuck-worn": "unlikely"}


def test_a_measured_defect_speaks_for_every_cause_it_names() -> None:
    moved = {"effects": {"body-hook": "smaller"}, "effect_likelihoods": {"body-hook": {"varies": "common"}}}
    ranking = rank([a_cause("chuck-not-seated", "chuck", **moved)], Signs(directions={"body-hook": "varies"}))
    assert ranking.explained
    assert ranking.causes[0].reasons[0].stance == "supports"


def test_a_sign_told_twice_counts_once() -> None:
    cause = a_cause("a", "chuck", likelihoods={"droop": "rare"})
    assert rank([cause], Signs(("droop", "droop"))) == rank([cause], Signs(("droop",)))
    assert list_signs(Signs(("droop", "droop"))) == (Sign("defect", "droop", "seen"),)
