"""Files of records: each record read, checked against its model, and kept with its place."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property
from typing import TYPE_CHECKING, Any

from pydantic import ValidationError

from tinwright.knowledge.amending import (
    AMENDS,
    LEAVE_OUT,
    REPLACES,
    AmendError,
    Change,
    Question,
    amended,
    digest_of,
    way_of,
)
from tinwright.knowledge.linking import mentions
from tinwright.knowledge.models import KINDS
from tinwright.knowledge.record_rules import faults_in
from tinwright.knowledge.wording import nearest, plain_message
from tinwright.knowledge.yaml_source import read_yaml
from tinwright.remembering import remembered

if TYPE_CHECKING:
    from collections.abc import Callable, Collection, Iterator
    from pathlib import Path

    from pydantic_core import ErrorDetails

    from tinwright.errors import Problem
    from tinwright.knowledge.linking import Mention
    from tinwright.knowledge.models.base import Record
    from tinwright.knowledge.yaml_source import LocatedYaml

    Model = type[Record] | Callable[[dict[str, Any]], type[Record]]

__all__ = ["PlacedRecord", "RecordFiles"]


@dataclass(frozen=True)
class PlacedRecord:
    """A record with the place it was read from."""

    record: Record
    """The record."""
    file: LocatedYaml
    """The file it stands in."""
    path: tuple[str | int, ...]
    """Where in that file."""

    @cached_property
    def mentions(self) -> tuple[Mention, ...]:
        """Every record it names, in order."""
        return tuple(mentions(self.record))

    def problem(self, where: tuple[str | int, ...], message: str) -> Problem:
        """Tell a problem at a place in the record."""
        return self.file.problem((*self.path, *where), message, record=_subject(self.record.kind, self.record.id))


@dataclass(frozen=True)
class _Found:
    placed: tuple[PlacedRecord, ...]
    unread: tuple[str, ...]
    problems: tuple[Problem, ...]
    changes: tuple[Change, ...] = ()


@dataclass
class RecordFiles:
    """Reads files of records one after the other, and gathers the sound ones and every problem."""

    placed: dict[tuple[str, str], PlacedRecord] = field(default_factory=dict)
    """Every sound record by kind and id."""
    unread: set[tuple[str, str]] = field(default_factory=set)
    """Those that are there and could not be read."""
    problems: list[Problem] = field(default_factory=list)
    """All that is wrong."""
    questions: list[Question] = field(default_factory=list)
    """Changes whose text beneath is another one now."""
    origins: dict[tuple[str, str], tuple[str, ...]] = field(default_factory=dict)
    """The names of the layers that each record comes from, the ground first."""
    left_out: dict[tuple[str, str], Change] = field(default_factory=dict)
    """What a layer leaves out."""
    _said: dict[tuple[str, str], dict[str, Any]] = field(default_factory=dict)
    """What each changed record says, as plain keys and values."""

    def read(
        self,
        file: Path,
        shown_as: str,
        kind: str,
        model: Model | None = None,
        *,
        called: str | None = None,
        layer: str = "",
    ) -> None:
        """Read one file: a record named by the file, or a list of records with ids.

        Args:
            file: the file.
            shown_as: how problems name it.
            kind: kind of the records in it.
            model: their model, where it is not that of the kind; or what picks it by a record's own words, where a kind
                has several, and whose `ValueError` is a problem.
            called: the id of a record that the file's name does not say.
            layer: name of the layer it belongs to; layers are read from the ground up.
        """
        found = _found(read_yaml(file, shown_as), called or file.stem, kind, model or KINDS[kind])
        self.problems.extend(found.problems)
        self.unread.update((kind, id_) for id_ in found.unread)
        for item in found.placed:
            first = self.placed.setdefault((kind, item.record.id), item)
            if first is not item:
                line, _ = first.file.at(first.path)
                where = f"it already stands in {first.file.file}:{line}"
                if self.origins[kind, item.record.id] != (layer,):
                    known = digest_of(self._value((kind, item.record.id)))
                    where += (
                        f"; begin with '{REPLACES}: {known}' to replace that, or with '{AMENDS}: {known}' to amend it"
                    )
                self.problems.append(item.problem(("id",), f"duplicate id; {where}"))
            else:
                self.origins[kind, item.record.id] = (layer,)
        for change in found.changes:
            self._make(change, kind, model or KINDS[kind], layer)

    def _make(self, change: Change, kind: str, model: Model, layer: str) -> None:
        """Change a record of a layer beneath."""
        key, way = (kind, change.id), str(way_of(change.value))
        beneath = self.placed.get(key)

        def tell(message: str, where: tuple[str | int, ...] = (way,)) -> None:
            subject = _subject(kind, change.id)
            self.problems.append(change.file.problem((*change.path, *where), message, record=subject))

        if beneath is None or layer in self.origins[key]:
            if key not in self.unread:
                tell(f"{way}: no {kind} of a layer beneath is called so{nearest(change.id, self._ids(kind))}")
            return
        if way == LEAVE_OUT:
            if not isinstance(change.value[way], str) or len(change.value) > len({LEAVE_OUT, "id"}):
                tell(f"{way}: expected a reason, and no other key")
            self.left_out[key] = change
            del self.placed[key]
            return
        said = self._value(key)
        if str(change.value[way]) != digest_of(said):
            self.questions.append(Question(kind, change, said, beneath.file.file, _subject(kind, change.id)))
        try:
            whole = amended(said, change.value) if way == AMENDS else _without(change.value, REPLACES)
            chosen = model if isinstance(model, type) else model(whole)
        except AmendError as error:
            tell(str(error), error.path)
            return
        except ValueError as error:
            tell(str(error), ())
            return
        record, wrong = _validate(change.file, change.path, {**whole, "id": change.id}, chosen, change.id)
        self.problems.extend(wrong)
        if record is not None:
            placed = PlacedRecord(record, change.file, change.path)
            self.problems.extend(placed.problem(place, message) for place, message in faults_in(record, whole))
            self.placed[key], self._said[key] = placed, whole
            self.origins[key] = (*self.origins[key], layer) if way == AMENDS else (layer,)

    def _ids(self, kind: str) -> Iterator[str]:
        return (id_ for of, id_ in self.placed if of == kind)

    def _value(self, key: tuple[str, str]) -> dict[str, Any]:
        """Return what a record says, as plain keys and values."""
        if key in self._said:
            return self._said[key]
        value = self.placed[key].file.value
        for step in self.placed[key].path:
            value = value[step]
        return dict(value)

    def wrongly_renamed(self) -> Iterator[Problem]:
        """Yield a problem for each former id that still, or already, belongs to a record."""
        claimed: dict[tuple[str, str], str] = {}
        for (kind, id_), item in self.placed.items():
            for number, old in enumerate(item.record.formerly):
                owner = claimed.get((kind, old))
                if (kind, old) in self.placed:
                    message = f"{old!r} is still the id of a {kind}"
                elif owner is not None:
                    message = f"{old!r} is already a former id of {owner!r}"
                else:
                    claimed[kind, old] = id_
                    continue
                yield item.problem(("formerly", number), message)

    def unresolved(self, elsewhere: Collection[tuple[str, str]] = ()) -> Iterator[Problem]:
        """Yield a problem for each name of a record that is neither here nor `elsewhere`."""
        known = {*self.placed, *self.unread, *elsewhere}
        kinds = sorted({*KINDS, *(kind for kind, _ in known)})
        renamed = {(kind, old): id_ for (kind, id_), item in self.placed.items() for old in item.record.formerly}
        for item in self.placed.values():
            for mention in item.mentions:
                if (mention.kind, mention.id) in known:
                    continue
                if mention.kind not in kinds:
                    message = f"unknown kind {mention.kind!r} in a link{nearest(mention.kind, kinds)}"
                elif (mention.kind, mention.id) in renamed:
                    now = renamed[mention.kind, mention.id]
                    message = f"no {mention.kind} is called {mention.id!r} any more: it is {now!r} now"
                elif (mention.kind, mention.id) in self.left_out:
                    where = self.left_out[mention.kind, mention.id].file.file
                    message = (
                        f"the {mention.kind} {mention.id!r} is left out by {where}: amend this, or leave it out, too"
                    )
                else:
                    hint = nearest(mention.id, (id_ for kind, id_ in known if kind == mention.kind))
                    message = f"no {mention.kind} is called {mention.id!r}{hint}"
                yield item.problem(mention.path, message)


@remembered
def _found(located: LocatedYaml, stem: str, kind: str, model: Model) -> _Found:
    """Make the records of a file; while a site is served, those of a file that did not change stay the same."""
    problems = list(located.problems)
    if located.value is None:
        return _Found((), (stem,), tuple(problems))
    placed, unread, changes = [], [], []
    for path, value, id_ in _entries(located, stem, problems, kind):
        if way_of(value) is not None:
            changes.append(Change(id_, value, located, path))
            continue
        try:
            chosen = model if isinstance(model, type) else model(value)
        except ValueError as error:
            problems.append(located.problem(path, str(error), record=_subject(kind, id_)))
            unread.append(id_)
            continue
        record, wrong = _validate(located, path, value, chosen, id_)
        problems.extend(wrong)
        if record is None:
            unread.append(id_)
        else:
            placed.append(PlacedRecord(record, located, path))
            problems.extend(placed[-1].problem(way, message) for way, message in faults_in(record, value))
    return _Found(tuple(placed), tuple(unread), tuple(problems), tuple(changes))


def _without(value: dict[str, Any], key: str) -> dict[str, Any]:
    return {name: part for name, part in value.items() if name != key}


def _entries(
    located: LocatedYaml, stem: str, problems: list[Problem], kind: str
) -> Iterator[tuple[tuple[str | int, ...], dict[str, Any], str]]:
    """Yield each record of a file: one mapping named by the file, or a list of mappings with ids."""
    if isinstance(located.value, dict):
        if "id" in located.value:
            message = f"unknown key 'id': the file's name is the id ({stem})"
            problems.append(located.problem(("id",), message, record=_subject(kind, stem), key=True))
        yield (), {**located.value, "id": stem}, stem
    elif isinstance(located.value, list):
        for index, item in enumerate(located.value):
            if not isinstance(item, dict):
                problems.append(located.problem((index,), f"expected keys and values, got {item!r}", record=kind))
                continue
            yield (index,), item, str(item.get("id", f"number {index + 1}"))
    else:
        problems.append(
            located.problem((), f"expected keys and values, got {located.value!r}", record=_subject(kind, stem))
        )


def _validate(
    located: LocatedYaml, path: tuple[str | int, ...], value: dict[str, Any], model: type[Record], id_: str
) -> tuple[Record | None, list[Problem]]:
    try:
        return model.model_validate(value), []
    except ValidationError as error:
        told = [details for details in error.errors() if not _is_consequence(details, error.errors())]
        return None, [_problem_of(details, located, path, model, id_) for details in told]


def _is_consequence(details: ErrorDetails, all_of_them: list[ErrorDetails]) -> bool:
    """Tell whether a list counts as too short only because entries in it are wrong, which is told of each."""
    loc = details["loc"]
    return details["type"] == "too_short" and any(
        len(other["loc"]) > len(loc) and other["loc"][: len(loc)] == loc for other in all_of_them
    )


def _problem_of(
    details: ErrorDetails, located: LocatedYaml, path: tuple[str | int, ...], model: type[Record], id_: str
) -> Problem:
    loc = details["loc"]
    if details["type"] != "missing":
        while loc and not located.holds((*path, *loc)):
            loc = loc[:-1]  # the part was made from a short form, such as one word of evidence
    message = plain_message({**details, "loc": loc}, model)
    key = details["type"] == "extra_forbidden"
    return located.problem((*path, *loc), message, record=_subject(model.kind, id_), key=key)


def _subject(kind: str, id_: str) -> str:
    return "program" if kind == id_ == "programme" else kind if kind == id_ else f"{kind} {id_}"
