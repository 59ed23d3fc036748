"""Builders of entries, for tests of the register."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING, Any

from tinwright.register import ItemResponse, Practical, Sitting

if TYPE_CHECKING:
    from tinwright.register import Register

MAY = dt.date(2026, 5, 2)
"""The day that things happen on in these tests."""


def a_sitting(register: Register, volunteer_id: str, **changed: Any) -> Sitting:
    """Enter a sitting that was passed, with two answers, but for what is given."""
    values: dict[str, Any] = {
        "exam": "supervisor",
        "form": "A",
        "taken_on": MAY,
        "score": "26.5",
        "out_of": "30",
        "passed": True,
        "digest": f"response of {volunteer_id} on {changed.get('taken_on', MAY)}",
        "graded_with": "key 1",
        "profile": {"set-up": ["8.5", "10"], "defects": ["18", "20"]},
        "responses": [ItemResponse("droop-cause", "b", "1"), ItemResponse("overlap", ".045 in", "0.5")],
    }
    return register.record_sitting(volunteer_id, **{**values, **changed})


def a_practical(register: Register, volunteer_id: str, **changed: Any) -> Practical:
    """Enter a practical check that was passed, but for what is given."""
    values: dict[str, Any] = {
        "drive": "hand-lever",
        "sealer": "bench-lever-sealer",
        "observed_on": MAY,
        "examiner": "AE",
        "passed": True,
        "steps": {
            "assemble": "done",
            "set-rollers": "done",
            "test-can": "done",
            "judge": "done",
            "correct-fault": "done",
        },
    }
    return register.record_practical(volunteer_id, **{**values, **changed})


def a_ready_volunteer(register: Register, name: str = "Ann Example") -> str:
    """Enter a volunteer who passed both parts, and return the id."""
    id_ = register.add_volunteer(name, email="ann@example.org", kitchen="Mill Street", added_on=MAY).id
    a_sitting(register, id_)
    a_practical(register, id_)
    return id_
