"""Outside faults: what is painted on the face of the seam, or on the wall inside it, for each feature."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, pi, sin
from typing import TYPE_CHECKING

from tinwright.figures.face import SEAM_HEIGHT

if TYPE_CHECKING:
    from collections.abc import Callable

    from tinwright.figures.face import Face

__all__ = ["OUTSIDE_FAULTS", "OutsideFault"]

H = SEAM_HEIGHT


@dataclass(frozen=True)
class OutsideFault:
    """How a feature is drawn."""

    words: str
    """What is to be seen."""
    paint: Callable[[Face], None]
    """Draws it, seam and all."""
    view: str = "seam"
    """`seam`: outside of the seam; `wall`: inside wall of the lid; `inside`: body wall, seam stripped off; `flange`:
    open can; `curl`: lid not yet on a can."""


def _seam(
    face: Face, *, bottom: Callable[[float], float] | None = None, top: Callable[[float], float] | None = None
) -> None:
    face.band(top or (lambda _: 0), bottom or (lambda _: H), "lid")
    face.level(5)


def _spread(face: Face, s: float, ease: float = 16) -> float:
    """Return 1 within a stretch the fault covers, 0 well away from it, eased between."""
    best = 0.0
    for start, end in face.spans:
        outside = max(start - s, s - end, 0)
        best = max(best, 0.5 + 0.5 * cos(pi * outside / ease) if outside < ease else 0.0)
    return best


def _plain(face: Face) -> None:
    _seam(face)


def _droop(face: Face) -> None:
    def bottom(s: float) -> float:
        return H + 15 * face.hump(s, 34)

    _seam(face, bottom=bottom)
    for c in face.centers:
        face.line([(s, bottom(s)) for s in face.along(c - 26, c + 26)], "fault")
    face.level(H, "dash")


def _vee(face: Face) -> None:
    def bottom(s: float) -> float:
        return H + max((max(0.0, 20 * (1 - abs(s - c) / 13)) for c in face.centers), default=0)

    _seam(face, bottom=bottom)
    for c in face.centers:
        face.line([(c - 13, H), (c, H + 20), (c + 13, H)], "fault")
    face.level(H, "dash")


def _thick_part(face: Face) -> None:
    _seam(face, bottom=lambda s: H + 3.5 * _spread(face, s))
    for start, end in face.spans:
        for height, inset in ((11, 2), (17, -4), (24, 2)):
            face.level(height, "thin", (start + inset, end - inset))
        for edge in (start, end):
            if abs(edge) <= face.reach:
                face.line([(edge, 4), (edge, H + 2)], "fault")


def _rounded(face: Face) -> None:
    face.band(lambda _: 0, lambda _: H, "lid")
    for start, end in face.spans:
        span = (start, end)
        face.band(lambda _: -2, lambda _: H + 4, "lid", span=span)
        for height in (4, 7.5, 12, 25, 29.5, 33):
            face.level(height, "thin", span)
        for height in (-2, H + 4):
            face.level(height, "fault", span)


def _clinched(face: Face) -> None:
    face.band(lambda _: 0, lambda _: H, "lid")
    for start, end in face.spans:
        span = (start, end)
        face.band(lambda _: 0, lambda _: H + 1, "body", span=span)
        face.band(lambda _: 14, lambda _: 26, "body", hatch="body", span=span)
        face.band(lambda _: 0, lambda s: 17 + 1.6 * sin(s / 5), "lid", span=span)
        face.level(11, "thin", span)
        face.line([(s, 17 + 1.6 * sin(s / 5)) for s in face.along(*span)], "fault")


def _jump(face: Face) -> None:
    _seam(face, bottom=lambda s: H + 5 * face.hump(s, 24, shift=26), top=lambda s: -2 * face.hump(s, 24, shift=26))
    for center in face.centers:
        for height in (11, 18, 25):
            face.level(height, "thin", (center + 10, center + 42))
        for lap in (center - 7, center + 7):
            face.line([(lap, 0), (lap, H)])
        for end in (center + 9, center + 45):
            face.line([(end, 4), (end, H)], "fault")


def _flange_below(face: Face) -> None:
    for start, end in face.spans:
        face.band(lambda _: H - 2, lambda s: H + 12 + 1.2 * sin(s / 3), "body", hatch="body", span=(start, end))
        face.line([(s, H + 12 + 1.2 * sin(s / 3)) for s in face.along(start, end)], "fault")
    _seam(face)


def _curl_below(face: Face) -> None:
    for start, end in face.spans:
        face.band(lambda _: H - 2, lambda s: H + 15 * _spread(face, s, 6), "lid", span=(start - 5, end + 5))
        face.level(H + 9, "thin", (start, end))
        face.level(H + 15, "fault", (start, end))
    _seam(face)


def _torn_flange(face: Face) -> None:
    for c in face.centers:
        _torn_tongue(face, c)
    _seam(face)
    for c in face.centers:
        face.line([(c - 20, H), (c - 18, H + 8), (c - 14, H + 3)], "fault")
        face.line([(c + 20, H), (c + 19, H + 9), (c + 14, H + 3)], "fault")


def _torn_tongue(face: Face, c: float) -> None:
    tongue = [
        (c - 18, H - 2), (c - 16, H + 16), (c - 10, H + 12), (c - 6, H + 22), (c, H + 17),
        (c + 6, H + 24), (c + 10, H + 14), (c + 16, H + 18), (c + 18, H - 2),
    ]  # fmt: skip
    face.shape(tongue, "body", hatch="body")
    face.shape([(c - 18, H), (c - 8, H + 5), (c + 8, H + 5), (c + 18, H)], "solid")


def _compound_out(face: Face) -> None:
    for start, end in face.spans:
        face.band(
            lambda _: H - 2,
            lambda s: H + 1 + 9 * abs(sin(s / 13)) * (0.6 + 0.4 * sin(s / 31)),
            "paper",
            hatch="compound",
            span=(start, end),
        )
        edge = [(s, H + 1 + 9 * abs(sin(s / 13)) * (0.6 + 0.4 * sin(s / 31))) for s in face.along(start, end, 2)]
        face.line(edge, "fault")
    _seam(face)


def _bubbles(face: Face) -> None:
    _seam(face)
    for c in face.centers:
        for s, h, size in ((0, H + 3, 6), (-4, H - 9, 5), (5, H - 17, 6.5), (-2, H - 28, 5), (4, H - 38, 7)):
            face.shape([(c + s + size * cos(a), h + size * sin(a)) for a in _round()], "paper")
            face.line([(c + s + 0.5 * size * cos(a), h + 0.5 * size * sin(a)) for a in _round()[14:18]], "thin")
        face.line([(c - 13, H + 1), (c + 13, H + 1)], "fault")


def _inclusion(face: Face) -> None:
    for c in face.centers:
        lump = [(c + 17 * cos(a) * (1 + 0.2 * sin(3 * a)), H + 4 + 10 * sin(a)) for a in _round()]
        face.shape(lump, "paper", hatch="matter")
        face.line([*lump, lump[0]], "fault")
    _seam(face, bottom=lambda s: H - 4 * face.hump(s, 18))
    for c in face.centers:
        for size in (9, 15):
            face.line([(c + 1.5 * size * cos(a), 19 + 0.7 * size * sin(a)) for a in _round() if sin(a) < 0.2], "thin")


def _round() -> list[float]:
    return [pi * step / 12 for step in range(24)]


def _fracture(face: Face) -> None:
    _seam(face)
    for start, end in face.spans:
        crack = [(s, H - 5 + (3.5 if i % 2 else -2.5)) for i, s in enumerate(face.along(start, end, 7))]
        back = [(s, h + 3) for s, h in reversed(crack)]
        face.shape([*crack, *back], "solid")
        face.line(crack, "fault")


def _dent(face: Face) -> None:
    _seam(face, top=lambda s: 9 * face.hump(s, 34), bottom=lambda s: H + 3 * face.hump(s, 34))
    for c in face.centers:
        for size in (0.45, 0.75, 1.05):
            face.line([(c + 26 * size * cos(a), 22 + 11 * size * sin(a)) for a in _round()[:13]], "thin")
        face.line([(s, 9 * face.hump(s, 34)) for s in face.along(c - 26, c + 26)], "fault")


def _cut(face: Face) -> None:
    _seam(face)
    for c in face.centers:
        edge = [(c - 19, 27), (c - 8, 19), (c + 3, 15), (c + 19, 7)]
        face.shape([*edge, (c + 9, 17), (c - 2, 22), (c - 10, 26)], "solid")
        face.line(edge, "fault")


def _abrasion(face: Face) -> None:
    _seam(face)
    for start, end in face.spans:
        scratches = [
            [(s + row % 3 * 4, height), (s + row % 3 * 4 + 9, height + 1)]
            for row, height in enumerate((8, 12, 16, 20, 24, 28))
            for s in face.along(start, end - 17, 15)
        ]
        face.lines(scratches, "fault")


def _fin(face: Face) -> None:
    _wall(face)
    for start, end in face.spans:
        face.band(lambda s: -9 - 1.5 * sin(s / 4), lambda _: 1, "lid", span=(start, end))
        face.level(-3, "thin", (start, end))
        face.line([(s, -9 - 1.5 * sin(s / 4)) for s in face.along(start, end, 2)], "fault")


def _fractured_fin(face: Face) -> None:
    """Draw a fin of which a piece has broken out: the wall is open down to below its top."""
    _fin(face)
    for start, end in face.spans:
        middle, half = (start + end) / 2, min(12.0, (end - start) / 2)
        hole = [
            (-1.0, -11.0),
            (-0.7, -3.0),
            (-0.9, 4.0),
            (-0.3, 12.0),
            (0.2, 6.0),
            (0.8, 9.0),
            (0.9, -2.0),
            (1.1, -11.0),
        ]
        edge = [(middle + share * half, height) for share, height in hole]
        face.shape(edge, "solid")
        face.line(edge, "fault")


def _wall(face: Face) -> None:
    face.band(lambda _: 0, lambda _: H - 6, "lid")
    face.level(-5, "line")


def _bump_inside(face: Face) -> None:
    _wall(face)
    for c in face.centers:
        face.shape([(c + 17 * cos(a), 13 + 9 * sin(a)) for a in _round()], "paper")
        face.line([(c + 17 * cos(a), 13 + 9 * sin(a)) for a in (*_round(), 0)], "fault")
        for size in (0.35, 0.7):
            face.line([(c + 17 * size * cos(a), 13 + 9 * size * sin(a)) for a in _round() if sin(a) < 0.3], "thin")


def _chuck_print(face: Face) -> None:
    _wall(face)
    for start, end in face.spans:
        face.band(lambda _: 13, lambda s: 17 + sin(s / 9), "dark", span=(start, end))
        face.line([(s, 17 + sin(s / 9)) for s in face.along(start, end)], "fault")
        face.level(21, "thin", (start, end))


def _knurl_print(face: Face) -> None:
    _wall(face)
    for start, end in face.spans:
        teeth = [[(s, 5.0), (s + 4, 23.0)] for s in face.along(start, end, 5) if s + 4 <= face.reach]
        face.lines(teeth, "fault")


def _bent_flange(face: Face) -> None:
    face.band(lambda s: -1 + 3 * face.hump(s, 30), lambda s: 8 + 17 * face.hump(s, 30), "body", hatch="body")
    for c in face.centers:
        face.line([(s, 8 + 17 * face.hump(s, 30)) for s in face.along(c - 24, c + 24)], "fault")
    face.level(8, "dash")


def _bent_curl(face: Face) -> None:
    face.band(lambda s: 12 * face.hump(s, 30), lambda s: 18 - 5 * face.hump(s, 30), "lid")
    for c in face.centers:
        face.line([(s, 12 * face.hump(s, 30)) for s in face.along(c - 24, c + 24)], "fault")
    face.line([(s, 12 - face.hump(s, 30)) for s in face.along(-face.reach, face.reach)], "thin")
    face.level(0, "dash")


def _wrinkled_curl(face: Face) -> None:
    """Draw the edge of a lid in waves, with folds that run in from it."""

    def edge(s: float) -> float:
        return 18 + 3 * sin(s * pi / 4.5)

    face.band(lambda _: 0, edge, "lid")
    folds = [s for s in (4.5 * (2 * step + 1.5) for step in range(-40, 40)) if abs(s) < face.reach - 3]
    for s in folds:
        face.shape([(s - 2.4, edge(s - 2.4)), (s, 5.0), (s + 2.4, edge(s + 2.4)), (s, edge(s))], "extra")


def _no_ridge(face: Face) -> None:
    """Draw the inside of a body wall on which the pressed line fades out, dashed where it should go on."""
    face.band(lambda _: -4, lambda _: H + 6, "body")
    for start, _ in face.spans:
        left = max(start, -face.reach)
        face.band(lambda _: 14, lambda _: 20, "lid", span=(-face.reach, min(left + 16, -26)))
    for height in (14, 20):
        face.level(height, "dash")


def _ridge(face: Face) -> None:
    face.band(lambda _: -4, lambda _: H + 6, "body")
    face.band(lambda _: 14, lambda _: 20, "lid")


def _fault(words: str, paint: Callable[[Face], None], view: str = "seam") -> OutsideFault:
    return OutsideFault(words, paint, view)


OUTSIDE_FAULTS: dict[str, OutsideFault] = {
    "abrasion": _fault("metal rubbed thin", _abrasion),
    "bent-curl": _fault("curl of the lid bent (lid alone)", _bent_curl, "curl"),
    "bent-flange": _fault("flange bent (empty can)", _bent_flange, "flange"),
    "bubbles": _fault("air comes out in bubbles", _bubbles),
    "bump-inside": _fault("bump on the inside wall", _bump_inside, "wall"),
    "chuck-print": _fault("chuck's mark on the inside wall", _chuck_print, "wall"),
    "clinched": _fault("curl only caught on the flange", _clinched),
    "compound-out": _fault("compound below the seam", _compound_out),
    "curl-below": _fault("curl of the lid hangs below", _curl_below),
    "cut": _fault("outer metal cut", _cut),
    "dent": _fault("seam knocked in", _dent),
    "droop": _fault("smooth bulge below the seam", _droop),
    "fin": _fault("sharp edge along the inside top", _fin, "wall"),
    "flange-below": _fault("body flange shows below the seam", _flange_below),
    "fracture": _fault("crack along the seam", _fracture),
    "fractured-fin": _fault("sharp edge has cracked open", _fractured_fin, "wall"),
    "inclusion": _fault("food or dirt caught in the seam", _inclusion),
    "jump": _fault("loose just past the side seam", _jump),
    "knurl-print": _fault("chuck's teeth pressed into the wall", _knurl_print, "wall"),
    "no-ridge": _fault("pressed line fades out", _no_ridge, "inside"),
    "plain": _fault("smooth and even all around", _plain),
    "ridge": _fault("pressed line all around", _ridge, "inside"),
    "rounded": _fault("round and soft: not pressed", _rounded),
    "thick-part": _fault("part not rolled: thick, with edges", _thick_part),
    "torn-flange": _fault("torn flange turned back below", _torn_flange),
    "vee": _fault("sharp point below the seam", _vee),
    "wrinkled-curl": _fault("small folds in the edge of the lid", _wrinkled_curl, "curl"),
}
"""From the name of a feature to how it is drawn."""
