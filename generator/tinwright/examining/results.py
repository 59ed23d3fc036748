"""Results of an examination: a plain table, a slip for each person, and what goes into the register.

A slip shows points, topics and what to study. It shows no question and no answer: they are used again.
"""

from __future__ import annotations

import csv
import io
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from tinwright.examining.grading import SCORE_PLACES, points_text
from tinwright.register.entries import ItemResponse, Sitting
from tinwright.templates import template_of

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from tinwright.examining.form import ExamForm, ExamKey
    from tinwright.examining.grading import GradedSheet

__all__ = ["Names", "result_lines", "results_csv", "sitting_of", "slips_html"]


@dataclass(frozen=True)
class Names:
    """How ids are called on paper; an id without a name is written in plain words."""

    office: str = ""
    """The Extension office."""
    topics: Mapping[str, str] = field(default_factory=dict)
    """Topic: its title."""
    records: Mapping[str, str] = field(default_factory=dict)
    """`kind/id`: its title."""
    people: Mapping[str, str] = field(default_factory=dict)
    """Register id: the name."""

    def topic(self, id_: str) -> str:
        """Return what a topic is called.

        >>> Names().topic("first-roller")
        'First roller'
        """
        return self.topics.get(id_) or _plain(id_)

    def record(self, name: str) -> str:
        """Return what a record is called."""
        return self.records.get(name) or _plain(name.rpartition("/")[2])


def _plain(id_: str) -> str:
    words = id_.replace("-", " ")
    return words[:1].upper() + words[1:]


def result_lines(graded: Sequence[GradedSheet]) -> Iterator[str]:
    """Tell the results as a plain table, a line for each sheet."""
    rows = [("person", "day", "points", "95 % interval", "result")]
    rows += [
        (row.sheet.person, row.sheet.taken_on.isoformat(), _score(row), _range(row), _verdict(row)) for row in graded
    ]
    widths = [max(len(row[column]) for row in rows) for column in range(4)]
    for row in rows:
        yield "  ".join([*(cell.ljust(width) for cell, width in zip(row, widths, strict=False)), row[4]])


def results_csv(graded: Sequence[GradedSheet]) -> str:
    """Return the results as CSV, a row for each sheet."""
    out = io.StringIO()
    table = csv.writer(out, lineterminator="\n")
    topics = [topic.topic for topic in graded[0].topics] if graded else []
    table.writerow(
        ["person", "taken_on", "form", "points", "out_of", "cut", "passed", "areas_missed", "critical_wrong", *topics]
    )
    for row in graded:
        table.writerow(
            [
                row.sheet.person,
                row.sheet.taken_on,
                row.sheet.form,
                points_text(row.score, SCORE_PLACES),
                row.out_of,
                row.cut,
                "yes" if row.passed else "no",
                "; ".join(row.missed_areas),
                " ".join(map(str, row.critical_wrong)),
                *(points_text(topic.points, SCORE_PLACES) for topic in row.topics),
            ]
        )
    return out.getvalue()


def sitting_of(
    row: GradedSheet, *, supersedes: str | None = None, public_bank: bool = False
) -> tuple[Sitting, tuple[ItemResponse, ...]]:
    """Return what goes into the register, for `Register.record_sittings`.

    Points that no decimal number holds, such as 1/3, are cut off there; who passed was decided with the exact ones.
    """
    sitting = Sitting(
        id="",
        volunteer_id=row.sheet.person,
        exam=row.sheet.exam,
        form=row.sheet.form,
        taken_on=row.sheet.taken_on,
        score=points_text(row.score, SCORE_PLACES),
        out_of=str(row.out_of),
        passed=row.passed,
        digest=row.sheet.digest,
        graded_with=row.graded_with,
        profile={topic.topic: [points_text(topic.points, SCORE_PLACES), str(topic.out_of)] for topic in row.topics},
        supersedes=supersedes,
        second_of=row.second_of,
        allowed=row.allowed,
        public_bank=public_bank,
    )
    return sitting, tuple(ItemResponse(item, answer, points_text(points)) for item, answer, points in row.responses)


def slips_html(graded: Sequence[GradedSheet], form: ExamForm, key: ExamKey, names: Names) -> str:
    """Return one HTML page with a slip for each person, each printed on a page of its own."""
    slips = [
        {
            "row": row,
            "name": names.people.get(row.sheet.person, ""),
            "score": points_text(row.score, 2),
            "share": f"{float(row.score) / row.out_of:.0%}",
            "low": f"{row.interval.low:.0%}",
            "high": f"{row.interval.high:.0%}",
            "verdict": _verdict(row),
            "topics": [(names.topic(topic.topic), points_text(topic.points, 2), topic) for topic in row.topics],
            "study": [
                (names.topic(topic.topic), [names.record(record) for record in topic.study])
                for topic in row.topics_to_study
            ],
        }
        for row in graded
    ]
    return template_of("examining", "slips.html.j2").render(slips=slips, form=form, key=key, names=names)


def _score(row: GradedSheet) -> str:
    return f"{points_text(row.score, 2)} of {row.out_of}"


def _range(row: GradedSheet) -> str:
    return f"{row.interval.low:.0%} to {row.interval.high:.0%}"


def _verdict(row: GradedSheet) -> str:
    if row.passed:
        return "passed"
    reasons = []
    if not row.enough:
        reasons.append(f"fewer than {row.cut} points")
    reasons += [
        f"{area.title}: {area.right} of {area.out_of} right, {area.needed} needed"
        for area in row.areas
        if not area.passed
    ]
    again = "; second try today" if row.may_try_again else ""
    return f"not passed ({'; '.join(reasons)}{again})"
