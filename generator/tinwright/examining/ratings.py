"""The judges' ratings that a cut score is set from: a CSV file beside the blueprint."""

from __future__ import annotations

import csv
import io
import math
from typing import TYPE_CHECKING

from tinwright.errors import ContentError, Problem, QuizError, RecordError
from tinwright.given_file import read_given
from tinwright.knowledge.wording import commas_asked

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from pathlib import Path

    from tinwright.quizzes.standard_setting import CutScore

__all__ = ["cut_of", "mean_rating", "read_ratings"]

_HEADER = ["item", "judge", "rating"]
_MOST_BYTES = 2_000_000


def read_ratings(file: Path) -> dict[str, dict[str, float]]:
    """Read a ratings file: for each item what each judge rated it.

    The first row is `item,judge,rating`; rows that begin with `#` are remarks.

    Raises:
        ContentError: with every row that cannot be read.
    """
    try:
        text = read_given(file, _MOST_BYTES).decode("utf-8-sig")
    except (RecordError, UnicodeDecodeError) as error:
        said = "cannot be read: expected UTF-8" if isinstance(error, UnicodeDecodeError) else str(error)
        raise ContentError([Problem(str(file), 1, 1, "", said)]) from error
    rows = csv.reader(io.StringIO(text))
    ratings: dict[str, dict[str, float]] = {}
    problems: list[Problem] = []
    header: list[str] | None = None

    def problem(column: int, message: str) -> None:
        problems.append(Problem(str(file), rows.line_num, column, "", message))

    try:
        for row in rows:
            cells = [cell.strip() for cell in row]
            if not any(cells) or cells[0].startswith("#"):
                continue
            if header is None:
                header = cells
                if said := commas_asked(header[0], _HEADER[:1]):
                    problem(1, said)
                    break
                if header != _HEADER:
                    problem(1, f"expected the heading {','.join(_HEADER)}, got {','.join(header)[:60]!r}")
                    break
                continue
            if len(cells) != len(_HEADER) or not all(cells):
                problem(1, f"expected item, judge and rating, got {','.join(row)[:60]!r}")
                continue
            item, judge, given = cells
            value = _share(given)
            if value is None:
                problem(len(item) + len(judge) + 3, f"{item}: expected a rating from 0 to 1, got {given[:20]!r}")
            elif judge in ratings.setdefault(item, {}):
                problem(1, f"{item}: {judge} has rated it twice")
            else:
                ratings[item][judge] = value
    except csv.Error as error:
        problem(1, f"not a CSV file: {error}")
    if header is None:
        problems.append(Problem(str(file), 1, 1, "", f"expected the heading {','.join(_HEADER)}, found none"))
    if problems:
        raise ContentError(problems)
    return ratings


def cut_of(ratings: Mapping[str, Mapping[str, float]], items: Sequence[str], *, name: str) -> CutScore:
    """Return the panel's cut over some items: every judge must have rated every one.

    Args:
        ratings: as `read_ratings` returns them.
        items: ids of the items of a form.
        name: name of the ratings file, for the message.

    Raises:
        QuizError: naming the ratings that are missing.

    >>> cut_of({"a": {"judge 1": 0.9, "judge 2": 0.8}, "b": {"judge 1": 0.4, "judge 2": 0.6}}, "ab", name="r").cut
    1.35
    """
    from tinwright.quizzes.standard_setting import set_cut  # noqa: PLC0415 `check` reads ratings without numpy

    judges = sorted({judge for rated in ratings.values() for judge in rated})
    missing = [item for item in items if not ratings.get(item)]
    if missing:
        raise QuizError(f"{name}: expected ratings of every item of the form, got none for {', '.join(missing)}")
    gaps = [f"{item} by {judge}" for item in items for judge in judges if judge not in ratings[item]]
    if gaps:
        raise QuizError(f"{name}: expected a rating of every item by every judge, got none of {', '.join(gaps)}")
    return set_cut([[ratings[item][judge] for item in items] for judge in judges])


def mean_rating(ratings: Mapping[str, Mapping[str, float]], item: str, *, otherwise: float) -> float:
    """Return the mean of the judges' ratings of an item, or something else where nobody rated it.

    >>> mean_rating({"a": {"judge 1": 0.5, "judge 2": 1.0}}, "a", otherwise=0.7)
    0.75
    """
    rated = ratings.get(item)
    return round(sum(rated.values()) / len(rated), 9) if rated else otherwise


def _share(text: str) -> float | None:
    try:
        value = float(text)
    except ValueError:
        return None
    return value if math.isfinite(value) and 0 <= value <= 1 else None
