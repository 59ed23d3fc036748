"""Part: a simple line drawing of each part of a sealer and of the tools to measure a seam."""

from __future__ import annotations

from math import cos, pi, sin
from typing import TYPE_CHECKING

from tinwright.figures.canvas import Canvas
from tinwright.figures.operation import draw_roller
from tinwright.remembering import remembered

if TYPE_CHECKING:
    from collections.abc import Callable

    from tinwright.figures.canvas import Point

__all__ = ["PART_FIGURES", "part_svg"]

_X, _Y = 160.0, 110.0


@remembered
def part_svg(name: str, *, title: str, description: str, id_prefix: str) -> str:
    """Draw a part.

    Args:
        name: Which one; one of `PART_FIGURES`.
        title: Name of the drawing.
        description: What it shows, in words.
        id_prefix: Start of the ids in it; different for every drawing on a page.

    Raises:
        ValueError: when there is no drawing of that name.
    """
    if name not in _PAINTERS:
        raise ValueError(f"expected a part among {', '.join(PART_FIGURES)}, got {name!r}")
    canvas = Canvas()
    canvas.group()
    _PAINTERS[name](canvas)
    return canvas.picture((0, 0, 320, 220)).svg(title=title, description=description, id_prefix=id_prefix)


def _ring(center: Point, radius: float, count: int = 48) -> list[Point]:
    return [
        (center[0] + radius * cos(2 * pi * i / count), center[1] + radius * sin(2 * pi * i / count))
        for i in range(count)
    ]


def _chuck(canvas: Canvas) -> None:
    canvas.rect((142, 22, 36, 66), "tool")
    canvas.polygon(
        [
            (66, 88),
            (254, 88),
            (254, 112),
            (238, 116),
            (234, 152),
            (228, 160),
            (92, 160),
            (86, 152),
            (82, 116),
            (66, 112),
        ],
        "tool",
    )
    for x in range(92, 232, 8):
        canvas.line(((x, 122), (x, 150)), "thin")
    canvas.text((242, 160), "lip", size=16)
    canvas.text((242, 138), "wall", size=16)
    canvas.text((_X, 190), "fits inside the lid", size=16, anchor="middle")


def _first_roller(canvas: Canvas) -> None:
    draw_roller(canvas, (_X, 100), first=True, size=0.95)
    canvas.pointer((256, 100), (200, 100))
    canvas.text((244, 122), ("deep,", "round"), size=16)


def _second_roller(canvas: Canvas) -> None:
    draw_roller(canvas, (_X, 100), first=False, size=0.95)
    canvas.pointer((256, 100), (211, 100))
    canvas.text((244, 122), ("shallow,", "flat"), size=16)


def _base_plate(canvas: Canvas) -> None:
    canvas.ellipse((_X, 112), (112, 36), "tool")
    canvas.ellipse((_X, 96), (112, 36), "tool")
    canvas.ellipse((_X, 96), (84, 26), "thin")
    canvas.ellipse((_X, 96), (8, 3), "dark")
    canvas.rect((145, 147, 30, 46), "tool")


def _washer(canvas: Canvas, top: float, thickness: float) -> None:
    canvas.path(f"M72 {top} V{top + thickness} A88 28 0 0 0 248 {top + thickness} V{top} Z", "tool")
    canvas.ellipse((_X, top), (88, 28), "tool")
    canvas.ellipse((_X, top), (30, 9), "paper")


def _spacer(canvas: Canvas) -> None:
    _washer(canvas, 84, 16)
    canvas.arrow((272, 60), (272, 82), size=8)
    canvas.arrow((272, 124), (272, 102), size=8)
    canvas.text((_X, 168), "flat, of a known thickness", size=16, anchor="middle")


def _extension(canvas: Canvas) -> None:
    _washer(canvas, 52, 96)
    canvas.arrow((272, 100), (272, 54), size=8)
    canvas.arrow((272, 100), (272, 146), size=8)
    canvas.text((_X, 204), "tall block for short cans", size=16, anchor="middle")


def _roller_pin(canvas: Canvas) -> None:
    canvas.rect((56, 78, 30, 64), "tool", round_by=5)
    canvas.rect((86, 92, 122, 36), "tool")
    canvas.polygon([(208, 97), (264, 97), (270, 103), (270, 117), (264, 123), (208, 123)], "tool")
    for x in range(214, 264, 8):
        canvas.line(((x, 97), (x + 4, 123)), "thin")
    canvas.text((147, 170), "roller turns on this", size=16, anchor="middle")


def _lock_nut(canvas: Canvas) -> None:
    canvas.polygon([(_X + 78 * cos(pi * i / 3), _Y + 78 * sin(pi * i / 3)) for i in range(6)], "tool")
    canvas.circle((_X, _Y), 62, "thin")
    canvas.circle((_X, _Y), 38, "paper")
    canvas.line(_ring((_X, _Y), 43)[:36], "thin")


def _lift_lever(canvas: Canvas) -> None:
    canvas.polygon([(72, 134), (84, 122), (238, 52), (248, 72), (98, 152)], "tool")
    canvas.path("M226 47 L288 20 A14 14 0 0 1 300 46 L238 74 Z", "dark")
    canvas.circle((78, 142), 32, "tool")
    canvas.circle((78, 142), 12, "paper")
    canvas.path("M196 160 A130 130 0 0 0 210 112", "dash")
    canvas.arrow((206, 132), (210, 104))


def _wire(canvas: Canvas) -> None:
    for y, thickness, said in ((70, 11, "thicker"), (140, 5, "thinner")):
        canvas.rect((30, y - thickness / 2, 180, thickness), "tool", round_by=2)
        canvas.circle((250, y), 20, "paper")
        canvas.circle((250, y), 20 - thickness, "paper")
        canvas.text((40, y - 16), said, size=16)
        canvas.rect((206, y - thickness / 2, 26, thickness), "tool")


def _crank(canvas: Canvas) -> None:
    canvas.polygon([(68, 62), (88, 48), (252, 142), (240, 164)], "tool")
    canvas.circle((74, 58), 27, "tool")
    canvas.circle((74, 58), 10, "paper")
    canvas.rect((234, 88, 24, 66), "dark", round_by=9)
    canvas.circle((246, 153), 13, "tool")
    canvas.path("M150 190 A120 120 0 0 1 64 128", "dash")
    canvas.arrow((78, 150), (62, 120))


def _cam(canvas: Canvas) -> None:
    points = []
    for i in range(72):
        a = 2 * pi * i / 72
        lift = 22 * max(0.0, cos(a + 0.9)) ** 2 + 12 * max(0.0, cos(a - 2.2)) ** 2
        points.append((_X - 20 + (58 + lift) * cos(a), _Y + (58 + lift) * sin(a)))
    canvas.polygon(points, "tool")
    canvas.circle((_X - 20, _Y), 15, "paper")
    canvas.rect((133, 92, 14, 8), "dark")
    canvas.circle((236, _Y - 4), 17, "paper")
    canvas.line(((236, _Y - 4), (300, _Y - 30)))
    canvas.text((232, 154), "follower", size=16)


def _base_spring(canvas: Canvas) -> None:
    canvas.rect((92, 26, 136, 14), "tool")
    canvas.rect((92, 180, 136, 14), "tool")
    for turn in range(6):
        y = 42 + turn * 23
        canvas.path(f"M104 {y + 8} C104 {y - 6} 216 {y + 2} 216 {y + 16}", "line")
        if turn < 5:
            canvas.path(f"M216 {y + 16} C216 {y + 28} 104 {y + 20} 104 {y + 31}", "dash")


def _seam_micrometer(canvas: Canvas) -> None:
    canvas.path("M62 52 H78 V120 A34 34 0 0 0 146 120 V64 H168 V124 A56 56 0 0 1 56 124 V52 Z", "tool")
    canvas.rect((78, 62, 14, 12), "dark")
    canvas.rect((112, 62, 36, 12), "dark")
    canvas.rect((168, 58, 44, 22), "paper")
    for i, x in enumerate(range(172, 212, 6)):
        canvas.line(((x, 69), (x, 60 if i % 2 else 63)), "thin")
    canvas.rect((212, 50, 72, 38), "tool", round_by=3)
    for y in range(55, 86, 5):
        canvas.line(((214, y), (226, y)), "thin")
    canvas.text((92, 40), "seam goes here", size=16)
    canvas.pointer((102, 46), (102, 66))


def _countersink_gauge(canvas: Canvas) -> None:
    canvas.circle((_X, 58), 42, "paper")
    for i in range(12):
        a = pi * i / 6
        canvas.line(((_X + 34 * sin(a), 58 - 34 * cos(a)), (_X + 39 * sin(a), 58 - 39 * cos(a))), "thin")
    canvas.arrow((_X, 58), (_X + 20, 36), size=8)
    canvas.rect((150, 100, 20, 26), "tool")
    canvas.rect((50, 126, 220, 20), "tool", round_by=3)
    canvas.rect((155, 146, 10, 44), "dark")
    canvas.path("M40 146 h30 v34 q0 20 20 20 h140 q20 0 20 -20 v-34 h30", "dash")
    canvas.text((180, 186), "pin", size=16)


def _nippers(canvas: Canvas) -> None:
    canvas.path("M152 84 C120 110 104 150 98 204 L84 202 C86 146 104 100 142 72 Z", "tool")
    canvas.path("M168 84 C200 110 216 150 222 204 L236 202 C234 146 216 100 178 72 Z", "tool")
    canvas.path("M138 84 C122 56 132 28 158 18 L159 40 C150 48 152 62 164 76 Z", "tool")
    canvas.path("M182 84 C198 56 188 28 162 18 L161 40 C170 48 168 62 156 76 Z", "tool")
    canvas.circle((_X, 80), 12, "paper")


_PAINTERS: dict[str, Callable[[Canvas], None]] = {
    "base-plate": _base_plate,
    "base-spring": _base_spring,
    "cam": _cam,
    "chuck": _chuck,
    "countersink-gauge": _countersink_gauge,
    "crank": _crank,
    "extension": _extension,
    "first-roller": _first_roller,
    "lift-lever": _lift_lever,
    "lock-nut": _lock_nut,
    "nippers": _nippers,
    "roller-pin": _roller_pin,
    "seam-micrometer": _seam_micrometer,
    "second-roller": _second_roller,
    "spacer": _spacer,
    "wire": _wire,
}

PART_FIGURES = tuple(sorted(_PAINTERS))
"""Names of the parts there is a drawing of."""
