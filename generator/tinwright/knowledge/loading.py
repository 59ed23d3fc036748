"""From a folder of YAML to a knowledge base, or to every problem in it."""

from __future__ import annotations

from functools import cache
from types import MappingProxyType
from typing import TYPE_CHECKING, Any, get_args

from pydantic import BaseModel

from tinwright.errors import ContentError, Problem
from tinwright.knowledge.base import KnowledgeBase
from tinwright.knowledge.between_records import dated_ahead, problems_between
from tinwright.knowledge.handwritten import page_problems, read_handwritten
from tinwright.knowledge.layers import layers_of
from tinwright.knowledge.linking import INLINE
from tinwright.knowledge.models import KINDS, Cause
from tinwright.knowledge.models.base import Photo
from tinwright.knowledge.models.practice import PracticeScenario
from tinwright.knowledge.models.seen_here import SeenHere
from tinwright.knowledge.models.source import Source
from tinwright.knowledge.orders import wrong_with_order
from tinwright.knowledge.photographs import NamedPhoto, faults_of_photos
from tinwright.knowledge.printed import FOLDER as PRINT_FOLDER
from tinwright.knowledge.printed import printed_problems
from tinwright.knowledge.published import FOLDER, published_problems
from tinwright.knowledge.record_files import RecordFiles
from tinwright.knowledge.sheets import sheet_problems
from tinwright.knowledge.wording import nearest

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterator
    from pathlib import Path

    from tinwright.knowledge.amending import Question
    from tinwright.knowledge.layers import Layer
    from tinwright.knowledge.record_files import PlacedRecord

__all__ = ["find_problems", "load", "open_questions", "photos_in"]

_PROGRAM_FILE = "program.yml"
_OLD_PROGRAM_FILE = "programme.yml"
"""The name it had first; still read where there is no other."""
_COUNTS_FILE = "seen-here.yml"
_NOT_RECORDS = {"photos", "schema", "pages", FOLDER, PRINT_FOLDER, PracticeScenario.folder}
_MAY_STAND_ALONE = {"programme", "seen-here", "can", "sealer", "procedure", "defect", "term", "seam-specification"}
"""Kinds with a way in of their own; of the others, each record must be named by one that is not of its kind."""


def load(root: Path, *, today: dt.date | None = None) -> KnowledgeBase:
    """Read, check and link every record below `root`.

    Args:
        root: the content folder, with one folder per kind of record and `program.yml`.
        today: the day it is, so that days which have not come yet are problems; they are not looked at when left out.

    Raises:
        ContentError: with all problems of all files, when there are any.
    """
    layers, files, problems = _read(root, today)
    placed = files.placed
    if problems:
        raise ContentError(problems)
    records = {key: item.record for key, item in placed.items()}
    counts = records.pop((SeenHere.kind, SeenHere.kind), None)
    named = {key: item.mentions for key, item in placed.items() if key in records}
    return KnowledgeBase(
        root,
        MappingProxyType(records),
        counts if isinstance(counts, SeenHere) else None,
        named,
        layers,
        MappingProxyType(files.origins),
    )


def open_questions(root: Path) -> list[Question]:
    """Return what was amended or replaced and answers another text than the one beneath it now."""
    return _read(root, None)[1].questions


def find_problems(root: Path, *, today: dt.date | None = None) -> list[Problem]:
    """Return every problem below `root`, sorted by file, line and column; empty when all is well."""
    return sorted(_read(root, today)[2])


def _read(root: Path, today: dt.date | None) -> tuple[tuple[Layer, ...], RecordFiles, list[Problem]]:
    files = RecordFiles()
    placed, problems, unread = files.placed, files.problems, files.unread
    if not root.is_dir():
        return (), files, [Problem(root.name, 1, 1, "", "expected a content folder, found none")]
    layers, wrong = layers_of(root)
    if wrong:
        return layers, files, wrong
    for layer in layers:
        for file, kind in _files(layer, problems):
            called = "programme" if kind == "programme" else None
            files.read(file, layer.show(file), kind, called=called, layer=layer.name)
    own = layers[-1]
    if (own.folder / _COUNTS_FILE).exists():
        files.read(own.folder / _COUNTS_FILE, own.show(own.folder / _COUNTS_FILE), SeenHere.kind, SeenHere)
    if not any(kind == "programme" for kind, _ in [*placed, *unread]):
        problems.append(Problem(own.show(own.folder / _PROGRAM_FILE), 1, 1, "", "the file is missing"))
    problems.extend(files.unresolved())
    problems.extend(files.wrongly_renamed())
    problems.extend(_sources_in_a_ring(placed))
    if not unread:
        problems.extend(_orphans(files, layers))
    problems.extend(_unsound_orders(placed))
    problems.extend(problems_between(placed))
    if today is not None:
        problems.extend(dated_ahead(placed.values(), today))
    problems.extend(sheet_problems(placed.values()))
    problems.extend(_photo_problems(placed, layers))
    for layer in layers:
        problems.extend(_links_out(layer))
        problems.extend(page_problems(layer.folder, layer.shown))
        problems.extend(_handwritten_problems(placed, unread, layer))
        problems.extend(published_problems(layer.folder, layer.shown))
        problems.extend(printed_problems(layer.folder, layer.shown))
    return layers, files, problems


def _files(layer: Layer, problems: list[Problem]) -> Iterator[tuple[Path, str]]:
    root = layer.folder
    kinds = {model.folder: kind for kind, model in KINDS.items() if kind != "programme"}
    for entry in sorted(root.iterdir()):
        if entry.name == _OLD_PROGRAM_FILE and (root / _PROGRAM_FILE).is_file():
            message = f"{_PROGRAM_FILE} is here too, and only one of them can count: keep {_PROGRAM_FILE}"
            problems.append(Problem(layer.show(entry), 1, 1, "", message))
        elif entry.name in {_PROGRAM_FILE, _OLD_PROGRAM_FILE}:
            yield entry, "programme"
        elif entry.is_dir() and entry.name in kinds:
            for file in sorted(entry.iterdir()):
                if file.suffix == ".yml":
                    yield file, kinds[entry.name]
                elif not file.name.startswith("."):
                    problems.append(Problem(layer.show(file), 1, 1, "", "expected a file that ends in .yml"))
        elif entry.is_dir() and entry.name not in _NOT_RECORDS and not entry.name.startswith("."):
            message = f"unknown folder {entry.name!r}{nearest(entry.name, kinds)}"
            problems.append(Problem(layer.show(entry), 1, 1, "", message))
        elif entry.suffix in {".yml", ".yaml"} and entry.name != _COUNTS_FILE:
            message = f"expected records in a folder of their kind ({', '.join(sorted(kinds))})"
            problems.append(Problem(layer.show(entry), 1, 1, "", message))


def _orphans(files: RecordFiles, layers: tuple[Layer, ...]) -> Iterator[Problem]:
    """Yield a problem for each record of the layer on top that nothing names; what is beneath is for any program."""
    pages = read_handwritten(*(layer.folder for layer in layers))
    in_pages = {(m["kind"], m["id"]) for page in pages for m in INLINE.finditer(page.text)}
    named = in_pages | {
        (mention.kind, mention.id)
        for item in files.placed.values()
        for mention in item.mentions
        if item.record.kind not in {mention.kind, SeenHere.kind}
    }
    own = layers[-1].name
    for (kind, id_), item in files.placed.items():
        is_own = files.origins[kind, id_][-1] == own
        if is_own and kind not in _MAY_STAND_ALONE and (kind, id_) not in named:
            yield item.problem((), _ORPHAN.get(kind, f"no other record names this {kind}"))


def _unsound_orders(placed: dict[tuple[str, str], PlacedRecord]) -> Iterator[Problem]:
    for item in placed.values():
        if isinstance(item.record, Cause) and (wrong := wrong_with_order(item.record.correction.say)):
            yield item.problem(("correction", "say"), f"say: {wrong}")


def _handwritten_problems(
    placed: dict[tuple[str, str], PlacedRecord], unread: set[tuple[str, str]], layer: Layer
) -> Iterator[Problem]:
    for page in read_handwritten(layer.folder):
        shown = f"{layer.shown}/pages/{page.name}.md"
        for number, line in enumerate(page.text.splitlines(), 1):
            for match in INLINE.finditer(line):
                key = (match["kind"], match["id"])
                if key not in placed and key not in unread:
                    known = [f"{kind}/{id_}" for kind, id_ in placed]
                    message = f"no record is called {'/'.join(key)!r}{nearest('/'.join(key), known)}"
                    yield Problem(shown, number, match.start() + 1, "", message)


def _sources_in_a_ring(placed: dict[tuple[str, str], PlacedRecord]) -> Iterator[Problem]:
    """Yield a problem for each source that passes on itself: nobody could tell which of them came first."""
    passes_on = {id_: item.record.same_as for (_, id_), item in placed.items() if isinstance(item.record, Source)}
    for id_, first in passes_on.items():
        on_the_way, now = {id_}, first
        while now is not None and now not in on_the_way:
            on_the_way.add(now)
            now = passes_on.get(now)
        if now == id_:
            yield placed[Source.kind, id_].problem(
                ("same_as",), "same_as: this source leads back to itself; name the first one"
            )


_ORPHAN = {
    "cause": "no defect names this cause",
    "part": "no sealer has this part",
    "source": "nothing cites this source",
    "caution": "no record shows this caution",
}


def _photo_problems(placed: dict[tuple[str, str], PlacedRecord], layers: tuple[Layer, ...]) -> Iterator[Problem]:
    named = [
        NamedPhoto(photo.file, (item, (*path, "file")))
        for item in placed.values()
        for path, photo in photos_in(item.record)
    ]
    for (item, path), message in faults_of_photos([layer.folder / "photos" for layer in layers], named):
        yield item.problem(path, message)


def _links_out(layer: Layer) -> Iterator[Problem]:
    """Yield a problem for each symbolic link that leads out of the folder: what it leads to might be published."""
    whole = layer.folder.resolve()
    for file in sorted(layer.folder.rglob("*")):
        if file.is_symlink() and not file.resolve().is_relative_to(whole):
            message = "a symbolic link that leads out of the folder: put the file itself here"
            yield Problem(layer.show(file), 1, 1, "", message)


def photos_in(value: Any, path: tuple[str | int, ...] = ()) -> Iterator[tuple[tuple[str | int, ...], Photo]]:
    """Yield every photograph in a record with its place in it."""
    if isinstance(value, Photo):
        yield path, value
    elif isinstance(value, BaseModel):
        for name in _fields_with_photos(type(value)):
            yield from photos_in(getattr(value, name), (*path, name))
    elif isinstance(value, tuple):
        for index, item in enumerate(value):
            yield from photos_in(item, (*path, index))


@cache
def _fields_with_photos(model: type[BaseModel]) -> list[str]:
    """Name the fields of a model that may hold photographs, or parts with photographs."""
    return [name for name, info in model.model_fields.items() if _may_hold_photos(info.annotation)]


def _may_hold_photos(annotation: Any) -> bool:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation is Photo or bool(_fields_with_photos(annotation))
    return any(map(_may_hold_photos, get_args(annotation)))
