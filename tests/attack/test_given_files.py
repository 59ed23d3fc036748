"""A pipe that waits, a device without end, a folder, two hundred megabytes: each command that reads a file says so at once."""

from __future__ import annotations

import datetime as dt
import json
import os
import subprocess
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from attack.given_file_fuzzer import fuzz
from tinwright.knowledge import find_problems
from tinwright.logbook import sheet_file
from tinwright.logbook.checking import checked_event
from tinwright.logbook.files import read_log_file
from tinwright.logbook.names import LogNames
from tinwright.register import open_register

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

ROOT = Path(__file__).parents[2]
MOST_MEMORY = 1_000_000_000
COMMANDS = {
    "log": ("log", "import", "{file}", "--register", "{register}", "--content", "{content}"),
    "practicals": ("register", "practicals", "{file}", "--register", "{register}", "--content", "{content}"),
    "people": ("register", "import", "{file}", "--register", "{register}", "--content", "{content}"),
    "verify": ("certificate", "verify", "{file}", "--content", "{content}"),
    "register": ("register", "list", "--register", "{file}"),
    "readings": ("seam", "{file}", "--content", "{content}"),
    "key": ("exam", "grade", "{file}", "{file}", "--register", "{register}", "--content", "{content}"),
}
BY_LIMIT = (
    "import resource, sys\n"
    "resource.setrlimit(resource.RLIMIT_AS, (int(sys.argv[1]), int(sys.argv[1])))\n"
    "from tinwright.cli import main\n"
    "main(sys.argv[2:])\n"
)


def told(arguments: Sequence[str]) -> tuple[int, str]:
    command = [sys.executable, "-c", BY_LIMIT, str(MOST_MEMORY), *arguments]
    done = subprocess.run(command, capture_output=True, text=True, check=False, timeout=300, stdin=subprocess.DEVNULL)
    return done.returncode, done.stderr


@pytest.mark.parametrize("command", COMMANDS)
def test_what_is_no_file_or_far_too_long_is_told_in_one_line(tmp_path: Path, command: str) -> None:
    register = tmp_path / "register.db"
    open_register(register).close()
    os.mkfifo(tmp_path / "pipe")
    (tmp_path / "folder.md").mkdir()
    with (tmp_path / "long").open("wb") as long:
        long.truncate(200_000_000)
    for name in ("pipe", "/dev/zero", "folder.md", "long"):
        places = {"file": tmp_path / name, "register": register, "content": ROOT / "content"}
        code, said = told([part.format(**places) for part in COMMANDS[command]])
        assert code in {1, 2}, said
        lines = [line for line in said.splitlines() if line and not line.startswith(("Usage:", "Try '"))]
        assert len(lines) <= 2, said  # the second says that nothing was taken in
        assert Path(name).name in lines[0]


def a_phone_file(events: list[dict[str, object]]) -> str:
    session = {"date": "2026-01-01", "kitchen": "k", "sealer": "s", "events": events}
    return json.dumps({"format": "tinwright-bench-log", "version": 1, "device": "a", "sessions": [session]})


@pytest.mark.parametrize(
    "text",
    [
        a_phone_file([{"id": "a-1", "at": "09:00", "kind": "jam", **{f"key{number}": 1 for number in range(60_000)}}]),
        a_phone_file([{"id": "x", "at": "9", "kind": "z"}] * 30_000),
        '{"a": 1,' + '"a": 1,' * 20_000 + '"b": 1}',
        "a,b\n" * 20_000,
    ],
    ids=["unknown keys", "events", "keys twice", "rows"],
)
def test_of_very_many_mistakes_forty_are_looked_up_and_told(tmp_path: Path, text: str) -> None:
    """Looking up the place of each would take time by the square of their number: of the first, more than 200 s."""
    file = tmp_path / "log"
    file.write_text(text, encoding="utf-8")
    found, problems = read_log_file(file, LogNames(), dt.date(2026, 6, 1))
    assert found is None
    assert len(problems) == 41
    assert problems[-1].message == "and more than these 40"


def test_after_forty_mistakes_no_more_lines_of_a_sheet_are_read(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    looked_at = []

    def counted(values: dict[str, object], *rest: Any) -> Any:
        looked_at.append(values)
        return checked_event(values, *rest)

    monkeypatch.setattr(sheet_file, "checked_event", counted)
    file = tmp_path / "log.csv"
    headings = ",".join(sheet_file.COLUMNS)
    file.write_text(f"sheet,P04\ndate,11/14/2026\n{headings}\n" + "x,y,z\n" * 300_000, encoding="utf-8")
    assert read_log_file(file, LogNames(), dt.date(2026, 12, 1))[0] is None
    assert 0 < len(looked_at) <= 41


def test_a_key_that_stands_twice_in_a_long_log_is_named(tmp_path: Path) -> None:
    file = tmp_path / "log.json"
    file.write_text('{"kind": 1,' + '"kind": 1,' * 150_000 + '"b": 1}', encoding="utf-8")
    _, (problem,) = read_log_file(file, LogNames(), dt.date(2026, 12, 1))
    assert "'kind'" in problem.message


def test_a_pipe_among_the_records_is_told_and_not_waited_for(content: Callable[[dict[str, str]], Path]) -> None:
    root = content({"cans/a.yml": "[]\n"})
    os.mkfifo(root / "cans" / "b.yml")
    os.mkfifo(root / "seen-here.yml")
    told = [str(problem) for problem in find_problems(root)]
    assert any("content/cans/b.yml:1:1: expected a file, got a pipe" in line for line in told)


def test_changed_files_are_taken_or_refused_in_words() -> None:
    assert fuzz(seed=20261201, files=600) == []
