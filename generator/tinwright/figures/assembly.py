"""Assembly: a plain schematic of an invented sealer, its parts numbered."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tinwright.figures.canvas import Canvas
from tinwright.figures.lettering import text_width
from tinwright.remembering import remembered

if TYPE_CHECKING:
    from tinwright.figures.canvas import Point

__all__ = [
    "DRIVES",
    "assembly_parts",
    "assembly_places",
    "assembly_svg",
    "draw_base",
    "draw_can",
    "draw_head",
    "draw_sealer",
]

DRIVES = ("crank-cam", "hand-lever", "motor")
"""How the rollers are brought in, in the sealers there is a drawing of."""

_COMMON: tuple[tuple[str, str, Point, Point], ...] = (
    ("frame", "Frame", (62, 330), (24, 300)),
    ("chuck", "Chuck", (212, 196), (150, 168)),
    ("first-roller", "First roller", (160, 212), (118, 244)),
    ("second-roller", "Second roller", (280, 212), (322, 244)),
    ("base-plate", "Base plate", (262, 352), (322, 330)),
    ("spacer", "Spacers", (258, 374), (322, 372)),
    ("base-spring", "Base spring", (226, 402), (322, 412)),
    ("lift-lever", "Lift lever", (326, 446), (388, 428)),
)
_OWN: dict[str, tuple[tuple[str, str, Point, Point], ...]] = {
    "crank-cam": (
        ("table-clamp", "Table clamp", (96, 482), (24, 464)),
        ("crank", "Crank", (362, 100), (408, 144)),
        ("drive-gear", "Drive gear", (262, 90), (306, 44)),
        ("cam", "Cam", (186, 136), (118, 112)),
    ),
    "hand-lever": (
        ("table-clamp", "Table clamp", (96, 482), (24, 464)),
        ("crank", "Crank", (362, 100), (408, 144)),
        ("drive-gear", "Drive gear", (262, 90), (306, 44)),
        ("roller-lever", "Roller lever", (372, 190), (408, 232)),
    ),
    "motor": (
        ("motor", "Motor", (346, 84), (408, 44)),
        ("belt-guard", "Belt guard", (262, 54), (206, 26)),
        ("cam", "Cam", (186, 136), (118, 112)),
        ("stop-switch", "Stop switch", (62, 214), (24, 176)),
    ),
}


def assembly_parts(drive: str) -> tuple[tuple[int, str, str], ...]:
    """List the numbered parts of a schematic as number, id of the part and its name.

    Raises:
        ValueError: when the drive is not known.

    >>> assembly_parts("motor")[0]
    (1, 'frame', 'Frame')
    """
    return tuple((number, part, name) for number, (part, name, _, _) in enumerate(_parts(drive), start=1))


def assembly_places(drive: str) -> tuple[tuple[str, str, Point, Point], ...]:
    """List the parts of a schematic as id, name, the spot on the part and the place for its badge.

    Raises:
        ValueError: when the drive is not known.
    """
    return _parts(drive)


def _parts(drive: str) -> tuple[tuple[str, str, Point, Point], ...]:
    try:
        return _COMMON + _OWN[str(drive)]
    except KeyError:
        raise ValueError(f"expected a drive among {', '.join(DRIVES)}, got {drive!r}") from None


@remembered
def assembly_svg(drive: str, *, title: str, description: str, id_prefix: str) -> str:
    """Draw the schematic of a sealer with numbers and, below it, what they stand for.

    Args:
        drive: `crank-cam`, `hand-lever` or `motor`.
        title: Name of the drawing.
        description: What it shows, in words.
        id_prefix: Start of the ids in it; different for every drawing on a page.

    Raises:
        ValueError: when the drive is not known.
    """
    parts = _parts(drive)
    canvas = Canvas()
    draw_sealer(canvas, drive)
    canvas.group()
    for number, (_, _, at, badge) in enumerate(parts, start=1):
        canvas.pointer(badge, at)
        _draw_number(canvas, badge, number)
    for index, (_, name, _, _) in enumerate(parts):
        x, y = 26 + 214 * (index // 6), 550 + 29 * (index % 6)
        _draw_number(canvas, (x, y - 6), index + 1)
        canvas.text((x + 20, y), name, size=17)
    return canvas.picture((0, 0, 440, 712)).svg(title=title, description=description, id_prefix=id_prefix)


def draw_sealer(canvas: Canvas, drive: str) -> None:
    """Draw the schematic of a sealer, without numbers or names.

    Raises:
        ValueError: when the drive is not known.
    """
    _parts(drive)
    drive = str(drive)
    canvas.group()
    _draw_frame(canvas, bench=drive != "motor")
    draw_head(canvas)
    draw_can(canvas)
    draw_base(canvas)
    if drive == "motor":
        _draw_motor(canvas)
    else:
        _draw_crank(canvas)
    if drive == "hand-lever":
        _draw_roller_lever(canvas)
    else:
        canvas.ellipse((220, 136), (44, 14), "tool")
        canvas.ellipse((220, 132), (44, 14), "tool")


def _draw_number(canvas: Canvas, at: Point, number: int) -> None:
    canvas.circle(at, 13, "paper")
    said = f"{number}"
    canvas.text(
        (at[0], at[1] + 5.5), said, size=16 if text_width(said, size=16) < 14 else 14, anchor="middle", strong=True
    )


def _draw_frame(canvas: Canvas, *, bench: bool) -> None:
    canvas.polygon([(50, 70), (200, 70), (200, 118), (86, 118), (86, 436), (300, 436), (300, 462), (50, 462)], "lid")
    if bench:
        canvas.line(((10, 464), (430, 464)))
        canvas.line(((10, 500), (430, 500)), "thin")
        canvas.polygon([(74, 462), (74, 518), (118, 518), (118, 508), (88, 508), (88, 462)], "tool")
        canvas.line(((104, 508), (104, 480)))
        canvas.rect((94, 474, 20, 7), "tool")
    else:
        canvas.rect((30, 462, 330, 38), "lid")


def draw_head(canvas: Canvas) -> None:
    """Draw the shaft with its chuck between the rollers."""
    canvas.rect((200, 60, 40, 62), "lid")
    canvas.rect((211, 40, 18, 144), "tool")
    canvas.polygon(
        [(176, 184), (264, 184), (264, 192), (256, 194), (256, 206), (184, 206), (184, 194), (176, 192)],
        "tool",
        hatch="tool",
    )
    for side in (-1, 1):
        x = 220 + side * 60
        canvas.polygon([(x - 6, 150), (x + 6, 150), (x + 6, 196), (x - 6, 196)], "tool")
        canvas.line(((220 + side * 20, 110), (x, 154)))
        notch = 7 if side < 0 else 3
        profile = [(12, 196), (12, 206), (12 - notch, 212), (12, 218), (12, 228), (-12, 228), (-12, 196)]
        canvas.polygon([(x - side * inward, y) for inward, y in profile], "tool")


def draw_can(canvas: Canvas) -> None:
    """Draw a can under the chuck."""
    canvas.rect((179, 206, 82, 136), "body")
    canvas.rect((175, 196, 9, 20), "lid")
    canvas.rect((256, 196, 9, 20), "lid")
    canvas.rect((175, 334, 90, 11), "lid")
    canvas.text((220, 280), "can", size=17, anchor="middle")


def draw_base(canvas: Canvas) -> None:
    """Draw the base plate, its stack and the lift lever."""
    canvas.rect((166, 345, 108, 13), "tool", hatch="tool")
    canvas.rect((176, 358, 88, 9), "paper")
    canvas.rect((176, 367, 88, 14), "paper")
    canvas.rect((210, 381, 20, 66), "tool")
    canvas.line([(204 if i % 2 else 236, 386 + 8 * i) for i in range(6)])
    canvas.polygon([(206, 450), (222, 438), (364, 452), (362, 464), (218, 462)], "tool")
    canvas.rect((350, 448, 62, 18), "dark", round_by=8)


def _draw_crank(canvas: Canvas) -> None:
    canvas.rect((232, 78, 34, 26), "tool")
    for x in range(236, 266, 6):
        canvas.line(((x, 78), (x, 104)), "thin")
    canvas.rect((266, 86, 88, 10), "tool")
    canvas.polygon([(350, 64), (366, 64), (366, 150), (350, 150)], "tool")
    canvas.rect((366, 50, 46, 18), "dark", round_by=8)


def _draw_motor(canvas: Canvas) -> None:
    canvas.rect((300, 62, 92, 66), "tool", round_by=8)
    for x in (318, 336, 354, 372):
        canvas.line(((x, 72), (x, 118)), "thin")
    canvas.line(((300, 104), (240, 104)))
    canvas.rect((196, 34, 134, 24), "lid", round_by=10)
    canvas.rect((322, 58, 12, 6), "tool")
    canvas.rect((52, 200, 30, 30), "paper", round_by=4)
    canvas.circle((67, 215), 9, "dark")
    canvas.text((67, 250), "STOP", size=13, anchor="middle", strong=True)


def _draw_roller_lever(canvas: Canvas) -> None:
    canvas.polygon([(276, 150), (288, 146), (392, 184), (388, 196)], "tool")
    canvas.rect((382, 178, 44, 20), "dark", round_by=9)
    canvas.path("M404 166 A110 110 0 0 0 392 140", "dash")
