"""Canvas: one SVG drawing with its name, its description and its patterns.

    canvas = Canvas()
    canvas.circle((20, 20), 16, "lid")
    canvas.picture((0, 0, 40, 40)).svg(title="A lid", description="A lid, seen from above.", id_prefix="lid")

Every text given by a user is escaped where it is written down. Colors are CSS variables with a fallback; see
`assets/figures.css`.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from html import escape
from typing import TYPE_CHECKING

from tinwright.figures.thinning import thinned
from tinwright.remembering import remembered

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

__all__ = ["Canvas", "Picture", "Point", "number"]

Point = tuple[float, float]
"""Right and down, in drawing units or inches."""

_UNSEEN = 0.12
"""How far a line may move, in drawing units: a drawing is shown with about one pixel to the unit."""
_PREFIX = re.compile(r"[A-Za-z][A-Za-z0-9_-]*")
_NOT_XML = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\ud800-\udfff\ufffe\uffff]")
_SAFE_HREF = re.compile(r"(?:https?://|[^:]*$|[^:]*[/?#])", re.IGNORECASE)

_PAINT = {
    "lid": 'fill="var(--tw-svg-lid, #e8edf2)" stroke="currentColor"',
    "body": 'fill="var(--tw-svg-body, #b9c6d3)" stroke="currentColor"',
    "line": 'fill="none" stroke="currentColor"',
    "thin": 'fill="none" stroke="currentColor" stroke-width="1"',
    "dash": 'fill="none" stroke="currentColor" stroke-dasharray="7 5"',
    "fault": 'fill="none" stroke="var(--tw-svg-fault, #a3161a)" stroke-width="2.5"',
    "mark": 'fill="var(--tw-svg-fault, #a3161a)" stroke="var(--tw-svg-paper, #ffffff)"',
    "extra": 'fill="var(--tw-svg-fault, #a3161a)" stroke="none"',
    "lack": 'fill="var(--tw-svg-paper, #ffffff)" stroke="var(--tw-svg-fault, #a3161a)" stroke-width="4"',
    "solid": 'fill="currentColor" stroke="none"',
    "paper": 'fill="var(--tw-svg-paper, #ffffff)" stroke="currentColor"',
    "blank": 'fill="var(--tw-svg-paper, #ffffff)" stroke="none"',
    "tool": 'fill="var(--tw-svg-tool, #d9d4c7)" stroke="currentColor"',
    "dark": 'fill="var(--tw-svg-dark, #6b7682)" stroke="currentColor"',
}
_PATTERNS = {
    "body": ("8", "M-2 2 l4 -4 M0 8 l8 -8 M6 10 l4 -4"),
    "compound": ("6", "M1 1 h1.6 M4 4 h1.6"),
    "matter": ("9", "M2 2 l3 3 M5 2 l-3 3"),
    "out": ("7", "M0 0 l7 7 M7 0 l-7 7"),
    "tool": ("12", "M-2 2 l4 -4 M0 12 l12 -12 M10 14 l4 -4"),
}
_OURS = "\0"
"""Stands in place of the prefix of ids until a drawing is named: no text can hold it."""


def number(value: float) -> str:
    """Write a coordinate to two decimals, without trailing zeros and without a minus before zero.

    >>> number(12.5), number(-0.001), number(3.14159)
    ('12.5', '0', '3.14')
    """
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text in {"-0", ""} else text


_TRAILING = re.compile(r"\.0+\b|(?<=\.\d)0\b")
_MINUS_ZERO = re.compile(r"-0(?=[, ]|$)")


@remembered
def _written(points: tuple[Point, ...], tolerance: float) -> str:
    """Write the points that a curve needs, to a tenth of a unit: many drawings show the same shapes.

    The ends of a straight line, and all points where there is no tolerance, are written as `number` would.
    """
    if tolerance and len(points) > 2:
        pairs = [f"{x:.1f},{y:.1f}" for x, y in thinned(points, tolerance)]
    else:
        pairs = [f"{x:.2f},{y:.2f}" for x, y in points]
    return _MINUS_ZERO.sub("0", _TRAILING.sub("", " ".join(pairs)))


@dataclass(frozen=True)
class Picture:
    """A drawing that has no name yet: any page may put it in, under a name and ids of its own."""

    _frame: str
    """Attributes of its outermost element."""
    _drawn: str
    """What is in it, after its name and description."""

    def svg(self, *, title: str, description: str, id_prefix: str) -> str:
        """Return it as an SVG element that names and describes itself.

        Args:
            title: Its name.
            description: What it shows, for those who do not see it.
            id_prefix: Start of every id in it; a letter, then letters, digits, `-` and `_`.

        Raises:
            ValueError: when `id_prefix` cannot begin an id.
        """
        if not _PREFIX.fullmatch(id_prefix):
            raise ValueError(f"expected an id prefix of letters, digits, '-' and '_', got {id_prefix!r}")
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg" {self._frame} aria-labelledby="{id_prefix}-t {id_prefix}-d">'
            f'<title id="{id_prefix}-t">{_words(title)}</title><desc id="{id_prefix}-d">{_words(description)}</desc>'
            f"{self._drawn.replace(_OURS, id_prefix)}</svg>"
        )


def _words(text: str) -> str:
    return escape(_NOT_XML.sub("\ufffd", text), quote=False)


class Canvas:
    """An SVG drawing that takes the width it is given.

    Args:
        wide: Whether it may be as wide as the page.
    """

    def __init__(self, *, wide: bool = False) -> None:
        self._class = "tw-svg tw-svg--wide" if wide else "tw-svg"
        self._role = "img"
        self._patterns: dict[str, str] = {}
        self._drawn: list[str] = []
        self._end = ""

    def group(self, **attributes: str) -> None:
        """Put what follows into a new group of the drawing."""
        names = "".join(f' {name.replace("_", "-")}="{escape(value)}"' for name, value in attributes.items())
        self._into(f"<g{names}>", "</g>")

    def link(self, href: str | None) -> None:
        """Put what follows into a link; an address that could run a script gives a plain group.

        A drawing with links is a group to a screen reader, not an image: what is in an image cannot be reached.
        """
        address = _NOT_XML.sub("", href or "").strip()
        if href is None or not _SAFE_HREF.match(address):
            self.group()
        else:
            self._role = "group"
            self._into(f'<a href="{escape(address)}">', "</a>")

    def polygon(
        self, points: Iterable[Point], paint: str, *, hatch: str | None = None, part: str | None = None
    ) -> None:
        """Draw a closed shape.

        Args:
            points: Its corners, in drawing units.
            paint: `lid`, `body`, `tool`, `dark`, `paper`, `blank`, `line`, `dash`, `fault`, `mark`,
                `extra`, `lack` or `solid`.
            hatch: Pattern laid over it: `body`, `compound`, `matter`, `out` or `tool`.
            part: What it is a part of, for those who measure the drawing.
        """
        drawn = f'points="{_written(tuple(points), 0 if part else _UNSEEN)}"'
        self._draw("polygon", f'{drawn} data-part="{part}"' if part else drawn, paint)
        if hatch:
            self._hatch("polygon", drawn, hatch)

    def line(self, points: Iterable[Point], paint: str = "line") -> None:
        """Draw a line through points."""
        self._draw("polyline", f'points="{_written(tuple(points), _UNSEEN)}"', paint)

    def lines(self, lines: Iterable[Iterable[Point]], paint: str = "line") -> None:
        """Draw many lines alike as one element, which a browser lays out sooner."""
        self.path("".join(f"M{_written(tuple(points), _UNSEEN)}" for points in lines), paint)

    def path(self, d: str, paint: str = "line") -> None:
        """Draw a path given in SVG path language; `d` is ours, never a user's."""
        self._draw("path", f'd="{d}"', paint)

    def rect(
        self, box: tuple[float, float, float, float], paint: str, *, hatch: str | None = None, round_by: float = 0
    ) -> None:
        """Draw a rectangle given as left, top, width and height."""
        x, y, width, height = map(number, box)
        drawn = f'x="{x}" y="{y}" width="{width}" height="{height}"'
        if round_by:
            drawn += f' rx="{number(round_by)}"'
        self._draw("rect", drawn, paint)
        if hatch:
            self._hatch("rect", drawn, hatch)

    def ellipse(self, center: Point, radii: Point, paint: str) -> None:
        """Draw an ellipse."""
        x, y, across, down = map(number, (*center, *radii))
        self._draw("ellipse", f'cx="{x}" cy="{y}" rx="{across}" ry="{down}"', paint)

    def circle(self, center: Point, radius: float, paint: str) -> None:
        """Draw a circle."""
        self.ellipse(center, (radius, radius), paint)

    def text(
        self, at: Point, lines: str | Sequence[str], *, size: float = 18, anchor: str = "start", strong: bool = False
    ) -> None:
        """Write lines of text; `at` is the foot of the first line, at its start, middle or end (`anchor`).

        Letters have a halo of paper color, so that they are read over lines.
        """
        x = number(at[0])
        if isinstance(lines, str) or len(lines) == 1:
            words = _words(lines if isinstance(lines, str) else lines[0])
        else:
            down = f' dy="{number(size * 1.15)}"'
            rows = [f'<tspan x="{x}"{down if place else ""}>{_words(row)}</tspan>' for place, row in enumerate(lines)]
            words = "".join(rows)
        manner = f' text-anchor="{anchor}"' if anchor != "start" else ""
        if strong:
            manner += ' font-weight="700"'
        self._drawn.append(
            f'<text class="tw-svg-text" x="{x}" y="{number(at[1])}" font-size="{number(size)}" fill="currentColor" '
            f'stroke="var(--tw-svg-paper, #ffffff)" stroke-width="4" paint-order="stroke"{manner}>{words}</text>'
        )

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
            (end, (back[0] - uy * wing, back[1] + ux * wing), (back[0] + uy * wing, back[1] - ux * wing)),
            "mark" if paint == "fault" else "solid",
        )

    def copy(self) -> Canvas:
        """Return a canvas on which the same is drawn, to draw more on it."""
        canvas = Canvas()
        canvas._class, canvas._role, canvas._end = self._class, self._role, self._end
        canvas._patterns, canvas._drawn = dict(self._patterns), list(self._drawn)
        return canvas

    def picture(self, box: tuple[float, float, float, float]) -> Picture:
        """Return the drawing, to be named; `box` is left, top, width and height of what is seen of it."""
        frame = (
            f'class="{self._class}" role="{self._role}" viewBox="{" ".join(map(number, box))}" font-family="inherit" '
            'stroke-width="1.6" stroke-linejoin="round" stroke-linecap="round"'
        )
        patterns = f"<defs>{''.join(self._patterns.values())}</defs>" if self._patterns else ""
        return Picture(frame, "".join([patterns, *self._drawn, self._end]))

    def _into(self, start: str, end: str) -> None:
        self._drawn += [self._end, start]
        self._end = end

    def _draw(self, tag: str, attributes: str, paint: str) -> None:
        self._drawn.append(f'<{tag} class="tw-svg-{paint}" {attributes} {_PAINT[paint]}/>')

    def _hatch(self, tag: str, attributes: str, pattern: str) -> None:
        key = f"{_OURS}-{pattern}"
        if pattern not in self._patterns:
            size, d = _PATTERNS[pattern]
            self._patterns[pattern] = (
                f'<pattern id="{key}" width="{size}" height="{size}" patternUnits="userSpaceOnUse">'
                f'<path class="tw-svg-hatch-{pattern}" d="{d}" fill="none" stroke="currentColor" stroke-width="1"/>'
                "</pattern>"
            )
        self._drawn.append(f'<{tag} {attributes} fill="url(#{key})" stroke="none"/>')
