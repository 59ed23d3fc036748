"""What the office has printed for its site: PDF files beside the records, with a list of what was printed from what."""

from __future__ import annotations

import datetime as dt
import hashlib
from typing import TYPE_CHECKING

from pydantic import BaseModel, ConfigDict, Field, TypeAdapter, ValidationError

from tinwright.errors import Problem

if TYPE_CHECKING:
    from collections.abc import Iterable
    from pathlib import Path

    from tinwright.knowledge.base import KnowledgeBase

__all__ = ["FOLDER", "LIST", "Paper", "digest", "list_text", "printed_problems", "read_printed", "records_digest"]

FOLDER = "print"
"""Folder of the content that holds it."""
LIST = "printed.json"
"""The list in that folder. Only what it names, unchanged, reaches the site."""


class Paper(BaseModel):
    """One printed document, as the list has it."""

    model_config = ConfigDict(frozen=True, extra="forbid")

    file: str = Field(pattern=r"^[a-z0-9][A-Za-z0-9._-]*\.pdf$")
    """Name of the file."""
    title: str = Field(min_length=1, max_length=200)
    """Title of the document."""
    kind: str
    """What it is, as `tinwright paper` calls it, such as `set-up`."""
    pages: int = Field(ge=1)
    """How many pages it has."""
    size: int = Field(ge=1)
    """Its size in bytes."""
    edition: dt.date
    """Day of the newest review among the records it was printed from."""
    records: str
    """Digest of the records it was printed from."""
    sha256: str
    """Digest of the file."""
    cards: tuple[tuple[str, ...], ...] = ()
    """For each page that is a card, the pages of the site that it goes with, such as `defects/droop.md`."""


_PAPERS = TypeAdapter(tuple[Paper, ...])


def digest(content: bytes) -> str:
    """Return the SHA-256 (FIPS 180-4) of a file, in hexadecimal digits."""
    return hashlib.sha256(content).hexdigest()


def records_digest(kb: KnowledgeBase) -> str:
    """Return the digest of all records: another one as soon as a word of any record is another."""
    total = hashlib.sha256()
    for (kind, id_), record in sorted(kb.records.items()):
        total.update(f"{kind}/{id_} {record.model_dump_json()}\n".encode())
    return total.hexdigest()


def read_printed(root: Path) -> tuple[Paper, ...]:
    """Return the papers of a content folder, in the order of the list; none is fine.

    What is not on the list, or was changed after it was printed, is left out, and so never reaches the site.
    """
    folder = root / FOLDER
    try:
        listed = _PAPERS.validate_json((folder / LIST).read_bytes())
    except (OSError, ValidationError):
        return ()
    return tuple(paper for paper in listed if _is_as_printed(folder / paper.file, paper))


def printed_problems(root: Path, shown_as: str) -> list[Problem]:
    """Return what is wrong with the folder: a broken list, or a file that `tinwright paper` did not put there."""
    folder = root / FOLDER
    found = sorted(file.name for file in folder.iterdir() if file.name[0] != ".") if folder.is_dir() else []
    if not found:
        return []
    shown = f"{shown_as}/{FOLDER}"
    listed: dict[str, Paper] = {}
    if LIST in found:
        try:
            listed = {paper.file: paper for paper in _PAPERS.validate_json((folder / LIST).read_bytes())}
        except (OSError, ValidationError):
            return [Problem(f"{shown}/{LIST}", 1, 1, "", f"expected what `{_command(shown)}` writes: print it again")]
    problems = []
    for name in found:
        if name == LIST:
            continue
        if name not in listed:
            message = f"expected only what `{_command(shown)}` prints: what lies here is published, keep all else out"
        elif not _is_as_printed(folder / name, listed[name]):
            message = f"the file is not the one that was printed: print it again with `{_command(shown)}`"
        else:
            continue
        problems.append(Problem(f"{shown}/{name}", 1, 1, "", message))
    return problems


def list_text(printed: Iterable[Paper], root: Path) -> bytes:
    """Return the list with what was printed just now, and what was printed before and is still there."""
    papers = {paper.file: paper for paper in (*read_printed(root), *printed)}
    return _PAPERS.dump_json(tuple(papers[name] for name in sorted(papers)), indent=1) + b"\n"


def _is_as_printed(file: Path, paper: Paper) -> bool:
    return file.is_file() and digest(file.read_bytes()) == paper.sha256


def _command(shown: str) -> str:
    return f"tinwright paper --out {shown}"
