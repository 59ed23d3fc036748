"""Every error the package raises on purpose.

TinwrightError
├── ContentError          problems found in the educator's files
├── ExamError             a file of an examination: damaged, or not of this form  (also ValueError)
├── MeasureError          a length or a turn that cannot be read         (also ValueError)
├── MissingExtraError     an optional extra that is not installed        (also ImportError)
├── PaperError            something that cannot be printed as asked      (also ValueError)
│   └── MissingLettersError  letters that no font on the computer has
├── PracticeError         a scenario, a fault or an action of the practice bench that cannot be  (also ValueError)
├── QuizError             items, answers or a blueprint that do not fit  (also ValueError)
├── RecordError           the private register: refused, missing, or not to be reached
│   └── CertificateError  a key, a certificate or a list that cannot be made or read  (also ValueError)
├── SeamingError          seam arithmetic asked for the impossible       (also ValueError)
└── WriteError            a folder that cannot be written safely         (also OSError)
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

__all__ = [
    "CertificateError",
    "ContentError",
    "ExamError",
    "MeasureError",
    "MissingExtraError",
    "MissingLettersError",
    "PaperError",
    "PracticeError",
    "Problem",
    "QuizError",
    "RecordError",
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


class ExamError(TinwrightError, ValueError):
    """Raised by `examining` when a file of an examination cannot be read, was changed, or belongs to another form."""


class MeasureError(TinwrightError, ValueError):
    """Raised by `measures` when a text is not a length or a turn with a unit."""


class PracticeError(TinwrightError, ValueError):
    """A fault, a scenario or an action that the practice bench does not know. Raised by `practice`."""


class QuizError(TinwrightError, ValueError):
    """Raised by `quizzes` when items, answers, ratings or a blueprint cannot give what is asked of them."""


class RecordError(TinwrightError):
    """Raised by `records` when the register refuses an entry, lacks one, or cannot be read or written."""


class CertificateError(RecordError, ValueError):
    """Raised by `records` when a signing key, a certificate or a list of revoked ones cannot be made or read."""


class MissingExtraError(TinwrightError, ImportError):
    """Raised by rooms that need an optional extra when its libraries are not installed; says how to install them."""


class PaperError(TinwrightError, ValueError):
    """Raised by `printing` for letters that no font has and for bad settings, by `paper` for cards that do not fit."""


class MissingLettersError(PaperError):
    """Raised by `printing` when no font on the computer has some of a document's letters.

    Attributes:
        letters: the letters.
    """

    def __init__(self, title: str, letters: Iterable[str]) -> None:
        self.letters = tuple(letters)
        said = ", ".join(f"{letter!r} (U+{ord(letter):04X})" for letter in self.letters)
        super().__init__(f"{title}: no font on this computer has the letters {said}: install one, or do without them")


class SeamingError(TinwrightError, ValueError):
    """Raised by `seaming` when the numbers given do not describe a can, a set-up or a seam."""


class WriteError(TinwrightError, OSError):
    """Raised by writers when the target folder is not theirs to fill."""
