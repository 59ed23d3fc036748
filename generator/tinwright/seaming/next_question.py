"""The next thing to ask or look at: the cheapest whose answer can change the advice; none when no answer can."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tinwright.seaming.causes import find_shares, guess_shares, order_of
from tinwright.seaming.signs import Sign, in_order, list_signs, weigh, weigh_unknown
from tinwright.seaming.wording import DIMENSIONS

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from tinwright.seaming.experience import Experience
    from tinwright.seaming.signs import CauseProfile, Signs

__all__ = ["Ask", "find_next", "list_questions"]

MINUTES = {"repeats": 1.0, "last-change": 1.0, "extent": 2.0, "defect": 3.0, "gauge": 5.0, "teardown": 15.0}
"""How long an answer takes, by kind; our own estimate for somebody with some practice."""
WORTH = 0.1
"""An answer less probable than this is no reason to ask."""

ANSWERS: dict[str, tuple[str, ...]] = {
    "repeats": ("every-can", "same-place", "wanders", "one-can"),
    "extent": ("all-round", "part-round", "one-place", "side-seam"),
    "defect": ("seen", "not-seen"),
    "direction": ("larger", "smaller", "normal", "varies"),
}
"""Possible answers, by kind; those about the last change are the changes the causes list."""
GAUGED = frozenset({"countersink", "seam-width", "seam-thickness"})
"""Dimensions measured without tearing the seam down."""


@dataclass(frozen=True)
class Ask:
    """Something to ask, look for or measure."""

    kind: str
    """`repeats`, `last-change`, `extent`, `defect` or `direction`."""
    key: str
    """The defect or dimension; empty for the other kinds."""
    minutes: float
    """How long the answer takes, above zero."""
    answers: tuple[str, ...]
    """The possible answers."""


def list_questions(causes: Sequence[CauseProfile], signs: Signs) -> tuple[Ask, ...]:
    """List what can still be asked about these causes, the quickest first.

    >>> from tinwright.seaming.signs import Signs
    >>> [ask.kind for ask in list_questions([], Signs())]
    ['repeats', 'extent']
    """
    return tuple(sorted(_open(causes, signs), key=lambda ask: ask.minutes))


def _open(causes: Sequence[CauseProfile], signs: Signs) -> Iterator[Ask]:
    if not signs.repeats:
        yield Ask("repeats", "", MINUTES["repeats"], ANSWERS["repeats"])
    changes = tuple(sorted({change for cause in causes for change in cause.after if change != "nothing"}))
    if not signs.last_change and changes:
        yield Ask("last-change", "", MINUTES["last-change"], changes)
    if not signs.extent:
        yield Ask("extent", "", MINUTES["extent"], ANSWERS["extent"])
    for defect in sorted({defect for cause in causes for defect in cause.likelihoods}):
        if defect not in signs.defects and defect not in signs.absent:
            yield Ask("defect", defect, MINUTES["defect"], ANSWERS["defect"])
    moved = {dimension for cause in causes for dimension in (*cause.effects, *cause.effect_likelihoods)}
    for dimension in DIMENSIONS:
        if dimension in moved and dimension not in signs.directions:
            kind = "gauge" if dimension in GAUGED else "teardown"
            yield Ask("direction", dimension, MINUTES[kind], ANSWERS["direction"])


def find_next(
    causes: Sequence[CauseProfile],
    signs: Signs,
    asks: Sequence[Ask] | None = None,
    experience: Experience | None = None,
) -> Ask | None:
    """Find the quickest question with an answer that would put another cause on top; None when there is none.

    Of equally quick ones, the one likeliest to change the advice. "None of these" counts as advice too.

    Args:
        causes: the causes in question.
        signs: what is known so far.
        asks: what may be asked; all of `list_questions` when left out.
        experience: what was confirmed before behind the defects told; None: nothing.
    """
    ordered = sorted(causes, key=order_of)
    found = list_signs(signs)
    top = _top(find_shares(ordered, found, experience))
    guess = guess_shares(ordered, found)

    def changes(sign: Sign) -> bool:
        return _top(find_shares(ordered, in_order([*found, sign]), experience)) != top

    chosen: Ask | None = None
    most = 0.0
    for ask in list_questions(causes, signs) if asks is None else asks:
        if chosen is not None and ask.minutes > chosen.minutes:
            continue
        chance = 0.0
        for sign in _answers(ask):
            likelihood = _chance_of(ordered, guess, sign)
            if likelihood >= WORTH and changes(sign):
                chance = chance + likelihood
        if chance > 0 and (chosen is None or ask.minutes < chosen.minutes or chance > most):
            chosen, most = ask, chance
    return chosen


def _answers(ask: Ask) -> Iterator[Sign]:
    for answer in ask.answers:
        yield Sign("absent" if ask.kind == "defect" and answer == "not-seen" else ask.kind, ask.key, answer)


def _chance_of(ordered: Sequence[CauseProfile], guess: Sequence[float], sign: Sign) -> float:
    """Guess how probable an answer is, whichever cause is at work."""
    total = 0.0
    for cause, share in zip(ordered, guess[:-1], strict=True):
        total = total + share * weigh(cause, sign)
    return total + guess[-1] * weigh_unknown(sign)


def _top(shares: Sequence[float]) -> int:
    """Give the place of the greatest share, the first of equals; an unknown cause on top of a tie wins it.

    In a tie with the unknown cause nothing is explained, as in `causes.rank`.
    """
    best = max(shares)
    return len(shares) - 1 if shares[-1] == best else list(shares).index(best)
