"""What a sealer of each drive usually has: parts, adjusters, procedures and cautions, without any measure."""

from __future__ import annotations

from tinwright.knowledge.models.machine import Drive

__all__ = ["adjusters_of", "cautions_of", "parts_of", "procedures_of"]

# fmt: off
_PARTS = [
    "frame", "drive-shaft", "drive-gear", "chuck", "chuck-shaft", "chuck-screw", "first-roller",
    "second-roller", "first-roller-arm", "second-roller-arm", "roller-pin", "roller-bushing",
    "arm-return-spring", "roller-slot-plate", "first-roller-screw", "second-roller-screw", "lock-nut",
    "base-plate", "base-spring", "pressure-nut", "lift-lever", "lift-cam", "lift-shaft", "spacer",
    "can-stop", "first-roller-gauge", "second-roller-gauge", "seam-micrometer", "countersink-gauge",
    "nippers",
]
# fmt: on
_PARTS_OF = {
    Drive.CRANK_CAM: ["table-clamp", "crank", "cam", "cam-follower"],
    Drive.HAND_LEVER: ["table-clamp", "crank", "roller-lever"],
    Drive.MOTOR: ["motor", "drive-belt", "belt-guard", "stop-switch", "cam", "cam-follower"],
}
_BENCH = ["turning-crank", "pinch-rollers", "pinch-lift", "unsteady-machine"]
_CAUTIONS_OF = {
    Drive.CRANK_CAM: _BENCH,
    Drive.HAND_LEVER: _BENCH,
    Drive.MOTOR: ["motor-start", "loose-clothing", "pinch-rollers", "pinch-lift", "flying-metal"],
}
_CAUTIONS = ["wrong-chuck", "overtight-rollers", "lock-before-use", "children-away"]
_WAY = "Which way to turn is not written down yet for this sealer: ask the educator."


def parts_of(drive: Drive) -> list[str]:
    """Return the parts that a sealer of a drive usually has."""
    return [*_PARTS_OF[drive], *_PARTS]


def procedures_of(drive: Drive) -> list[str]:
    """Return the procedures of one sealer in particular."""
    return [f"seal-{drive.value}", "change-can-size", "find-roller-travel", "clear-a-jam"]


def cautions_of(drive: Drive) -> list[str]:
    """Return the cautions at a sealer of a drive."""
    return [*_CAUTIONS_OF[drive], *_CAUTIONS]


def adjusters_of(drive: Drive) -> list[tuple[str, str, str, str]]:
    """Return where a sealer is adjusted: what is set, by which part, how it is tightened and loosened.

    No direction of turning is told: that is different from sealer to sealer.
    """
    off = "Switch off and pull the plug. " if drive is Drive.MOTOR else ""
    loose, lock = f"{off}Loosen the lock nut. Turn the", f"Lock the nut again. {_WAY}"
    rollers = [
        (
            f"{which}-roller",
            f"{which}-roller-screw",
            f"{loose} {which} roller screw to bring the roller nearer the chuck. {lock}",
            f"{loose} {which} roller screw to move the roller away from the chuck. {lock}",
        )
        for which in ("first", "second")
    ]
    stack = (
        "but only {way} to the stack on the set-up sheet. If that stack is in and the seam still asks for {more}, stop "
        "and ask the educator."
    )
    return [
        *rollers,
        (
            "base-pressure",
            "pressure-nut",
            f"{off}Turn the pressure nut to press the spring harder. {_WAY}",
            f"{off}Turn the pressure nut to ease the spring. {_WAY}",
        ),
        (
            "base-height",
            "spacer",
            f"{off}Lift the base with more spacers, {stack.format(way='up', more='more')}",
            f"{off}Lower the base with fewer spacers, {stack.format(way='down', more='less')}",
        ),
    ]
