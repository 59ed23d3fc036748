"""Which items are worth asking somebody who works certain sealers, and which sealers an item may name."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Collection

    from tinwright.knowledge import KnowledgeBase
    from tinwright.knowledge.models import Sealer
    from tinwright.knowledge.models.item import Item

__all__ = ["fits", "sealers_not_used", "sealers_of_programme"]


def sealers_of_programme(kb: KnowledgeBase) -> tuple[Sealer, ...]:
    """Return the sealers that stand in a kitchen, by id; all there are where no kitchen names any."""
    named = {sealer for kitchen in kb.programme.kitchens for sealer in kitchen.sealers}
    return tuple(sealer for id_, sealer in kb.sealers.items() if id_ in named or not named)


def fits(item: Item, sealers: Collection[Sealer]) -> bool:
    """Tell whether an item can be asked of somebody who works these sealers: one of them has its drive and its parts.

    An item that names neither fits everywhere, and where no sealer is known every item does.
    """
    return not sealers or any(
        (not item.drives or sealer.drive in item.drives) and set(item.parts) <= set(sealer.parts) for sealer in sealers
    )


def sealers_not_used(item: Item, kb: KnowledgeBase) -> tuple[str, ...]:
    """Return the sealers that an item teaches although they stand in no kitchen of the program."""
    used = {sealer.id for sealer in sealers_of_programme(kb)}
    taught = (name.partition("/") for name in item.teaches)
    return tuple(id_ for kind, _, id_ in taught if kind == "sealer" and id_ not in used)
