"""Builders of bench logs, for tests of the store."""

from __future__ import annotations

import json
from hashlib import sha256
from typing import TYPE_CHECKING, Any

from tinwright.benchlog import Event, Session
from tinwright.logbook import LogFile

if TYPE_CHECKING:
    from collections.abc import Iterable
    from pathlib import Path

CRANK = Session("2026-11-14", "Mill Street", "bench-crank-sealer", can="307x409", supervisor="AE")
"""The session that things happen in."""


def an_event(id_: str, kind: str = "test-can", **changed: Any) -> Event:
    """Make an event of the crank sealer; a good test can but for what is given."""
    values = {"at": "09:05", **({"result": "good"} if kind == "test-can" else {}), **changed}
    return Event(id_, CRANK.key, kind=kind, **values)


def a_file(events: Iterable[Event], source: str = "k7f3q2", head: Session = CRANK) -> LogFile:
    """Make a file as it is once it is read; its digest is that of what it says."""
    told = tuple(events)
    digest = sha256(repr((source, head, told)).encode()).hexdigest()
    return LogFile(f"{source}.json", digest, source, ((head, told),))


def a_phone_file(folder: Path, events: Iterable[dict[str, Any]], device: str = "k7f3q2", **head: Any) -> Path:
    """Lay down a file as a telephone exports it."""
    session = {
        "date": "2026-11-14",
        "kitchen": "Mill Street",
        "sealer": "bench-crank-sealer",
        **head,
        "events": list(events),
    }
    file = folder / f"bench-log-2026-11-14-{device}.json"
    whole = {"format": "tinwright-bench-log", "version": 1, "device": device, "sessions": [session]}
    file.write_text(json.dumps(whole, indent=1), encoding="utf-8")
    return file


SHEET = """\
sheet,P04
date,11/14/2026
kitchen,mill street
sealer,bench crank sealer
can,307x409
supervisor,AE
line,time,what,can no,to,result,defect,which,way,turns,who,readings,note,struck
1,9:05 AM,test can,,,good
2,9:10 AM,cans sealed,1,12
3,9:40 AM,adjustment,12,,,,first roller,tighten,8-Jan,BK
4,11:50,measured check,20,,accept,,torn down,,,AE,seam thickness .055 .056 .054; body hook 78 thou
5,1:05 PM,jam
6,1:20 PM,cans released,1,12,,,,,,AE,,opened 3 of 12,x
"""
"""A sheet that was typed in."""
