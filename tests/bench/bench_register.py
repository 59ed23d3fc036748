"""How long it takes to say who is due among very many volunteers, beside plain SQL that reads the same certificates once.

python tests/bench/bench_register.py [VOLUNTEERS]
"""

from __future__ import annotations

import datetime as dt
import sqlite3
import sys
import tempfile
import time
from pathlib import Path
from typing import TYPE_CHECKING, Any

from sqlalchemy import insert

from tinwright.register import open_register
from tinwright.store import tables

if TYPE_CHECKING:
    from tinwright.register import Register

VOLUNTEERS = 50_000
FIRST = dt.date(2024, 1, 1)


def fill(register: Register, volunteers: int) -> None:
    """Enter volunteers, each with a sitting and a certificate."""
    people, sat, certificates = list[dict[str, Any]](), list[dict[str, Any]](), list[dict[str, Any]]()
    for number in range(volunteers):
        holder, sitting = f"V{number:04d}", f"S{number:04d}"
        issued = FIRST + dt.timedelta(days=number % 600)
        exam: dict[str, Any] = {"volunteer_id": holder, "exam": "supervisor", "form": "A"}
        people.append({"id": holder, "name": f"Example {number}", "added_on": FIRST})
        result = {"score": "1", "out_of": "1", "passed": True, "digest": holder, "graded_with": "key", "profile": {}}
        sat.append({**exam, **result, "id": sitting, "taken_on": FIRST, "supersedes": None})
        days = {"issued_on": issued, "valid_until": issued + dt.timedelta(days=730)}
        rests_on = {"sitting_id": sitting, "practical_ids": [], "drives": ["motor"]}
        id_ = f"{number:08d}-0000-4000-8000-000000000000"
        certificates.append({**exam, **days, **rests_on, "id": id_, "name": f"Example {number}"})
    with register.store.writing() as connection:
        for table, rows in ((tables.volunteer, people), (tables.sitting, sat), (tables.certificate, certificates)):
            connection.execute(insert(table), rows)


def main(volunteers: int) -> None:
    """Fill a register, ask it, and print the times and their ratio."""
    with tempfile.TemporaryDirectory() as folder:
        place = Path(folder) / "register.db"
        with open_register(place) as register:
            fill(register, volunteers)
            start = time.process_time()
            on = dt.date(2026, 1, 1)
            found = len(register.due_for_renewal(on, 90)), len(register.in_doubt(on)), len(register.volunteers())
            ours = time.process_time() - start
        plain = sqlite3.connect(place)
        start = time.process_time()
        plain.execute("SELECT * FROM certificate").fetchall()
        least = time.process_time() - start
        plain.close()
    said = (
        f"{volunteers:,} volunteers, {found[0]:,} due: {ours:.2f} s; plain SQL {least:.2f} s; ratio {ours / least:.1f}"
    )
    print(said)  # noqa: T201 - a command


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else VOLUNTEERS)
