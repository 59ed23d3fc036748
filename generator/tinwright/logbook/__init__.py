"""The bench log in the store: files taken in, which version counts, what the desk decides.

with open_bench_log("register.db") as log:
    for logged in log.sessions(since="2026-11-14", until="2026-11-14"):
        print(logged.session.sealer, len(logged.events), len(logged.open_disputes))
"""

from tinwright.logbook.bench_log import BenchLog, open_bench_log
from tinwright.logbook.entries import Choice, Dispute, LogFile, LoggedSession, TakenIn, Version

__all__ = [
    "BenchLog",
    "Choice",
    "Dispute",
    "LogFile",
    "LoggedSession",
    "TakenIn",
    "Version",
    "open_bench_log",
]
