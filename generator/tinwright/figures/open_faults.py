"""Faults of a seam whose hooks do not lock, or that was never finished."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tinwright.figures.layers import BODY_BELOW, Layers, Metal, lid_from_panel, spacing
from tinwright.figures.track import Track

if TYPE_CHECKING:
    from tinwright.figures.dimensions import SectionDimensions

__all__ = ["OPEN_FAULTS", "good_flange"]


def _body(dims: SectionDimensions, *, top: float) -> Track:
    """Begin the body below the lid and go up its wall to a height, in inches below the top of the seam."""
    plates = spacing(dims)
    start = (plates.lid + plates.gap + plates.body / 2, max(dims.countersink, dims.seam_width) + BODY_BELOW)
    return Track(start, heading=-90).forward(start[1] - top)


def _lid(dims: SectionDimensions, *, top: float) -> Track:
    track = lid_from_panel(dims, dims.end_plate)
    return track.forward(track.end[1] - top)


def _lid_hooked_outside(dims: SectionDimensions) -> Track:
    """Wrap the lid over the seam with its hook folded flat against the inside of its own outer wall."""
    plates = spacing(dims)
    arch = (dims.seam_thickness - plates.lid) / 2
    track = _lid(dims, top=plates.lid / 2 + arch).turn(arch, 180)
    fold = (plates.lid + plates.gap) / 2
    track.forward(dims.seam_width - plates.lid / 2 - fold - track.end[1])
    return track.turn(fold, 180).forward(dims.cover_hook - plates.lid / 2 - fold)


def _pair(dims: SectionDimensions, body: Track, lid: Track) -> Layers:
    plates = spacing(dims)
    return Layers((Metal("body", body, plates.body), Metal("lid", lid, plates.lid)))


def _false_seam(dims: SectionDimensions) -> Layers:
    plates = spacing(dims)
    fold = (plates.body + plates.gap) / 2
    body = _body(dims, top=dims.end_plate + plates.body / 2 + fold + 0.004)
    body.turn(fold, 180).forward(dims.body_hook - plates.body / 2 - fold)
    at = (body.end[0] + plates.body / 2, 0.55 * dims.seam_width)
    return _pair(dims, body, _lid_hooked_outside(dims)).calling("hooks lie side by side; they do not lock", at, "right")


def _flange_down(dims: SectionDimensions) -> Layers:
    plates = spacing(dims)
    fold = (plates.body + plates.gap) / 2
    body = _body(dims, top=0.42 * dims.seam_width).turn(fold, 180)
    body.forward(dims.seam_width + 0.018 - body.end[1])
    return _pair(dims, body, _lid_hooked_outside(dims)).calling(
        "flange bent down on the body; its edge shows below the seam",
        (body.end[0], dims.seam_width + 0.013),
        "right-low",
    )


def _curl_down(dims: SectionDimensions) -> Layers:
    plates = spacing(dims)
    fold = (plates.body + plates.gap) / 2
    body = _body(dims, top=dims.end_plate + plates.body / 2 + fold)
    body.turn(fold, 180).forward(dims.body_hook - plates.body / 2 - fold)
    arch = (body.end[0] + plates.body / 2 + plates.gap) / 2
    lid = _lid(dims, top=plates.lid / 2 + arch).turn(arch, 180)
    lid.forward(dims.seam_width + 0.016 - lid.end[1]).turn(0.0062, 115).forward(0.003)
    return _pair(dims, body, lid).calling(
        "curl not tucked under the flange; it hangs below", (lid.end[0] + 0.008, dims.seam_width + 0.018), "right-low"
    )


def _torn_flange(dims: SectionDimensions) -> Layers:
    plates = spacing(dims)
    body = _body(dims, top=dims.seam_width + 0.012).turn(0.0068, 172).forward(0.024)
    arch, heel = (dims.seam_thickness - plates.lid) / 2, (plates.lid + plates.body) / 2 + plates.gap
    lid = _lid(dims, top=plates.lid / 2 + arch).turn(arch, 180)
    lid.forward(dims.seam_width - plates.lid / 2 - heel - lid.end[1]).turn(heel, 180)
    lid.forward(dims.cover_hook - plates.lid / 2 - heel)
    x, y = body.end
    ragged = tuple((x + step * 0.0022, y + 0.002 + (0.003 if step % 2 else -0.002)) for step in range(-3, 4))
    gap = (*ragged, (x + 0.008, y + 0.007), (x - 0.008, y + 0.007))
    layers = _pair(dims, body, lid)
    return Layers(layers.metal, gaps=(gap,), marks=(ragged,)).calling(
        "torn flange turned back; nothing holds the cover hook", (x, y - 0.012), "right-low"
    )


def _unpressed(dims: SectionDimensions) -> Layers:
    lid = _lid(dims, top=0.033).turn(0.026, 80).turn(0.042, 100).turn(0.034, 95).turn(0.0125, 85).forward(0.022)
    body = _body(dims, top=0.034).turn(0.018, 85).turn(0.027, 75).turn(0.03, 40).forward(0.012)
    return _pair(dims, body, lid).calling(
        "round, hooks formed but layers not pressed together", (0.080, 0.049), "right"
    )


def _clinched(dims: SectionDimensions) -> Layers:
    lid = _lid(dims, top=0.020).turn(0.012, 85).forward(0.050).turn(0.014, 110).forward(0.012).turn(0.009, 100)
    body = _body(dims, top=0.032).turn(0.012, 80).forward(0.028).turn(0.016, 60).forward(0.004)
    return _pair(dims, body, lid).calling("curl only caught on the flange; no seam yet", (0.079, 0.036), "right-low")


def _end_misplaced(dims: SectionDimensions) -> Layers:
    plates = spacing(dims)
    track = lid_from_panel(dims, plates.lid, wall_x=-0.024)
    lid = track.forward(track.end[1] - 0.040).turn(0.0118, 180).forward(0.034).turn(0.0058, 172).forward(0.016)
    body = _body(dims, top=0.016).turn(0.010, 170).forward(0.030)
    return _pair(dims, body, lid).calling("lid down inside the flange on this side", (-0.004, 0.036))


def _mushroomed_flange(dims: SectionDimensions) -> Layers:
    body = _body(dims, top=0.034).turn(0.016, 145).forward(0.014)
    outline = _flange(dims, start=0.034).ribbon(spacing(dims).body)
    layers = Layers((Metal("body", body, spacing(dims).body),), ghosts=(outline,))
    return layers.calling("flange rolled too far over; dashed: a good flange", body.end, "right-low")


def good_flange(dims: SectionDimensions) -> Layers:
    """Draw the flange of an empty can as it should be."""
    return Layers((Metal("body", _flange(dims, start=_body(dims, top=0.034).points[0][1]), spacing(dims).body),))


def _flange(dims: SectionDimensions, *, start: float) -> Track:
    track = Track((_body(dims, top=0.034).points[0][0], start), heading=-90).forward(start - 0.034)
    return track.turn(0.009, 84).forward(0.036)


OPEN_FAULTS = {
    "clinched": _clinched,
    "curl-down": _curl_down,
    "end-misplaced": _end_misplaced,
    "false-seam": _false_seam,
    "flange-down": _flange_down,
    "mushroomed-flange": _mushroomed_flange,
    "torn-flange": _torn_flange,
    "unpressed": _unpressed,
}
"""From the name of a feature to the layers that show it."""
