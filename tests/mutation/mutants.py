"""Changes single tokens of a room, one at a time in a copy, and tells which changes its quick tests notice.

    .venv/bin/python tests/mutation/mutants.py seaming --number 60
    .venv/bin/python tests/mutation/mutants.py benchlog --scripts

A change that survives is a test that is missing, or a change that makes no difference. Takes a while: half a minute each.
"""

from __future__ import annotations

import argparse
import os
import random
import re
import subprocess
import sys
import tempfile
from pathlib import Path
from typing import TYPE_CHECKING

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT / "tests"))

from mutation.copying import lay_copy  # noqa: E402
from mutation.python_mutants import python_mutants  # noqa: E402
from mutation.script_mutants import script_mutants  # noqa: E402

if TYPE_CHECKING:
    from collections.abc import Callable

    from mutation.mutant import Mutant

ROOMS = ("seaming", "benchlog", "advice")
PATIENCE_S = 900
"""A change may make a loop without an end: one that runs so long counts as noticed."""


def sources(room: str, *, scripts: bool) -> list[Path]:
    """List the files of a room that somebody wrote: what is printed is compared with what prints it."""
    if scripts:
        return sorted((ROOT / "generator" / "tinwright" / "browser" / room).rglob("*.js"))
    return sorted((ROOT / "generator" / "tinwright" / room).rglob("*.py"))


def drawn(room: str, *, scripts: bool, number: int, seed: int) -> list[tuple[Path, Mutant]]:
    """Draw changes by lot, the same for the same seed, in the order of the files."""
    find: Callable[[str], list[Mutant]] = script_mutants if scripts else python_mutants
    every = [
        (file, mutant)
        for file in sources(room, scripts=scripts)
        if not re.search("printed|generated_formulas|seaming-formulas", file.name)
        for mutant in find(file.read_text(encoding="utf-8"))
    ]
    chosen = random.Random(seed).sample(range(len(every)), min(number, len(every)))  # noqa: S311 - nothing secret
    return [every[place] for place in sorted(chosen)]


def noticed_by(folder: Path, room: str, file: Path | None) -> str | None:
    """Run the quick tests of a room in a copy, those named like the file first; returns the one that fails."""
    tests = sorted((folder / "tests" / room).glob("test_*.py"))
    if file:
        stem = file.stem.replace("-", "_")
        tests.sort(key=lambda test: (stem not in test.stem, (file.suffix == ".js") is ("twin" not in test.stem)))
    doctests = [folder / file.relative_to(ROOT)] if file and file.suffix == ".py" else []
    command = [sys.executable, "-B", "-m", "pytest", "-x", "-q", "-p", "no:cacheprovider", "--tb=no"]
    command += ["-m", "not browser and not slow", "--cases", "300", *map(str, [*doctests, *tests])]
    surroundings = {**os.environ, "PYTHONPATH": str(folder / "generator"), "NO_MKDOCS_2_WARNING": "1"}
    try:
        done = subprocess.run(
            command, cwd=folder, env=surroundings, capture_output=True, text=True, timeout=PATIENCE_S, check=False
        )
    except subprocess.TimeoutExpired:
        return "a loop without an end"
    if done.returncode == 0:
        return None
    match = re.search(r"^(?:FAILED|ERROR) (\S+)", done.stdout, re.MULTILINE)
    return match.group(1) if match else "pytest, which cannot start"


def main() -> None:
    """Make the changes one by one, and say what became of each."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("room", choices=ROOMS)
    parser.add_argument("--scripts", action="store_true", help="the scripts of the room, not its Python")
    parser.add_argument("--number", type=int, default=60)
    parser.add_argument("--seed", type=int, default=1)
    given = parser.parse_args()
    chosen = drawn(given.room, scripts=given.scripts, number=given.number, seed=given.seed)
    with tempfile.TemporaryDirectory(prefix="mutants-") as name:
        folder = Path(name)
        lay_copy(folder)
        if found := noticed_by(folder, given.room, None):
            sys.exit(f"nothing was changed, and yet the tests are red: {found}")
        killed = 0
        for file, mutant in chosen:
            text, target = file.read_text(encoding="utf-8"), folder / file.relative_to(ROOT)
            target.write_text(mutant.change(text), encoding="utf-8")
            found = noticed_by(folder, given.room, file)
            target.write_text(text, encoding="utf-8")
            killed += found is not None
            fate = f"killed by {found}" if found else "SURVIVED"
            sys.stdout.write(f"{file.relative_to(ROOT)}:{mutant.place(text)}: {mutant}: {fate}\n")
            sys.stdout.flush()
    sys.stdout.write(f"{killed} of {len(chosen)} changes were noticed\n")


if __name__ == "__main__":
    main()
