"""Every error the package raises on purpose.

TinwrightError
├── ContentError          problems found in the educator's files
├── MeasureError          a length or a turn that cannot be read         (also ValueError)
├── MissingExtraError     an optional extra that is not installed        (also ImportError)
├── PaperError            something that cannot be printed as asked      (also ValueError)
├── SeamingError          seam arithmetic asked for the impossible       (also ValueError)
└── WriteError            a folder that cannot be written safely         (also OSError)
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

__all__ = [
    "ContentError",
    "MeasureError",
    "MissingExtraError",
    "PaperError",
    "Problem",
    "SeamingError",
    "TinwrightError",
    "WriteError",
]


@dataclass(frozen=True, order=True)
class Problem:
    """One thing wrong in one file, in the words an educator can act on."""

    file: str
    """Path of the file, relative to the folder that was read."""
    line: int
    """Line, counted from 1."""
    column: int
    """Column, counted from 1."""
    record: str
    """What the problem is in, such as `defect droop`; empty when the file could not be read that far."""
    message: str
    """What was expected, what came, and the nearest spelling where there is one."""

    def __str__(self) -> str:
        subject = f"{self.record}: " if self.record else ""
        return f"{self.file}:{self.line}:{self.column}: {subject}{self.message}"


class TinwrightError(Exception):
    """Base of all errors raised on purpose; the command line prints it in one line and exits 1."""


class ContentError(TinwrightError):
    """Raised by `knowledge.load` with every problem of every file, sorted by place."""

    def __init__(self, problems: Sequence[Problem]) -> None:
        self.problems = tuple(sorted(problems))
        super().__init__("\n".join(map(str, self.problems)))


class MeasureError(TinwrightError, ValueError):
    """Raised by `measures` when a text is not a length or a turn with a unit."""


class MissingExtraError(TinwrightError, ImportError):
    """Raised by rooms that need an optional extra when its libraries are not installed; says how to install them."""


class PaperError(TinwrightError, ValueError):
    """Raised by `paper` when a card does not fit its page, or a setting of the printing cannot be read."""


class SeamingError(TinwrightError, ValueError):
    """Raised by `seaming` when the numbers given do not describe a can, a set-up or a seam."""


class WriteError(TinwrightError, OSError):
    """Raised by writers when the target folder is not theirs to fill."""
