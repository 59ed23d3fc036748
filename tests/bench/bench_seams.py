"""How much faster seams are evaluated as arrays than one by one.

python tests/bench/bench_seams.py
"""

from __future__ import annotations

import sys
import time
from typing import TYPE_CHECKING

import numpy as np

from tinwright.seaming import FORMULAS

if TYPE_CHECKING:
    from collections.abc import Callable

SEAMS = 100_000
LOW = {"CH": 0.060, "BH": 0.060, "Te": 0.008, "Tb": 0.008, "W": 0.110, "S": 0.050, "G": 0.003}


def best_of(times: int, work: Callable[[], object]) -> float:
    """Return the shortest of several runs, in seconds."""
    shortest = float("inf")
    for _ in range(times):
        start = time.perf_counter()
        work()
        shortest = min(shortest, time.perf_counter() - start)
    return shortest


def main() -> None:
    rng = np.random.default_rng(1)
    columns = {name: rng.uniform(low, low * 1.3, SEAMS) for name, low in LOW.items()}
    rows = {name: values.tolist() for name, values in columns.items()}

    def as_arrays() -> None:
        for formula in FORMULAS.values():
            formula.arithmetic.evaluate(*(columns[name] for name in formula.symbols))

    def one_by_one() -> None:
        for formula in FORMULAS.values():
            for values in zip(*(rows[name] for name in formula.symbols), strict=True):
                formula.arithmetic.evaluate(*values)

    as_arrays()
    fast, slow = best_of(7, as_arrays), best_of(3, one_by_one)
    sys.stdout.write(
        f"{len(FORMULAS)} formulas on {SEAMS:,} seams\n"
        f"arrays      {SEAMS / fast:12,.0f} seams per second\n"
        f"plain loop  {SEAMS / slow:12,.0f} seams per second\n"
        f"ratio       {slow / fast:12.1f}\n"
    )


if __name__ == "__main__":
    main()
