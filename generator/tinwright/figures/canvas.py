"""Canvas: one SVG drawing with its name, its description and its patterns.

Everything is an element of a tree, so no text given by a user can become markup. Colors are CSS variables with a
fallback; see `site/assets/figures.css`.
"""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from typing import TYPE_CHECKING

from tinwright.figures.thinning import thinned
from tinwright.remembering import remembered

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

__all__ = ["Canvas", "Point", "number"]

Point = tuple[float, float]
"""Right and down, in drawing units or inches."""

_UNSEEN = 0.12
"""How far a line may move, in drawing units: a drawing is shown with about one pixel to the unit."""
_PREFIX = re.compile(r"[A-Za-z][A-Za-z0-9_-]*")
_NOT_XML = re.compile("[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
_SAFE_HREF = re.compile(r"(?:https?://|[^:]*$|[^:]*[/?#])", re.IGNORECASE)

_PAINT = {
    "lid": {"fill": "var(--tw-svg-lid, #e8edf2)", "stroke": "currentColor"},
    "body": {"fill": "var(--tw-svg-body, #b9c6d3)", "stroke": "currentColor"},
    "line": {"fill": "none", "stroke": "currentColor"},
    "thin": {"fill": "none", "stroke": "currentColor", "stroke-width": "1"},
    "dash": {"fill": "none", "stroke": "currentColor", "stroke-dasharray": "7 5"},
    "fault": {"fill": "none", "stroke": "var(--tw-svg-fault, #a3161a)", "stroke-width": "2.5"},
    "solid": {"fill": "currentColor", "stroke": "none"},
    "paper": {"fill": "var(--tw-svg-paper, #ffffff)", "stroke": "currentColor"},
    "blank": {"fill": "var(--tw-svg-paper, #ffffff)", "stroke": "none"},
    "tool": {"fill": "var(--tw-svg-tool, #d9d4c7)", "stroke": "currentColor"},
    "dark": {"fill": "var(--tw-svg-dark, #6b7682)", "stroke": "currentColor"},
}
_PATTERNS = {
    "body": ("8", "M-2 2 l4 -4 M0 8 l8 -8 M6 10 l4 -4"),
    "compound": ("6", "M1 1 h1.6 M4 4 h1.6"),
    "matter": ("9", "M2 2 l3 3 M5 2 l-3 3"),
    "out": ("7", "M0 0 l7 7 M7 0 l-7 7"),
    "tool": ("12", "M-2 2 l4 -4 M0 12 l12 -12 M10 14 l4 -4"),
}


def number(value: float) -> str:
    """Write a coordinate to two decimals, without trailing zeros and without a minus before zero.

    >>> number(12.5), number(-0.001), number(3.14159)
    ('12.5', '0', '3.14')
    """
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text in {"-0", ""} else text


_TRAILING = re.compile(r"\.00\b|(?<=\.\d)0\b")
_MINUS_ZERO = re.compile(r"-0(?=[, ]|$)")


@remembered
def _written(points: tuple[Point, ...], tolerance: float) -> str:
    """Write the points that a line needs, each as `number` would: many drawings show the same shapes."""
    kept = thinned(points, tolerance) if tolerance else points
    text = _TRAILING.sub("", " ".join([f"{x:.2f},{y:.2f}" for x, y in kept]))
    return _MINUS_ZERO.sub("0", text)


class Canvas:
    """An SVG drawing that names itself to a screen reader and takes the width it is given.

    Args:
        title: Its name.
        description: What it shows, for those who do not see it.
        id_prefix: Start of every id in it; a letter, then letters, digits, `-` and `_`.
        wide: Whether it may be as wide as the page.

    Raises:
        ValueError: when `id_prefix` cannot begin an id.
    """

    def __init__(self, *, title: str, description: str, id_prefix: str, wide: bool = False) -> None:
        if not _PREFIX.fullmatch(id_prefix):
            raise ValueError(f"expected an id prefix of letters, digits, '-' and '_', got {id_prefix!r}")
        self._prefix = id_prefix
        self._root = ET.Element(
            "svg",
            {
                "xmlns": "http://www.w3.org/2000/svg",
                "class": "tw-svg tw-svg--wide" if wide else "tw-svg",
                "role": "img",
                "aria-labelledby": f"{id_prefix}-t {id_prefix}-d",
                "font-family": "inherit",
                "stroke-width": "1.6",
                "stroke-linejoin": "round",
                "stroke-linecap": "round",
            },
        )
        for tag, end, text in (("title", "t", title), ("desc", "d", description)):
            ET.SubElement(self._root, tag, {"id": f"{id_prefix}-{end}"}).text = _NOT_XML.sub("\ufffd", text)
        self._defs = ET.SubElement(self._root, "defs")
        self._into = self._root

    def group(self, **attributes: str) -> None:
        """Put what follows into a new group of the drawing."""
        names = {name.replace("_", "-"): value for name, value in attributes.items()}
        self._into = ET.SubElement(self._root, "g", names)

    def link(self, href: str | None) -> None:
        """Put what follows into a link; an address that could run a script gives a plain group.

        A drawing with links is a group to a screen reader, not an image: what is in an image cannot be reached.
        """
        if href is None or not _SAFE_HREF.match(_NOT_XML.sub("", href).strip()):
            self.group()
        else:
            self._root.set("role", "group")
            self._into = ET.SubElement(self._root, "a", {"href": _NOT_XML.sub("", href).strip()})

    def polygon(
        self, points: Iterable[Point], paint: str, *, hatch: str | None = None, part: str | None = None
    ) -> None:
        """Draw a closed shape.

        Args:
            points: Its corners, in drawing units.
            paint: `lid`, `body`, `tool`, `dark`, `paper`, `blank`, `line`, `dash`, `fault` or `solid`.
            hatch: Pattern laid over it: `body`, `compound`, `matter`, `out` or `tool`.
            part: What it is a part of, for those who measure the drawing.
        """
        drawn = _written(tuple(points), 0 if part else _UNSEEN)
        attributes = {"points": drawn} | ({"data-part": part} if part else {})
        self._draw("polygon", attributes, paint)
        if hatch:
            ET.SubElement(self._into, "polygon", {"points": drawn, "fill": self._pattern(hatch), "stroke": "none"})

    def line(self, points: Iterable[Point], paint: str = "line") -> None:
        """Draw a line through points."""
        drawn = _written(tuple(points), _UNSEEN)
        self._draw("polyline", {"points": drawn}, paint)

    def path(self, d: str, paint: str = "line") -> None:
        """Draw a path given in SVG path language; `d` is ours, never a user's."""
        self._draw("path", {"d": d}, paint)

    def rect(
        self, box: tuple[float, float, float, float], paint: str, *, hatch: str | None = None, round_by: float = 0
    ) -> None:
        """Draw a rectangle given as left, top, width and height."""
        names = zip(("x", "y", "width", "height"), map(number, box), strict=True)
        attributes = dict(names) | ({"rx": number(round_by)} if round_by else {})
        self._draw("rect", attributes, paint)
        if hatch:
            ET.SubElement(self._into, "rect", {**attributes, "fill": self._pattern(hatch), "stroke": "none"})

    def ellipse(self, center: Point, radii: Point, paint: str) -> None:
        """Draw an ellipse."""
        attributes = dict(zip(("cx", "cy", "rx", "ry"), map(number, (*center, *radii)), strict=True))
        self._draw("ellipse", attributes, paint)

    def circle(self, center: Point, radius: float, paint: str) -> None:
        """Draw a circle."""
        self.ellipse(center, (radius, radius), paint)

    def text(
        self, at: Point, lines: str | Sequence[str], *, size: float = 18, anchor: str = "start", strong: bool = False
    ) -> None:
        """Write lines of text; `at` is the foot of the first line, at its start, middle or end (`anchor`).

        Letters have a halo of paper color, so that they are read over lines.
        """
        attributes = {
            "class": "tw-svg-text",
            "x": number(at[0]),
            "y": number(at[1]),
            "font-size": number(size),
            "fill": "currentColor",
            "stroke": "var(--tw-svg-paper, #ffffff)",
            "stroke-width": "4",
            "paint-order": "stroke",
        }
        if anchor != "start":
            attributes["text-anchor"] = anchor
        if strong:
            attributes["font-weight"] = "700"
        element = ET.SubElement(self._into, "text", attributes)
        rows = [lines] if isinstance(lines, str) else list(lines)
        if len(rows) == 1:
            element.text = _NOT_XML.sub("\ufffd", rows[0])
            return
        for row, line in enumerate(rows):
            span = {"x": number(at[0])} | ({"dy": number(size * 1.15)} if row else {})
            ET.SubElement(element, "tspan", span).text = _NOT_XML.sub("\ufffd", line)

    def pointer(self, start: Point, end: Point, paint: str = "thin") -> None:
        """Draw a leader line that ends in a dot."""
        self.line((start, end), paint)
        self.circle(end, 3, "solid")

    def arrow(self, start: Point, end: Point, paint: str = "line", *, size: float = 10) -> None:
        """Draw a line with an arrow head at its end."""
        (x0, y0), (x1, y1) = start, end
        length = max(((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5, 1e-9)
        ux, uy = (x1 - x0) / length, (y1 - y0) / length
        back = (x1 - ux * size, y1 - uy * size)
        wing = size * 0.4
        self.line((start, back), paint)
        self.polygon(
            (end, (back[0] - uy * wing, back[1] + ux * wing), (back[0] + uy * wing, back[1] - ux * wing)), "solid"
        )

    def svg(self, box: tuple[float, float, float, float]) -> str:
        """Return the drawing as text; `box` is left, top, width and height of what is seen of it."""
        self._root.set("viewBox", " ".join(map(number, box)))
        if not len(self._defs) and self._defs in self._root:
            self._root.remove(self._defs)
        return ET.tostring(self._root, encoding="unicode")

    def _draw(self, tag: str, attributes: dict[str, str], paint: str) -> None:
        ET.SubElement(self._into, tag, {"class": f"tw-svg-{paint}", **attributes, **_PAINT[paint]})

    def _pattern(self, name: str) -> str:
        key = f"{self._prefix}-{name}"
        if all(known.get("id") != key for known in self._defs):
            size, d = _PATTERNS[name]
            pattern = ET.SubElement(
                self._defs,
                "pattern",
                {"id": key, "width": size, "height": size, "patternUnits": "userSpaceOnUse"},
            )
            ET.SubElement(
                pattern,
                "path",
                {
                    "class": f"tw-svg-hatch-{name}",
                    "d": d,
                    "fill": "none",
                    "stroke": "currentColor",
                    "stroke-width": "1",
                },
            )
        return f"url(#{key})"
