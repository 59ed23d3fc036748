"""What was confirmed stays: several programs at once, programs killed in mid-write, a full disk."""

from __future__ import annotations

import sqlite3
import subprocess
import sys
from pathlib import Path

import pytest
import sqlalchemy as sa

from counted_kills import killed_at
from register.typist import main as type_entries
from register_entries import MAY
from tinwright.errors import RecordError
from tinwright.register import Register, open_register
from tinwright.store.store import _engine_for

TYPIST = Path(__file__).with_name("typist.py")
ANSWERS = 20


def typist(place: str, name: str, count: int, *limit: str) -> subprocess.Popen[str]:
    command = [sys.executable, TYPIST, place, name, str(count), *limit]
    return subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)


def confirmed_by(process: subprocess.Popen[str]) -> tuple[list[str], str]:
    out, err = process.communicate(timeout=120)
    # the last line may have been cut off while it was written
    whole = out.rpartition("\n")[0].split("\n")
    return [line for line in whole if line not in {"", "ready"}], err


def check_that_all_is_there_and_nothing_half(register: Register, confirmed: list[str]) -> None:
    exported = register.export()
    ids = [row["id"] for name in ("volunteer", "sitting", "practical", "certificate") for row in exported[name]]
    assert len(ids) == len(set(ids))
    assert set(confirmed) <= set(ids)
    assert len(confirmed) == len(set(confirmed))
    # each entry has its line in the change record, and each line its entry
    assert sorted(ids) == sorted(row["subject"] for row in exported["change"])
    answers: dict[str, int] = {}
    for row in exported["item_response"]:
        answers[row["sitting_id"]] = answers.get(row["sitting_id"], 0) + 1
    assert answers == {row["id"]: ANSWERS for row in exported["sitting"]}


def check_the_file(place: str) -> None:
    if "://" in place:
        return
    connection = sqlite3.connect(place)
    assert connection.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
    assert connection.execute("PRAGMA foreign_key_check").fetchall() == []
    connection.close()


@pytest.mark.slow
def test_several_programs_at_once_lose_nothing_even_when_all_of_them_make_the_register(place: str) -> None:
    typists = [typist(place, f"typist {number}", 12) for number in range(4)]
    confirmed = []
    for process in typists:
        lines, err = confirmed_by(process)
        assert (process.returncode, err) == (0, "")
        assert len(lines) == 12 * 4
        confirmed += lines
    with open_register(place) as register:
        check_that_all_is_there_and_nothing_half(register, confirmed)
        numbers = [entry.id for entry in register.volunteers()]
        assert numbers == [f"V{number:04d}" for number in range(1, 49)]
    check_the_file(place)


@pytest.mark.slow
def test_a_program_killed_before_each_statement_loses_nothing_and_leaves_nothing_half(place: str) -> None:
    on_server = "://" in place
    confirmed: list[str] = []
    number, killed = 0, True
    while killed:
        # on a server each second one, since a new connection takes long there
        number += 1 + on_server
        said, killed = killed_at(number, lambda say, name=f"typist {number}": type_entries(place, name, 1, say))
        confirmed += said
        with open_register(place) as register:
            check_that_all_is_there_and_nothing_half(register, confirmed)
    check_the_file(place)
    assert number > 30
    assert len(confirmed) > number // (1 + on_server), "of the four entries more than one is confirmed on average"


@pytest.mark.parametrize("limit", [60_000, 200_000, 700_000])
def test_a_full_disk_is_told_in_one_line_and_loses_nothing(sqlite_place: str, limit: int) -> None:
    # a limit on the size of a file stands in for a disk that is full: writes fail in the same way
    process = typist(sqlite_place, "typist", 100_000, str(limit))
    confirmed, err = confirmed_by(process)
    assert process.returncode == 1
    assert err == f"{sqlite_place}: the disk is full or failing; nothing was changed\n"
    with open_register(sqlite_place) as register:
        check_that_all_is_there_and_nothing_half(register, confirmed)
        assert register.add_volunteer("once there is room", added_on=MAY).id
    check_the_file(sqlite_place)


def test_a_register_at_its_largest_refuses_what_does_not_fit_and_keeps_the_rest(sqlite_place: str) -> None:
    with open_register(sqlite_place) as register:
        register.add_volunteer("Ann Example", added_on=MAY)
    engine, _ = _engine_for(sqlite_place, create=False)

    # SQLite's own limit gives SQLITE_FULL, as a disk without room does
    @sa.event.listens_for(engine, "connect")
    def limit(driver: sqlite3.Connection, _: object) -> None:
        pages = driver.execute("PRAGMA page_count").fetchone()[0]
        driver.execute(f"PRAGMA max_page_count={pages + 2}")

    with open_register(sqlite_place) as register:
        register.store._engine.dispose()
        register.store._engine = engine
        refusal, confirmed = _add_until_refused(register)
        assert refusal == f"{sqlite_place}: the disk is full; nothing was changed"
        assert [entry.id for entry in register.volunteers()] == ["V0001", *confirmed]
        assert [line.subject for line in register.changes()] == ["V0001", *confirmed]
    check_the_file(sqlite_place)


def _add_until_refused(register: Register) -> tuple[str, list[str]]:
    confirmed: list[str] = []
    while len(confirmed) < 10_000:
        try:
            confirmed.append(register.add_volunteer("A name that takes some room " * 5, added_on=MAY).id)
        except RecordError as error:
            return str(error), confirmed
    pytest.fail("the limit was never reached")


def test_two_programs_that_issue_at_once_issue_one_certificate(place: str) -> None:
    code = (
        "import datetime as dt, sys\n"
        "from tinwright.errors import RecordError\n"
        "from tinwright.register import open_register\n"
        "with open_register(sys.argv[1]) as register:\n"
        "    print('ready', flush=True); sys.stdin.readline()\n"
        "    try: register.issue_certificate('V0001', issued_on=dt.date(2026, 5, 2), years=2); print('issued')\n"
        "    except RecordError as error: print('refused')\n"
    )
    confirmed, _ = confirmed_by(typist(place, "typist", 1))
    with open_register(place) as register:
        register.revoke(confirmed[-1], MAY, "to issue another")
    racers = [
        subprocess.Popen([sys.executable, "-c", code, place], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True)
        for _ in range(3)
    ]
    for racer in racers:
        assert racer.stdout is not None
        assert racer.stdout.readline() == "ready\n"
    for racer in racers:
        assert racer.stdin is not None
        racer.stdin.write("\n")
        racer.stdin.flush()
    said = sorted(racer.communicate(timeout=60)[0].strip() for racer in racers)
    assert said == ["issued", "refused", "refused"]
    with open_register(place) as register:
        assert len([entry for entry in register.certificates() if entry.revoked_on is None]) == 1
