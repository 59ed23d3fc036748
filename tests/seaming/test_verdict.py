from __future__ import annotations

from dataclasses import replace

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
    find_amounts,
    find_directions,
    find_questions,
    inches_text,
    judge,
    length_text,
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


GOOD = {
    "countersink": [0.125] * 3,
    "seam_width": [0.118] * 3,
    "seam_thickness": [0.056] * 3,
    "body_hook": [0.078] * 3,
    "cover_hook": [0.076] * 3,
}
SHEET = SeamLimits(
    (
        Limit("seam-width", 0.110, 0.118, 0.125),
        Limit("seam-thickness", 0.052, 0.055, 0.060),
        Limit("body-hook", 0.070, 0.078, 0.086),
        Limit("cover-hook", 0.068, 0.076, 0.084),
        Limit("overlap", 0.040),
    ),
    percent_overlap_low=45.0,
    end_plate_in=0.010,
    body_plate_in=0.010,
)
STATED = dict.fromkeys(("countersink", "seam-width", "seam-thickness", "body-hook", "cover-hook", "overlap"), 0.0005)


def plated(end: float | None, body: float | None = 0.010, **changed: list[float]) -> SeamReadings:
    return replace(a_seam(**{**GOOD, **changed}), end_plate_in=end, body_plate_in=body)


@pytest.mark.parametrize(
    ("seam", "kind"),
    [
        (plated(0.022), "plate-odd"),
        (plated(0.012), "plate-differs"),
        (plated(0.010, 0.0085), "plate-differs"),
        (plated(None), "plate-missing"),
        (plated(0.030), "more-than-room"),
        (plated(0.0115, 0.0115, seam_thickness=[0.0561] * 3), "free-space-negative"),
        (plated(0.010, overlap=[0.052] * 3), "overlap-contradicts"),
    ],
)
def test_no_seam_is_accepted_while_a_question_is_open(seam: SeamReadings, kind: str) -> None:
    limits = SeamLimits((Limit("seam-width", 0.110, 0.118, 0.125),), end_plate_in=0.010, body_plate_in=0.010)
    assert judge(plated(0.010), SHEET, STATED).outcome == "accept"
    assert kind in [question.kind for question in find_questions(seam, limits, STATED)]
    verdict = judge(seam, limits, STATED)
    assert verdict.outcome == "measure-again"
    assert "A question about these readings is open. Answer it before you accept this can." in verdict.reasons


def test_a_plate_typed_too_thick_makes_no_short_overlap_good() -> None:
    short = {"body_hook": [0.0725] * 3, "cover_hook": [0.0705] * 3, "seam_width": [0.122] * 3}
    assert judge(plated(0.010, **short), SHEET, STATED).outcome == "reject"
    thick = judge(plated(0.022, **short), SHEET, STATED)
    assert part(thick, "overlap").outcome == "accept"
    assert thick.outcome == "measure-again"


def test_an_overlap_of_271_percent_is_asked_about() -> None:
    # hooks and width within their limits, a plate of .040
    seam = plated(0.040, seam_width=[0.1185] * 3, body_hook=[0.071] * 3, cover_hook=[0.070] * 3)
    most = part(judge(seam, SHEET, STATED), "percent-overlap").greatest
    assert most > 200
    assert "more-than-room" in [question.kind for question in find_questions(seam, SHEET, STATED)]
    assert judge(seam, SHEET, STATED).outcome == "measure-again"


def test_a_plate_within_a_tenth_of_the_sheet_and_an_overlap_that_agrees_are_not_asked_about() -> None:
    for seam in (plated(0.011), plated(0.009, 0.0095), plated(0.010, overlap=[0.0455] * 3)):
        assert find_questions(seam, SHEET, STATED) == ()


def test_an_overlap_read_just_as_it_is_worked_out_is_not_asked_about_by_whoever_states_no_error() -> None:
    """0.076 + 0.078 + 0.010 - 0.118 is 0.046, which no binary fraction is."""
    assert find_questions(plated(0.010, overlap=[0.046] * 3), SHEET, {}) == ()


def test_a_reading_to_two_places_is_only_sure_to_two_places() -> None:
    # .08 lies between .075 and .085, a uniform distribution of standard uncertainty .005/sqrt(3) (JCGM 100:2008, 4.3.7)
    seam = SeamReadings("micrometer", tuple(Reading("body-hook", p, 0.08, 0.01) for p in "123"), 0.010, 0.010)
    hook = part(judge(seam, SeamLimits((Limit("body-hook", 0.072, None, 0.084),)), {}), "body-hook")
    assert hook.uncertainty == pytest.approx(0.005 / 3**0.5)
    assert hook.outcome == "measure-again"
    sharp = SeamReadings("micrometer", tuple(Reading("body-hook", p, 0.08, 0.001) for p in "123"), 0.010, 0.010)
    assert judge(sharp, SeamLimits((Limit("body-hook", 0.072, None, 0.084),)), {}).outcome == "accept"


def test_the_rounding_goes_into_what_is_computed() -> None:
    readings = [
        Reading(name, p, value, 0.01)
        for name, value in (("body-hook", 0.08), ("cover-hook", 0.08), ("seam-width", 0.12))
        for p in "123"
    ]
    seam = SeamReadings("micrometer", tuple(readings), 0.010, 0.010, 0.001, 0.001)
    # three readings to .01 and a plate to .001: sqrt(3 * .01^2/12 + .001^2/12)
    expected = (3 * 0.01**2 / 12 + 0.001**2 / 12) ** 0.5
    assert part(judge(seam, None, {}), "overlap").uncertainty == pytest.approx(expected)


@given(values=st.lists(lengths, min_size=3, max_size=5), extra=lengths, error=errors, coarse=st.booleans())
def test_a_coarse_reading_never_betters_the_verdict(
    values: list[float], extra: float, error: float, coarse: bool
) -> None:
    readings = tuple(Reading("body-hook", str(place), value, 0.001) for place, value in enumerate(values))
    more = (*readings, Reading("body-hook", "more", extra, 0.01 if coarse else 0.001))
    outcomes = [
        judge(SeamReadings("micrometer", given, 0.010, 0.010), HOOK, {"body-hook": error}).outcome
        for given in (readings, more)
    ]
    assert ORDER.index(outcomes[1]) >= ORDER.index(outcomes[0])


def test_what_is_too_near_its_limit_has_no_direction_and_no_amount() -> None:
    near = judge(plated(0.010, body_hook=[0.0865] * 3), SHEET, STATED)
    assert near.outcome == "measure-again"
    assert "body-hook" not in find_directions(near)
    assert find_amounts(near) == {}
    # short beyond doubt, long perhaps: only what is sure is told
    both = judge(a_seam(body_hook=[0.060, 0.078, 0.0845]), HOOK, ERROR)
    assert find_directions(both) == {"body-hook": "smaller"}


def test_computed_values_are_told_when_they_alone_are_out() -> None:
    seam = plated(0.010, body_hook=[0.0725] * 3, cover_hook=[0.0705] * 3, seam_width=[0.1225] * 3)
    verdict = judge(seam, SHEET, STATED)
    assert [each.dimension for each in verdict.parts if each.outcome == "reject"] == ["overlap", "percent-overlap"]
    # what the overlap was computed from is not called normal: together it is not
    assert find_directions(verdict) == {"seam-thickness": "normal", "overlap": "smaller"}
    assert find_amounts(verdict)["overlap"] == pytest.approx(0.040 - (0.0725 + 0.0705 + 0.010 - 0.1225))


def test_percent_overlap_alone_is_told_as_the_overlap_and_butting_as_itself() -> None:
    share = judge(plated(0.010, cover_hook=[0.0695] * 3), SeamLimits(percent_overlap_low=50.0), STATED)
    assert find_directions(share) == {"overlap": "smaller"}
    butting = judge(plated(0.010, body_hook=[0.0705] * 3), SeamLimits(butting_low=75.0), STATED)
    assert find_directions(butting) == {"body-hook-butting": "smaller"}


def test_computed_values_do_not_count_a_measured_fact_twice() -> None:
    verdict = judge(plated(0.010, cover_hook=[0.050] * 3), SHEET, STATED)
    assert part(verdict, "overlap").outcome == "reject"
    assert "overlap" not in find_directions(verdict)


def test_the_unit_typed_is_the_unit_spoken() -> None:
    assert length_text(0.070, "mm") == "1.778 mm"
    readings = tuple(Reading("body-hook", p, 1.70 / 25.4) for p in "123")
    verdict = judge(SeamReadings("micrometer", readings, 0.010, 0.010, unit="mm"), HOOK, {})
    assert verdict.reasons[0] == "Body hook 1.70 mm is below the least allowed, 1.829 mm."


@pytest.mark.parametrize(("unit", "factor"), [("mm", 1 / 25.4), ("in", 25.4)])
def test_readings_in_the_other_unit_are_one_question(unit: str, factor: float) -> None:
    seam = a_seam(**{name: [value * factor for value in values] for name, values in GOOD.items()})
    asked = find_questions(replace(seam, unit=unit), SHEET, STATED)
    assert [question.kind for question in asked] == ["unit"]
    verdict = judge(replace(seam, unit=unit), SHEET, STATED)
    assert (verdict.outcome, verdict.parts) == ("measure-again", ())
    seen = [SeenDefect("droop", "Droop", "reject")]
    assert judge(replace(seam, unit=unit), SHEET, STATED, seen).outcome == "reject"
    assert asked[0].text.startswith("15 readings are ")
    here, there = ("millimeters", "inches") if unit == "mm" else ("inches", "millimeters")
    assert f" in {here}, such as Countersink depth, point 1: " in asked[0].text
    assert asked[0].text.endswith(f"Were they read in {there}? Then set the unit to {there}.")


def test_one_dimension_in_another_unit_is_no_question_about_the_unit() -> None:
    seam = plated(0.010, body_hook=[1.98] * 3)
    assert {question.kind for question in find_questions(seam, SHEET, STATED)} >= {"millimeters"}
