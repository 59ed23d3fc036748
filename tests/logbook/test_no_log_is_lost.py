"""A bench log that is killed while it takes files in: nothing confirmed is lost, nothing half is there."""

from __future__ import annotations

import os
import sqlite3
import sys
from typing import TYPE_CHECKING

import pytest

from counted_kills import killed_at
from logbook.log_importer import EVENTS, main, telephone
from tinwright.logbook import open_bench_log
from tinwright.register import Register

if TYPE_CHECKING:
    from collections.abc import Callable


class Importer:
    """A copy of this process that takes files in; a copy, because starting Python anew each time takes longer."""

    def __init__(self, place: str, name: str, count: int = 100_000) -> None:
        read, write = os.pipe()
        self._pid = os.fork()
        if self._pid == 0:
            os.close(read)
            sys.stdout = os.fdopen(write, "w", encoding="utf-8")
            try:
                main(place, name, count)
            finally:
                sys.stdout.flush()
                os._exit(0)
        os.close(write)
        self._said = os.fdopen(read, encoding="utf-8")

    def confirmed(self) -> set[str]:
        """Wait for its end, and return what it confirmed."""
        out = self._said.read()
        self._said.close()
        os.waitpid(self._pid, 0)
        return set(out.split("\n")) - {"", "ready"}


def check_that_all_is_there_and_nothing_half(place: str, confirmed: set[str]) -> None:
    """Look with plain SQL, so that nothing is mended by opening the store."""
    connection = sqlite3.connect(place)
    files = dict(connection.execute("SELECT source, number FROM bench_import"))
    assert confirmed <= set(files)
    versions = dict(connection.execute("SELECT import_number, count(*) FROM bench_event GROUP BY import_number"))
    assert versions == dict.fromkeys(files.values(), EVENTS)
    assert connection.execute("SELECT count(*) FROM bench_header").fetchone()[0] == len(files)
    lines = connection.execute("SELECT count(*) FROM change WHERE what = 'bench log taken in'").fetchone()[0]
    assert lines == len(files)
    twice = connection.execute(
        "SELECT 1 FROM bench_event GROUP BY session, id HAVING sum(counts) <> 1 LIMIT 1"
    ).fetchone()
    assert twice is None
    assert connection.execute("PRAGMA foreign_key_check").fetchall() == []
    connection.close()


@pytest.mark.slow
def test_an_import_killed_before_each_statement_loses_nothing_and_leaves_nothing_half(sqlite_place: str) -> None:
    open_bench_log(sqlite_place).__exit__()
    confirmed: set[str] = set()
    number, killed = 0, True
    while killed:
        number += 1

        def two_files(say: Callable[[str], None], name: str = f"t{number}x") -> None:
            with open_bench_log(sqlite_place, by=name) as log:
                for turn in range(2):
                    file = telephone(name, turn)
                    log.take_in(file)
                    say(file.source)

        said, killed = killed_at(number, two_files)
        confirmed |= set(said)
        check_that_all_is_there_and_nothing_half(sqlite_place, confirmed)
    connection = sqlite3.connect(sqlite_place)
    assert connection.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
    connection.close()
    assert number > 20
    assert len(confirmed) > number // 3, "the first file is confirmed about halfway"


def test_two_programs_that_take_in_the_same_files_at_once_take_them_in_once(place: str) -> None:
    racers = [Importer(place, "same", 12) for _ in range(3)]
    assert [len(racer.confirmed()) for racer in racers] == [12, 12, 12]
    with open_bench_log(place) as log:
        sessions = list(log.sessions())
        assert sum(len(session.events) for session in sessions) == 12 * EVENTS
        first, second = telephone("same", 0).sessions[0][1], telephone("same", 1).sessions[0][1]
        assert {event.result for event in (*first, *second)} == {"good", "bad"}
        assert Register(log._store, "tester").export()["bench_import"][-1]["number"] == 12
