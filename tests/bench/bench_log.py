"""How long ten seasons of a state take to go into the bench log and out again, beside plain SQL over the same rows.

python tests/bench/bench_log.py [EVENTS]
"""

from __future__ import annotations

import json
import sqlite3
import sys
import tempfile
import time
from contextlib import closing
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from tinwright.benchlog import Event, Session
from tinwright.knowledge import load
from tinwright.logbook import LogFile, open_bench_log
from tinwright.logbook.rows import row_of
from tinwright.reporting import season_report

if TYPE_CHECKING:
    from collections.abc import Iterator

CONTENT = Path(__file__).parents[2] / "content"
EVENTS = 1_000_000
SEASONS, KITCHENS, DAYS = 10, 40, 20
A_DAY = (
    ("set-up", {"can": "307x409"}),
    ("test-can", {"result": "good"}),
    ("sealed", {"first": 1, "last": 24}),
    ("visual-check", {"result": "good", "can_number": 24}),
    ("adjustment", {"adjuster": "first-roller", "direction": "tighten", "turns": "1/8", "by": "AE"}),
    ("defect", {"defect": "droop", "first": 7, "last": 7}),
    ("cause", {"defect": "droop", "cause": "first-roller-loose", "by": "BK", "note": "groove looked at in good light"}),
)
"""Events of a day, over and over."""


def files(events: int) -> Iterator[LogFile]:
    """Yield a file for each day of each kitchen, all of one length."""
    days = SEASONS * KITCHENS * DAYS
    template = Event("a-0", ("", "", ""), "09:05", "jam")
    for day in range(days):
        season, rest = divmod(day, KITCHENS * DAYS)
        kitchen, number = divmod(rest, DAYS)
        head = Session(f"{2017 + season}-08-{number + 1:02d}", f"Kitchen {kitchen}", "motor-sealer", can="307x409")
        source = f"t{day}"
        told = tuple(
            replace(template, id=f"{source}-{line}", session=head.key, kind=A_DAY[line % 7][0], **A_DAY[line % 7][1])
            for line in range(events // days)
        )
        yield LogFile(f"{source}.json", f"digest {day}", source, ((head, told),))


def seasons(logs: list[LogFile]) -> Iterator[list[LogFile]]:
    """Yield the files season by season: what an office takes in at once."""
    size = len(logs) // SEASONS
    for start in range(0, len(logs), size):
        yield logs[start : start + size]


def plain_in(place: Path, logs: list[LogFile]) -> float:
    """Insert the same rows, a transaction for each season, as plainly as it can be written."""
    with closing(sqlite3.connect(place, isolation_level=None)) as connection:
        connection.execute("PRAGMA journal_mode=WAL")
        connection.execute("PRAGMA synchronous=FULL")
        names = list(row_of(logs[0].sessions[0][1][0]))
        columns = ", ".join(f'"{name}"' for name in names)
        connection.execute(f"CREATE TABLE event (date TEXT, kitchen TEXT, sealer TEXT, {columns})")
        marks = ", ".join("?" * (len(names) + 3))
        start = time.perf_counter()
        for season in seasons(logs):
            connection.execute("BEGIN IMMEDIATE")
            for head, events in (session for log in season for session in log.sessions):
                rows = [(*head.key, *row_of(event).values()) for event in events]
                connection.executemany(f"INSERT INTO event VALUES ({marks})", rows)  # noqa: S608 - our own names
            connection.execute("COMMIT")
        return time.perf_counter() - start


def plain_out(place: Path) -> tuple[float, int]:
    """Select all rows by date, kitchen and sealer, and look at each."""
    with closing(sqlite3.connect(place)) as connection:
        start, defects = time.perf_counter(), 0
        for row in connection.execute("SELECT * FROM event ORDER BY date, kitchen, sealer"):
            defects += "droop" in row
        return time.perf_counter() - start, defects


def plain_report(place: Path) -> float:
    """Count what plain SQL can count of a season by itself: events by sealer, kind, defect and cause."""
    with closing(sqlite3.connect(place)) as connection:
        start = time.perf_counter()
        groups = "sealer, kind, defect, cause"
        connection.execute(f"SELECT {groups}, count(*) FROM event GROUP BY {groups}").fetchall()  # noqa: S608 - our own names
        return time.perf_counter() - start


def main(events: int) -> None:
    kb = load(CONTENT)
    logs = list(files(events))
    count = sum(len(told) for log in logs for _, told in log.sessions)
    with tempfile.TemporaryDirectory() as folder:
        plain, ours = Path(folder) / "plain.db", Path(folder) / "register.db"
        sql_in = plain_in(plain, logs)
        sql_out, wanted = plain_out(plain)
        sql_report = plain_report(plain)
        with open_bench_log(ours) as book:
            start = time.perf_counter()
            for season in seasons(logs):
                book.take_in_all(season)
            log_in = time.perf_counter() - start
            start = time.perf_counter()
            found = sum(event.defect == "droop" for session in book.sessions() for event in session.events)
            log_out = time.perf_counter() - start
            start = time.perf_counter()
            season_report(kb, book.sessions())
            log_report = time.perf_counter() - start
            start = time.perf_counter()
            book.take_in_all(logs)
            again = time.perf_counter() - start
        assert found == wanted, json.dumps([found, wanted])
        sizes = [file.stat().st_size / 1e6 for file in (plain, ours)]
    sys.stdout.write(
        f"{count:,} events in {len(logs):,} files, a transaction for each season\n"
        f"in, plain SQL    {count / sql_in:12,.0f} events per second\n"
        f"in, bench log    {count / log_in:12,.0f} events per second   ratio {log_in / sql_in:5.1f}\n"
        f"out, plain SQL   {count / sql_out:12,.0f} rows per second\n"
        f"out, bench log   {count / log_out:12,.0f} events per second   ratio {log_out / sql_out:5.1f}\n"
        f"sums, plain SQL  {sql_report:12.1f} s: events by sealer, kind, defect and cause\n"
        f"season's report  {log_report:12.1f} s, with holds and missed checks of each session worked out anew: "
        f"{log_report / (sql_out + sql_report):.1f} times reading and summing by plain SQL\n"
        f"all once more    {again:12.1f} s, and nothing changes\n"
        f"size             {sizes[0]:12.0f} MB plain, {sizes[1]:.0f} MB bench log\n"
    )


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else EVENTS)
