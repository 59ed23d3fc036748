"""A drawing as a file of its own, for pages with many: each is fetched only when it is looked at."""

from __future__ import annotations

import xml.etree.ElementTree as ET
from dataclasses import dataclass

from tinwright.remembering import remembered

__all__ = ["StandaloneDrawing", "standalone"]

_SVG = "{http://www.w3.org/2000/svg}"
_INK = "#1d252c"
"""The ink of `figures.css`, which a picture in an `img` does not see."""


@dataclass(frozen=True)
class StandaloneDrawing:
    """A drawing that needs nothing of the page it is shown on."""

    content: bytes
    """The SVG file."""
    said: str
    """Its name and description, for those who do not see it."""
    box: tuple[float, float, float, float]
    """Left, top, width and height, in drawing units."""


@remembered
def standalone(svg: str) -> StandaloneDrawing:
    """Make a file of a drawing that names and describes itself, on paper of its own color, without a style sheet.

    Args:
        svg: a drawing of this package.

    Raises:
        ValueError: when it has no name, description or box.
    """
    root = ET.fromstring(svg)  # noqa: S314 drawn by this package
    name, description = (root.findtext(f"{_SVG}{tag}", "").strip() for tag in ("title", "desc"))
    box = [float(number) for number in root.get("viewBox", "").split()]
    if not (name and description and len(box) == 4):
        raise ValueError("expected a drawing with a title, a description and a box")
    left, top, width, height = box
    said = f"{name} {description}" if name.endswith("?") else f"{name}. {description}"
    alone = str(svg).replace('font-family="inherit"', f'font-family="sans-serif" color="{_INK}"', 1)
    return StandaloneDrawing(alone.encode(), said, (left, top, width, height))
