"""The files of a form: the questions as they are shown, and, apart from them, the key.

Both are JSON. Each carries the SHA-256 of the canonical form (RFC 8785) of everything else in it, so that a changed
file is told from a sound one, and the key names the digest of the form it belongs to.
"""

from __future__ import annotations

import datetime as dt
import json
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, get_args

from tinwright.errors import ExamError, QuizError
from tinwright.examining.digested import (
    bytes_of,
    decimal_in,
    decimal_text,
    digest_of,
    flag_in,
    parse_file,
    read_members,
    text_in,
    text_or_none,
    texts_in,
    whole_in,
)
from tinwright.quizzes.questions import Asks, Choice, Question

if TYPE_CHECKING:
    from collections.abc import Mapping
    from decimal import Decimal
    from pathlib import Path

__all__ = [
    "LARGEST_SEED",
    "ExamForm",
    "ExamKey",
    "FirstTry",
    "FormItem",
    "KeyArea",
    "KeyItem",
    "questions_of",
    "read_form",
    "read_key",
]

LARGEST_SEED = 2**128 - 1
"""A drawn seed has 128 bits, so that nobody can make the forms of every seed until one fits."""
_LARGEST_NUMBER = 2**53 - 1
"""The largest whole number that every reader of JSON keeps exactly (RFC 7493, section 2.2); above it is text."""

_FORM, _KEY = "form", "key"
_CODE_DIGITS = 6
_ASKS = frozenset(get_args(Asks))


@dataclass(frozen=True)
class FormItem:
    """A question as a form shows it."""

    id: str
    """Name of the item in the bank; never shown to whoever sits the examination."""
    asks: Asks
    """The way of asking."""
    text: str
    """The question."""
    choices: tuple[str, ...] = ()
    """What can be chosen, placed or paired, in the order shown; none for a number. Of a place, its name: not shown."""
    lefts: tuple[str, ...] = ()
    """For pairs, the things on the left."""
    unit: str | None = None
    """For a number, what it is counted in."""
    figure: str | None = None
    """For a place, the drawing it is in."""
    drawing: str | None = None
    """The defect whose drawing is shown, without its name."""
    table: tuple[tuple[str, ...], ...] = ()
    """Readings shown as a table, headings first; no row where there are none."""


@dataclass(frozen=True)
class ExamForm:
    """A form of an examination, without any answer in it."""

    exam: str
    """Id of the blueprint."""
    title: str
    """Name of the examination."""
    form: str
    """Letter of the form."""
    seed: int
    """Seed it was made with."""
    made_on: dt.date
    """Day it was made."""
    demonstration: bool
    """True when anybody can read the bank it was made from."""
    minutes: int
    """Time usually needed; there is no limit."""
    items: tuple[FormItem, ...]
    """The questions, in the order asked."""
    salt: str = ""
    """Drawn by lot: the digest goes to people who may guess at the questions, and must not tell who guessed right."""

    @property
    def out_of(self) -> int:
        """Points there are: one a question."""
        return len(self.items)

    @property
    def digest(self) -> str:
        """SHA-256 of everything in the form, as hexadecimal digits."""
        return digest_of(self._content())

    @property
    def code(self) -> str:
        """What tells this form from every other on its sheets, such as `A-3f9c2e`."""
        return f"{self.form}-{self.digest[:_CODE_DIGITS]}"

    def as_json(self) -> dict[str, Any]:
        """Return what stands in the file of the form."""
        return self._content() | {"digest": self.digest}

    def written(self) -> str:
        """Return the text of the file of the form."""
        return _written(self.as_json())

    def _content(self) -> dict[str, Any]:
        return {
            "tinwright": _FORM,
            "exam": self.exam,
            "title": self.title,
            "form": self.form,
            "seed": self.seed if self.seed <= _LARGEST_NUMBER else str(self.seed),
            "salt": self.salt,
            "made_on": self.made_on.isoformat(),
            "demonstration": self.demonstration,
            "out_of": self.out_of,
            "minutes": self.minutes,
            "items": [
                {
                    "id": item.id,
                    "asks": item.asks,
                    "text": item.text,
                    "choices": list(item.choices),
                    "lefts": list(item.lefts),
                    "unit": item.unit,
                    "figure": item.figure,
                    "drawing": item.drawing,
                    # left out where there is none, so that forms made before there were tables keep their digest
                    **({"table": [list(row) for row in item.table]} if item.table else {}),
                }
                for item in self.items
            ],
        }


@dataclass(frozen=True)
class KeyItem:
    """The answer to a question of a form."""

    id: str
    """Name of the item."""
    topic: str
    """Its topic."""
    asks: Asks
    """The way of asking."""
    key: tuple[int, ...] = ()
    """The right answer, as places in the choices as the form shows them; see `quizzes.questions.Question`."""
    low: Decimal | None = None
    """For a number, the lowest that counts as right."""
    high: Decimal | None = None
    """For a number, the highest that counts as right."""
    answer: Decimal | None = None
    """For a number, the right one."""
    critical: bool = False
    """True when only the whole answer counts."""
    difficulty: float = 0.7
    """Share of just-qualified people expected to get it right."""
    teaches: tuple[str, ...] = ()
    """Records that teach it, as `kind/id`, the one to read first."""


@dataclass(frozen=True)
class KeyArea:
    """A critical area: questions with a cut of their own."""

    title: str
    """What is to be mastered."""
    items: tuple[str, ...]
    """Its items on the form, in the order asked."""
    right: int
    """How many of them must be right."""


@dataclass(frozen=True)
class FirstTry:
    """A form whose missed areas a second try may repair."""

    code: str
    """Code of the form."""
    cut: int
    """Fewest points that had to be reached there."""
    areas: tuple[KeyArea, ...]
    """Its critical areas."""


@dataclass(frozen=True)
class ExamKey:
    """The key of a form: what is right, and how much of it passes."""

    exam: str
    """Id of the blueprint."""
    form: str
    """Letter of the form."""
    form_digest: str
    """Digest of the form it belongs to."""
    cut: int
    """Fewest points that pass."""
    cut_raw: str
    """The judges' cut before it was rounded up, as decimal text."""
    areas: tuple[KeyArea, ...]
    """The critical areas: each must be passed, whatever the score."""
    items: tuple[KeyItem, ...]
    """The answers, in the order of the form."""
    second_try_of: tuple[FirstTry, ...] = ()
    """On the sheet of a second try, the forms it belongs to; empty on a form."""
    not_ready: float = 0.6
    """Share of the points of somebody who must not pass, for what is claimed of the rule."""
    ready: float = 0.85
    """Share of the points of somebody who must pass."""
    sittings: int = 2
    """Sittings that the programme allowed when the form was made."""
    revision: int = 1
    """Counted up by every correction."""
    corrections: tuple[Mapping[str, Any], ...] = ()
    """What was corrected, oldest first; each as it stands in the file."""

    @property
    def digest(self) -> str:
        """SHA-256 of everything in the key, as hexadecimal digits."""
        return digest_of(self._content())

    def as_json(self) -> dict[str, Any]:
        """Return what stands in the file of the key."""
        return self._content() | {"digest": self.digest}

    def written(self) -> str:
        """Return the text of the file of the key."""
        return _written(self.as_json())

    def _content(self) -> dict[str, Any]:
        return {
            "tinwright": _KEY,
            "exam": self.exam,
            "form": self.form,
            "form_digest": self.form_digest,
            "revision": self.revision,
            "corrections": [dict(correction) for correction in self.corrections],
            "cut": self.cut,
            "cut_raw": self.cut_raw,
            "areas": [_area_json(area) for area in self.areas],
            "second_try_of": [
                {"code": first.code, "cut": first.cut, "areas": [_area_json(area) for area in first.areas]}
                for first in self.second_try_of
            ],
            "not_ready": self.not_ready,
            "ready": self.ready,
            "sittings": self.sittings,
            "items": [
                {
                    "id": item.id,
                    "topic": item.topic,
                    "asks": item.asks,
                    "key": list(item.key),
                    "low": decimal_text(item.low),
                    "high": decimal_text(item.high),
                    "answer": decimal_text(item.answer),
                    "critical": item.critical,
                    "difficulty": item.difficulty,
                    "teaches": list(item.teaches),
                }
                for item in self.items
            ],
        }


def read_form(file: Path) -> ExamForm:
    """Read the file of a form.

    Raises:
        ExamError: when it cannot be read, is damaged, or was changed.
    """
    found = parse_file(bytes_of(file), kind=_FORM, name=str(file))

    def read() -> ExamForm:
        return ExamForm(
            exam=text_in(found["exam"]),
            title=text_in(found["title"]),
            form=text_in(found["form"]),
            seed=_seed_in(found["seed"]),
            salt=text_in(found["salt"]),
            made_on=dt.date.fromisoformat(text_in(found["made_on"])),
            demonstration=flag_in(found["demonstration"]),
            minutes=whole_in(found["minutes"]),
            items=tuple(
                FormItem(
                    id=text_in(item["id"]),
                    asks=_asks(item["asks"]),
                    text=text_in(item["text"]),
                    choices=texts_in(item["choices"]),
                    lefts=texts_in(item["lefts"]),
                    unit=text_or_none(item["unit"]),
                    figure=text_or_none(item["figure"]),
                    drawing=text_or_none(item["drawing"]),
                    table=tuple(texts_in(row) for row in item.get("table", ())),
                )
                for item in found["items"]
            ),
        )

    form = read_members(read, file)
    if form.as_json() != found:
        raise ExamError(f"{file}: expected the members of a form file and no others")
    return form


def read_key(file: Path, form: ExamForm | None = None) -> ExamKey:
    """Read the file of a key.

    Args:
        file: where it lies.
        form: the form it must belong to, where that is known.

    Raises:
        ExamError: when it cannot be read, is damaged, was changed, or belongs to another form.
    """
    found = parse_file(bytes_of(file), kind=_KEY, name=str(file))

    def read() -> ExamKey:
        return ExamKey(
            exam=text_in(found["exam"]),
            form=text_in(found["form"]),
            form_digest=text_in(found["form_digest"]),
            revision=whole_in(found["revision"]),
            corrections=tuple(dict(correction) for correction in found["corrections"]),
            cut=whole_in(found["cut"]),
            cut_raw=text_in(found["cut_raw"]),
            areas=tuple(map(_area, found["areas"])),
            second_try_of=tuple(
                FirstTry(text_in(first["code"]), whole_in(first["cut"]), tuple(map(_area, first["areas"])))
                for first in found["second_try_of"]
            ),
            not_ready=float(found["not_ready"]),
            ready=float(found["ready"]),
            sittings=whole_in(found["sittings"]),
            items=tuple(
                KeyItem(
                    id=text_in(item["id"]),
                    topic=text_in(item["topic"]),
                    asks=_asks(item["asks"]),
                    key=tuple(whole_in(place) for place in item["key"]),
                    low=decimal_in(item["low"]),
                    high=decimal_in(item["high"]),
                    answer=decimal_in(item["answer"]),
                    critical=flag_in(item["critical"]),
                    difficulty=float(item["difficulty"]),
                    teaches=texts_in(item["teaches"]),
                )
                for item in found["items"]
            ),
        )

    key = read_members(read, file)
    if key.as_json() != found:
        raise ExamError(f"{file}: expected the members of a key file and no others")
    if form is not None:
        if key.form_digest != form.digest:
            raise ExamError(
                f"{file}: expected the key of form {form.code}, got that of {key.form}-{key.form_digest[:_CODE_DIGITS]}"
            )
        questions_of(form, key)
    return key


def questions_of(form: ExamForm, key: ExamKey) -> tuple[Question, ...]:
    """Return the questions of a form with their answers, as they are scored; they hold no reasons.

    Raises:
        ExamError: when the key does not fit the form.
    """
    if [(item.id, item.asks) for item in form.items] != [(item.id, item.asks) for item in key.items]:
        raise ExamError(f"form {form.code}: expected a key for the same questions in the same order, got another")
    try:
        return tuple(
            Question(
                id=shown.id,
                topic=right.topic,
                asks=shown.asks,
                text=shown.text,
                choices=tuple(Choice(text) for text in shown.choices),
                key=right.key,
                lefts=shown.lefts,
                unit=shown.unit,
                answer=right.answer,
                low=right.low,
                high=right.high,
                figure=shown.figure,
                critical=right.critical,
                difficulty=right.difficulty,
                teaches=right.teaches,
            )
            for shown, right in zip(form.items, key.items, strict=True)
        )
    except QuizError as error:
        raise ExamError(f"form {form.code}: {error}") from error


def _area_json(area: KeyArea) -> dict[str, Any]:
    return {"title": area.title, "items": list(area.items), "right": area.right}


def _area(found: Any) -> KeyArea:
    return KeyArea(text_in(found["title"]), texts_in(found["items"]), whole_in(found["right"]))


def _written(content: Mapping[str, Any]) -> str:
    return json.dumps(content, ensure_ascii=False, indent=1) + "\n"


def _seed_in(value: Any) -> int:
    if isinstance(value, str) and value.isascii() and value.isdecimal():
        return int(value)
    return whole_in(value)


def _asks(value: Any) -> Asks:
    if value not in _ASKS:
        raise ValueError(f"expected one of {', '.join(sorted(_ASKS))}, got {value!r}")
    asks: Asks = value
    return asks
