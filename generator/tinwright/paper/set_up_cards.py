"""Set-up cards: one sheet for one can on one sealer, to hang at the machine."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tinwright.advice.set_ups import all_sheets, set_up_procedures, stack_drawing

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tinwright.advice.set_ups import Sheet
    from tinwright.knowledge import KnowledgeBase
    from tinwright.knowledge.models import Sealer
    from tinwright.paper.press import Press, Printed

__all__ = ["set_up_cards"]

_CAUTIONS = ("wrong-chuck", "pinch-rollers")
"""What hurts somebody, or spoils a seam, while a sealer is set up."""


def set_up_cards(press: Press, sheets: Sequence[Sheet], *, name: str, title: str) -> Printed:
    """Print a card for each can and sealer, each on one side of one Letter sheet.

    Args:
        press: the press.
        sheets: the cans and sealers, at least one; one that cannot be set up says so, and why.
        name: name of the file.
        title: title of the document.

    Raises:
        PaperError: when the texts of a card are too long for one page.
        MissingExtraError: when the libraries of the extra `paper` are not installed.
    """
    cards = [(_card_id(sheet), sheet, list(set_up_procedures(press.kb, sheet.sealer))) for sheet in sheets]
    return press.print(
        name,
        "set-up-cards.html.j2",
        title=title,
        cards=[id_ for id_, _, _ in cards],
        of=[(sheet.uri,) for sheet in sheets],
        sheets=cards,
        others=_others(press.kb),
        stack=stack_drawing,
        cautions=[press.kb.cautions[id_] for id_ in _CAUTIONS if id_ in press.kb.cautions],
    )


def _card_id(sheet: Sheet) -> str:
    return f"set-up-{sheet.sealer.id}-{sheet.can.id}"


def _others(kb: KnowledgeBase) -> dict[str, list[Sealer]]:
    """Return the sealers that take each can, by its id."""
    found: dict[str, list[Sealer]] = {id_: [] for id_ in kb.cans}
    for sheet in all_sheets(kb).values():
        if sheet.works:
            found[sheet.can.id].append(sheet.sealer)
    return found
