"""How item analysis and the assembly of forms fare beside a general-purpose library and a plain count.

python tests/bench/bench_quizzes.py
"""

from __future__ import annotations

import sys
import time
from typing import TYPE_CHECKING

import numpy as np
import pandas as pd

from tinwright.quizzes.form_blueprint import CandidateItem, FormBlueprint
from tinwright.quizzes.forms import assemble_forms
from tinwright.quizzes.item_statistics import analyse_items, rest_scores
from tinwright.quizzes.option_statistics import analyse_options

if TYPE_CHECKING:
    from collections.abc import Callable

PEOPLE, ITEMS, OPTIONS = 20_000, 50, 4
TOPICS = {"a": 5, "b": 4, "c": 4, "d": 3, "e": 3, "f": 3, "g": 2, "h": 2, "i": 2, "j": 1, "k": 1}


def best_of(times: int, work: Callable[[], object]) -> float:
    """Return the shortest of several runs, in seconds."""
    shortest = float("inf")
    for _ in range(times):
        start = time.perf_counter()
        work()
        shortest = min(shortest, time.perf_counter() - start)
    return shortest


def analysis() -> None:
    rng = np.random.default_rng(1)
    knows = rng.random((PEOPLE, ITEMS)) < rng.random((PEOPLE, 1))
    chosen = np.where(knows, 0, rng.integers(0, OPTIONS, (PEOPLE, ITEMS)))
    frame = pd.DataFrame(chosen)

    def ours() -> list[float | None]:
        scores = (chosen == 0).astype(float)
        found = [item.corrected.value for item in analyse_items(scores).items]
        rest = rest_scores(scores)
        for item in range(ITEMS):
            analyse_options(chosen[:, item], rest[:, item], key=0, options=OPTIONS)
        return found

    def with_pandas() -> list[float | None]:
        scores = (frame == 0).astype(float)
        totals = scores.sum(axis=1)
        scores.mean()
        scores.corrwith(totals)
        ranked = scores.iloc[totals.argsort()]
        group = int(0.27 * PEOPLE)
        ranked.tail(group).mean() - ranked.head(group).mean()
        found = []
        for item in range(ITEMS):
            rest = totals - scores[item]
            found.append(scores[item].corr(rest))
            picks = pd.get_dummies(frame[item])
            picks.mean()
            picks.corrwith(rest)
        return found

    assert np.allclose(np.array(ours(), dtype=float), np.array(with_pandas(), dtype=float))
    fast, slow = best_of(5, ours), best_of(3, with_pandas)
    responses = PEOPLE * ITEMS
    sys.stdout.write(
        f"item and option analysis of {responses:,} responses\n"
        f"tinwright   {responses / fast:12,.0f} responses per second\n"
        f"pandas      {responses / slow:12,.0f} responses per second\n"
        f"ratio       {slow / fast:12.1f}\n"
    )


def assembly() -> None:
    rng = np.random.default_rng(1)
    bank = [
        CandidateItem(f"{topic}-{number}", topic, float(rng.uniform(0.5, 0.95)), critical=bool(rng.random() < 0.2))
        for topic, count in TOPICS.items()
        for number in range(10 * count)
    ]

    def ten(tolerance: float) -> object:
        return assemble_forms(bank, FormBlueprint(TOPICS, forms=10, critical=3, tolerance=tolerance), seed=1)

    one = best_of(5, lambda: assemble_forms(bank, FormBlueprint(TOPICS, critical=3), seed=1))
    wide, narrow = best_of(3, lambda: ten(0.05)), best_of(3, lambda: ten(0.01))
    sys.stdout.write(
        f"\nten forms of {sum(TOPICS.values())} items from {len(bank)}, every item used\n"
        f"tolerance 0.05, beside one form   {wide / one:8.1f}\n"
        f"tolerance 0.01, beside 0.05       {narrow / wide:8.1f}\n"
    )


if __name__ == "__main__":
    analysis()
    assembly()
