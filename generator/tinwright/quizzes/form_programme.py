"""The integer programme behind parallel forms: one yes or no for each item on each form.

Forms must lie within a tolerance, not come nearest to a target: nearest is many times slower, cannot be proved, and is
no use to anybody. Random costs choose among the forms that will do. Method: van der Linden 2005, Linear Models for
Optimal Test Design (from memory, not looked up).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import csr_array

from tinwright.errors import QuizError

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    import numpy.typing as npt

    from tinwright.quizzes.form_blueprint import CandidateItem, CriticalCell

__all__ = ["FormProgramme", "enemy_pairs"]

_LIMIT = 1
"""What `milp` says when its time is over."""
GAP = 0.05
"""The costs are random, so a choice that costs a little more than the cheapest is as good."""


def enemy_pairs(items: Sequence[CandidateItem]) -> list[tuple[int, int]]:
    """List the pairs of places in the list whose items must not be together, each pair once."""
    place = {item.id: index for index, item in enumerate(items)}
    pairs = {
        (min(index, place[enemy]), max(index, place[enemy]))
        for index, item in enumerate(items)
        for enemy in item.enemies
        if enemy in place
    }
    return sorted(pairs)


@dataclass(frozen=True)
class FormProgramme:
    """Items to be put on forms, and what binds them."""

    items: Sequence[CandidateItem]
    """The items to choose from."""
    forms: int
    """How many forms."""
    repeatable: frozenset[str]
    """Items that may be on several forms."""
    cells: Sequence[CriticalCell] = ()
    """Exact numbers of critical items on each form, and all that a second try is made of."""
    second_tries: int = 0
    """How many second tries; form n goes with second try n modulo this."""

    @property
    def sheets(self) -> int:
        """How many sheets there are: the forms, then the second tries."""
        return self.forms + self.second_tries

    def solve(
        self,
        topics: Mapping[str, int],
        *,
        costs: npt.NDArray[np.float64] | None = None,
        critical: int = 0,
        difficulty: tuple[float, float] | None = None,
        seconds: float,
        gap: float = GAP,
    ) -> list[list[int]] | None:
        """Choose the items of each form.

        Args:
            topics: how many items of each topic a form has.
            costs: items by sheets; what it costs to take an item.
            critical: fewest critical items on a form.
            difficulty: least and greatest sum of the difficulties of a form; None for any.
            seconds: when to give up.
            gap: how much more than the cheapest a choice may cost, as a share.

        Returns:
            Places of the items of each form, then of each second try; None when there is no such choice.

        Raises:
            QuizError: when none was found in time.
        """
        rows = _Rows(len(self.items), self.sheets)
        self._bind_items(rows)
        self._bind_cells(rows)
        for topic, count in topics.items():
            own = [index for index, item in enumerate(self.items) if item.topic == topic]
            for form in range(self.forms):
                rows.add([(index, form, 1.0) for index in own], count, count)
        for form in range(self.forms):
            if critical:
                own = [index for index, item in enumerate(self.items) if item.critical]
                rows.add([(index, form, 1.0) for index in own], critical, np.inf)
            if difficulty is not None:
                rows.add([(index, form, item.difficulty) for index, item in enumerate(self.items)], *difficulty)
        weights = np.zeros((len(self.items), self.sheets)) if costs is None else costs
        return rows.run(weights, seconds, gap)

    def most_placed(self, topics: Mapping[str, int], count: int, *, seconds: float) -> int:
        """Count how many of the items the forms can take together, enemies kept apart.

        Args:
            topics: most items of each topic on a form.
            count: most items on a form.
            seconds: when to give up.
        """
        rows = _Rows(len(self.items), self.sheets)
        self._bind_items(rows)
        for form in range(self.sheets):
            rows.add([(index, form, 1.0) for index in range(len(self.items))], 0, count)
            for topic, most in topics.items():
                own = [index for index, item in enumerate(self.items) if item.topic == topic]
                rows.add([(index, form, 1.0) for index in own], 0, most)
        chosen = rows.run(np.full((len(self.items), self.sheets), -1.0), seconds, 0.0) or []
        return sum(map(len, chosen))

    def _bind_items(self, rows: _Rows) -> None:
        for index, item in enumerate(self.items):
            if item.id not in self.repeatable:
                rows.add([(index, sheet, 1.0) for sheet in range(self.sheets)], 0, 1)
            else:
                for day in self._days():
                    rows.add([(index, sheet, 1.0) for sheet in day], 0, 1)
        for one, other in enemy_pairs(self.items):
            for day in self._days():
                rows.add([(index, sheet, 1.0) for sheet in day for index in (one, other)], 0, 1)

    def _bind_cells(self, rows: _Rows) -> None:
        for cell in self.cells:
            own = [index for index, item in enumerate(self.items) if item.critical and item.topic in cell.topics]
            for sheet in range(self.sheets):
                rows.add([(index, sheet, 1.0) for index in own], cell.items, cell.items)
        for sheet in range(self.forms, self.sheets):
            every = sum(cell.items for cell in self.cells)
            rows.add([(index, sheet, 1.0) for index in range(len(self.items))], every, every)

    def _days(self) -> list[tuple[int, ...]]:
        """Return the sheets that one person may get on one day: a form, and its second try."""
        if not self.second_tries:
            return [(form,) for form in range(self.forms)]
        return [(form, self.forms + form % self.second_tries) for form in range(self.forms)]


class _Rows:
    """Rows of a sparse matrix with their lower and upper ends, gathered one by one."""

    def __init__(self, items: int, forms: int) -> None:
        self.items, self.forms = items, forms
        self.values: list[float] = []
        self.columns: list[int] = []
        self.starts = [0]
        self.lower: list[float] = []
        self.upper: list[float] = []

    def add(self, cells: Iterable[tuple[int, int, float]], lower: float, upper: float) -> None:
        for item, form, value in cells:
            self.columns.append(item * self.forms + form)
            self.values.append(value)
        self.starts.append(len(self.columns))
        self.lower.append(lower)
        self.upper.append(upper)

    def run(self, weights: npt.NDArray[np.float64], seconds: float, gap: float) -> list[list[int]] | None:
        matrix = csr_array((self.values, self.columns, self.starts), shape=(len(self.lower), self.items * self.forms))
        found = milp(
            weights.ravel(),
            integrality=np.ones(weights.size),
            bounds=Bounds(0, 1),
            constraints=LinearConstraint(matrix, self.lower, self.upper),
            options={"time_limit": seconds, "mip_rel_gap": gap},
        )
        if found.x is None and found.status == _LIMIT:
            raise QuizError(f"no forms found in {seconds:g} seconds, and not known whether there are any")
        if found.x is None:
            return None
        taken = found.x.reshape(self.items, self.forms) > 0.5
        return [np.flatnonzero(taken[:, form]).tolist() for form in range(self.forms)]
