"""The educator's private store: the register of volunteers, what they sat and showed, certificates, the bench log.

One file (SQLite), or a PostgreSQL database when several computers write to it. Nothing of it is ever published but the
ids of revoked certificates.

with open_register("register.db") as register:
    volunteer = register.add_volunteer("Ann Example", kitchen="Mill Street", added_on=date(2026, 5, 2))
    print(register.missing_for_certificate(volunteer.id, date(2026, 5, 2)))
"""

from tinwright.records.benchlog import BenchLog, open_bench_log
from tinwright.records.benchlog_entries import Choice, Dispute, LogFile, LoggedSession, TakenIn, Version
from tinwright.records.entries import (
    Certificate,
    Change,
    Erasure,
    ItemResponse,
    Practical,
    Sitting,
    Volunteer,
)
from tinwright.records.exporting import csv_tables
from tinwright.records.place import check_place, write_private
from tinwright.records.practicals import STEPS
from tinwright.records.register import Register, open_register
from tinwright.records.store import Store, open_store

__all__ = [
    "STEPS",
    "BenchLog",
    "Certificate",
    "Change",
    "Choice",
    "Dispute",
    "Erasure",
    "ItemResponse",
    "LogFile",
    "LoggedSession",
    "Practical",
    "Register",
    "Sitting",
    "Store",
    "TakenIn",
    "Version",
    "Volunteer",
    "check_place",
    "csv_tables",
    "open_bench_log",
    "open_register",
    "open_store",
    "write_private",
]
