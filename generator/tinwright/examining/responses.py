"""Answers of people to a form: from the files the page saves, or typed in from paper as one CSV file.

A response file carries a digest of what is in it. It shows damage and careless edits; it is no lock: whoever changes
the answers can compute the digest anew. Whether a file comes from the person it names is for the educator to see to.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import partial
from typing import TYPE_CHECKING, Any, TypeVar

from tinwright.errors import ExamError, QuizError
from tinwright.examining.digested import bytes_of, digest_of, parse_file, text_in
from tinwright.knowledge.wording import commas_asked, nearest
from tinwright.quizzes.scoring import read_answer, write_answer
from tinwright.store.typed_table import day_typed, typed_rows

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Callable, Collection, Sequence
    from pathlib import Path

    from tinwright.examining.form import ExamForm
    from tinwright.quizzes.questions import Question
    from tinwright.quizzes.scoring import Answer
    from tinwright.store.typed_table import TypedRow

__all__ = ["AnswerSheet", "Intake", "read_responses"]

T = TypeVar("T")

_KIND = "responses"
_MEMBERS = frozenset({"tinwright", "exam", "form", "form_digest", "person", "taken_on", "answers", "digest"})
_HEAD = ("person", "taken_on")
_MAX_BYTES = 2_000_000


@dataclass(frozen=True)
class AnswerSheet:
    """What one person answered to a form."""

    exam: str
    """Id of the examination."""
    form: str
    """Code of the form, such as `A-3f9c2e`."""
    form_digest: str
    """Digest of the form."""
    person: str
    """Register id of the person."""
    taken_on: dt.date
    """Day of the examination."""
    answers: tuple[Answer, ...]
    """The answer to each question, in the order of the form."""
    place: str = field(compare=False)
    """Where it was read: the file, with line and column where it has them."""

    @property
    def digest(self) -> str:
        """SHA-256 of the answers in their plainest writing: the same from paper and from a file."""
        return digest_of(
            {
                "tinwright": _KIND,
                "exam": self.exam,
                "form": self.form.partition("-")[0],
                "form_digest": self.form_digest,
                "person": self.person,
                "taken_on": self.taken_on.isoformat(),
                "answers": {
                    str(number): write_answer(answer)
                    for number, answer in enumerate(self.answers, 1)
                    if answer is not None
                },
            }
        )


@dataclass(frozen=True)
class Intake:
    """What came out of reading: the sound sheets, and what was not taken."""

    sheets: tuple[AnswerSheet, ...]
    """Sound sheets, in the order read."""
    refused: tuple[str, ...]
    """One line for each sheet or file that is refused: where, and why."""
    remarks: tuple[str, ...]
    """One line for each sheet that came twice alike and counts once."""


def read_responses(
    files: Sequence[Path],
    form: ExamForm,
    questions: Sequence[Question],
    *,
    people: Collection[str] | None,
    latest: dt.date,
) -> Intake:
    """Read answers to a form, and refuse what is damaged, altered, foreign, doubtful or there twice.

    Args:
        files: response files (JSON), and CSV files typed in from paper.
        form: the form that was sat.
        questions: its questions, see `form.questions_of`.
        people: the ids there are in the register; None to take any.
        latest: last day on which it can have been sat.
    """
    reader = _Reader(form, questions, people, latest)
    for file in files:
        reader.read(file)
    return reader.intake()


class _Reader:
    def __init__(
        self, form: ExamForm, questions: Sequence[Question], people: Collection[str] | None, latest: dt.date
    ) -> None:
        self._form, self._questions, self._people, self._latest = form, questions, people, latest
        self._found: list[AnswerSheet] = []
        self._refused: list[str] = []

    def read(self, file: Path) -> None:
        try:
            raw = bytes_of(file)
            if len(raw) > _MAX_BYTES:
                raise ExamError(f"{file}: expected a file of at most 2 MB, got {len(raw)} bytes")
            text = raw.decode("utf-8-sig")
            if file.suffix.lower() == ".csv":
                self._table(file, text)
            else:
                self._found.append(self._response(file, text))
        except UnicodeDecodeError:
            self._refused.append(f"{file}: expected text in UTF-8, got something else: a damaged file, or no text file")
        except ExamError as error:
            self._refused.append(str(error))

    def intake(self) -> Intake:
        """Tell sheets that came twice: alike they count once, unlike ones are all refused."""
        refused, remarks, sheets = list(self._refused), [], []
        first: dict[str, AnswerSheet] = {}
        unlike = {sheet.person for sheet in self._found if first.setdefault(sheet.person, sheet).digest != sheet.digest}
        for sheet in self._found:
            earlier = first[sheet.person]
            if sheet.person in unlike:
                other = next(row.place for row in self._found if row.person == sheet.person and row is not sheet)
                refused.append(
                    f"{sheet.place}: {sheet.person} has two sheets of form {self._form.code} with other answers or "
                    f"another day, the other one at {other}: keep the right one"
                )
            elif sheet is earlier:
                sheets.append(sheet)
            else:
                remarks.append(f"{sheet.place}: the same as {earlier.place}; counted once")
        return Intake(tuple(sheets), tuple(refused), tuple(remarks))

    def _response(self, file: Path, text: str) -> AnswerSheet:
        found = parse_file(text, kind=_KIND, name=str(file))
        if odd := sorted(set(found) ^ _MEMBERS):
            raise ExamError(f"{file}: expected the members {', '.join(sorted(_MEMBERS))}; look at {', '.join(odd)}")
        form = self._form
        if found["exam"] != form.exam:
            raise ExamError(f"{file}: expected the examination {form.exam}, got {str(found['exam'])[:60]!r}")
        if found["form_digest"] != form.digest or str(found["form"]) not in {form.form, form.code}:
            got = f"{str(found['form'])[:12]}-{str(found['form_digest'])[:6]}"
            raise ExamError(f"{file}: expected answers to form {form.code}, got those to {got}")
        answers = found["answers"]
        if not isinstance(answers, dict):
            raise ExamError(f"{file}: answers: expected an answer for each question number, got {answers!r:.60}")
        numbers = {str(number) for number in range(1, len(self._questions) + 1)}
        if foreign := [number for number in answers if number not in numbers]:
            raise ExamError(f"{file}: answers: expected questions 1 to {len(numbers)}, got {foreign[0][:20]!r}")
        typed = [self._text(file, number, answers.get(str(number))) for number in range(1, len(numbers) + 1)]
        return AnswerSheet(
            form.exam,
            form.code,
            form.digest,
            self._person(str(file), found["person"]),
            self._day(str(file), found["taken_on"]),
            tuple(self._answer(number, str(file), text) for number, text in enumerate(typed, 1)),
            str(file),
        )

    @staticmethod
    def _text(file: Path, number: int, value: Any) -> str:
        try:
            return "" if value is None else text_in(value)
        except TypeError as error:
            raise ExamError(f"{file}: question {number}: {error}") from error

    def _table(self, file: Path, text: str) -> None:
        rows = typed_rows(text)
        self._check_code(file, next(rows, None))
        self._check_head(file, next(rows, None))
        for row in rows:
            problems: list[str] = []
            sheet = self._row(file, row, problems)
            self._refused += problems
            if sheet is not None:
                self._found.append(sheet)

    def _check_code(self, file: Path, row: TypedRow | None) -> None:
        code = self._form.code
        if row is None:
            raise ExamError(f"{file}:1:1: expected the line form,{code}, got an empty file")
        if said := commas_asked(row.cell(0), ["form"]):
            raise ExamError(f"{file}:{row.at(0)}: {said}")
        if row.cell(0).lower() != "form" or not row.cell(1):
            raise ExamError(f"{file}:{row.at(0)}: expected the line form,{code} first, got {row.cell(0)[:40]!r}")
        if row.cell(1).casefold() != code.casefold():
            raise ExamError(f"{file}:{row.at(1)}: expected answers to form {code}, got those to {row.cell(1)[:40]!r}")

    def _check_head(self, file: Path, row: TypedRow | None) -> None:
        wanted = [*_HEAD, *(str(number) for number in range(1, len(self._questions) + 1))]
        if row is None:
            raise ExamError(f"{file}:2:1: expected the headings {','.join(wanted[:4])} and so on, got nothing")
        if said := commas_asked(row.cell(0), _HEAD[:1]):
            raise ExamError(f"{file}:{row.at(0)}: {said}")
        for place, name in enumerate(wanted):
            if row.cell(place).lower() != name:
                raise ExamError(f"{file}:{row.at(place)}: expected the heading {name}, got {row.cell(place)[:40]!r}")
        if more := row.cell(len(wanted)):
            raise ExamError(
                f"{file}:{row.at(len(wanted))}: expected {len(self._questions)} questions, got the heading "
                f"{more[:40]!r} beyond them"
            )

    def _row(self, file: Path, row: TypedRow, problems: list[str]) -> AnswerSheet | None:
        def kept(read: Callable[[str, str], T], place: int) -> T | None:
            try:
                return read(f"{file}:{row.at(place)}", row.cell(place))
            except ExamError as error:
                problems.append(str(error))
                return None

        person, day = kept(self._person, 0), kept(self._day, 1)
        answers = tuple(
            kept(partial(self._answer, number), number + 1) for number in range(1, len(self._questions) + 1)
        )
        beyond = len(self._questions) + len(_HEAD)
        if more := row.cell(beyond):
            problems.append(
                f"{file}:{row.at(beyond)}: expected {len(self._questions)} answers, got another: {more[:40]!r}"
            )
        if problems or person is None or day is None:
            return None
        form = self._form
        return AnswerSheet(form.exam, form.code, form.digest, person, day, answers, f"{file}:{row.at(0)}")

    def _person(self, place: str, value: Any) -> str:
        if not isinstance(value, str) or not value.strip():
            raise ExamError(f"{place}: person: expected a register id such as V0001, got {value!r:.40}")
        person = value.strip().upper()
        if self._people is not None and person not in self._people:
            raise ExamError(f"{place}: person: {person[:40]!r} is not in the register{nearest(person, self._people)}")
        return person

    def _day(self, place: str, value: Any) -> dt.date:
        taken_on = day_typed(value.strip()) if isinstance(value, str) else None
        if taken_on is None:
            raise ExamError(f"{place}: taken_on: expected a day such as 2026-11-02, got {value!r:.40}")
        if taken_on < self._form.made_on:
            raise ExamError(f"{place}: taken_on: {taken_on} is before the form was made, on {self._form.made_on}")
        if taken_on > self._latest:
            raise ExamError(f"{place}: taken_on: {taken_on} is in the future")
        return taken_on

    def _answer(self, number: int, place: str, text: str) -> Answer:
        question = self._questions[number - 1]
        try:
            return read_answer(question, text)
        except QuizError as error:
            # The name of the item is nobody's business at the typing desk.
            told = str(error).removeprefix(f"{question.id}: ")
            if question.asks in {"one-answer", "point"} and told.startswith("expected one letter"):
                told += ": type the one that is not struck out; when two stand, leave it empty, since neither counts"
            raise ExamError(f"{place}: question {number}: {told}") from error
