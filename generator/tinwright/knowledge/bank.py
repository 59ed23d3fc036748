"""The question bank: topics, items and blueprints, read from a folder of their own beside the content.

from pathlib import Path
from tinwright.knowledge import load
from tinwright.knowledge.bank import load_bank

bank = load_bank(Path("quizzes"), load(Path("content")))
bank.practice["measuring-overlap-plain"].question

    quizzes/topics.yml          the topics
    quizzes/practice/           items shown on the site, with their answers
    quizzes/blueprints/         what an examination is made of
    quizzes/examination/        items for examinations only; another folder, out of the repository, can be named instead

The site reads `practice` alone: what it never reads it cannot publish.
"""

from __future__ import annotations

from dataclasses import dataclass
from types import MappingProxyType
from typing import TYPE_CHECKING, Any

from tinwright.errors import ContentError, Problem
from tinwright.knowledge.between_records import dated_ahead
from tinwright.knowledge.models.examination import Blueprint, Topic
from tinwright.knowledge.models.item import ASKS, Item
from tinwright.knowledge.record_files import RecordFiles
from tinwright.knowledge.wording import nearest

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterator, Mapping
    from pathlib import Path

    from tinwright.knowledge.base import KnowledgeBase
    from tinwright.knowledge.models.base import Record
    from tinwright.knowledge.record_files import PlacedRecord

__all__ = ["EXAMINATION", "PRACTICE", "Bank", "find_bank_problems", "load_bank"]

PRACTICE, EXAMINATION = "practice", "examination"
"""Folders of the items, and the words for their use."""


@dataclass(frozen=True, eq=False)
class Bank:
    """Topics, items and blueprints of one programme; each mapping in the order of the files, topics as listed."""

    root: Path
    """Folder it was read from."""
    topics: Mapping[str, Topic]
    """Topics by id."""
    practice: Mapping[str, Item]
    """Items for practice by id."""
    examination: Mapping[str, Item]
    """Items for examinations only by id; empty when they were not read."""
    blueprints: Mapping[str, Blueprint]
    """Blueprints by id."""
    placed: Mapping[str, PlacedRecord]
    """Items by id with their places, for problems found later."""


def load_bank(root: Path, kb: KnowledgeBase, *, examination: Path | None = None, today: dt.date | None = None) -> Bank:
    """Read, check and link the question bank.

    Args:
        root: the folder with `topics.yml`, `practice` and `blueprints`.
        kb: the knowledge base whose records the items teach.
        examination: folder of the examination items; they are not read when left out.
        today: the day it is, so that days which have not come yet are problems; they are not looked at when left out.

    Raises:
        ContentError: with every problem of every file.
    """
    files, problems = _read(root, kb, examination)
    if today is not None:
        problems.extend(dated_ahead(files.placed.values(), today))
    if problems:
        raise ContentError(problems)
    records = {key: placed.record for key, placed in files.placed.items()}
    items = {id_: record for (kind, id_), record in records.items() if kind == Item.kind and isinstance(record, Item)}
    placed = {id_: item for (kind, id_), item in files.placed.items() if kind == Item.kind}

    def of(kind: type[Record]) -> dict[str, Any]:
        return {id_: record for (_, id_), record in records.items() if isinstance(record, kind)}

    return Bank(
        root,
        MappingProxyType(of(Topic)),
        MappingProxyType({id_: item for id_, item in items.items() if item.use == PRACTICE}),
        MappingProxyType({id_: item for id_, item in items.items() if item.use == EXAMINATION}),
        MappingProxyType(of(Blueprint)),
        MappingProxyType(placed),
    )


def find_bank_problems(root: Path, kb: KnowledgeBase, *, examination: Path | None = None) -> list[Problem]:
    """Return every problem of the bank's files, sorted by place; empty when all is well."""
    return sorted(_read(root, kb, examination)[1])


def _read(root: Path, kb: KnowledgeBase, examination: Path | None) -> tuple[RecordFiles, list[Problem]]:
    files = RecordFiles()
    topics = root / "topics.yml"
    if not topics.is_file():
        return files, [Problem(f"{root.name}/topics.yml", 1, 1, "", "expected the list of topics, found no file")]
    files.read(topics, f"{root.name}/topics.yml", Topic.kind, Topic)
    folders = [(root / PRACTICE, PRACTICE, f"{root.name}/{PRACTICE}")]
    if examination is not None:
        if not examination.is_dir():
            return files, [Problem(str(examination), 1, 1, "", "expected a folder of examination items, found none")]
        inside = examination.resolve().is_relative_to(root.resolve())
        shown = f"{root.name}/{examination.resolve().relative_to(root.resolve())}" if inside else str(examination)
        folders.append((examination, EXAMINATION, shown))
    for folder, use, shown in folders:
        before = set(files.placed)
        for file in _yaml_files(folder, shown, files.problems):
            files.read(file, f"{shown}/{file.name}", Item.kind, _way_of_asking)
        for key in set(files.placed) - before:
            item = files.placed[key]
            if isinstance(item.record, Item) and item.record.use != use:
                message = f"use: expected {use} in this folder, got {item.record.use}"
                files.problems.append(item.problem(("use",), message))
    for file in _yaml_files(root / "blueprints", f"{root.name}/blueprints", files.problems, beside=frozenset({".csv"})):
        files.read(file, f"{root.name}/blueprints/{file.name}", Blueprint.kind, Blueprint)
    elsewhere = set(kb.records)
    files.problems.extend(files.unresolved(elsewhere))
    files.problems.extend(_wrong_enemies(files, complete=examination is not None))
    files.problems.extend(_twice_in_a_blueprint(files))
    return files, files.problems


def _yaml_files(
    folder: Path, shown: str, problems: list[Problem], beside: frozenset[str] = frozenset()
) -> Iterator[Path]:
    if not folder.is_dir():
        return
    for file in sorted(folder.iterdir()):
        if file.suffix == ".yml":
            yield file
        elif not file.name.startswith(".") and file.suffix not in beside:
            problems.append(Problem(f"{shown}/{file.name}", 1, 1, "", "expected a file that ends in .yml"))


def _way_of_asking(value: dict[str, Any]) -> type[Record]:
    asks = value.get("asks")
    if asks is None:
        raise ValueError("the key 'asks' is missing")
    if not isinstance(asks, str) or asks not in ASKS:
        raise ValueError(f"asks: expected one of {', '.join(ASKS)}, got {asks!r}{nearest(str(asks), ASKS)}")
    return ASKS[asks]


def _wrong_enemies(files: RecordFiles, *, complete: bool) -> Iterator[Problem]:
    """Yield a problem for each enemy there is not; practice items may name examination items that were not read."""
    ids = {id_ for kind, id_ in [*files.placed, *files.unread] if kind == Item.kind}
    for item in files.placed.values():
        for number, enemy in enumerate(getattr(item.record, "enemies", ())):
            if enemy == item.record.id:
                yield item.problem(("enemies", number), "an item cannot be its own enemy")
            elif enemy not in ids and complete:
                yield item.problem(("enemies", number), f"no item is called {enemy!r}{nearest(enemy, ids)}")


def _twice_in_a_blueprint(files: RecordFiles) -> Iterator[Problem]:
    for item in files.placed.values():
        if isinstance(item.record, Blueprint):
            seen: set[str] = set()
            for number, row in enumerate(item.record.topics):
                if row.topic in seen:
                    yield item.problem(("topics", number, "topic"), f"the topic {row.topic!r} stands here twice")
                seen.add(row.topic)
