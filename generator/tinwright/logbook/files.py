"""Read a file of the bench log: what a telephone exported, or a sheet that was typed in."""

from __future__ import annotations

from hashlib import sha256
from typing import TYPE_CHECKING

from tinwright.errors import Problem, RecordError
from tinwright.given_file import read_given
from tinwright.logbook.checking import MOST_TOLD
from tinwright.logbook.entries import LogFile
from tinwright.logbook.phone_file import read_phone_text
from tinwright.logbook.sheet_file import read_sheet_text

if TYPE_CHECKING:
    import datetime as dt
    from pathlib import Path

    from tinwright.logbook.names import LogNames

__all__ = ["read_log_file"]

_MAX_BYTES = 2_000_000


def read_log_file(file: Path, names: LogNames, latest: dt.date) -> tuple[LogFile | None, list[Problem]]:
    """Read one file, and return it, or all that is wrong with it.

    Args:
        file: JSON, as a telephone exports it, or the CSV form that `tinwright log blank` prints.
        names: the names there are.
        latest: last day on which a session can have been.
    """
    shown = str(file)
    try:
        raw = read_given(file, _MAX_BYTES)
    except RecordError as error:
        return None, [Problem(shown, 1, 1, "", str(error))]
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = raw[: error.start].count(b"\n") + 1
        column = error.start - raw.rfind(b"\n", 0, error.start)
        return None, [Problem(shown, line, column, "", "expected text in UTF-8, got other bytes")]
    is_json = text.lstrip()[:1] in {"{", "["}
    source, sessions, problems = (
        read_phone_text(file, text, names, latest) if is_json else read_sheet_text(shown, text, names, latest)
    )
    if problems:
        told = sorted(problems)[:MOST_TOLD]
        if len(problems) > MOST_TOLD:
            told.append(Problem(shown, told[-1].line, told[-1].column, "", f"and more than these {MOST_TOLD}"))
        return None, told
    return LogFile(file.name, sha256(raw).hexdigest(), source, tuple(sessions)), []
