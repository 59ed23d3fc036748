"""Runs the browser's half of the seaming room in Node, and builds inputs that both halves take."""

from __future__ import annotations

import dataclasses
import json
import random
import subprocess
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

from tinwright.browser import scripts
from tinwright.seaming import CauseProfile, Screw

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

BROWSER = Path(__file__).parents[2] / "generator" / "tinwright" / "browser"
SEAMING = tuple(script.name for script in scripts().values() if script.joined == "seaming.js")
_LOAD = """
"use strict";
const fs = require("node:fs"), vm = require("node:vm");
const load = (files) => { for (const file of files) vm.runInThisContext(fs.readFileSync(file, "utf8"), file); };
load(%s);
const seaming = globalThis.tinwrightSeaming;
const input = fs.readFileSync(0);
"""


def some_screw(rng: random.Random) -> Screw:
    """A screw of which this or that is not known."""
    return Screw(
        "first-roller",
        rng.choice([None, "Turn it in."]),
        rng.choice([None, "Turn it out."]),
        rng.choice([None, 0.05, 0.03125]),
        rng.choice([None, Fraction(1, 8), Fraction(1, 16), Fraction(2)]),
    )


def files_of(names: Iterable[str]) -> str:
    """Write the files of scripts, in the order in which they can run, as a list that a script can read."""
    wanted = set(names)
    return json.dumps(
        [str(BROWSER / script.subject / script.name) for script in scripts().values() if script.name in wanted]
    )


def seeded(seed: int) -> random.Random:
    """Return a generator of cases that are the same in every run."""
    return random.Random(seed)  # noqa: S311 - nothing secret


def run_node(script: str, given: bytes) -> bytes:
    """Run a script that has `seaming` and `input`, a Buffer, at hand, and return what it writes."""
    done = subprocess.run(
        ["node", "-e", _LOAD % files_of(SEAMING) + script], input=given, capture_output=True, check=False
    )
    assert done.returncode == 0, done.stderr.decode()
    return done.stdout


def in_browser(name: str, calls: Sequence[Sequence[Any]]) -> list[Any]:
    """Call a function of the browser's half once for each list of arguments."""
    script = f"""
    const calls = JSON.parse(input.toString());
    const found = calls.map((given) => seaming.{name}(...given));
    process.stdout.write(JSON.stringify(found.map((each) => (each === undefined ? null : each))));
    """
    found: list[Any] = json.loads(run_node(script, json.dumps(calls).encode()))
    return found


def plain(value: Any) -> Any:
    """Turn a value of the Python half into what the browser's half would return."""
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        return {camel(field.name): plain(getattr(value, field.name)) for field in dataclasses.fields(value)}
    if isinstance(value, Fraction):
        return [value.numerator, value.denominator]
    if isinstance(value, list | tuple):
        return [plain(each) for each in value]
    if hasattr(value, "items"):
        return {key: plain(each) for key, each in value.items()}
    return value


@cache
def camel(name: str) -> str:
    """Turn `end_plate_in` into `endPlateIn`.

    >>> camel("end_plate_in")
    'endPlateIn'
    """
    first, *others = name.split("_")
    return first + "".join(word.capitalize() for word in others)


def a_cause(cause: str, adjuster: str, minutes: float = 5, **parts: Any) -> CauseProfile:
    return CauseProfile(cause, adjuster, minutes, **parts)


DIMENSIONS_MOVED = ("countersink", "seam-width", "seam-thickness", "body-hook", "cover-hook", "tightness")
DEFECT_IDS = ("droop", "vee", "sharp-seam", "spinner", "chuck-print", "loose-seam")
ANSWERS: Mapping[str, Sequence[str]] = {
    "extent": ("all-round", "part-round", "one-place", "side-seam"),
    "repeats": ("every-can", "same-place", "wanders", "one-can"),
    "change": ("nothing", "can-size", "lid-lot", "chuck", "roller"),
}


def some_causes(rng: random.Random, adjusters: Sequence[str]) -> list[CauseProfile]:
    """Make up a few causes of every shape."""

    def some(items: Sequence[str], chance: float) -> tuple[str, ...]:
        return tuple(item for item in items if rng.random() < chance)

    words = ("common", "occasional", "rare")
    return [
        CauseProfile(
            f"cause-{number}",
            rng.choice(adjusters),
            rng.randint(1, 30),
            {defect: rng.choice(words) for defect in some(DEFECT_IDS, 0.4)},
            {
                dimension: rng.choice(("larger", "smaller", "varies", "disputed"))
                for dimension in some(DIMENSIONS_MOVED, 0.4)
            },
            {
                dimension: {way: rng.choice(words) for way in some(("larger", "smaller", "varies"), 0.5)}
                for dimension in some(DIMENSIONS_MOVED, 0.3)
            },
            some(ANSWERS["extent"], 0.5),
            some(ANSWERS["repeats"], 0.5),
            some(ANSWERS["change"], 0.3),
        )
        for number in range(rng.randint(1, 9))
    ]
