"""From a value out of its limits to what it is called, its causes and a correction, or to what nobody has published."""

from __future__ import annotations

from dataclasses import replace
from types import MappingProxyType
from typing import TYPE_CHECKING

import pytest

from tinwright.advice.advice import advise_on_seam, signs_from
from tinwright.advice.profiles import defect_of, instrument_uncertainties, seam_limits
from tinwright.advice.readings_file import CanReadings
from tinwright.advice.spoken import seam_lines
from tinwright.knowledge import load
from tinwright.knowledge.models.can import ComputedValue, Dimension
from tinwright.knowledge.models.trouble import Direction, MeasuredSign
from tinwright.seaming import Reading, SeamReadings, judge

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from tinwright.advice.advice import SeamAdvice
    from tinwright.knowledge import KnowledgeBase
    from tinwright.knowledge.models import SeamSpecification

INSTRUMENTS = """\
title: A programme
office: An office
about: It seals cans.
altitude_ft: 100
local_rules: Ask.
kitchens:
  - name: A kitchen
instruments:
  - {name: micrometer, measures: [seam-thickness, body-hook], standard_uncertainty: 0.0004 in}
  - {name: another, measures: [countersink], standard_uncertainty: 0.001 in}
policy: {test_cans: 2, recheck_minutes: 30, recheck_cans: 24, review_months: 24, certificate_years: 2}
reviewed: 2026-11-02
"""


def test_the_plates_carry_the_error_of_the_instrument_they_are_read_with(
    content: Callable[[dict[str, str]], Path],
) -> None:
    errors = instrument_uncertainties(load(content({"program.yml": INSTRUMENTS})))
    assert (errors["end-plate"], errors["body-plate"]) == (0.0004, 0.0004)
    thickness = SeamReadings("micrometer", tuple(Reading("seam-thickness", p, 0.055) for p in "123"), 0.010, 0.010)
    free = next(part for part in judge(thickness, None, errors).parts if part.dimension == "free-space")
    # S - (3 Te + 2 Tb): sqrt(1 + 9 + 4) times the error of one reading (JCGM 100:2008, 5.1.2, equation 10)
    assert free.uncertainty == pytest.approx(0.0004 * 14**0.5)


def test_a_tightness_rated_by_eye_carries_the_step_it_is_rated_to(content: Callable[[dict[str, str]], Path]) -> None:
    # rated to the nearest ten percent: half-width 5, a uniform distribution (JCGM 100:2008, 4.3.7)
    default = instrument_uncertainties(load(content({"program.yml": INSTRUMENTS})))
    assert default["tightness"] == pytest.approx(5 / 3**0.5)
    finer = INSTRUMENTS.replace("test_cans: 2,", "test_cans: 2, tightness_step_percent: 5,")
    stated = instrument_uncertainties(load(content({"program.yml": finer})))
    assert stated["tightness"] == pytest.approx(2.5 / 3**0.5)


def advised(kb: KnowledgeBase, sheet: SeamSpecification, **values: float) -> SeamAdvice:
    """A can with its readings at the aims of the sheet, but for those given."""
    aims = {str(limit.dimension): float(limit.aim.inches) for limit in sheet.limits if limit.aim is not None}
    aims |= {name.replace("_", "-"): value for name, value in values.items()}
    readings = tuple(Reading(name, p, value, 0.0001) for name, value in aims.items() for p in "123")
    plates = float(sheet.end_plate.inches), float(sheet.body_plate.inches)
    seam = SeamReadings("micrometer", (*readings, Reading("tightness", "1", 100.0)), *plates)
    return advise_on_seam(kb, CanReadings("1", seam), sheet, None)


@pytest.fixture
def sheet(kb: KnowledgeBase) -> SeamSpecification:
    return kb.seam_specifications["demo-307"]


def test_at_its_aims_the_seam_passes(kb: KnowledgeBase, sheet: SeamSpecification) -> None:
    advice = advised(kb, sheet)
    assert advice.verdict.outcome == "accept"
    assert (advice.causes, advice.named, advice.nowhere) == (None, (), ())


def test_a_short_overlap_alone_gets_a_cause_and_a_correction(kb: KnowledgeBase, sheet: SeamSpecification) -> None:
    limits = {limit.dimension: limit for limit in seam_limits(sheet).limits}
    body, cover, width = limits["body-hook"], limits["cover-hook"], limits["seam-width"]
    assert body.low
    assert cover.low
    assert width.high
    near = {"body_hook": body.low + 0.002, "cover_hook": cover.low + 0.002, "seam_width": width.high - 0.002}
    advice = advised(kb, sheet, **near)
    out = {part.dimension for part in advice.verdict.parts if part.outcome == "reject"}
    assert out
    assert out <= {"overlap", "percent-overlap", "body-hook-butting"}
    assert advice.named[0] == defect_of(kb, "overlap", "smaller")
    assert advice.causes is not None
    assert advice.causes.correction is not None
    assert any("overlap shorter" in line for line in seam_lines(kb, advice))


def test_a_value_too_near_its_limit_moves_no_roller(kb: KnowledgeBase, sheet: SeamSpecification) -> None:
    high = next(limit.high for limit in seam_limits(sheet).limits if limit.dimension == "body-hook")
    assert high is not None
    advice = advised(kb, sheet, body_hook=high + 0.0004)
    assert advice.verdict.outcome == "measure-again"
    assert advice.causes is None


def test_a_thin_seam_is_found_on_each_sheet_of_the_demonstration(kb: KnowledgeBase) -> None:
    for sheet in kb.seam_specifications.values():
        plates = 3 * sheet.end_plate.inches + 2 * sheet.body_plate.inches
        advice = advised(kb, sheet, seam_thickness=float(plates) + 0.0005)
        assert advice.questions == ()
        assert advice.named == (defect_of(kb, "seam-thickness", "smaller"),)
        assert advice.causes is not None
        assert advice.causes.correction is not None


def without_records_about(kb: KnowledgeBase, dimension: str) -> KnowledgeBase:
    """The same knowledge, with no defect and no cause that says anything of a dimension."""
    records = dict(kb.records)
    for key, record in kb.records.items():
        if record.kind == "defect" and any(str(sign.dimension) == dimension for sign in record.measured):
            del records[key]
        elif record.kind == "cause":
            left = tuple(effect for effect in record.effects if str(effect.dimension) != dimension)
            records[key] = record.model_copy(update={"effects": left})
    return replace(kb, records=MappingProxyType(records))


def test_what_nobody_published_is_said_plainly(kb: KnowledgeBase, sheet: SeamSpecification) -> None:
    silent = without_records_about(kb, "seam-width")
    advice = advised(silent, sheet, seam_width=0.135)
    assert advice.nowhere == (("seam-width", "larger"),)
    assert any(
        line.strip().startswith("Seam width wider: nobody has published what causes this or how to correct it.")
        for line in seam_lines(silent, advice)
    )


def with_measured(kb: KnowledgeBase, id_: str, new: str, sign: MeasuredSign) -> KnowledgeBase:
    """The same knowledge with one more defect: a copy of another one, about something else that is measured."""
    copy = kb.defects[id_].model_copy(update={"id": new, "title": "Made for a test", "measured": (sign,)})
    return replace(kb, records=MappingProxyType({**kb.records, ("defect", new): copy}))


def test_a_limit_finds_its_defect_through_the_record_alone(kb: KnowledgeBase, sheet: SeamSpecification) -> None:
    silent = without_records_about(kb, "seam-width")
    wide = MeasuredSign(dimension=Dimension.SEAM_WIDTH, direction=Direction.LARGER)
    advice = advised(with_measured(silent, "loose-seam", "made-wide", wide), sheet, seam_width=0.135)
    assert advice.named[0] == "made-wide"
    assert advice.nowhere == ()


def test_low_butting_alone_leads_to_the_causes_of_its_defect(kb: KnowledgeBase, sheet: SeamSpecification) -> None:
    silent = without_records_about(kb, "body-hook-butting")
    low = MeasuredSign(dimension=ComputedValue.BODY_HOOK_BUTTING, direction=Direction.SMALLER)
    known = with_measured(silent, "short-body-hook", "made-butting", low)
    assert signs_from(known, (), {"body-hook-butting": "smaller"}).defects == ("made-butting",)
    strict = sheet.model_copy(update={"butting_percent_min": 85})
    assert advised(silent, strict, body_hook=0.0755).nowhere == (("body-hook-butting", "smaller"),)
    advice = advised(known, strict, body_hook=0.0755)
    assert [part.dimension for part in advice.verdict.parts if part.outcome == "reject"] == ["body-hook-butting"]
    assert advice.named == ("made-butting",)
    assert advice.nowhere == ()
    assert advice.causes is not None
    assert advice.causes.first in {link.cause for link in known.defects["made-butting"].causes}
    assert any("for: measured: Made for a test" in line for line in seam_lines(known, advice))
