"""From a folder of YAML to a knowledge base, or to every problem in it."""

from __future__ import annotations

from dataclasses import dataclass
from types import MappingProxyType
from typing import TYPE_CHECKING, Any

from pydantic import BaseModel, ValidationError

from tinwright.errors import ContentError, Problem
from tinwright.knowledge.base import KnowledgeBase
from tinwright.knowledge.handwritten import read_handwritten
from tinwright.knowledge.linking import INLINE, mentions
from tinwright.knowledge.models import KINDS
from tinwright.knowledge.models.base import Photo
from tinwright.knowledge.published import FOLDER, published_problems
from tinwright.knowledge.wording import nearest, plain_message
from tinwright.knowledge.yaml_source import LocatedYaml, read_yaml

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from pydantic_core import ErrorDetails

    from tinwright.knowledge.models.base import Record

__all__ = ["find_problems", "load", "photos_in"]

_PROGRAMME_FILE = "programme.yml"
_NOT_RECORDS = {"photos", "schema", "pages", FOLDER}
_MAY_STAND_ALONE = {"programme", "can", "sealer", "procedure", "defect", "term", "seam-specification"}
"""Kinds with a way in of their own; of the others, each record must be named by one that is not of its kind."""


@dataclass(frozen=True)
class _Placed:
    """A record with the place it was read from."""

    record: Record
    file: LocatedYaml
    path: tuple[str | int, ...]

    def problem(self, where: tuple[str | int, ...], message: str) -> Problem:
        return self.file.problem((*self.path, *where), message, record=_subject(self.record.kind, self.record.id))


def load(root: Path) -> KnowledgeBase:
    """Read, check and link every record below `root`.

    Args:
        root: the content folder, with one folder per kind of record and `programme.yml`.

    Raises:
        ContentError: with all problems of all files, when there are any.
    """
    placed, problems = _read(root)
    if problems:
        raise ContentError(problems)
    return KnowledgeBase(root, MappingProxyType({key: item.record for key, item in placed.items()}))


def find_problems(root: Path) -> list[Problem]:
    """Return every problem below `root`, sorted by file, line and column; empty when all is well."""
    return sorted(_read(root)[1])


def _read(root: Path) -> tuple[dict[tuple[str, str], _Placed], list[Problem]]:
    placed: dict[tuple[str, str], _Placed] = {}
    problems: list[Problem] = []
    unread: set[tuple[str, str]] = set()
    if not root.is_dir():
        return placed, [Problem(root.name, 1, 1, "", "expected a content folder, found none")]
    for file, kind in _files(root, problems):
        located = read_yaml(file, _shown(file, root))
        problems.extend(located.problems)
        if located.value is None:
            unread.add((kind, file.stem))
            continue
        for path, value, id_ in _entries(located, file.stem, problems, kind):
            record, found = _validate(located, path, value, kind, id_)
            problems.extend(found)
            if record is None:
                unread.add((kind, id_))
                continue
            item = _Placed(record, located, path)
            first = placed.setdefault((kind, record.id), item)
            if first is not item:
                line, _ = first.file.at(first.path)
                problems.append(item.problem(("id",), f"duplicate id; it already stands in {first.file.file}:{line}"))
    if not any(kind == "programme" for kind, _ in [*placed, *unread]):
        problems.append(Problem(_shown(root / _PROGRAMME_FILE, root), 1, 1, "", "the file is missing"))
    problems.extend(_unresolved(placed, unread))
    if not unread:
        problems.extend(_orphans(placed, root))
    problems.extend(_missing_photos(placed, root))
    problems.extend(_handwritten_problems(placed, unread, root))
    problems.extend(published_problems(root))
    return placed, problems


def _shown(file: Path, root: Path) -> str:
    """Name a file from the folder the educator works in: `content/defects/droop.yml`."""
    return f"{root.name}/{file.relative_to(root).as_posix()}"


def _files(root: Path, problems: list[Problem]) -> Iterator[tuple[Path, str]]:
    kinds = {model.folder: kind for kind, model in KINDS.items() if kind != "programme"}
    for entry in sorted(root.iterdir()):
        if entry.name == _PROGRAMME_FILE:
            yield entry, "programme"
        elif entry.is_dir() and entry.name in kinds:
            for file in sorted(entry.iterdir()):
                if file.suffix == ".yml":
                    yield file, kinds[entry.name]
                elif not file.name.startswith("."):
                    problems.append(Problem(_shown(file, root), 1, 1, "", "expected a file that ends in .yml"))
        elif entry.is_dir() and entry.name not in _NOT_RECORDS and not entry.name.startswith("."):
            message = f"unknown folder {entry.name!r}{nearest(entry.name, kinds)}"
            problems.append(Problem(_shown(entry, root), 1, 1, "", message))
        elif entry.suffix in {".yml", ".yaml"}:
            message = f"expected records in a folder of their kind ({', '.join(sorted(kinds))})"
            problems.append(Problem(_shown(entry, root), 1, 1, "", message))


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
    located: LocatedYaml, path: tuple[str | int, ...], value: dict[str, Any], kind: str, id_: str
) -> tuple[Record | None, list[Problem]]:
    model = KINDS[kind]
    try:
        return model.model_validate(value), []
    except ValidationError as error:
        return None, [_problem_of(details, located, path, model, id_) for details in error.errors()]


def _problem_of(
    details: ErrorDetails, located: LocatedYaml, path: tuple[str | int, ...], model: type[Record], id_: str
) -> Problem:
    loc = details["loc"]
    if details["type"] != "missing":
        while loc and (*path, *loc) not in located.marks:
            loc = loc[:-1]  # the part was made from a short form, such as one word of evidence
    message = plain_message({**details, "loc": loc}, model)
    key = details["type"] == "extra_forbidden"
    return located.problem((*path, *loc), message, record=_subject(model.kind, id_), key=key)


def _subject(kind: str, id_: str) -> str:
    return kind if kind == id_ else f"{kind} {id_}"


def _unresolved(placed: dict[tuple[str, str], _Placed], unread: set[tuple[str, str]]) -> Iterator[Problem]:
    for item in placed.values():
        for mention in mentions(item.record):
            if (mention.kind, mention.id) in placed or (mention.kind, mention.id) in unread:
                continue
            if mention.kind not in KINDS:
                yield item.problem(
                    mention.path, f"unknown kind {mention.kind!r} in a link{nearest(mention.kind, KINDS)}"
                )
                continue
            known = [id_ for kind, id_ in placed if kind == mention.kind]
            hint = nearest(mention.id, known)
            yield item.problem(mention.path, f"no {mention.kind} is called {mention.id!r}{hint}")


def _orphans(placed: dict[tuple[str, str], _Placed], root: Path) -> Iterator[Problem]:
    in_pages = {(m["kind"], m["id"]) for page in read_handwritten(root) for m in INLINE.finditer(page.text)}
    named = in_pages | {
        (mention.kind, mention.id)
        for item in placed.values()
        for mention in mentions(item.record)
        if item.record.kind != mention.kind
    }
    for (kind, id_), item in placed.items():
        if kind not in _MAY_STAND_ALONE and (kind, id_) not in named:
            yield item.problem((), _ORPHAN.get(kind, f"no other record names this {kind}"))


def _handwritten_problems(
    placed: dict[tuple[str, str], _Placed], unread: set[tuple[str, str]], root: Path
) -> Iterator[Problem]:
    for page in read_handwritten(root):
        shown = f"{root.name}/pages/{page.name}.md"
        for number, line in enumerate(page.text.splitlines(), 1):
            for match in INLINE.finditer(line):
                key = (match["kind"], match["id"])
                if key not in placed and key not in unread:
                    known = [f"{kind}/{id_}" for kind, id_ in placed]
                    message = f"no record is called {'/'.join(key)!r}{nearest('/'.join(key), known)}"
                    yield Problem(shown, number, match.start() + 1, "", message)


_ORPHAN = {
    "cause": "no defect names this cause",
    "part": "no sealer has this part",
    "source": "nothing cites this source",
    "caution": "no record shows this caution",
}


def _missing_photos(placed: dict[tuple[str, str], _Placed], root: Path) -> Iterator[Problem]:
    photos = root / "photos"
    for item in placed.values():
        for path, photo in photos_in(item.record):
            target = photos / photo.file
            if not target.resolve().is_relative_to(photos.resolve()) or not target.is_file():
                yield item.problem((*path, "file"), f"no photograph {photo.file!r} in {root.name}/photos")


def photos_in(value: Any, path: tuple[str | int, ...] = ()) -> Iterator[tuple[tuple[str | int, ...], Photo]]:
    """Yield every photograph in a record with its place in it."""
    if isinstance(value, Photo):
        yield path, value
    elif isinstance(value, BaseModel):
        for name in type(value).model_fields:
            yield from photos_in(getattr(value, name), (*path, name))
    elif isinstance(value, tuple):
        for index, item in enumerate(value):
            yield from photos_in(item, (*path, index))
