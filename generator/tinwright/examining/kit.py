"""Everything for one examination day, written into a private folder: all of it or nothing."""

from __future__ import annotations

import os
import shutil
import tempfile
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from tinwright.errors import ExamError
from tinwright.examining.exam_page import exam_page
from tinwright.examining.practical_sheet import practical_sheet, sealers_of
from tinwright.examining.sheets import answer_sheet, key_sheet, question_sheet, reader_script
from tinwright.store.place import check_place

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from tinwright.examining.making import MadeForm
    from tinwright.knowledge import KnowledgeBase
    from tinwright.knowledge.models.examination import Blueprint

__all__ = ["KitFile", "kit_of", "prepare_folder", "write_kit"]

_READABLE_BY_OWNER = 0o600


@dataclass(frozen=True)
class KitFile:
    """A file of the kit."""

    name: str
    """Its name."""
    content: bytes
    """What is in it."""
    what: str
    """What it is for, in a few words."""
    secret: bool
    """True when nobody may see it who is to sit the examination."""


def kit_of(
    made: Iterable[MadeForm], blueprint: Blueprint, kb: KnowledgeBase, *, accessible: bool = False
) -> tuple[KitFile, ...]:
    """Return the files of some forms and of the practical check at each sealer of the programme.

    Args:
        made: the forms and second tries.
        blueprint: what they are made of.
        kb: the knowledge base.
        accessible: whether to add large print and a script to be read aloud.

    Raises:
        QuizError: when the blueprint does not name all that is observed.
        MissingExtraError: when the libraries of the extra `paper` are not installed.
        PaperError: when no font on the computer has some of the letters.
    """
    files = []
    for one in made:
        form = one.form
        stem = f"{form.exam}-{form.form}"
        when = "second try, after coaching: " if one.is_second_try else ""
        files += [
            KitFile(f"{stem}.pdf", question_sheet(form, kb, one.key), f"{when}questions on paper", secret=False),
            KitFile(f"{stem}-answers.pdf", answer_sheet(form, kb, one.key), f"{when}answer sheet", secret=False),
            KitFile(
                f"{stem}.html",
                exam_page(form, kb).encode(),
                f"{when}the same on a screen, for a USB drive",
                secret=False,
            ),
            KitFile(f"{stem}-key.pdf", key_sheet(one, kb), "key with reasons, on paper", secret=True),
            KitFile(f"{stem}.form.json", form.written().encode(), "the form, for grading", secret=True),
            KitFile(f"{stem}.key.json", one.key.written().encode(), "the key, for grading", secret=True),
        ]
        if accessible:
            large = question_sheet(form, kb, one.key, large=True), answer_sheet(form, kb, one.key, large=True)
            files += [
                KitFile(f"{stem}-large.pdf", large[0], f"{when}questions in large print", secret=False),
                KitFile(f"{stem}-large-answers.pdf", large[1], f"{when}answer sheet in large print", secret=False),
                KitFile(f"{stem}-aloud.pdf", reader_script(form, kb), "for whoever reads it aloud", secret=True),
            ]
    for sealer in sealers_of(kb):
        name = f"{blueprint.id}-practical-{sealer.id}.pdf"
        files.append(KitFile(name, practical_sheet(blueprint, sealer, kb), "checklist of the examiner", secret=False))
    return tuple(files)


def prepare_folder(folder: Path, names: Iterable[str] = ()) -> Path:
    """Return where a kit may be written; nothing is made yet.

    Args:
        folder: where to; it need not be there.
        names: files that must not be there already.

    Raises:
        RecordError: when it lies in a folder of the site or of its sources.
        ExamError: when it is no folder, or one of the files is there already.
    """
    try:
        place = check_place(folder / "form").parent
        is_file = place.exists() and not place.is_dir()
        there = [name for name in names if (place / name).exists()]
    except OSError as error:
        raise ExamError(f"{folder}: cannot be written: {error.strerror}") from error
    if is_file:
        raise ExamError(f"{folder}: expected a folder, got a file")
    if there:
        raise ExamError(f"{folder}: {there[0]} is there already: name another folder, so that no form is lost")
    return place


def write_kit(files: Iterable[KitFile], folder: Path) -> Path:
    """Write the files of a kit, readable by their owner alone; all of them, or none.

    Args:
        files: the files.
        folder: where to; made when it is not there.

    Raises:
        RecordError: when the folder lies where it might be published.
        ExamError: when one of the files is there already, or they cannot be written.
    """
    contents = {file.name: file.content for file in files}
    place = prepare_folder(folder, contents)
    made_now = not place.exists()
    try:
        place.mkdir(parents=True, exist_ok=True, mode=0o700)
        _write_all(contents, place)
    except OSError as error:
        if made_now:
            shutil.rmtree(place, ignore_errors=True)
        raise ExamError(f"{folder}: cannot be written: {error.strerror}") from error
    return place


def _write_all(contents: Mapping[str, bytes], place: Path) -> None:
    aside = Path(tempfile.mkdtemp(dir=place, prefix=".exam.", suffix=".part"))
    moved: list[Path] = []
    try:
        for name, content in contents.items():
            handle = os.open(aside / name, os.O_CREAT | os.O_EXCL | os.O_WRONLY, _READABLE_BY_OWNER)
            with os.fdopen(handle, "wb") as out:
                out.write(content)
                out.flush()
                os.fsync(out.fileno())
        for name in contents:
            (aside / name).replace(place / name)
            moved.append(place / name)
    except OSError:
        for file in moved:
            file.unlink(missing_ok=True)
        raise
    finally:
        shutil.rmtree(aside, ignore_errors=True)
