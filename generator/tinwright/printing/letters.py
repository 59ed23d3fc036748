"""No empty boxes on paper: a document with letters that no font has is refused."""

from __future__ import annotations

import logging
import re
from contextlib import contextmanager
from typing import TYPE_CHECKING

from tinwright.errors import MissingLettersError

if TYPE_CHECKING:
    from collections.abc import Iterator

__all__ = ["every_letter_printed"]

_MISSING = re.compile(r"\.notdef glyph .*\(U\+([0-9A-F]+)\)", re.DOTALL)
"""How the printing library says that it draws an empty box in place of a letter."""


@contextmanager
def every_letter_printed(title: str) -> Iterator[None]:
    """Refuse a document, when it has been drawn, for letters that became empty boxes.

    Args:
        title: title of the document, for the message.

    Raises:
        MissingLettersError: naming the letters.
    """
    log, watch = logging.getLogger("weasyprint"), _MissingLetters()
    level = log.level
    log.setLevel(logging.WARNING)  # whatever the program around this does not want to hear
    log.addHandler(watch)
    try:
        yield
    finally:
        log.removeHandler(watch)
        log.setLevel(level)
    if watch.letters:
        raise MissingLettersError(title, watch.letters)


class _MissingLetters(logging.Handler):
    """Notes the letters that would be printed as empty boxes, each once."""

    def __init__(self) -> None:
        super().__init__()
        self.letters: dict[str, None] = {}

    def emit(self, record: logging.LogRecord) -> None:
        """Take the letter out of a warning about it."""
        if found := _MISSING.search(record.getMessage()):
            self.letters[chr(int(found[1], 16))] = None
