"""Attack for as long as is asked: `python -m attack --minutes 60`, in the folder `tests`."""

from __future__ import annotations

import argparse
import multiprocessing
import sys
import time

from attack import certificate_fuzzer, given_file_fuzzer

FUZZERS = {"certificates": (certificate_fuzzer.fuzz, 400), "given files": (given_file_fuzzer.fuzz, 400)}
"""Each fuzzer, and how many files it makes at a time."""


def main() -> int:
    """Let each fuzzer make files in turn."""
    asks = argparse.ArgumentParser(description=__doc__)
    asks.add_argument("--minutes", type=float, default=60)
    asks.add_argument("--seed", type=int, default=time.time_ns() % 10**9)
    asks.add_argument("--only", choices=FUZZERS)
    given = asks.parse_args()
    end, rounds, wrong = time.monotonic() + 60 * given.minutes, 0, 0
    made = dict.fromkeys(FUZZERS if given.only is None else [given.only], 0)
    while time.monotonic() < end:
        for name in made:
            fuzz, files = FUZZERS[name]
            # A process of its own for each lot: what thousands of files leave in caches would slow the next ones down.
            with multiprocessing.get_context("spawn").Pool(1) as pool:
                for line in pool.apply(fuzz, kwds={"seed": given.seed + rounds, "files": files}):
                    wrong += 1
                    print(line, flush=True)  # noqa: T201 - a command
            made[name] += files
        rounds += 1
    told = ", ".join(f"{number:,} {name}" for name, number in made.items())
    print(f"{told}; first seed {given.seed}: {wrong} wrong")  # noqa: T201 - a command
    return int(wrong > 0)


if __name__ == "__main__":
    sys.exit(main())
