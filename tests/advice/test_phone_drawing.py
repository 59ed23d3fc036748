"""The phone draws the seam that the report draws, from the same numbers."""

from __future__ import annotations

from types import SimpleNamespace
from typing import TYPE_CHECKING, Any, cast

import pytest
from bs4 import BeautifulSoup

from advice.phone import on_the_phone
from seaming.test_browser_twin import some_limits, some_seam
from seaming.twin import camel, plain, seeded
from tinwright.advice.report import worst_seam
from tinwright.figures import GOOD_SEAM, SectionDimensions, section_svg
from tinwright.figures.layers import good_layers
from tinwright.seaming import Limit, Reading, SeamLimits, SeamReadings, judge

if TYPE_CHECKING:
    import random

    from tinwright.advice.advice import SeamAdvice
    from tinwright.knowledge import KnowledgeBase

DRAWN = ("body_hook", "cover_hook", "seam_width", "seam_thickness", "countersink", "end_plate", "body_plate")


def some_dimensions(rng: random.Random) -> SectionDimensions:
    """A seam that may be too thin for its plates, hooks that may be shorter than their bend."""
    return SectionDimensions(
        rng.uniform(0.01, 0.1),
        rng.uniform(0.01, 0.1),
        rng.uniform(0.1, 0.14),
        rng.uniform(0.035, 0.075),
        rng.uniform(0.1, 0.15),
        rng.uniform(0.007, 0.012),
        rng.uniform(0.007, 0.012),
    )


def test_the_plates_are_bent_alike(kb: KnowledgeBase) -> None:
    rng = seeded(15)
    seams = [GOOD_SEAM, *(some_dimensions(rng) for _ in range(300))]
    calls = [{camel(name): getattr(seam, name) for name in DRAWN} for seam in seams]
    for seam, phone in zip(seams, on_the_phone(kb, "return tinwrightDrawing.layers(call);", calls), strict=True):
        for metal in good_layers(seam).metal:
            assert phone[metal.part] == [pytest.approx(point, abs=1e-9) for point in metal.outline]


def test_the_good_seam_is_the_same(kb: KnowledgeBase) -> None:
    [phone] = on_the_phone(kb, "return tinwrightDrawing.GOOD_SEAM;", [None])
    assert phone == {camel(name): getattr(GOOD_SEAM, name) for name in DRAWN}


def test_the_worst_readings_are_drawn(kb: KnowledgeBase) -> None:
    rng = seeded(16)
    cases = [(some_seam(rng), some_limits(rng)) for _ in range(1000)]
    verdicts = [judge(seam, limits, {}) for seam, limits in cases]
    calls = [
        {"seam": plain(seam), "verdict": plain(verdict)} for (seam, _), verdict in zip(cases, verdicts, strict=True)
    ]
    drawn = on_the_phone(kb, "return tinwrightPicture.worstSeam(call.seam, call.verdict).dims;", calls)
    for (seam, _), verdict, phone in zip(cases, verdicts, drawn, strict=True):
        advice: Any = SimpleNamespace(readings=SimpleNamespace(seam=seam), verdict=verdict)
        expected = worst_seam(cast("SeamAdvice", advice))
        assert phone == {camel(name): getattr(expected, name) for name in DRAWN}


@pytest.mark.parametrize(("tightest", "told"), [("0.078", False), ("0.070", True)])
def test_an_overlap_that_is_not_the_drawn_one_is_told(kb: KnowledgeBase, tightest: str, *, told: bool) -> None:
    """The worst overlap comes of the shortest hooks and the widest seam; drawn is a hook that is too long at its longest."""
    hooks = [Reading("body-hook", "1", float(tightest)), Reading("body-hook", "2", 0.078)]
    readings = (*hooks, Reading("cover-hook", "1", 0.076), Reading("seam-width", "1", 0.118))
    seam = SeamReadings("optical", readings, 0.010, 0.010)
    verdict = judge(seam, SeamLimits((Limit("body-hook", None, 0.070, 0.075),)), {})
    call = {"seam": plain(seam), "verdict": plain(verdict)}
    [shown] = on_the_phone(kb, "return tinwrightPicture.beside(call.seam, call.verdict).textContent;", [call])
    assert ("The overlap is that of the drawing" in shown) is told


@pytest.mark.parametrize(("hook", "told"), [((Reading("cover-hook", "1", 0.076),), False), ((), True)])
def test_an_overlap_of_hooks_of_which_one_is_unread_is_told_to_be_not_measured(
    kb: KnowledgeBase, hook: tuple[Reading, ...], *, told: bool
) -> None:
    readings = (Reading("body-hook", "1", 0.078), *hook, Reading("seam-width", "1", 0.118))
    seam = SeamReadings("optical", readings, 0.010, 0.010)
    call = {"seam": plain(seam), "verdict": plain(judge(seam, SeamLimits((Limit("body-hook", 0.07, None, None),)), {}))}
    [rows] = on_the_phone(kb, BESIDE, [call])
    assert (["Overlap", "not measured"] in rows) is told


BESIDE = """
const [mine] = tinwrightPicture.beside(call.seam, call.verdict).children;
return mine.find("text").map((text) => text.find("tspan").map((row) => row.textContent));
"""
WORDS = """
const drawn = tinwrightDrawing.section(call.seam, { unit: call.unit, title: "A seam", out: ["body-hook"], guessed: ["countersink"] });
return drawn.find("text").map((text) => text.find("tspan").map((row) => row.textContent)).filter((rows) => rows.length);
"""


@pytest.mark.parametrize("unit", ["in", "mm"])
def test_each_dimension_is_written_in_the_unit_typed_and_said_to_be_out(kb: KnowledgeBase, unit: str) -> None:
    seam = {camel(name): getattr(GOOD_SEAM, name) for name in DRAWN}
    [rows] = on_the_phone(kb, WORDS, [{"seam": seam, "unit": unit}])
    values = {
        "in": ("0.078 in", "0.076 in", "0.046 in", "0.055 in", "0.118 in"),
        "mm": ("1.98 mm", "1.93 mm", "1.17 mm", "1.40 mm", "3.00 mm"),
    }
    body, cover, overlap, thickness, width = values[unit]
    assert sorted(rows) == [
        ["Body hook", body, "OUT"],
        ["Countersink", "not measured"],
        ["Cover hook", cover],
        ["Overlap", overlap],
        ["Seam thickness", thickness],
        ["Seam width", width],
    ]
    drawn = section_svg(GOOD_SEAM, title="A seam", description="A seam", id_prefix="s", out={"body-hook"}, unit=unit)
    written = {text.get_text() for text in BeautifulSoup(drawn, "html.parser").select("text tspan")}
    assert {body, cover, overlap, thickness, width} <= written
