from __future__ import annotations

import pytest

from figures.drawing import SVG, points_of, read, texts_of
from tinwright.figures import wrinkle_svg


def drawn(tightness: float) -> str:
    return wrinkle_svg(tightness, title="t", description="d", id_prefix="x")


@pytest.mark.parametrize("tightness", [0, 30, 70, 90, 100])
def test_the_deepest_wrinkle_leaves_the_tightness(tightness: float) -> None:
    root = read(drawn(tightness))
    dashed = next(line for line in root.iter(f"{SVG}polyline") if line.attrib["class"] == "tw-svg-dash")
    depth = points_of(dashed)[0][1] - 66
    assert depth == pytest.approx(100 - tightness)
    ends = [float(path.attrib["d"].split()[-1]) - 66 for path in root.iter(f"{SVG}path") if " Q" in path.attrib["d"]]
    assert max(ends, default=0) == pytest.approx(100 - tightness)
    assert f"{tightness} % tight" in texts_of(root)


@pytest.mark.parametrize("tightness", [-1, 101, float("nan")])
def test_a_tightness_lies_between_0_and_100(tightness: float) -> None:
    with pytest.raises(ValueError, match="0 to 100"):
        drawn(tightness)
