"""Set-up sheets: a page for every can on every sealer."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tinwright.advice.set_ups import set_up_procedures, stack_drawing
from tinwright.site.pages_and_assets import Page

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from tinwright.advice.set_ups import Sheet
    from tinwright.knowledge import KnowledgeBase
    from tinwright.knowledge.models import Can
    from tinwright.site.rendering import Renderer

__all__ = ["set_up_pages"]


def set_up_pages(kb: KnowledgeBase, renderer: Renderer, sheets: Mapping[tuple[str, str], Sheet]) -> Iterator[Page]:
    """Yield the table of cans and sealers and a page for each pair."""
    rows: list[tuple[Can, list[Sheet]]] = [
        (can, [sheets[sealer, can.id] for sealer in kb.sealers]) for can in kb.cans.values()
    ]
    here = "set-up/index.md"
    yield Page(here, renderer.render("set-up-index.md.j2", here, rows=rows))
    for sheet in sheets.values():
        yield Page(
            sheet.uri,
            renderer.render(
                "set-up.md.j2",
                sheet.uri,
                sheet=sheet,
                cautions=[id_ for id_ in ("wrong-chuck", "pinch-rollers") if id_ in kb.cautions],
                procedures=list(set_up_procedures(kb, sheet.sealer)),
                others=[
                    other
                    for other in sheets.values()
                    if other.can is sheet.can and other.sealer is not sheet.sealer and other.works
                ],
                svg=stack_drawing(sheet),
            ),
        )
