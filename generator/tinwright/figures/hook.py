"""Hook: the stripped cover hook, laid flat, and how far wrinkles run into it."""

from __future__ import annotations

from math import cos, pi, sin
from typing import TYPE_CHECKING

from tinwright.figures.canvas import Canvas, Picture
from tinwright.remembering import remembered

if TYPE_CHECKING:
    from collections.abc import Callable

    from tinwright.figures.canvas import Point

__all__ = ["HOOK_FEATURES", "draw_hook_face", "hook_svg", "wrinkle_svg"]

_LEFT, _RIGHT = 20.0, 420.0
_EDGE, _FOLD = 66.0, 166.0
_MIDDLE = 220.0


def hook_svg(feature: str | None, *, title: str, description: str, id_prefix: str, named: bool = True) -> str:
    """Draw the cover hook after a seam was torn down, laid flat and seen from inside.

    Args:
        feature: What it shows; one of `HOOK_FEATURES`, or nothing for a good, smooth hook.
        title: Name of the drawing.
        description: What it shows, in words.
        id_prefix: Start of the ids in it; different for every drawing on a page.
        named: Whether the drawing says what it shows; a question leaves that out.

    Raises:
        ValueError: when the feature is not known.
    """
    return _picture(feature, named=named).svg(title=title, description=description, id_prefix=id_prefix)


@remembered
def _picture(feature: str | None, *, named: bool) -> Picture:
    canvas = Canvas()
    canvas.group()
    words = draw_hook_face(canvas, feature)
    if feature in _LETTERS:
        _LETTERS[str(feature)](canvas)
    _draw_names(canvas)
    if named:
        canvas.text((_LEFT, 244), words, size=18, strong=True)
    return canvas.picture((0, 22, 440, 234 if named else 204))


def draw_hook_face(canvas: Canvas, feature: str | None) -> str:
    """Draw a hook with what it shows, or a good one, and return that in words.

    Raises:
        ValueError: when the feature is not known.
    """
    if feature is None:
        _draw_hook(canvas)
        return "smooth, even and ironed flat"
    try:
        words, paint = _FEATURES[str(feature)]
    except KeyError:
        raise ValueError(f"expected a feature among {', '.join(HOOK_FEATURES)}, got {feature!r}") from None
    paint(canvas)
    return words


def wrinkle_svg(tightness_percent: float, *, title: str, description: str, id_prefix: str) -> str:
    """Draw a cover hook whose deepest wrinkle leaves a given tightness.

    Args:
        tightness_percent: 100 less the percentage of the hook's length that the deepest wrinkle runs in, 0 to 100.
        title: Name of the drawing.
        description: What it shows, in words.
        id_prefix: Start of the ids in it; different for every drawing on a page.

    Raises:
        ValueError: when the tightness is not between 0 and 100.
    """
    if not 0 <= tightness_percent <= 100:
        raise ValueError(f"expected a tightness from 0 to 100 percent, got {tightness_percent}")
    depth = (_FOLD - _EDGE) * (100 - tightness_percent) / 100
    canvas = Canvas()
    canvas.group()
    _draw_wrinkles(canvas, depth)
    canvas.line(((_LEFT, _EDGE + depth), (_RIGHT, _EDGE + depth)), "dash")
    _draw_names(canvas)
    canvas.text((_LEFT, 244), f"{tightness_percent:g} % tight", size=18, strong=True)
    reach = 100 - tightness_percent
    said = "no wrinkle" if reach == 0 else f"deepest wrinkle runs {reach:g} % of the way in"
    canvas.text((_LEFT, 266), said, size=16)
    return canvas.picture((0, 34, 440, 246)).svg(title=title, description=description, id_prefix=id_prefix)


def _draw_names(canvas: Canvas) -> None:
    canvas.text((_LEFT, _EDGE - 12), "cut edge", size=15)
    canvas.text((_LEFT, _FOLD + 38), "fold: bottom of the seam", size=15)


def _draw_hook(
    canvas: Canvas, edge: Callable[[float], float] = lambda _: _EDGE, fold: Callable[[float], float] = lambda _: _FOLD
) -> None:
    places = [_LEFT + 4 * step for step in range(101)]
    outer = [(x, fold(x) + 16) for x in reversed(places)]
    canvas.polygon([*((x, edge(x)) for x in places), *outer], "lid")
    canvas.line([(x, fold(x)) for x in places])
    canvas.line([(x, fold(x) + 7) for x in places], "thin")


def _draw_edge(canvas: Canvas, edge: Callable[[float], float], half: float) -> None:
    """Mark the part of the cut edge that is not where it should be."""
    places = [_MIDDLE + half * step / 12 for step in range(-11, 12)]
    canvas.line([(x, edge(x)) for x in places], "fault")


def _hump(x: float, half: float) -> float:
    return 0.5 + 0.5 * cos(pi * (x - _MIDDLE) / half) if abs(x - _MIDDLE) < half else 0.0


def _draw_wrinkles(canvas: Canvas, depth: float, paint: str = "line") -> None:
    wave = min(4.0, depth * 0.12)
    _draw_hook(canvas, lambda x: _EDGE + wave * sin((x - _LEFT) / 400 * 22 * pi))
    shares = (0.55, 0.8, 0.6, 1.0, 0.7, 0.5, 0.85, 0.6, 0.95, 0.65, 0.75)
    if depth < 0.5:
        return
    for index, share in enumerate(shares):
        x = _LEFT + 400 / 44 + index * 400 / 11
        low = _EDGE + depth * share
        for side in (-1, 1):
            bend = f"Q{x + side * 3:.2f} {(low + _EDGE) / 2:.2f} {x:.2f} {low:.2f}"
            canvas.path(f"M{x + side * 7:.2f} {_EDGE + 1:.2f} {bend}", paint)
        canvas.line(((x, _EDGE + wave), (x, low - (low - _EDGE) * 0.2)), "thin")


def _wrinkles(canvas: Canvas) -> None:
    _draw_wrinkles(canvas, 58, "fault")
    canvas.line(((_LEFT, _EDGE + 58), (_RIGHT, _EDGE + 58)), "dash")


def _pleat(canvas: Canvas) -> None:
    _draw_hook(canvas)
    fold: list[Point] = [
        (_MIDDLE - 12, _EDGE - 1),
        (_MIDDLE + 20, _EDGE - 6),
        (_MIDDLE + 9, _EDGE + 74),
        (_MIDDLE + 1, _FOLD),
    ]
    canvas.polygon(fold, "dark")
    canvas.polygon(
        [(_MIDDLE - 24, _EDGE), (_MIDDLE + 6, _EDGE + 3), (_MIDDLE + 1, _FOLD), (_MIDDLE - 6, _EDGE + 70)], "lid"
    )
    canvas.line([(_MIDDLE + 6, _EDGE + 3), (_MIDDLE + 1, _FOLD)], "fault")


def _pucker(canvas: Canvas) -> None:
    _draw_hook(canvas, lambda x: _EDGE + 34 * _hump(x, 44))
    _draw_edge(canvas, lambda x: _EDGE + 34 * _hump(x, 44), 44)
    for size in (0.4, 0.7, 1.0):
        points = [
            (_MIDDLE + 46 * size * cos(pi * a / 12), _EDGE + 40 + 32 * size * sin(pi * a / 12)) for a in range(13)
        ]
        canvas.line(points, "thin")
    canvas.line(((_LEFT, _EDGE), (_RIGHT, _EDGE)), "dash")


def _juncture_droop(canvas: Canvas) -> None:
    _draw_hook(canvas, lambda x: _EDGE + 52 * _hump(x, 58), lambda x: _FOLD + 7 * _hump(x, 58))
    _draw_edge(canvas, lambda x: _EDGE + 52 * _hump(x, 58), 58)
    for x in (_MIDDLE - 13, _MIDDLE + 13):
        canvas.line(((x, _EDGE - 20), (x, _FOLD + 34)), "dash")
    canvas.line(((_LEFT, _EDGE), (_RIGHT, _EDGE)), "dash")


def _juncture_letters(canvas: Canvas) -> None:
    canvas.text((_MIDDLE, _EDGE - 24), "side seam", size=15, anchor="middle")
    x = _MIDDLE + 74
    canvas.pointer((x, _EDGE + 30), (_MIDDLE + 4, _EDGE + 54))
    canvas.text((x + 4, _EDGE + 35), "hook left here", size=15)


def _uneven(canvas: Canvas) -> None:
    _draw_hook(canvas, lambda x: _EDGE - 6 + 56 * (0.5 - 0.5 * cos(pi * (x - _LEFT) / 400)))
    canvas.line(((_LEFT, _EDGE), (_RIGHT, _EDGE)), "dash")
    for x, top in ((_LEFT + 50, _EDGE - 4), (_RIGHT - 40, _EDGE + 50)):
        canvas.arrow((x, (top + _FOLD) / 2), (x, top))
        canvas.arrow((x, (top + _FOLD) / 2), (x, _FOLD))


def _uneven_letters(canvas: Canvas) -> None:
    canvas.text((_LEFT + 60, 126), "long", size=15)
    canvas.text((_RIGHT - 50, 146), "short", size=15, anchor="end")


_FEATURES: dict[str, tuple[str, Callable[[Canvas], None]]] = {
    "juncture-droop": ("hook sags at the side seam", _juncture_droop),
    "pleat": ("sharp fold that runs in from the edge", _pleat),
    "pucker": ("edge bent down, but not folded", _pucker),
    "uneven": ("long on one side, short on the other", _uneven),
    "wrinkles": ("waves that run in from the edge", _wrinkles),
}

_LETTERS: dict[str, Callable[[Canvas], None]] = {"juncture-droop": _juncture_letters, "uneven": _uneven_letters}
"""Names in the drawing of a feature; a close-up is too small for them."""

HOOK_FEATURES = tuple(sorted(_FEATURES))
"""Names of what a hook can show."""
