"""A pipe that waits, a device without end, a folder, two hundred megabytes: each command that reads a file says so at once."""

from __future__ import annotations

import datetime as dt
import json
import os
import subprocess
import sys
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from tinwright.logbook.files import read_log_file
from tinwright.logbook.names import LogNames
from tinwright.register import open_register

if TYPE_CHECKING:
    from collections.abc import Sequence

ROOT = Path(__file__).parents[2]
MOST_MEMORY = 1_000_000_000
COMMANDS = {
    "log": ("log", "import", "{file}", "--register", "{register}", "--content", "{content}"),
    "practicals": ("register", "practicals", "{file}", "--register", "{register}", "--content", "{content}"),
    "verify": ("certificate", "verify", "{file}", "--content", "{content}"),
    "register": ("register", "list", "--register", "{file}"),
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
        assert str(tmp_path / name) in lines[0]


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
