"""Lettering: how wide a text is in a drawing, and where to break it."""

from __future__ import annotations

from tinwright.remembering import remembered

__all__ = ["text_width", "wrap"]

_NARROW = frozenset("ijltfrI.,:;'|!()[] ")
_WIDE = frozenset("mwMW@%—…")


def text_width(text: str, *, size: float) -> float:
    """Estimate, on the wide side, how wide a text is in a common sans-serif typeface.

    Args:
        text: What is written.
        size: Height of the letters, in drawing units.

    Returns:
        Width in drawing units.

    >>> text_width("will", size=10) < text_width("WORM", size=10)
    True
    """
    return round(sum(map(_letter_width, text)) * size, 2)


@remembered
def _letter_width(letter: str) -> float:
    if letter in _NARROW:
        return 0.36
    if letter in _WIDE:
        return 0.98
    if ord(letter) > 0x2E80:
        return 1.1
    return 0.74 if letter.isupper() else 0.62


@remembered
def wrap(text: str, *, width: float, size: float) -> tuple[str, ...]:
    """Break a text into lines that fit a width; a word longer than the line is cut.

    Args:
        text: What is written; runs of white space count as one space.
        width: Room for a line, in drawing units.
        size: Height of the letters, in drawing units.

    >>> wrap("First roller set too loose", width=90, size=10)
    ('First roller set', 'too loose')
    """
    lines: list[str] = []
    line = ""
    for word in text.split():
        for piece in _cut(word, width=width, size=size):
            longer = f"{line} {piece}" if line else piece
            if line and text_width(longer, size=size) > width:
                lines.append(line)
                line = piece
            else:
                line = longer
    return (*lines, line) if line else tuple(lines)


def _cut(word: str, *, width: float, size: float) -> list[str]:
    if text_width(word, size=size) <= width:
        return [word]
    pieces = [""]
    for letter in word:
        if pieces[-1] and text_width(pieces[-1] + letter, size=size) > width:
            pieces.append("")
        pieces[-1] += letter
    return pieces
