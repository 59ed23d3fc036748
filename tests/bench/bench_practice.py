"""How much of the processor's time rounds at the practice bench take, and one step of its model.

python tests/bench/bench_practice.py
"""

from __future__ import annotations

import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from practice.small_bench import CAN, a_scenario
from tinwright.practice import Action, Chance, Fault, Round, debrief, make_seam, set_around

ROUNDS = 10_000
STEPS = (
    *("test-can", "look", "measure", "tear-down"),
    *("gauge", "turn", "turn", "turn", "gauge"),
    *("test-can", "look", "measure", "tear-down", "test-can", "look", "measure", "declare-cause", "declare-fit"),
)


def play(seed: int) -> None:
    bench = Round.start(a_scenario(Fault("second-roller-loose", 3), Fault("lid-misplaced", 4), seed=seed))
    for verb in STEPS:
        bench.do(Action(verb, "second-roller" if verb in {"gauge", "turn"} else "second-roller-loose", 1))
    debrief(bench)


def main() -> None:
    start = time.process_time()
    for seed in range(1, ROUNDS + 1):
        play(seed)
    sys.stdout.write(f"{ROUNDS} rounds of {len(STEPS)} steps: {time.process_time() - start:.1f} s\n")
    start = time.process_time()
    for seed in range(1, 1001):
        make_seam(set_around([Fault("lid-misplaced", 4)], {}, Chance(seed)), CAN)
    sys.stdout.write(f"one seam: {(time.process_time() - start):.3f} ms\n")


if __name__ == "__main__":
    main()
