"""Takes files into a bench log until it is stopped, and prints each file's source once it is confirmed."""

from __future__ import annotations

import sys

from tinwright.benchlog import Event, Session
from tinwright.logbook import LogFile, open_bench_log

EVENTS = 12


def telephone(name: str, number: int) -> LogFile:
    """Return what a telephone tells of a day: twelve events, of which the next one tells the first in its own way."""
    session = Session(f"2026-{number // 28 % 12 + 1:02d}-{number % 28 + 1:02d}", name, "motor-sealer", product="corn")
    result = "good" if number % 2 else "bad"
    events = [
        Event(f"{name}{number // 2}-{line}", session.key, "09:05", "test-can", result=result, note="x" * 40)
        for line in range(EVENTS)
    ]
    return LogFile(f"{name}-{number}.json", f"{name} {number}", f"{name}{number}", ((session, tuple(events)),))


def main(place: str, name: str, count: int) -> None:
    """Take in files one by one, saying each once it is confirmed."""
    with open_bench_log(place, by=name) as log:
        sys.stdout.write("ready\n")
        sys.stdout.flush()
        for number in range(count):
            file = telephone(name, number)
            log.take_in(file)
            sys.stdout.write(f"{file.source}\n")
            sys.stdout.flush()
