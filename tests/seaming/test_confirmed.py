"""No seam is accepted by a sheet that nobody stands by, in Python and in the browser."""

from __future__ import annotations

import pytest

from seaming.twin import in_browser, plain
from tinwright.seaming import Limit, Reading, SeamLimits, SeamReadings, judge
from tinwright.seaming.confirmed import hold_unconfirmed

LIMITS = SeamLimits((Limit("body-hook", 0.072, 0.078, 0.084),))
CHANGED = "The sheet was changed."


@pytest.mark.parametrize(
    ("hook", "given", "outcome", "held"),
    [
        (0.078, LIMITS, "accept", "measure-again"),
        (0.0722, LIMITS, "measure-again", "measure-again"),
        (0.060, LIMITS, "reject", "reject"),
        (0.078, None, "no-limit", "no-limit"),
    ],
)
def test_only_acceptance_is_held_back_and_the_reason_comes_first(
    hook: float, given: SeamLimits | None, outcome: str, held: str
) -> None:
    seam = SeamReadings("micrometer", tuple(Reading("body-hook", point, hook) for point in "123"))
    verdict = judge(seam, given, {"body-hook": 0.0005})
    assert verdict.outcome == outcome
    assert hold_unconfirmed(verdict, "") == verdict
    found = hold_unconfirmed(verdict, CHANGED)
    assert found.outcome == held
    assert found.reasons == (CHANGED, *verdict.reasons)
    assert found.parts == verdict.parts
    assert in_browser("holdUnconfirmed", [[plain(verdict), CHANGED], [plain(verdict), ""]]) == [
        plain(found),
        plain(verdict),
    ]
