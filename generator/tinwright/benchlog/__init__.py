"""The bench log as plain values: what happened on a sealing day, and what follows from it.

    session = Session("2026-11-28", "Mill Street", "bench-crank-sealer", can="307x409")
    events = [Event("a-1", session.key, "09:05", "test-can", result="good")]

Nothing here reads a file or knows a database: `records` keeps the log, `site` writes the page it is kept on.
"""

from tinwright.benchlog.events import KINDS, Event, Kind, MeasuredPoint, Session, in_order, problems_of

__all__ = ["KINDS", "Event", "Kind", "MeasuredPoint", "Session", "in_order", "problems_of"]
