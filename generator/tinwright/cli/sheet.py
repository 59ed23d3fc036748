"""Read a can supplier's sheet against the paper: its numbers to be read aloud, and the digest to record."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from tinwright.cli.common import CONTENT, known, loaded
from tinwright.knowledge.models.limits import NO_LIMIT
from tinwright.knowledge.plain_words import say
from tinwright.knowledge.sheet_rules import SheetState, digest_of_sheet, state_of_sheet

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from tinwright.knowledge.models import SeamSpecification

__all__ = ["sheet"]

_STATES = {
    SheetState.READ: "Read against the paper as it stands.",
    SheetState.CHANGED: "CHANGED since it was read against the paper. No seam is accepted by it before it is read.",
    SheetState.UNREAD: "NOT READ against the paper. No seam is accepted by it until two people have read it.",
    SheetState.INVENTED: "Invented as an example: there is no paper to read it against.",
}


@click.command()
@click.argument("name", required=False)
@CONTENT
def sheet(name: str | None, content: Path) -> None:
    """Show a supplier's sheet to read against the paper, and the digest to record.

    NAME is the id of a seam specification; all of them are shown when it is left out.

    One person reads the lines aloud, another follows on the paper; then both write their names under
    read_against_paper.

    Example: tinwright sheet demo-307
    """
    kb = loaded(content)
    known(kb, "seam-specification", name)
    for id_, record in kb.seam_specifications.items():
        if name in {None, id_}:
            click.echo("\n".join(_lines(record)))


def _lines(record: SeamSpecification) -> Iterator[str]:
    yield f"{record.title} ({record.id})"
    yield f"  supplier: {record.supplier}"
    yield f"  cans: {', '.join(record.cans)}"
    yield f"  end plate: {record.end_plate}; body plate: {record.body_plate}"
    for limit in record.limits:
        ends = (("least", limit.min), ("aim", limit.aim or "none"), ("greatest", limit.max))
        yield f"  {say(limit.dimension)}: {', '.join(f'{word} {value or NO_LIMIT}' for word, value in ends)}"
    for label, percent in (
        (f"percent overlap, formula {record.overlap_variant}", record.overlap_percent_min),
        ("body hook butting", record.butting_percent_min),
        ("tightness", record.tightness_percent_min),
    ):
        yield f"  {label}: {NO_LIMIT if percent is None else f'least {percent} percent'}"
    state = state_of_sheet(record)
    yield f"  {_STATES[state]}"
    if state in {SheetState.CHANGED, SheetState.UNREAD}:
        yield "  When two people have read it, write this into its file:"
        yield "read_against_paper:"
        yield f"  digest: {digest_of_sheet(record)!r}"
        yield "  by:"
        yield "    - {who: FIRST, day: YYYY-MM-DD}"
        yield "    - {who: SECOND, day: YYYY-MM-DD}"
    else:
        yield f"  digest: {digest_of_sheet(record)}"
