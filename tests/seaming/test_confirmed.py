"""No seam is accepted by a sheet that nobody stands by, in Python and in the browser."""

from __future__ import annotations

from dataclasses import replace

import pytest

from seaming.twin import in_browser, plain
from tinwright.seaming import Limit, Reading, SeamLimits, SeamReadings, judge
from tinwright.seaming.confirmed import hold_unconfirmed

SEAM = SeamReadings("micrometer", tuple(Reading("body-hook", point, 0.078) for point in "123"))
JUDGED = judge(SEAM, SeamLimits((Limit("body-hook", 0.072, 0.078, 0.084),)), {"body-hook": 0.0005})
CHANGED = "The sheet was changed."


@pytest.mark.parametrize(
    ("outcome", "held"),
    [
        ("accept", "measure-again"),
        ("measure-again", "measure-again"),
        ("reject", "reject"),
        ("no-limit", "no-limit"),
    ],
)
def test_only_acceptance_is_held_back_and_the_reason_comes_first(outcome: str, held: str) -> None:
    verdict = replace(JUDGED, outcome=outcome)
    assert hold_unconfirmed(verdict, "") == verdict
    found = hold_unconfirmed(verdict, CHANGED)
    assert found.outcome == held
    assert found.reasons == (CHANGED, *verdict.reasons)
    assert found.parts == verdict.parts
    assert in_browser("holdUnconfirmed", [[plain(verdict), CHANGED], [plain(verdict), ""]]) == [
        plain(found),
        plain(verdict),
    ]
