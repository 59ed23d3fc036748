"""Answering a change beneath in the educator's own file; all that is not answered stays as it is, to the byte."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from tinwright.knowledge.amending import AMENDS, digest_of, way_of
from tinwright.knowledge.layers import layers_of

if TYPE_CHECKING:
    from pathlib import Path

    from tinwright.knowledge.amending import Question

__all__ = ["both_versions", "file_of", "keep_mine", "take_theirs"]


def file_of(question: Question, root: Path) -> Path:
    """Return the educator's file that a question is about."""
    shown = question.change.file.file
    for layer in layers_of(root)[0]:
        if shown.startswith(f"{layer.shown}/"):
            return layer.folder / shown.removeprefix(f"{layer.shown}/")
    raise FileNotFoundError(shown)


def keep_mine(question: Question, root: Path) -> None:
    """Note in the file that its words answer the text that is beneath now."""
    file, way = file_of(question, root), str(way_of(question.change.value))
    line, column = question.change.file.at((*question.change.path, way))
    lines = file.read_bytes().split(b"\n")
    before, after = lines[line - 1][: column - 1], lines[line - 1][column - 1 :]
    old = str(question.change.value[way]).encode()
    lines[line - 1] = before + after.replace(old, digest_of(question.beneath).encode(), 1)
    file.write_bytes(b"\n".join(lines))


def take_theirs(question: Question, root: Path) -> None:
    """Take the educator's own words away, so that the text beneath counts; a file with no other record goes."""
    file, whole = file_of(question, root), question.change.file
    if not question.change.path or len(whole.value) == 1:
        file.unlink()
        return
    (number,) = question.change.path
    lines = file.read_bytes().split(b"\n")
    first, _ = whole.at((number,))
    last = whole.at((int(number) + 1,))[0] - 1 if int(number) + 1 < len(whole.value) else len(lines) - 1
    file.write_bytes(b"\n".join([*lines[: first - 1], *lines[last:]]))


def both_versions(question: Question) -> list[tuple[str, Any, Any]]:
    """Return each field that the two versions say otherwise: its name, the educator's, the one beneath."""
    mine, theirs = question.change.value, question.beneath
    names = mine if AMENDS in mine else {**theirs, **mine}
    ways = {way_of(mine), "id"}
    return [(n, mine.get(n), theirs.get(n)) for n in names if n not in ways and mine.get(n) != theirs.get(n)]
