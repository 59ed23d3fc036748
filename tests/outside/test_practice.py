"""The practice bench's seam against algebra and polygons: metal keeps its length, and the published formulas hold."""

from __future__ import annotations

import math

import pytest
import sympy
from shapely import box, union_all

from practice.small_bench import CAN
from seaming.twin import seeded
from tinwright.practice import Section, Setting, shape_section
from tinwright.seaming import FORMULAS

SEAMS = 500
END, BODY = CAN.end_plate_in, CAN.body_plate_in


def some_settings() -> list[Setting]:
    """Settings of a sealer that irons nothing away and leaves both hooks some metal."""
    rng = seeded(23)
    return [
        Setting(
            press=rng.uniform(-0.015, 0.015),
            first=rng.uniform(-0.015, 0.015),
            second=rng.uniform(-0.004, 0.02),
            seat=rng.uniform(0.0, 0.01),
            flange=rng.uniform(-0.015, 0.015),
            curl=rng.uniform(-0.015, 0.015),
        )
        for _ in range(SEAMS)
    ]


def bend_excess() -> sympy.Expr:
    """Metal in a half circle beyond the two radii of height that it takes up; arc length by its integral."""
    radius, angle = sympy.symbols("r t", positive=True)
    x, y = radius * sympy.cos(angle), radius * sympy.sin(angle)
    speed = sympy.sqrt(sympy.simplify(sympy.diff(x, angle) ** 2 + sympy.diff(y, angle) ** 2))
    return sympy.simplify(sympy.integrate(speed, (angle, 0, sympy.pi)) - 2 * radius)


def test_the_metal_of_the_lid_keeps_its_length() -> None:
    # geometry by hand: up the chuck wall, down the outside, half around the bottom, up the cover hook
    excess = bend_excess()
    assert sympy.simplify(excess - (sympy.pi - 2) * sympy.Symbol("r", positive=True)) == 0
    per_radius = float(excess.coeff(sympy.Symbol("r", positive=True)))

    def length(section: Section, first: float) -> float:
        radius = CAN.aims["seam-thickness"] / 2 + first
        return section.countersink + section.width + section.cover_hook + per_radius * radius

    healthy = length(shape_section(Setting(), CAN), 0.0)
    for setting in some_settings():
        assert length(shape_section(setting, CAN), setting.first) == pytest.approx(healthy + setting.curl, abs=1e-12)


def test_overlap_is_where_two_boxes_cross() -> None:
    # the body hook hangs from under the lid at the top of the seam, the cover hook stands up from its bottom
    lapping = 0
    for setting in some_settings():
        section = shape_section(setting, CAN)
        body = box(0.0, section.width - END - section.body_hook, 1.0, section.width - END)
        cover = box(0.0, 0.0, 1.0, section.cover_hook)
        crossing = body.intersection(cover)
        lapping += not crossing.is_empty
        assert crossing.area == pytest.approx(max(section.overlap, 0.0), abs=1e-12)
    assert lapping > SEAMS / 2


def test_overlap_is_the_formula_of_the_regulation() -> None:
    # 21 CFR 113.60(a)(1)(iii): cover hook + body hook + end plate - seam width
    for setting in some_settings():
        section = shape_section(setting, CAN)
        symbols = {"CH": section.cover_hook, "BH": section.body_hook, "Te": END, "W": section.width}
        assert FORMULAS["overlap-a"].value(symbols) == pytest.approx(section.overlap, abs=1e-15)


def test_thickness_is_five_plates_and_what_lies_between() -> None:
    # three thicknesses of end plate and two of body plate stand across a double seam (common practice, no source)
    free = CAN.aims["seam-thickness"] - 3 * END - 2 * BODY
    for setting in some_settings():
        gap = (free + setting.second) / 4
        plates, at = [], 0.0
        for plate in (END, BODY, END, BODY, END):
            plates.append(box(at, 0.0, at + plate, 1.0))
            at += plate + gap
        least, _, greatest, _ = union_all(plates).bounds
        section = shape_section(setting, CAN)
        assert greatest - least == pytest.approx(section.thickness, abs=1e-12)
        compactness = FORMULAS["compactness"].value({"Te": END, "Tb": BODY, "S": section.thickness})
        assert compactness == pytest.approx(100 * union_all(plates).area / (greatest - least), abs=1e-9)


def test_pi_less_two_is_written_out_in_full() -> None:
    first = 0.01
    moved = shape_section(Setting(first=first), CAN).cover_hook - shape_section(Setting(), CAN).cover_hook
    assert moved == pytest.approx(-(math.pi - 2) * first, abs=1e-15)
