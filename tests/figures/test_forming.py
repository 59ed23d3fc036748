"""How a seam forms: plates keep their thickness, stand on what they start and end with, and tools stay outside them."""

from __future__ import annotations

from math import dist

import pytest

from tinwright.figures.dimensions import GOOD_SEAM
from tinwright.figures.forming import FRAMES, _edges
from tinwright.figures.layers import good_layers, spacing
from tinwright.figures.open_faults import OPEN_FAULTS


@pytest.mark.parametrize(("formed", "layers"), [(1, OPEN_FAULTS["unpressed"]), (2, good_layers)])
def test_each_operation_ends_with_the_seam_that_is_drawn_elsewhere(formed: float, layers: object) -> None:
    metal = {metal.part: metal.track for metal in layers(GOOD_SEAM).metal}  # type: ignore[operator]
    for part, line in zip(("lid", "body"), _edges(formed), strict=True):
        assert dist(line[-1], metal[part].end) < 0.003


@pytest.mark.parametrize("frame", FRAMES, ids=lambda frame: frame.said[:30])
def test_lid_and_body_never_run_through_each_other(frame: object) -> None:
    plates = spacing(GOOD_SEAM)
    lid, body = _edges(frame.formed)  # type: ignore[attr-defined]
    nearest = min(dist(one, other) for one in lid for other in body)
    assert nearest > 0.8 * (plates.lid + plates.body) / 2


def test_the_chuck_wall_and_the_body_wall_stay_where_they_are() -> None:
    starts = {(edges[0][0], edges[1][0]) for edges in (_edges(frame.formed) for frame in FRAMES)}
    assert len(starts) == 1
