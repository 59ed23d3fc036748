"""What every record shares: strict fields, plain text with evidence, references to other records."""

from __future__ import annotations

import datetime as dt
import re
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum
from fractions import Fraction
from typing import Annotated, Any, ClassVar, Self

from pydantic import (
    AfterValidator,
    BaseModel,
    BeforeValidator,
    ConfigDict,
    Field,
    GetPydanticSchema,
    PlainSerializer,
    StringConstraints,
    WithJsonSchema,
    model_validator,
)
from pydantic_core import core_schema

from tinwright.measures import Length, parse_length, parse_turns

__all__ = [
    "Amount",
    "AnyReference",
    "Citation",
    "Evidence",
    "Grade",
    "Id",
    "LengthField",
    "Model",
    "Photo",
    "Record",
    "Reference",
    "Statement",
    "Text",
    "TurnsField",
    "any_ref",
    "ref",
]

Id = Annotated[str, StringConstraints(pattern=r"^[a-z0-9]+(?:[.-][a-z0-9]+)*$", max_length=60)]
"""Name of a record: lower-case words joined by hyphens, such as `first-roller-loose`."""

_LINE_BREAKS = re.compile(r"[ \t\r\n\v\f\x85\u2028\u2029]+")


def _on_one_line(text: str) -> str:
    if text.isprintable() and "  " not in text:
        return text  # no line break is printable, and most text is, so that it need not be searched
    return _LINE_BREAKS.sub(" ", text)


Text = Annotated[str, StringConstraints(min_length=1, strip_whitespace=True), AfterValidator(_on_one_line)]
"""Plain text; a line break counts as a space.

`[[defect/droop]]` or `[[defect/droop|that droop]]` becomes a link to that record.
"""


@dataclass(frozen=True)
class Reference:
    """Marks a field that holds the id of a record of one kind; `linking` resolves it."""

    kind: str


def ref(kind: str) -> Any:
    """Return the type of a field that names a record of `kind`."""
    return Annotated[str, StringConstraints(pattern=r"^[a-z0-9]+(?:[.-][a-z0-9]+)*$"), Reference(kind)]


@dataclass(frozen=True)
class AnyReference:
    """Marks a field that names a record of any kind as `kind/id`; `linking` resolves it."""


def any_ref() -> Any:
    """Return the type of a field that names a record of any kind as `kind/id`."""
    return Annotated[str, StringConstraints(pattern=r"^[a-z-]+/[a-z0-9]+(?:[.-][a-z0-9]+)*$"), AnyReference()]


def _as_length(value: object) -> Length:
    return value if isinstance(value, Length) else parse_length(str(value))


def _as_turns(value: object) -> Fraction:
    return value if isinstance(value, Fraction) else parse_turns(str(value))


def _turns_text(value: Fraction) -> str:
    return f"{value} turn" if value <= 1 else f"{value} turns"


def _any_schema(_source: Any, _handler: Any) -> core_schema.CoreSchema:
    return core_schema.any_schema()


LengthField = Annotated[
    Length,
    GetPydanticSchema(_any_schema),
    BeforeValidator(_as_length),
    PlainSerializer(str),
    WithJsonSchema({"type": "string", "pattern": r"^[\d./ -]+(in|mm)$", "examples": ["3/16 in", "1.40 mm"]}),
]
"""A length with its unit, such as `3/16 in`, `0.055 in` or `1.40 mm`; kept exact."""

TurnsField = Annotated[
    Fraction,
    GetPydanticSchema(_any_schema),
    BeforeValidator(_as_turns),
    PlainSerializer(_turns_text),
    WithJsonSchema({"type": "string", "pattern": r"^[\d./ -]+turns?$", "examples": ["1/8 turn"]}),
]
"""A part of a turn of an adjusting screw, such as `1/8 turn`; kept exact."""

Amount = Annotated[Decimal, Field(gt=0)]
"""A positive decimal number, kept as written."""


class Model(BaseModel):
    """A part of a record: frozen, no unknown keys, each field described by the text under it.

    `schema` reads those texts: pydantic would look for them at every start.
    """

    model_config = ConfigDict(frozen=True, extra="forbid")


class Grade(StrEnum):
    """How a statement is known."""

    SOURCE = "source"
    """Read in the source named."""
    DERIVED = "derived"
    """Worked out here from what the source says."""
    PRACTICE = "practice"
    """Common practice, no source."""
    MEMORY = "memory"
    """From trade memory, not checked in a published source."""
    INVENTED = "invented"
    """Made up for the demonstration."""


class Citation(Model):
    """One more source that says the same by itself."""

    source: ref("source")  # type: ignore[valid-type]
    """The source."""
    where: Text
    """Section, table or page in it."""
    note: Text | None = None
    """What else a careful reader should know of it, such as that the copy is weak."""


class Evidence(Model):
    """How a statement is known: a source and where in it, or an honest word that there is none."""

    grade: Grade = Grade.SOURCE
    """`source` when it was read there; `derived`, `practice`, `memory` or `invented` otherwise."""
    source: ref("source") | None = None  # type: ignore[valid-type]
    """The source it was read in, derived from, or is remembered from."""
    where: Text | None = None
    """Section, table or page in that source."""
    also: tuple[Citation, ...] = ()
    """Other sources that say the same by themselves; not the steps of one piece of reasoning."""
    single: bool = False
    """True when only this one source says so."""
    note: Text | None = None
    """What else a careful reader should know, such as how it was derived or that the copy is weak."""

    @model_validator(mode="before")
    @classmethod
    def _from_word(cls, value: object) -> object:
        if isinstance(value, str):
            return {"grade": value}
        return value

    @model_validator(mode="after")
    def _source_is_named(self) -> Self:
        if self.grade is Grade.SOURCE and (self.source is None or self.where is None):
            raise ValueError("evidence of grade 'source' needs 'source' and 'where'")
        return self

    @model_validator(mode="after")
    def _others_beside_a_first(self) -> Self:
        if not self.also:
            return self
        if self.source is None or self.grade not in {Grade.SOURCE, Grade.DERIVED}:
            raise ValueError("'also' goes with a 'source' that was read: the first one stands there")
        if self.single:
            raise ValueError("'single' says that one source says so, and 'also' names another; keep one of them")
        cited = [self.source, *(other.source for other in self.also)]
        if len(set(cited)) < len(cited):
            raise ValueError("each source is cited once; put both places into one 'where'")
        return self


class Statement(Model):
    """One thing said, and how it is known."""

    text: Text
    """The statement, in plain words."""
    evidence: Evidence
    """How it is known."""


class Photo(Model):
    """The program's own photograph, resized when the site is built."""

    file: Text
    """Path of the picture, relative to `content/photos`."""
    alt: Text
    """What the picture shows, for somebody who cannot see it."""
    credit: Text
    """Who took it, and under what terms it may be shown."""


class Record(Model):
    """A record: something the site has a page about."""

    kind: ClassVar[str]
    """Name of the kind, singular, as used in references such as `[[defect/droop]]`."""
    folder: ClassVar[str]
    """Folder of the kind below `content` and of its pages below the site."""

    id: Id
    """The file's name without `.yml`; written out only in files that hold a list of records."""
    reviewed: dt.date
    """Day on which somebody last read the whole record and stood by it."""
    formerly: tuple[Id, ...] = ()
    """Ids it had before; pages at their addresses lead here, so that old links and printed codes still work."""

    @property
    def name(self) -> str:
        """What the record is called in headings and links."""
        return str(getattr(self, "title", self.id))
