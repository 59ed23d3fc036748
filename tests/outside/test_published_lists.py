"""The knowledge base against lists and tables that others have published."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from tinwright.knowledge import KnowledgeBase
    from tinwright.knowledge.models import Defect

FAO_17_DOUBLE_SEAM = {
    # FAO Manuals of Food Quality Control 17 (1998), unacceptable defects, double seams (contents list read)
    "droop": "droops",
    "vee": "vees and spurs",
    "false-seam": "false seam",
    "cutover": "fractured cutover",
    "spinner": "incomplete seam",
    "knocked-down-curl": "knocked-down curl",
    "knocked-down-flange": "knocked-down flange",
    "torn-flange": "torn flange",
    # same list, can ends
    "cut-seam": "cut seam",
}

CFR_113_60_VISUAL = {
    # 21 CFR 113.60(a), 2015 edition, read whole: what the visual check should look for
    "cutover": "cutover or sharpness",
    "sharp-seam": "cutover or sharpness",
    "spinner": "skidding or deadheading",
    "false-seam": "false seam",
    "side-seam-droop": "droop at the crossover or lap",
    "broken-chuck-mark": "condition of inside of countersink wall for evidence of broken chuck",
}

CFR_318_301_VISUAL = {
    # former 9 CFR 318.301(b)(1), 2015 edition, read whole
    "cutover": "cutovers",
    "sharp-seam": "sharpness",
    "knocked-down-flange": "knocked-down flanges",
    "false-seam": "false seams",
    "droop": "droops",
}

CFIA_GRADES = {
    # CFIA Metal Can Defects, chapter 7.5 (weak copy where marked so in the record): cutover serious, sharp seam minor,
    # cut-down flange serious, broken chuck serious
    "cutover": "serious",
    "sharp-seam": "minor",
    "torn-flange": "serious",
    "broken-chuck-mark": "serious",
}

DIRECTIONS = {
    # Azaquar, dimensional seam defects (French original and English translation), the one source of the table:
    # (body hook, cover hook, countersink); None where the source makes no claim
    "first-roller-tight": ("smaller", "larger", None),
    "first-roller-loose": ("larger", "smaller", None),
    "base-pressure-high": ("larger", "smaller", "larger"),
    "base-pressure-low": ("smaller", None, None),
    "chuck-base-distance-small": ("larger", "smaller", "larger"),
    "chuck-base-distance-large": ("smaller", None, None),
    "first-roller-worn": (None, "smaller", None),
}

ON_A_HAND_SEALER = (
    # CFIA chapter 7.5 in order, without 7.5.10 and 7.5.11, which are faults of key-open cans
    "broken-chuck-mark first-operation-unfinished cutover sharp-seam torn-flange droop false-seam fractured-seam "
    "short-overlap jump-over knocked-down-curl knocked-down-end knocked-down-flange loose-seam no-second-operation "
    "pleat pucker seam-inclusion side-seam-droop spinner vee cut-seam dented-seam mushroomed-flange uneven-body-hook "
    "uneven-cover-hook long-body-hook short-body-hook long-cover-hook short-cover-hook deep-countersink chuck-print "
    "knurl-print compound-squeeze-out wrinkled-curl"
).split()


def grades(defect: Defect, scheme: str) -> list[str]:
    return [severity.grade for severity in defect.severity if severity.scheme == scheme]


@pytest.mark.parametrize("id_", FAO_17_DOUBLE_SEAM)
def test_fao_17_calls_it_unacceptable(kb: KnowledgeBase, id_: str) -> None:
    assert grades(kb.defects[id_], "fao-17") == ["unacceptable"]


@pytest.mark.parametrize("id_", CFR_113_60_VISUAL)
def test_21_cfr_113_60_lists_it_for_the_visual_check(kb: KnowledgeBase, id_: str) -> None:
    assert "cfr-21-113-60" in {evidence.source for evidence in kb.defects[id_].listed_in}


@pytest.mark.parametrize("id_", CFR_318_301_VISUAL)
def test_former_9_cfr_318_301_lists_it_for_the_visual_check(kb: KnowledgeBase, id_: str) -> None:
    assert "cfr-9-318-301" in {evidence.source for evidence in kb.defects[id_].listed_in}


@pytest.mark.parametrize(("id_", "grade"), CFIA_GRADES.items())
def test_cfia_grades_it_so(kb: KnowledgeBase, id_: str, grade: str) -> None:
    assert grades(kb.defects[id_], "cfia") == [grade]


@pytest.mark.parametrize(("id_", "expected"), DIRECTIONS.items())
def test_the_effects_of_a_cause_reproduce_the_direction_table(
    kb: KnowledgeBase, id_: str, expected: tuple[str | None, ...]
) -> None:
    effects = {effect.dimension: effect for effect in kb.causes[id_].effects}
    found = tuple(
        str(effects[dimension].direction) if dimension in effects else None
        for dimension in ("body-hook", "cover-hook", "countersink")
    )
    assert found == expected
    for dimension in ("body-hook", "cover-hook", "countersink"):
        if dimension in effects:
            assert effects[dimension].evidence.source == "azaquar-dimensional"
            assert effects[dimension].evidence.single


def test_the_second_roller_gives_no_direction_for_the_body_hook(kb: KnowledgeBase) -> None:
    # two published statements contradict each other (facts: one source says too loose, trade lists say too tight)
    for id_ in ("second-roller-loose", "second-roller-tight"):
        for effect in kb.causes[id_].effects:
            assert effect.dimension != "body-hook" or effect.direction == "disputed"
    assert kb.defects["short-body-hook"].conflicts
    assert not {"second-roller-loose", "second-roller-tight"} & {
        link.cause for link in kb.defects["short-body-hook"].causes
    }


def test_every_defect_of_the_catalogue_that_a_hand_sealer_can_make_is_there(kb: KnowledgeBase) -> None:
    assert [id_ for id_ in ON_A_HAND_SEALER if id_ not in kb.defects] == []


# code: avoirdupois ounces of water at 68 °F. Can Manufacturers Institute, Dimensional Food Can Standards (read).
CMI_CAPACITIES = {
    "202x308": "6.08", "211x300": "7.93", "211x304": "8.68", "211x400": "10.94", "211x414": "13.56", "300x407": "15.22",
    "300x509": "19.40", "301x411": "16.70", "303x406": "16.88", "303x509": "21.86", "307x306": "14.71", "307x409": "20.55",
    "307x510": "25.80", "307x512": "26.40", "401x206": "13.81", "401x411": "29.79", "404x307": "23.90", "404x700": "51.70",
    "502x510": "59.10", "603x700": "109.43",
}  # fmt: skip

# code: US fluid ounces. sizes.com, can sizes (read); whole numbers, always rounded down.
FLUID_OUNCES = {
    "202x308": 5, "211x300": 7, "211x400": 10, "300x407": 14, "303x406": 16, "307x306": 14, "307x409": 19, "401x411": 28,
    "603x700": 105,
}  # fmt: skip


@pytest.mark.parametrize(("code", "ounces"), CMI_CAPACITIES.items())
def test_capacities_are_the_published_ounces_of_water(kb: KnowledgeBase, code: str, ounces: str) -> None:
    capacity = kb.cans[code].capacity
    assert capacity is not None
    assert str(capacity.oz_water_68f) == ounces
    assert capacity.evidence.source == "cmi-can-standards"


@pytest.mark.parametrize(("code", "fluid"), FLUID_OUNCES.items())
def test_the_other_ounce_agrees_only_after_the_units_are_converted(kb: KnowledgeBase, code: str, fluid: int) -> None:
    import pint

    units = pint.UnitRegistry()
    density = 0.998207 * units.gram / units.milliliter  # water at 20 °C
    capacity = kb.cans[code].capacity
    assert capacity is not None
    volume = (float(capacity.oz_water_68f) * units.avoirdupois_ounce) / density
    assert int(volume.to("US_fluid_ounce").magnitude) == fluid


@pytest.mark.parametrize("code", CMI_CAPACITIES)
def test_a_can_holds_a_sensible_part_of_its_outer_size(kb: KnowledgeBase, code: str) -> None:
    # derived: every row of the table fills 0.77 to 0.91 of the cylinder around it; a typing slip would not
    from math import pi

    from tinwright.measures import parse_can_code

    can, size = kb.cans[code], parse_can_code(code)
    assert can.capacity is not None
    milliliters = float(can.capacity.oz_water_68f) * 28.349523125 / 0.998207
    cylinder = pi / 4 * float(size.diameter_in) ** 2 * float(size.height_in) * 16.387064
    assert 0.77 < milliliters / cylinder < 0.91


def test_cans_with_known_names_have_no_capacity_of_their_own_invention(kb: KnowledgeBase) -> None:
    assert {can.id for can in kb.cans.values() if can.capacity} == set(CMI_CAPACITIES)


def test_the_counts_the_programme_promised(kb: KnowledgeBase) -> None:
    least = {
        "can": 24,
        "sealer": 3,
        "part": 36,
        "procedure": 18,
        "defect": 30,
        "cause": 26,
        "caution": 24,
        "term": 70,
        "source": 30,
    }
    assert {kind: len(kb.of_kind(kind)) for kind in least if len(kb.of_kind(kind)) < least[kind]} == {}
    assert {"301x408", "307x200.25"} <= set(kb.cans)
