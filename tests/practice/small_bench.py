"""A can, a sealer and scenarios of the tests' own, so that nothing hangs on what stands in `content/`."""

from __future__ import annotations

from typing import Any

from tinwright.practice import SCREWS, BenchAdjuster, BenchCan, BenchSealer, Fault, Scenario
from tinwright.seaming import Limit, SeamLimits

LIMITS = SeamLimits(
    (
        Limit("countersink", 0.120, 0.125, 0.130),
        Limit("seam-width", 0.110, 0.118, 0.125),
        Limit("seam-thickness", 0.052, 0.055, 0.060),
        Limit("body-hook", 0.070, 0.078, 0.086),
        Limit("cover-hook", 0.068, 0.076, 0.084),
        Limit("overlap", 0.040),
    ),
    percent_overlap_low=45,
    butting_low=70,
    tightness_low=70,
    end_plate_in=0.010,
    body_plate_in=0.010,
)
CAN = BenchCan("307x409", LIMITS)
UNCERTAINTIES = {
    **dict.fromkeys(("seam-width", "seam-thickness", "body-hook", "cover-hook"), 0.0005),
    "countersink": 0.001,
}


def a_sealer(drive: str = "crank-cam") -> BenchSealer:
    return BenchSealer("a-sealer", drive, tuple(BenchAdjuster(screw) for screw in SCREWS))


def a_scenario(*faults: Fault, drive: str = "crank-cam", **parts: Any) -> Scenario:
    given = faults or (Fault("second-roller-loose", 3),)
    return Scenario("a-scenario", given, a_sealer(drive), CAN, parts.pop("minutes", {}), UNCERTAINTIES, **parts)
