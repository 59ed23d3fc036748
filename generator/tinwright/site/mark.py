"""The site's own mark, a double seam cut through, as the icons of an installed site."""

from __future__ import annotations

import io
from typing import TYPE_CHECKING

from PIL import Image, ImageDraw

from tinwright.remembering import remembered
from tinwright.site.page import Asset

if TYPE_CHECKING:
    from collections.abc import Iterator

__all__ = ["GROUND", "icon_assets", "icon_png", "icon_svg"]

GROUND = "#1f4744"
"""Color behind the mark; that of the site's header."""

_END = ((12, 56), (12, 10), (52, 10), (52, 50), (32, 50), (32, 28))
"""The can end in a square of 64: up the chuck wall, over the top, down the outside, and up as the cover hook."""
_BODY = ((22, 58), (22, 19), (42, 19), (42, 41))
"""The can body: up, over, and down as the body hook."""
_STROKES = ((_END, "#ffffff"), (_BODY, "#8fcabf"))
_WIDTH = 6
_SMOOTH = 4
"""How many times larger the picture is drawn before it is made small, so that its edges are smooth."""


def icon_assets() -> Iterator[Asset]:
    """Yield the mark in the sizes a device asks for."""
    yield Asset("assets/icon.svg", icon_svg().encode())
    yield Asset("assets/icon-192.png", icon_png(192))
    yield Asset("assets/icon-512.png", icon_png(512))
    yield Asset("assets/icon-whole.png", icon_png(512, share=0.6))


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


@remembered
def icon_png(side: int, *, share: float = 0.8) -> bytes:
    """Return the mark on its ground as PNG.

    Args:
        side: width and height in pixels.
        share: how much of the side the mark takes; a device may cut off all but the inner 80 percent of an icon.
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
    out = io.BytesIO()
    picture.reduce(_SMOOTH).save(out, "PNG")
    return out.getvalue()
