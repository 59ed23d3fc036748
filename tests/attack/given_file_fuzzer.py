"""Files that people give to a command, changed by chance: each is taken, or refused in lines of words, and soon."""

from __future__ import annotations

import random
import tempfile
import time
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from click.testing import CliRunner

from attack.changes import changed
from benchlog_files import SHEET, a_phone_file
from conftest import PROGRAMME
from evidence_content import SMALL
from examining.sat_exams import a_plain_exam, a_register, a_response, lay_down, typed
from filled_programme import write_filled_programme
from knowledge.test_sheet_rules import CAN, READINGS
from knowledge.test_sheet_rules import SHEET as SUPPLIERS
from tinwright.cli import main

if TYPE_CHECKING:
    from collections.abc import Iterator

__all__ = ["fuzz"]

MOST_SECONDS = 2
"""Of processor time, for one file."""
REFUSED, TAKEN = {1, 2}, {0}
_PIECES = (
    "#", " #", ": ", "- ", "\n", "\r", "\t", "\n\n", "---\n", "...\n", "&a ", "*a", "!!python/object:os.system ", "<<: ", "|", ">-", '"', "'", '"""',
    "{", "}", "[", "]", "[[", "]]", "[[defect/", "{{ 7 * 7 }}", "<script>", "yes", "null", "~", "0x10", "1e999", "-1", "1_000", "12:30:45",
    "2026-02-30", "9999-12-31", "1/0", "1/0 in", "0.055 in", "in", "mm", ",", ";", "=1+1", "id: index\n", "title: \n", "constructor", "__proto__",
    "../../x", "\\ud800", "\ufeff", "\u202e", "\u2028", "\U0001f600", "\x00", "\x1b[31m", "9" * 400, "a" * 5000, "[" * 60, "{a: " * 60,
    "<<<<<<< ours\n", ">>>>>>> theirs\n",
)  # fmt: skip
WORDS = (*(piece.encode() for piece in _PIECES), b"\xff", b"\xff\xfe", b"\xc3", b"caf\xe9")


@dataclass(frozen=True)
class Given:
    """A command and the file of it that is changed."""

    file: Path
    arguments: tuple[str, ...]
    kept: Path | None = None
    """What the command writes into, put back after each file."""


def fuzz(*, seed: int, files: int) -> list[str]:
    """Give changed files to commands; returns what went wrong, one line each.

    Args:
        seed: the same seed makes the same files.
        files: how many.
    """
    chance = random.Random(seed)  # noqa: S311 - nothing secret
    wrong = []
    with _laid_down() as given:
        for _ in range(files):
            one = chance.choice(given)
            sound = one.file.read_bytes()
            kept = one.kept.read_bytes() if one.kept else b""
            content = changed(sound, chance, WORDS)
            one.file.write_bytes(content)
            began = time.process_time()
            done = CliRunner().invoke(main, list(one.arguments))
            seconds = time.process_time() - began
            one.file.write_bytes(sound)
            if one.kept:
                one.kept.write_bytes(kept)
            odd = done.exit_code not in TAKEN | REFUSED or not isinstance(done.exception, SystemExit | None)
            silent = done.exit_code in REFUSED and not (done.stderr.strip() or done.stdout.strip())
            if odd or silent or "Traceback" in done.output or seconds > MOST_SECONDS:
                said = f"exit {done.exit_code}, {seconds:.1f} s, {done.exception!r}"
                wrong.append(f"seed {seed}: {one.arguments[:2]} {one.file.name}: {said} of {content[:3000]!r}")
    return wrong


@contextmanager
def _laid_down() -> Iterator[list[Given]]:
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        yield [
            *_records(folder / "filled"),
            *_seams(folder / "seams"),
            *_exams(folder / "exams"),
            *_logs(folder / "logs"),
        ]


def _write(content: Path, files: dict[str, str]) -> None:
    for path, text in {"program.yml": PROGRAMME, **files}.items():
        target = content / path
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_text(text, encoding="utf-8")


def _records(folder: Path) -> list[Given]:
    """Every file of a content with one record of each kind, and of another with a few."""
    filled, small = folder / "content", folder / "small" / "content"
    write_filled_programme(filled)
    _write(small, SMALL)
    return [
        Given(file, ("check", "--content", str(root), "--today", "2026-12-01"))
        for root in (filled, small)
        for file in sorted(root.rglob("*.yml"))
    ]


def _seams(folder: Path) -> list[Given]:
    content = folder / "content"
    _write(content, {"cans/a.yml": CAN, "seam-specifications/ours.yml": SUPPLIERS})
    readings = folder / "readings.csv"
    readings.write_text(READINGS, encoding="utf-8")
    arguments = ("seam", str(readings), "--content", str(content))
    sheet = content / "seam-specifications" / "ours.yml"
    return [Given(readings, arguments)] * 8 + [
        Given(sheet, arguments),
        Given(sheet, ("sheet", "ours", "--content", str(content))),
    ]


def _exams(folder: Path) -> list[Given]:
    folder.mkdir()
    form, key = a_plain_exam()
    key_file = lay_down(folder, form, key)
    register = a_register(folder, 3)
    answers = ["A", "B", "C", "D", "A", "B"]
    sheet = typed(folder / "sheets.csv", form, [[f"V000{n}", *answers] for n in (1, 2, 3)])
    response = a_response(folder / "page.json", form, "V0001", {str(n): letter for n, letter in enumerate(answers, 1)})
    practicals = folder / "practicals.csv"
    practicals.write_text(
        "person,observed_on,drive,sealer,examiner,assemble,set-rollers,test-can,judge,correct-fault,passed\n"
        "V0001,2026-11-26,hand-lever,,AE,done,done,done,done,done,\n",
        encoding="utf-8",
    )
    books, nowhere = ("--register", str(register)), ("--content", str(folder / "none"))
    grade = ("exam", "grade", str(key_file))
    return [
        Given(sheet, (*grade, str(sheet), *books, *nowhere), register),
        Given(response, (*grade, str(response), *books, *nowhere), register),
        Given(key_file, (*grade, str(sheet), *books, *nowhere), register),
        Given(folder / f"{form.code}.form.json", (*grade, str(sheet), *books, *nowhere), register),
        Given(practicals, ("register", "practicals", str(practicals), *books, *nowhere), register),
    ] * 5


def _logs(folder: Path) -> list[Given]:
    folder.mkdir()
    register = a_register(folder, 1)
    events = [
        {"id": "k7-1", "at": "09:00", "kind": "test-can", "result": "good"},
        {"id": "k7-2", "at": "09:05", "kind": "sealed", "first": 1, "last": 12},
        {
            "id": "k7-3",
            "at": "09:40",
            "kind": "adjustment",
            "adjuster": "first-roller",
            "direction": "tighten",
            "turns": "1/8",
        },
    ]
    phone = a_phone_file(folder, events)
    paper = folder / "paper.csv"
    paper.write_text(SHEET, encoding="utf-8")
    rest = ("--register", str(register), "--content", str(folder / "none"))
    return [Given(file, ("log", "import", str(file), *rest), register) for file in (phone, paper)] * 8
