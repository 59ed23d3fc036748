from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seaming.test_readings import a_seam
from tinwright.errors import SeamingError
from tinwright.seaming import (
    Limit,
    Reading,
    SeamLimits,
    SeamReadings,
    SeenDefect,
    compare,
    find_directions,
    inches_text,
    judge,
    percent_text,
    span_text,
)

HOOK = SeamLimits((Limit("body-hook", 0.072, 0.078, 0.084),))
ERROR = {"body-hook": 0.001, "cover-hook": 0.001, "seam-width": 0.001, "end-plate": 0.0005}
ORDER = ["accept", "measure-again", "reject"]


def part(verdict, dimension: str):
    return next(each for each in verdict.parts if each.dimension == dimension)


@pytest.mark.parametrize(
    ("values", "outcome"),
    [
        ([0.078] * 3, "accept"),
        ([0.0730, 0.078, 0.078], "measure-again"),
        ([0.0715, 0.078, 0.078], "measure-again"),
        ([0.0700, 0.078, 0.078], "reject"),
        ([0.078, 0.078, 0.083], "measure-again"),
        ([0.078, 0.078, 0.0860], "reject"),
        ([0.070, 0.078, 0.086], "reject"),
    ],
)
def test_the_worst_reading_decides(values: list[float], outcome: str) -> None:
    assert judge(a_seam(body_hook=values), HOOK, ERROR).outcome == outcome


def test_the_guard_band_is_1_645_standard_uncertainties() -> None:
    assert compare(0.072 + 0.00165, 0.072, None, 0.001) == "accept"
    assert compare(0.072 + 0.00164, 0.072, None, 0.001) == "measure-again"
    assert compare(0.072 - 0.00164, 0.072, None, 0.001) == "measure-again"
    assert compare(0.072 - 0.00165, 0.072, None, 0.001) == "reject"


def test_a_reading_at_the_limit_is_not_rejected_by_rounding() -> None:
    # 0.076 + 0.078 + 0.010 - 0.118 is 0.046 and a little, 0.3 - 0.1 is a little below 0.2
    assert compare(0.3 - 0.1, 0.2, None, 0.0) == "accept"


def test_limits_closer_than_their_guard_bands_can_never_accept() -> None:
    assert compare(0.0505, 0.050, 0.051, 0.001) == "measure-again"


def test_without_a_specification_there_is_no_verdict_and_it_says_why() -> None:
    verdict = judge(a_seam(body_hook=[0.078] * 3), None, ERROR)
    assert verdict.outcome == "no-limit"
    assert "No seam specification was chosen" in verdict.reasons[0]
    assert part(verdict, "body-hook").probability is None


def test_hooks_that_do_not_meet_are_rejected_without_any_limit() -> None:
    apart = a_seam(body_hook=[0.050] * 3, cover_hook=[0.050] * 3, seam_width=[0.120] * 3)
    verdict = judge(apart, None, ERROR)
    assert verdict.outcome == "reject"
    assert "false seam" in verdict.reasons[0]
    near = a_seam(body_hook=[0.054] * 3, cover_hook=[0.0555] * 3, seam_width=[0.120] * 3)
    assert judge(near, None, ERROR).outcome == "measure-again"


def test_what_was_seen_overrides_any_measurement() -> None:
    seam = a_seam(body_hook=[0.078] * 3)
    for disposition, outcome in [
        ("reject", "reject"),
        ("discard-part", "reject"),
        ("hold", "measure-again"),
        ("cosmetic", "accept"),
    ]:
        assert judge(seam, HOOK, ERROR, [SeenDefect("d", "Some defect", disposition)]).outcome == outcome
    verdict = judge(seam, HOOK, ERROR, [SeenDefect("droop", "Droop", "reject")])
    assert verdict.reasons[0] == "Droop: do not use this can, whatever it measures."


def test_what_has_a_limit_must_be_measured() -> None:
    limits = SeamLimits((*HOOK.limits, Limit("cover-hook", 0.070)), percent_overlap_low=45)
    verdict = judge(a_seam(body_hook=[0.078] * 3), limits, ERROR)
    assert verdict.outcome == "measure-again"
    assert part(verdict, "cover-hook").outcome == "not-measured"
    assert part(verdict, "percent-overlap").outcome == "not-measured"


def test_an_aim_alone_is_no_limit() -> None:
    limits = SeamLimits((Limit("body-hook", aim=0.078), Limit("cover-hook", aim=0.078)))
    verdict = judge(a_seam(body_hook=[0.078] * 3), limits, ERROR)
    assert verdict.outcome == "no-limit"
    assert "Nothing that was measured has a limit in this specification." in verdict.reasons


def test_too_few_points_are_not_accepted() -> None:
    verdict = judge(a_seam(body_hook=[0.078] * 2), HOOK, ERROR)
    assert verdict.outcome == "measure-again"
    assert "2 of 3 points" in verdict.reasons[0]
    few = a_seam(body_hook=[0.078] * 2, cover_hook=[0.078] * 3, seam_width=[0.118] * 3)
    overlap = judge(few, SeamLimits((Limit("overlap", 0.040),)), ERROR)
    assert part(overlap, "overlap").outcome == "measure-again"


def test_overlap_takes_shortest_hooks_and_widest_seam() -> None:
    seam = a_seam(body_hook=[0.078, 0.076, 0.078], cover_hook=[0.074, 0.078, 0.078], seam_width=[0.118, 0.118, 0.121])
    overlap = part(judge(seam, None, ERROR), "overlap")
    assert overlap.least == pytest.approx(0.074 + 0.076 + 0.010 - 0.121)
    assert overlap.greatest == pytest.approx(0.078 + 0.078 + 0.010 - 0.118)
    assert overlap.uncertainty == pytest.approx(0.00180277563)
    assert dict(overlap.inputs) == {"CH": 0.074, "BH": 0.076, "Te": 0.010, "W": 0.121}


def test_the_variant_belongs_to_the_limit() -> None:
    seam = a_seam(body_hook=[0.078] * 3, cover_hook=[0.067] * 3, seam_width=[0.120] * 3)
    outcomes = {
        variant: part(judge(seam, SeamLimits((), 45.0, variant), {}), "percent-overlap").outcome for variant in "ABC"
    }
    assert outcomes == {"A": "reject", "B": "reject", "C": "reject" if _percent(seam, "C") < 45 else "accept"}
    assert part(judge(seam, None, {}, variant="C"), "percent-overlap").formula == "percent-overlap-c"


def _percent(seam: SeamReadings, variant: str) -> float:
    least: float = part(judge(seam, None, {}, variant=variant), "percent-overlap").least
    return least


def test_overlap_read_on_a_section_is_judged_as_read() -> None:
    seam = a_seam("optical", overlap=[0.046, 0.044])
    found = part(judge(seam, SeamLimits((Limit("overlap", 0.040),)), {"overlap": 0.001}), "overlap")
    assert (found.least, found.formula, found.outcome) == (0.044, "", "accept")


def test_tightness_and_butting_have_only_a_least_value() -> None:
    seam = a_seam(tightness=[60], body_hook=[0.078] * 3, seam_width=[0.118] * 3)
    verdict = judge(seam, SeamLimits(butting_low=70, tightness_low=70), {})
    assert part(verdict, "tightness").outcome == "reject"
    assert part(verdict, "body-hook-butting").outcome == "accept"
    assert "Tightness 60% is below the least allowed, 70%." in verdict.reasons


def test_no_room_in_the_seam_gives_no_percentage() -> None:
    seam = a_seam(body_hook=[0.078] * 3, cover_hook=[0.078] * 3, seam_width=[0.030] * 3)
    names = [each.dimension for each in judge(seam, None, {}).parts]
    assert "percent-overlap" not in names
    assert "overlap" in names


def test_an_unstated_error_is_said_so() -> None:
    verdict = judge(a_seam(body_hook=[0.078] * 3), HOOK, {})
    assert verdict.outcome == "accept"
    assert any("No error of the instrument is stated for: Body hook" in reason for reason in verdict.reasons)


def test_acceptance_reminds_of_the_eye() -> None:
    assert "look and feel right" in judge(a_seam(body_hook=[0.078] * 3), HOOK, ERROR).reasons[-1]


def test_directions_for_the_cause_finder() -> None:
    limits = SeamLimits(
        (
            Limit("countersink", None, None, 0.130),
            Limit("seam-width", 0.110, None, 0.124),
            Limit("body-hook", 0.072, None, 0.084),
            Limit("cover-hook", 0.072, None, 0.084),
        )
    )
    seam = a_seam(
        countersink=[0.125] * 3,
        seam_width=[0.105, 0.118, 0.130],
        body_hook=[0.090] * 3,
        cover_hook=[0.060] * 3,
    )
    expected = {"countersink": "normal", "seam-width": "varies", "body-hook": "larger", "cover-hook": "smaller"}
    assert find_directions(judge(seam, limits, ERROR)) == expected


def test_how_far_it_is_out() -> None:
    assert part(judge(a_seam(body_hook=[0.090] * 3), HOOK, ERROR), "body-hook").out_by == pytest.approx(0.006)
    assert part(judge(a_seam(body_hook=[0.078] * 3), HOOK, ERROR), "body-hook").out_by == 0


def test_impossible_input_is_refused() -> None:
    with pytest.raises(SeamingError, match="zero or more"):
        judge(a_seam(), None, {"body-hook": -1})
    with pytest.raises(SeamingError, match="A, B or C"):
        judge(a_seam(), None, {}, variant="D")


def test_numbers_in_words() -> None:
    assert (inches_text(0.0465), inches_text(1.4), inches_text(-0.00001)) == ("0.0465 in", "1.400 in", "0.000 in")
    assert (percent_text(99.96), percent_text(45)) == ("100%", "45%")
    assert span_text("tightness", 70, 80) == "70 to 80%"
    assert span_text("body-hook", 0.078, 0.078) == "0.078 in"


lengths = st.integers(30, 140).map(lambda number: number / 1000)
errors = st.integers(0, 20).map(lambda number: number / 10000)


def overlap_outcome(cover: float, body: float, width: float, error: float, low: float) -> str:
    seam = a_seam(body_hook=[body] * 3, cover_hook=[cover] * 3, seam_width=[width] * 3)
    uncertainties = dict.fromkeys(("body-hook", "cover-hook", "seam-width"), error)
    outcome: str = part(judge(seam, SeamLimits((Limit("overlap", low),)), uncertainties), "overlap").outcome
    return outcome


@given(cover=lengths, body=lengths, width=lengths, error=errors, more=st.integers(0, 30))
def test_more_overlap_never_worsens_the_verdict(
    cover: float, body: float, width: float, error: float, more: int
) -> None:
    first = overlap_outcome(cover, body, width, error, 0.045)
    for changed in ((cover + more / 1000, body, width), (cover, body + more / 1000, width)):
        assert ORDER.index(overlap_outcome(*changed, error, 0.045)) <= ORDER.index(first)


@given(value=lengths, error=errors, more=st.integers(0, 20))
def test_a_larger_error_never_turns_doubt_into_a_decision(value: float, error: float, more: int) -> None:
    first = compare(value, 0.072, 0.084, error)
    second = compare(value, 0.072, 0.084, error + more / 10000)
    assert second == first or second == "measure-again"


@given(values=st.lists(lengths, min_size=3, max_size=5), extra=lengths, error=errors)
def test_another_reading_never_betters_the_verdict(values: list[float], extra: float, error: float) -> None:
    outcomes = [
        judge(a_seam(body_hook=readings), HOOK, {"body-hook": error}).outcome for readings in (values, [*values, extra])
    ]
    assert ORDER.index(outcomes[1]) >= ORDER.index(outcomes[0])


@given(low=lengths, wider=st.integers(0, 20), value=lengths, error=errors)
def test_a_wider_limit_never_worsens_the_verdict(low: float, wider: int, value: float, error: float) -> None:
    tight, wide = compare(value, low, None, error), compare(value, low - wider / 1000, None, error)
    assert ORDER.index(wide) <= ORDER.index(tight)


def test_readings_of_points_by_name() -> None:
    seam = SeamReadings("optical", (Reading("body-hook", "A", 0.078), Reading("body-hook", "B", 0.079)))
    assert seam.extremes("body-hook").points == 2
    assert seam.extremes("cover-hook") is None
