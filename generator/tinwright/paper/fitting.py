"""Cards in the largest type in which each fits its page."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from tinwright.errors import PaperError
from tinwright.printing import lay_out

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

__all__ = ["SCALES", "fitted"]

SCALES = (1.3, 1.24, 1.18, 1.12, 1.06, 1.0, 0.97, 0.94, 0.91, 0.88, 0.85, 0.82, 0.79, 0.76, 0.73, 0.7, 0.67, 0.64)
"""How large the type of cards is set: the first at which each card fits its page."""


def fitted(cards: Sequence[str], html_at: Callable[[Sequence[str], float], str]) -> Any:
    """Lay some cards out, in the largest type in which each fits on one page, for `to_pdf`.

    Args:
        cards: ids of the cards, in order, at least one; each is the id of an element that begins a page.
        html_at: gives the HTML of some of the cards at a size; 1 is the full size.

    Raises:
        PaperError: when a card does not fit one page at the smallest size.
        MissingExtraError: as `lay_out`.
    """
    fullest = max(cards, key=lambda card: len(html_at([card], SCALES[0])))
    too_long: list[str] = []
    for size in SCALES:
        # The fullest card alone tells fast which sizes will not do; the others are laid out only when it fits.
        too_long = _too_long([fullest], lay_out(html_at([fullest], size)))
        if too_long:
            continue
        document = lay_out(html_at(cards, size))
        too_long = _too_long(cards, document)
        if not too_long:
            return document
    raise PaperError(f"{', '.join(too_long)}: expected one page, got more even in small type; shorten the texts")


def _too_long(cards: Sequence[str], document: Any) -> list[str]:
    """Return the cards that take more than one page."""
    pages = document.pages
    # An element that goes on is anchored on each of its pages: the first counts.
    begins = {name: number for number, page in reversed(list(enumerate(pages))) for name in page.anchors}
    ends = [*(begins[card] for card in cards[1:]), len(pages)]
    return [card for card, end in zip(cards, ends, strict=True) if end - begins[card] > 1]
