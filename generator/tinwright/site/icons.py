"""The site's own mark, a double seam cut through, as the icons of an installed site.

    python -m tinwright.site.icons

draws them anew in `assets/`: they are the same for every programme.
"""

from __future__ import annotations

import sys
from pathlib import Path

from PIL import Image, ImageDraw

from tinwright.site.web_app import GROUND

__all__ = ["PICTURES", "draw_icons", "icon", "icon_svg"]

PICTURES = {"icon-192.png": (192, 0.8), "icon-512.png": (512, 0.8), "icon-whole.png": (512, 0.6)}
"""Pictures of the mark by name: width and height in pixels, and how much of them the mark takes.

A device may cut off all but the inner 80 percent of the last one.
"""

_END = ((12, 56), (12, 10), (52, 10), (52, 50), (32, 50), (32, 28))
"""The can end in a square of 64: up the chuck wall, over the top, down the outside, and up as the cover hook."""
_BODY = ((22, 58), (22, 19), (42, 19), (42, 41))
"""The can body: up, over, and down as the body hook."""
_STROKES = ((_END, "#ffffff"), (_BODY, "#8fcabf"))
_WIDTH = 6
_SMOOTH = 4
"""How many times larger the picture is drawn before it is made small, so that its edges are smooth."""


def draw_icons(folder: Path) -> None:
    """Write the mark in the sizes a device asks for."""
    (folder / "icon.svg").write_text(icon_svg(), encoding="utf-8", newline="\n")
    for name, (side, share) in PICTURES.items():
        icon(side, share=share).save(folder / name, optimize=True)


def icon_svg() -> str:
    """Return the mark on its ground as SVG."""
    paths = "".join(
        f'<path d="M{" L".join(f"{x} {y}" for x, y in points)}" stroke="{color}"/>' for points, color in _STROKES
    )
    return (
        '<svg xmlns="http://www.w3.org/2000/svg" viewBox="-8 -8 80 80">'
        f'<rect x="-8" y="-8" width="80" height="80" rx="12" fill="{GROUND}"/>'
        f'<g fill="none" stroke-width="{_WIDTH}" stroke-linecap="round" stroke-linejoin="round">{paths}</g></svg>\n'
    )


def icon(side: int, *, share: float) -> Image.Image:
    """Return the mark on its ground.

    Args:
        side: width and height in pixels.
        share: how much of the side the mark takes.
    """
    drawn = side * _SMOOTH
    picture = Image.new("RGB", (drawn, drawn), GROUND)
    pen = ImageDraw.Draw(picture)
    scale = drawn * share / 64
    margin = drawn * (1 - share) / 2
    radius = _WIDTH * scale / 2
    for points, color in _STROKES:
        placed = [(margin + x * scale, margin + y * scale) for x, y in points]
        pen.line(placed, fill=color, width=round(2 * radius))
        for x, y in placed:
            pen.ellipse((x - radius, y - radius, x + radius, y + radius), fill=color)
    return picture.reduce(_SMOOTH)


if __name__ == "__main__":
    draw_icons(Path(__file__).with_name("assets"))
    sys.stdout.write("drew the icons anew\n")
