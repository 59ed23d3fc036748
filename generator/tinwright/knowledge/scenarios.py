"""Scenarios of the practice bench, read from folders of their own.

from pathlib import Path
from tinwright.knowledge import load
from tinwright.knowledge.scenarios import load_scenarios

scenarios = load_scenarios(load(Path("content")))

    content/LAYER/practice/  published: each is played on the practice bench
    another folder           kept for practical examinations; named when it is wanted

The site reads `practice` alone: what it never reads it cannot publish.
"""

from __future__ import annotations

from types import MappingProxyType
from typing import TYPE_CHECKING

from tinwright.errors import ContentError, Problem
from tinwright.knowledge.between_records import dated_ahead
from tinwright.knowledge.models.practice import PracticeScenario
from tinwright.knowledge.record_files import RecordFiles

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterator, Mapping
    from pathlib import Path

    from tinwright.knowledge.base import KnowledgeBase
    from tinwright.knowledge.record_files import PlacedRecord

__all__ = ["FOLDER", "load_scenarios", "placed_scenarios"]

FOLDER = PracticeScenario.folder
"""Folder of the content that holds those that are published."""


def load_scenarios(
    kb: KnowledgeBase, *, examination: Path | None = None, today: dt.date | None = None
) -> Mapping[str, PracticeScenario]:
    """Read, check and link the scenarios of a programme, in the order of grade and id; none is fine.

    Args:
        kb: the knowledge base whose sealers, cans and causes they name.
        examination: read this folder of examination scenarios instead of the published ones.
        today: the day it is, so that days which have not come yet are problems.

    Raises:
        ContentError: with every problem of every file.
    """
    placed = placed_scenarios(kb, examination=examination, today=today)
    found = sorted(
        (item.record for item in placed.values() if isinstance(item.record, PracticeScenario)),
        key=lambda scenario: (scenario.grade, scenario.id),
    )
    return MappingProxyType({scenario.id: scenario for scenario in found})


def placed_scenarios(
    kb: KnowledgeBase, *, examination: Path | None = None, today: dt.date | None = None
) -> Mapping[str, PlacedRecord]:
    """Read the scenarios with their places, for problems found later.

    Raises:
        ContentError: with every problem of every file.
    """
    use = "practice" if examination is None else "examination"
    files = RecordFiles()
    if examination is None:
        folders = [(layer.folder / FOLDER, f"{layer.shown}/{FOLDER}") for layer in kb.layers]
    elif examination.is_dir():
        folders = [(examination, examination.as_posix())]
    else:
        message = "expected a folder of examination scenarios, found none"
        raise ContentError([Problem(examination.as_posix(), 1, 1, "", message)])
    for folder, shown in folders:
        for file in sorted(folder.iterdir()) if folder.is_dir() else ():
            if file.suffix == ".yml":
                files.read(file, f"{shown}/{file.name}", PracticeScenario.kind, PracticeScenario)
            elif not file.name.startswith("."):
                files.problems.append(Problem(f"{shown}/{file.name}", 1, 1, "", "expected a file that ends in .yml"))
    files.problems.extend(files.unresolved(set(kb.records)))
    for item in files.placed.values():
        files.problems.extend(_wrong_with(item, kb, use))
    if today is not None:
        files.problems.extend(dated_ahead(files.placed.values(), today))
    if files.problems:
        raise ContentError(sorted(files.problems))
    return {id_: item for (_, id_), item in files.placed.items()}


def _wrong_with(item: PlacedRecord, kb: KnowledgeBase, use: str) -> Iterator[Problem]:
    scenario = item.record
    if not isinstance(scenario, PracticeScenario):
        return
    if scenario.use != use:
        yield item.problem(("use",), f"use: expected {use} in this folder, got {scenario.use}")
    if scenario.id in kb.causes or scenario.id in kb.defects:
        yield item.problem((), "the file's name gives the answer away: call it by the story")
    for number, fault in enumerate(scenario.faults):
        cause = kb.causes.get(fault.cause)
        if cause is not None and cause.title.casefold() in f"{scenario.title} {scenario.story}".casefold():
            yield item.problem(("faults", number, "cause"), "the title or the story says it: tell the signs only")
