"""A can supplier's sheet whose numbers contradict each other is told with its line."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tinwright.knowledge.loading import find_problems

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

CAN = """\
- id: "307x409"
  code: "307x409"
  evidence: practice
  reviewed: 2026-11-04
"""
SHEET = """\
title: A sheet
supplier: A supplier
cans: ["307x409"]
end_plate: 0.010 in
body_plate: {body}
limits:
  - {{dimension: seam-width, min: 0.110 in, max: no limit}}
  - dimension: seam-thickness
    min: {least}
    max: no limit
  - {{dimension: countersink, min: no limit, max: no limit}}
  - {{dimension: body-hook, min: no limit, max: no limit}}
  - {{dimension: cover-hook, min: no limit, max: no limit}}
  - {{dimension: overlap, min: no limit, max: no limit}}
overlap_percent_min: no limit
butting_percent_min: no limit
tightness_percent_min: no limit
evidence: practice
reviewed: 2026-11-04
"""


def problems(content: Callable[[dict[str, str]], Path], least: str, body: str = "0.010 in") -> list[str]:
    files = {"cans/can.yml": CAN, "seam-specifications/sheet.yml": SHEET.format(least=least, body=body)}
    return [str(problem) for problem in find_problems(content(files))]


@pytest.mark.parametrize("least", ["0.050 in", "0.049 in", "1.27 mm"])
def test_a_least_thickness_of_five_plates_is_told(content: Callable[[dict[str, str]], Path], least: str) -> None:
    # three of the end and two of the body: 0.050 in
    [problem] = problems(content, least)
    assert problem.startswith("content/seam-specifications/sheet.yml:9:10: seam-specification sheet: expected a least")
    assert f"above its five plates (0.05 in), got {least}: no seam measures less" in problem


def test_a_least_thickness_above_five_plates_is_sound(content: Callable[[dict[str, str]], Path]) -> None:
    assert problems(content, "0.051 in") == []
    assert problems(content, "0.050 in", body="0.24 mm") == []
