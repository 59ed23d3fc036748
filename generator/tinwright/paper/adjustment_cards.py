"""Adjustment cards: for each roller and for the base, from the signs to the way to turn and the test again."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tinwright.advice.profiles import most_likely_first
from tinwright.knowledge.models.machine import Adjuster, Drive
from tinwright.knowledge.models.trouble import FoundBy, Likelihood, Turn
from tinwright.knowledge.plain_words import say, say_direction
from tinwright.seaming.correction import SECOND_CANNOT_MEND, turns_text

if TYPE_CHECKING:
    from tinwright.knowledge import KnowledgeBase
    from tinwright.knowledge.models import Cause, Defect, Sealer
    from tinwright.knowledge.models.machine import AdjusterScrew
    from tinwright.paper.press import Press, Printed

__all__ = ["adjustment_cards"]

_BASE = (Adjuster.BASE_HEIGHT, Adjuster.BASE_PRESSURE)
_CARDS = (
    ("base", "Base: height and pressure", _BASE, "set-base-height"),
    ("first-roller", "First roller", (Adjuster.FIRST_ROLLER,), "set-first-roller"),
    ("second-roller", "Second roller", (Adjuster.SECOND_ROLLER,), "set-second-roller"),
)
"""Id, title, what is adjusted and the procedure of each card, in the order of adjustment."""

_BEFORE = {
    "base": "Set this after chuck and roller height. Then check the first operation, then the second.",
    "first-roller": "Set roller height, then height and pressure of the base. Then this roller. " + SECOND_CANNOT_MEND,
    "second-roller": SECOND_CANNOT_MEND,
}
_NEARER = frozenset({Turn.TIGHTEN, Turn.RAISE})
_SENSED = frozenset({FoundBy.SEE, FoundBy.FEEL})
_FARTHER = frozenset({Turn.LOOSEN, Turn.LOWER})


@dataclass(frozen=True)
class Way:
    """One cause: its signs, which way, how, and the test again."""

    cause: Cause
    measured: tuple[str, ...]
    """What the seam measures, such as `cover hook shorter`."""
    seen: tuple[Defect, ...]
    """Defects it brings about, those it is commonly behind first, none that is a measurement."""
    how: str
    """How this sealer is moved that way; empty when nothing is turned."""
    step: str
    """Largest step before a test can; empty when nothing is turned."""


def adjustment_cards(press: Press, sealer: Sealer) -> Printed:
    """Print the adjustment cards of a sealer: base, first roller and second roller, a page for each.

    Raises:
        PaperError: when the texts of a card are too long for one page.
        MissingExtraError: when the libraries of the extra `paper` are not installed.
    """
    kb = press.kb
    cards = [
        (f"card-{id_}", title, _BEFORE[id_], procedure, ways)
        for id_, title, adjusters, procedure in _CARDS
        if (ways := _ways(kb, adjusters, sealer))
    ]
    return press.print(
        f"adjustment-{sealer.id}.pdf",
        "adjustment-cards.html.j2",
        title=f"Adjustment cards, {sealer.title}",
        cards=[id_ for id_, *_ in cards],
        of=[(f"procedures/{procedure}.md",) for _, _, _, procedure, _ in cards],
        all_cards=cards,
        sealer=sealer,
        cautions=[kb.cautions[id_] for id_ in _cautions(sealer) if id_ in kb.cautions],
    )


def _cautions(sealer: Sealer) -> tuple[str, ...]:
    return (*(("motor-start",) if sealer.drive is Drive.MOTOR else ()), "pinch-rollers", "lock-before-use")


def _ways(kb: KnowledgeBase, adjusters: tuple[Adjuster, ...], sealer: Sealer) -> list[Way]:
    """Return the ways of a card: what is turned first, then, for a roller, what is replaced or refitted.

    A base plate that is tilted or worn is repaired, not set: it has a page, and no room on this card.
    """
    turned = _NEARER | _FARTHER
    causes = [
        cause
        for cause in kb.causes.values()
        if cause.adjuster in adjusters and (cause.correction.direction in turned or cause.adjuster not in _BASE)
    ]
    causes.sort(key=lambda c: (adjusters.index(c.adjuster), c.correction.direction not in turned, c.title))
    return [_way(kb, cause, sealer) for cause in causes]


def _way(kb: KnowledgeBase, cause: Cause, sealer: Sealer) -> Way:
    direction = cause.correction.direction
    screw = next((screw for screw in sealer.adjusters if screw.adjuster == cause.adjuster), None)
    turned = direction in _NEARER | _FARTHER
    return Way(
        cause,
        tuple(f"{say(e.dimension)} {say_direction(e.dimension, e.direction)}" for e in cause.effects),
        _seen(kb, cause),
        _how(screw, nearer=direction in _NEARER) if turned else "",
        _step(screw) if turned else "",
    )


def _how(screw: AdjusterScrew | None, *, nearer: bool) -> str:
    if screw is None:
        return "This sealer’s record does not say how. Ask before you move anything."
    return screw.tighten if nearer else screw.loosen


def _step(screw: AdjusterScrew | None) -> str:
    if screw is None or screw.safe_step is None:
        return "The smallest step you can make; none is recorded for this sealer."
    return f"At most {turns_text(screw.safe_step)}."


def _seen(kb: KnowledgeBase, cause: Cause) -> tuple[Defect, ...]:
    """Return the defects this cause is behind, that are seen or felt: the likeliest first, the rare left out."""
    links = [
        (link, defect)
        for defect in kb.defects.values()
        for link in defect.causes
        if link.cause == cause.id and link.likelihood is not Likelihood.RARE
        if not defect.measured and _SENSED & set(defect.found_by)
    ]
    order = [id(link) for link in most_likely_first(link for link, _ in links)]
    return tuple(defect for _, defect in sorted(links, key=lambda pair: order.index(id(pair[0]))))
