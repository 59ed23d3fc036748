"""Changes single tokens of rooms, one at a time in a copy, and tells which changes the room's quick tests notice.

    .venv/bin/python tests/mutation/mutants.py seaming
    .venv/bin/python tests/mutation/mutants.py seaming benchlog advice --half both --processes 2 --minutes 30

A change that survives is a test that is missing, or a change that makes no difference. The changes are drawn by lot, the same
for the same seed; each process works in a copy of its own and lets others go first. Takes about ten seconds for each change.
"""

from __future__ import annotations

import argparse
import os
import random
import re
import shutil
import subprocess
import sys
import tempfile
import time
from concurrent.futures import ThreadPoolExecutor
from contextlib import suppress
from dataclasses import dataclass
from itertools import zip_longest
from pathlib import Path
from queue import Empty, Queue
from resource import RUSAGE_CHILDREN, getrusage
from typing import TYPE_CHECKING

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT / "tests"))

from mutation.copying import lay_copy  # noqa: E402
from mutation.python_mutants import python_mutants  # noqa: E402
from mutation.script_mutants import script_mutants  # noqa: E402
from twins import TWINS  # noqa: E402

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping

    from mutation.mutant import Mutant

ROOMS = ("seaming", "benchlog", "advice")
HALVES = {"python": (False,), "scripts": (True,), "both": (False, True)}
SURVIVED = "SURVIVED"
PATIENCE = 3
"""A change may make a loop without an end: tests that work so many times as long as without it have noticed."""


@dataclass(frozen=True)
class Trial:
    """A change in a file of a room."""

    room: str
    file: Path
    mutant: Mutant

    @property
    def half(self) -> str:
        """The line of the table that it counts in."""
        return f"{self.room}, {'scripts' if self.file.suffix == '.js' else 'Python'}"

    def __str__(self) -> str:
        text = self.file.read_text(encoding="utf-8")
        return f"{self.file.relative_to(ROOT)}:{self.mutant.place(text)}: {self.mutant}"


def sources(room: str, *, scripts: bool) -> list[Path]:
    """List the files of a room that somebody wrote: what is printed is compared with what prints it.

    Of the scripts only twins: what shows and asks is tested in a browser, which takes too long.
    """
    if scripts:
        twins = {twin.script for twin in TWINS}
        folder = ROOT / "generator" / "tinwright" / "browser" / room
        return sorted(file for file in folder.rglob("*.js") if file.name in twins)
    return sorted((ROOT / "generator" / "tinwright" / room).rglob("*.py"))


def drawn(room: str, *, scripts: bool, number: int, seed: int) -> list[Trial]:
    """Draw changes by lot, the same for the same seed."""
    find: Callable[[str], list[Mutant]] = script_mutants if scripts else python_mutants
    every = [
        Trial(room, file, mutant)
        for file in sources(room, scripts=scripts)
        if not re.search("printed|generated_formulas|seaming-formulas|seaming-sentences", file.name)
        for mutant in find(file.read_text(encoding="utf-8"))
    ]
    chosen = random.Random(seed).sample(range(len(every)), min(number, len(every)))  # noqa: S311 - nothing secret
    return [every[place] for place in chosen]


class Bench:
    """A copy of the clone, in which one change after the other is tried."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self._worked_s: dict[str, float] = {}

    def lay(self, rooms: Iterable[str]) -> None:
        """Lay the copy; see that the tests of its rooms are green, how long they work, and keep what was compiled."""
        lay_copy(self._folder)
        for room in rooms:
            before = getrusage(RUSAGE_CHILDREN).ru_utime
            if found := self._noticed_by(room, None, 900):
                sys.exit(f"nothing was changed, and yet the tests are red: {found}")
            self._worked_s[room] = getrusage(RUSAGE_CHILDREN).ru_utime - before

    def again(self, folder: Path) -> Bench:
        """Lay the same once more."""
        shutil.copytree(self._folder, folder, symlinks=True)
        other = Bench(folder)
        other._worked_s = self._worked_s
        return other

    def fate(self, trial: Trial) -> str:
        """Tell what became of a change: which test noticed it, or that it survived."""
        target = self._folder / trial.file.relative_to(ROOT)
        text, times = target.read_text(encoding="utf-8"), target.stat()
        target.write_text(trial.mutant.change(text), encoding="utf-8")
        found = self._noticed_by(trial.room, trial.file, PATIENCE * self._worked_s[trial.room])
        target.write_text(text, encoding="utf-8")
        os.utime(target, ns=(times.st_atime_ns, times.st_mtime_ns))  # what was compiled from it is right again
        return f"killed by {found}" if found else SURVIVED

    def _noticed_by(self, room: str, file: Path | None, patience_s: float) -> str | None:
        """Run the quick tests of a room, those of the file first; returns the one that fails."""
        tests = sorted((self._folder / "tests" / room).glob("test_*.py"))
        if file:
            own = {twin.test.partition("::")[0] for twin in TWINS if twin.script == file.name}
            tests = [self._folder / "tests" / name for name in sorted(own)] + [
                test for test in tests if f"{room}/{test.name}" not in own
            ]
            tests.sort(key=lambda test: file.stem not in test.stem and test.parent.name + "/" + test.name not in own)
        doctests = [self._folder / file.relative_to(ROOT)] if file and file.suffix == ".py" else []
        command = [sys.executable, *(["-B"] if file else []), "-m", "pytest", "-x", "-q", "-p", "no:cacheprovider"]
        command += ["--tb=no", "-m", "not browser and not slow", "--cases", "300", "--hypothesis-seed", "0"]
        surroundings = {**os.environ, "PYTHONPATH": str(self._folder / "generator"), "NO_MKDOCS_2_WARNING": "1"}
        most = int(patience_s) + 5
        done = subprocess.run(
            ["sh", "-c", f'ulimit -t {most}; exec "$@"', "sh", *command, *map(str, [*doctests, *tests])],
            cwd=self._folder,
            env=surroundings,
            capture_output=True,
            text=True,
            check=False,
        )
        if done.returncode == 0:
            return None
        if done.returncode < 0:
            return "a loop without an end"
        match = re.search(r"^(?:FAILED|ERROR) (\S+)", done.stdout, re.MULTILINE)
        return match.group(1) if match else "pytest, which cannot start"


def try_all(trials: list[Trial], processes: int, until: float) -> dict[Trial, str]:
    """Try changes in as many copies side by side, and say what became of each; none is begun after `until`."""
    waiting: Queue[Trial] = Queue()
    for trial in trials:
        waiting.put(trial)
    fates: dict[Trial, str] = {}
    with tempfile.TemporaryDirectory(prefix="mutants-") as name:
        first = Bench(Path(name) / "0")
        first.lay(dict.fromkeys(trial.room for trial in trials))
        benches = [first, *(first.again(Path(name) / str(number)) for number in range(1, processes))]

        def work(bench: Bench) -> None:
            with suppress(Empty):
                while time.monotonic() < until:
                    trial = waiting.get_nowait()
                    fates[trial] = bench.fate(trial)
                    sys.stdout.write(f"{trial}: {fates[trial]}\n")
                    sys.stdout.flush()

        with ThreadPoolExecutor(processes) as pool:
            list(pool.map(work, benches))
    return fates


def table(trials: list[Trial], fates: Mapping[Trial, str]) -> str:
    """Say for each half of each room how many changes were made, tried and noticed, and which were not noticed."""
    halves = dict.fromkeys(trial.half for trial in trials)
    lines = [f"{'':20}{'drawn':>7}{'tried':>7}{'killed':>8}"]
    for half in halves:
        of_it = [trial for trial in trials if trial.half == half]
        tried = [fates[trial] for trial in of_it if trial in fates]
        killed = sum(fate != SURVIVED for fate in tried)
        lines.append(f"{half:20}{len(of_it):7}{len(tried):7}{killed:8}")
    return "\n".join([*lines, *(f"{trial}: {SURVIVED}" for trial in trials if fates.get(trial) == SURVIVED)]) + "\n"


def main() -> None:
    """Make the changes one by one, and say what became of each and of all."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("rooms", nargs="+", choices=ROOMS)
    parser.add_argument("--half", choices=HALVES, default="python", help="which half of a room is changed")
    parser.add_argument("--number", type=int, default=60, help="how many changes in each half of each room")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--processes", type=int, default=1)
    parser.add_argument("--minutes", type=float, default=600, help="no change is begun later")
    given = parser.parse_args()
    os.nice(15)
    by_half = [
        drawn(room, scripts=scripts, number=given.number, seed=given.seed)
        for room in given.rooms
        for scripts in HALVES[given.half]
    ]
    # In turns, so that each half has its share when time runs out.
    trials = [trial for turn in zip_longest(*by_half) for trial in turn if trial]
    fates = try_all(trials, given.processes, time.monotonic() + given.minutes * 60)
    sys.stdout.write(table(trials, fates))


if __name__ == "__main__":
    main()
