"""What no text may hold: links that are not closed, letters that nobody sees, and what a wrong encoding left."""

from __future__ import annotations

import re
import unicodedata
from typing import TYPE_CHECKING

from tinwright.knowledge.linking import INLINE

if TYPE_CHECKING:
    from collections.abc import Iterator

__all__ = ["faults_of_text"]

_INVISIBLE = frozenset({"Cc", "Cf", "Cn", "Co", "Cs"})
_BLANK = frozenset("\u115f\u1160\u2800\u3164\uffa0")
"""Letters that are drawn as nothing."""
_RIGHT_TO_LEFT = frozenset({"R", "AL", "AN"})
_TWICE_ENCODED = re.compile("â€.|Ã[\u0080-\u00bf]|Â[\u00a0-\u00bf]|\ufffd")
"""What UTF-8 becomes when it is read as Windows-1252 and saved again, and the mark for a byte that was lost."""
_SHOWN = 30


def faults_of_text(text: str) -> Iterator[tuple[int, str]]:
    r"""Yield what is wrong with a text: how far into it, and a message.

    >>> list(faults_of_text("see [[defect/droop"))
    [(4, "expected a link such as [[defect/droop]] or [[defect/droop|words]], got '[[defect/droop'")]
    >>> list(faults_of_text("0.0\u200b50"))
    [(3, 'a letter that nobody sees (U+200B): delete it')]
    """
    if "[[" in text:
        yield from _unclosed(text)
    if text.isascii() and text.isprintable():
        return
    for at, letter in enumerate(text):
        if letter.isascii() and letter.isprintable():
            continue
        if unicodedata.bidirectional(letter) in _RIGHT_TO_LEFT:
            yield at, f"the right-to-left letter {letter!r}: it turns the words and numbers beside it around"
        elif letter in _BLANK or (unicodedata.category(letter) in _INVISIBLE and letter not in "\n\r\t"):
            yield at, f"a letter that nobody sees (U+{ord(letter):04X}): delete it"
    for match in _TWICE_ENCODED.finditer(text):
        yield match.start(), f"{match[0]!r} stands where another letter was lost: write that letter again"


def _unclosed(text: str) -> Iterator[tuple[int, str]]:
    closed = {match.start() for match in INLINE.finditer(text)}
    for match in re.finditer(r"\[\[", text):
        if match.start() not in closed:
            got = text[match.start() :].partition("\n")[0]
            shown = got if len(got) <= _SHOWN else f"{got[:_SHOWN]}..."
            message = f"expected a link such as [[defect/droop]] or [[defect/droop|words]], got {shown!r}"
            yield match.start(), message
