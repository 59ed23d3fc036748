"""Section: a double seam cut through, drawn to scale from its dimensions."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tinwright.figures.canvas import Canvas, Picture, Point
from tinwright.figures.dimensions import GOOD_SEAM, SectionDimensions, draw_dimensions
from tinwright.figures.layers import Callout, Layers, good_layers
from tinwright.figures.lettering import wrap
from tinwright.figures.marking import marked
from tinwright.figures.open_faults import OPEN_FAULTS, good_flange
from tinwright.figures.pressed_faults import PRESSED_FAULTS
from tinwright.figures.uneven_faults import UNEVEN_FAULTS, both_sides
from tinwright.remembering import remembered

if TYPE_CHECKING:
    from collections.abc import Collection

__all__ = [
    "SCALE",
    "SECTION_FEATURES",
    "draw_good_beside",
    "draw_plain_section",
    "draw_section_layers",
    "good_outlines",
    "section_svg",
]

SCALE = 2400.0
"""Drawing units in one inch; the same in every section, so that two can be compared side by side."""
SECTION_FEATURES = tuple(sorted({**PRESSED_FAULTS, **OPEN_FAULTS, **UNEVEN_FAULTS}))
"""Names of what a section can show beyond its dimensions."""

_ALL = frozenset({"body-hook", "cover-hook", "overlap", "seam-width", "seam-thickness", "countersink"})
_LEFT, _TOP, _RIGHT, _BELOW = -140.0, -76.0, 182.0, 0.045
_LETTERS = 16.0
_FROM = {"top": -60.0, "left-low": 120.0, "right-low": 30.0}
"""From where an arrow comes whose words stand in a corner, in degrees: 0 from the right, 90 from below."""


def section_svg(
    dims: SectionDimensions,
    *,
    title: str,
    description: str,
    id_prefix: str,
    feature: str | None = None,
    labels: bool = True,
    out: Collection[str] = frozenset(),
    unit: str = "in",
) -> str:
    """Draw a double seam cut through, to scale.

    Args:
        dims: What it measures, in inches.
        title: Name of the drawing.
        description: What it shows, in words.
        id_prefix: Start of the ids in it; different for every drawing on a page.
        feature: What else it shows; one of `SECTION_FEATURES`.
        labels: Whether names, dimension lines and values are drawn.
        out: Names of dimensions out of limits, such as `body-hook`: they get a hatched bar and the word OUT.
        unit: What the values are written in, `in` or `mm`.

    Raises:
        ValueError: when the feature is not known.

    >>> from tinwright.figures.dimensions import GOOD_SEAM
    >>> section_svg(GOOD_SEAM, title="A good seam", description="Five layers.", id_prefix="s")[:4]
    '<svg'
    """
    named = frozenset(str(name).replace("_", "-") for name in out)
    picture = _picture(dims, feature, labels=labels, out=named, unit=unit)
    return picture.svg(title=title, description=description, id_prefix=id_prefix)


@remembered
def _picture(dims: SectionDimensions, feature: str | None, *, labels: bool, out: frozenset[str], unit: str) -> Picture:
    layers, canvas = _drawn(dims, feature)
    right = max(layers.right, dims.seam_thickness)
    if labels:
        canvas = canvas.copy()
        canvas.group()
        shown = _ALL if feature is None else out
        draw_dimensions(canvas, dims, _place, right_in=right, shown=shown, out=out, unit=unit)
        _draw_names(canvas, dims, layers, plain=feature is None)
        for callout in layers.callouts:
            _draw_callout(canvas, dims, callout, right=_place((right, 0))[0])
    left = _LEFT if layers.left is None else layers.left * SCALE - 12
    width = max(0.062, right) * SCALE - left + _RIGHT
    height = (max(dims.countersink, dims.seam_width) + _BELOW) * SCALE - _TOP
    return canvas.picture((left, _TOP, width, max(height, 484.0)))


@remembered
def _drawn(dims: SectionDimensions, feature: str | None) -> tuple[Layers, Canvas]:
    """Draw the layers alone."""
    layers = _layers(dims, feature)
    canvas = Canvas()
    _draw_layers(canvas, layers)
    return layers, canvas


def _layers(dims: SectionDimensions, feature: str | None) -> Layers:
    if feature is None:
        return good_layers(dims)
    try:
        return (PRESSED_FAULTS | OPEN_FAULTS | UNEVEN_FAULTS)[str(feature)](dims)
    except KeyError:
        raise ValueError(f"expected a feature among {', '.join(SECTION_FEATURES)}, got {feature!r}") from None


def draw_section_layers(
    canvas: Canvas, dims: SectionDimensions, feature: str | None, *, beside: SectionDimensions
) -> tuple[Point, float]:
    """Draw the layers of a seam; return where it differs from the one beside it, and from where to point at that.

    Args:
        canvas: What to draw on.
        dims: What it measures, in inches.
        feature: What else it shows; one of `SECTION_FEATURES`.
        beside: The seam it is compared with.

    Returns:
        A place in drawing units, and the direction an arrow comes from, in degrees: 0 from the right, 90 from below.
    """
    layers = _layers(dims, feature)
    if feature is None:
        layers = marked(layers, dims, beside)
    _draw_layers(canvas, layers)
    if layers.callouts and feature is not None:
        callout = layers.callouts[0]
        return _place(callout.at), _FROM.get(callout.corner, 0.0)
    body = next(metal for metal in layers.metal if metal.part == "body")
    lid = next(metal for metal in layers.metal if metal.part == "lid")
    if dims.countersink != beside.countersink:
        return _place((0.0, dims.countersink)), 60.0
    if dims.seam_thickness != beside.seam_thickness:
        return _place((layers.right, dims.seam_width * 0.45)), 0.0
    if dims.seam_width != beside.seam_width:
        return _place((layers.right * 0.7, dims.seam_width)), 60.0
    return _place(body.track.end if dims.body_hook != beside.body_hook else lid.track.end), 0.0


def good_outlines(dims: SectionDimensions) -> list[list[Point]]:
    """Return the outlines of the plates of a good seam, in drawing units."""
    return [[_place(point) for point in metal.outline] for metal in good_layers(dims).metal]


def good_layers_beside(feature: str | None) -> Layers:
    """Return what is good, to stand beside a feature: a flange where no seam is made yet, else a seam."""
    if feature == "mushroomed-flange":
        return good_flange(GOOD_SEAM)
    good = good_layers(GOOD_SEAM)
    return both_sides(good) if feature in UNEVEN_FAULTS else good


def draw_good_beside(canvas: Canvas, feature: str | None) -> None:
    """Draw what is good beside a feature."""
    _draw_layers(canvas, good_layers_beside(feature))


def draw_plain_section(canvas: Canvas, dims: SectionDimensions) -> None:
    """Draw a good seam cut through, without names, lines or values."""
    _draw_layers(canvas, good_layers(dims))


def _place(point: Point) -> Point:
    return (point[0] * SCALE, point[1] * SCALE)


def _draw_layers(canvas: Canvas, layers: Layers) -> None:
    canvas.group(data_scale=f"{SCALE:g}")
    for shape in layers.compound:
        canvas.polygon(map(_place, shape), "paper", hatch="compound")
    for shape in layers.slack:
        canvas.polygon(map(_place, shape), "extra")
    for metal in layers.metal:
        canvas.polygon(
            map(_place, metal.outline), metal.part, hatch="body" if metal.part == "body" else None, part=metal.part
        )
    for shape in layers.matter:
        canvas.polygon(map(_place, shape), "paper", hatch="matter")
    for shape in layers.gaps:
        canvas.polygon(map(_place, shape), "blank")
    for paint, shapes in (("extra", layers.extras), ("lack", layers.lacks)):
        for shape in shapes:
            canvas.polygon(map(_place, shape), paint)
    for shape in layers.marks:
        canvas.line(map(_place, shape), "fault")
    for shape in layers.ghosts:
        canvas.line(map(_place, shape), "dash")


def _draw_names(canvas: Canvas, dims: SectionDimensions, layers: Layers, *, plain: bool) -> None:
    foot = max((max(dims.countersink, dims.seam_width) + _BELOW) * SCALE, 484.0 + _TOP) - 12
    canvas.text((_LEFT + 8, foot), "inside the can", size=_LETTERS, strong=True)
    canvas.text((_place((dims.seam_thickness, 0))[0] + 58, foot), "outside", size=_LETTERS, strong=True)
    for metal in layers.metal[:2] if layers.left is not None else layers.metal:
        if metal.part == "lid":
            x, y = next(((x, y) for x, y in metal.track.points if x * SCALE > _LEFT + 10), metal.track.points[0])
            panel = _place((x, y - metal.thickness / 2))
            canvas.text((_LEFT + 8, panel[1] - 10), "lid", size=_LETTERS)
    body = _place(next(metal.track.points[0] for metal in layers.metal if metal.part == "body"))
    canvas.pointer((body[0] - 44, foot - 33), (body[0], foot - 24))
    canvas.text((body[0] - 48, foot - 28), "can body", size=_LETTERS, anchor="end")
    if plain and layers.compound:
        hook = next(metal.track.end for metal in layers.metal if metal.part == "body")
        at = _place((hook[0], (hook[1] + dims.seam_width - dims.end_plate) / 2))
        canvas.pointer((body[0] + 62, dims.seam_width * SCALE + 24), at)
        canvas.text((body[0] + 26, dims.seam_width * SCALE + 38), "compound", size=_LETTERS)


def _draw_callout(canvas: Canvas, dims: SectionDimensions, callout: Callout, *, right: float) -> None:
    at = _place(callout.at)
    if callout.corner == "top":
        lines = wrap(callout.words, width=250, size=_LETTERS)
        canvas.text((min(_LEFT + 6, at[0] - 40), _TOP + 20), lines, size=_LETTERS, strong=True)
        canvas.pointer((min(at[0] - 14, -22), _TOP + 6 + 19 * len(lines)), at)
    elif callout.corner == "left-low":
        lines = wrap(callout.words, width=120, size=_LETTERS)
        canvas.text((_LEFT + 6, at[1] - 110), lines, size=_LETTERS, strong=True)
        canvas.pointer((_LEFT + 60, at[1] - 110 + 19 * len(lines) - 12), at)
    else:
        lines = wrap(callout.words, width=150, size=_LETTERS)
        low = callout.corner == "right-low"
        y = min(at[1], dims.seam_width * SCALE + 20) - (10 if low else 40)
        canvas.text((right + 28, y), lines, size=_LETTERS, strong=True)
        canvas.pointer((right + 24, y + (-5 if not low else 4)), at)
