"""Hand-written pages: Markdown in `content/pages`, with links to records and figures by name, and pictures beside it.

What lies in that folder is published, so nothing else may lie there.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tinwright.errors import Problem
from tinwright.knowledge.models import KINDS
from tinwright.knowledge.photographs import cleaned, fault_of_picture
from tinwright.knowledge.text_bytes import conflict_problems, text_of
from tinwright.knowledge.texts import faults_of_text

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

__all__ = [
    "FOLDER",
    "PICTURES",
    "TAKEN_NAMES",
    "HandwrittenPage",
    "handwritten_files",
    "page_problems",
    "read_handwritten",
]

FOLDER = "pages"
"""Folder of the content that holds them."""
PICTURES = frozenset({".jpg", ".jpeg", ".png", ".webp"})
"""Endings of pictures that a page may show."""

TAKEN_NAMES = frozenset({
    *(model.folder for model in KINDS.values()),
    "404", "accessibility", "assets", "bench-log", "cans-to-hold", "certificates", "data", "find-the-cause", "index",
    "on-this-device", "photos", "practice-bench", "print", "quizzes", "reference", "schema", "seam-check", "seam-form",
    "search", "set-up", "sitemap", "take-along", "trees", "vendor", "verify-a-certificate",
})  # fmt: skip
"""What the site has at these addresses already; a page of that name would take the place of it."""


@dataclass(frozen=True)
class HandwrittenPage:
    """One hand-written page."""

    name: str
    """Its file's name without `.md`."""
    title: str
    """Its first heading."""
    text: str
    """Its Markdown, with `[[kind/id]]`, `{{ figure:NAME }}` and `{{ table:evidence }}` still in it."""


def handwritten_files(root: Path) -> tuple[tuple[Path, ...], tuple[Path, ...]]:
    """Return the pages of a content folder and the pictures beside them, each sorted by name; no links out of it."""
    folder = root / FOLDER
    if not folder.is_dir():
        return (), ()
    here = folder.resolve()
    inside = [file for file in sorted(folder.iterdir()) if file.is_file() and file.resolve().parent == here]
    pages = tuple(file for file in inside if file.suffix == ".md" and file.name[0] != ".")
    return pages, tuple(file for file in inside if file.suffix.lower() in PICTURES and file.name[0] != ".")


def read_handwritten(*roots: Path) -> tuple[HandwrittenPage, ...]:
    """Read the hand-written pages of the layers, sorted by name; of two with one name, the last. None is fine."""
    pages = {}
    for file in (file for root in roots for file in handwritten_files(root)[0]):
        text = text_of(file.read_bytes(), file.name)
        if isinstance(text, Problem):  # `page_problems` tells of it
            continue
        heading = next((line[2:].strip() for line in text.splitlines() if line.startswith("# ")), file.stem)
        pages[file.stem] = HandwrittenPage(file.stem, heading, text)
    return tuple(pages[name] for name in sorted(pages))


def read_pictures(*roots: Path) -> dict[str, bytes]:
    """Return the pictures beside the hand-written pages of the layers as they are published, by name."""
    return {file.name: cleaned(file) for root in roots for file in handwritten_files(root)[1]}


def page_problems(root: Path, shown_as: str) -> Iterator[Problem]:
    """Yield what is wrong with the folder of pages: what must not lie there, and what no text may hold."""
    folder = root / FOLDER
    if not folder.is_dir():
        return
    pages, pictures = handwritten_files(root)
    for file in sorted(folder.iterdir()):
        shown = f"{shown_as}/{FOLDER}/{file.name}"
        if file in pages:
            yield from _problems_of(file, shown)
        elif file in pictures:
            if (fault := fault_of_picture(file)) is not None:
                yield Problem(shown, 1, 1, "", fault)
        elif not (file.name.startswith(".") and file.is_file()):
            message = "expected only pages (.md) and their pictures (.jpg, .png, .webp): what lies here is published"
            yield Problem(shown, 1, 1, "", message)


def _problems_of(file: Path, shown: str) -> Iterator[Problem]:
    if file.stem in TAKEN_NAMES:
        yield Problem(shown, 1, 1, "", f"the site has a page {file.stem!r} of its own: give this one another name")
    text = text_of(file.read_bytes(), shown)
    if isinstance(text, Problem):
        yield text
        return
    yield from conflict_problems(text, shown)
    for number, line in enumerate(text.splitlines(), 1):
        yield from (Problem(shown, number, at + 1, "", message) for at, message in faults_of_text(line))
