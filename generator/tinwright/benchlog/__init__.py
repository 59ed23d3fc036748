"""The bench log as plain values: what happened on a sealing day, and what follows from it.

    session = Session("2026-11-28", "Mill Street", "bench-crank-sealer", can="307x409")
    events = [Event("a-1", session.key, "09:05", "test-can", result="good")]
    what_is_due(events, Policy(test_cans=2, recheck_cans=24, recheck_minutes=30), "09:06")  # one more test can
    still_held(events).cans  # ()

Nothing here reads a file or knows a database: `records` keeps the log, `site` writes the page it is kept on.
"""

from tinwright.benchlog.checks_due import REASONS, Due, Missed, Policy
from tinwright.benchlog.events import KINDS, Event, Kind, MeasuredPoint, Session, problems_of
from tinwright.benchlog.holding import (
    HOW_TO_HOLD,
    Held,
    Hold,
    Unchecked,
    bad_cans,
    cans_to_hold,
    held_from_day_before,
    still_held,
    unchecked_before_change,
)
from tinwright.benchlog.policy import cans_before_end_check, missed_checks, what_is_due
from tinwright.benchlog.writing import Line, clock_went_back, counter_went_back, in_order, last_written, read_lines

__all__ = [
    "HOW_TO_HOLD",
    "KINDS",
    "REASONS",
    "Due",
    "Event",
    "Held",
    "Hold",
    "Kind",
    "Line",
    "MeasuredPoint",
    "Missed",
    "Policy",
    "Session",
    "Unchecked",
    "bad_cans",
    "cans_before_end_check",
    "cans_to_hold",
    "clock_went_back",
    "counter_went_back",
    "held_from_day_before",
    "in_order",
    "last_written",
    "missed_checks",
    "problems_of",
    "read_lines",
    "still_held",
    "unchecked_before_change",
    "what_is_due",
]
