"""Set-ups worked out from the records: every can on every sealer, with the procedures in order and the stack drawn."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from markupsafe import Markup

from tinwright.advice.profiles import sealer_setup
from tinwright.figures import stack_svg
from tinwright.measures import CanCode, mixed_number, parse_can_code
from tinwright.seaming.setup import SetUp, set_up

if TYPE_CHECKING:
    from collections.abc import Iterator
    from fractions import Fraction

    from tinwright.knowledge import KnowledgeBase
    from tinwright.knowledge.models import Can, Procedure, Sealer
    from tinwright.seaming.setup import Stack

__all__ = ["SET_UP_ORDER", "Sheet", "all_sheets", "set_up_procedures", "stack_drawing"]

SET_UP_ORDER = (
    "inspect-parts",
    "inspect-cans-and-lids",
    "clamp-and-assemble",
    "fit-chuck",
    "set-roller-height",
    "set-base-height",
    "set-base-pressure",
    "set-first-roller",
    "check-first-operation",
    "set-second-roller",
    "make-test-can",
    "look-and-feel",
    "water-bubble-test",
)
"""Procedures of a set-up in the order of work: chuck, place of the rollers, base, first roller, second roller, test."""


@dataclass(frozen=True)
class Sheet:
    """One can on one sealer."""

    can: Can
    sealer: Sealer
    code: CanCode
    set_up: SetUp

    @property
    def uri(self) -> str:
        """Where its page lies."""
        return f"set-up/{self.sealer.id}-{self.can.id}.md"

    @property
    def works(self) -> bool:
        """True when the sealer has the chuck, the roller position and an exact stack for the can."""
        return self.set_up.fits

    @property
    def short_why_not(self) -> str:
        """Why it cannot be set up, in a few words; empty when it can."""
        if self.works:
            return ""
        if self.set_up.chuck is None:
            return f"no {self.code.diameter} chuck"
        if not self.set_up.measured:
            return "measure first"
        if self.set_up.needed_in < 0:
            return "can too tall"
        if self.set_up.stack.exact is None:
            return "no stack fits"
        return "no roller position"

    @property
    def why_not(self) -> str:
        """Why it cannot be set up, in sentences."""
        return " ".join(self.set_up.problems)

    @property
    def nearest(self) -> tuple[tuple[Stack, Fraction, str], ...]:
        """The nearest stacks when none fits, each with its gap in inches and `low` or `high`."""
        found = self.set_up.stack
        if self.set_up.chuck is None or found.exact is not None or self.set_up.needed_in < 0:
            return ()
        near = ((found.below, found.gap_below_in, "low"), (found.above, found.gap_above_in, "high"))
        return tuple((stack, gap, side) for stack, gap, side in near if stack is not None and gap is not None)


def all_sheets(kb: KnowledgeBase) -> dict[tuple[str, str], Sheet]:
    """Work out the sheet of each can on each sealer, by `(sealer id, can id)`."""
    sheets: dict[tuple[str, str], Sheet] = {}
    for sealer in kb.sealers.values():
        setup = sealer_setup(sealer)
        for can in kb.cans.values():
            code = parse_can_code(can.code)
            sheets[sealer.id, can.id] = Sheet(can, sealer, code, set_up(code, setup))
    return sheets


def set_up_procedures(kb: KnowledgeBase, sealer: Sealer) -> Iterator[Procedure]:
    """Yield the procedures of a set-up in the order of work, those of this drive alone last."""
    for id_ in SET_UP_ORDER:
        procedure = kb.procedures.get(id_)
        if procedure is not None and (not procedure.drives or sealer.drive in procedure.drives):
            yield procedure
    for procedure in kb.procedures.values():
        if procedure.drives == (sealer.drive,) and procedure.id not in SET_UP_ORDER:
            yield procedure


def stack_drawing(sheet: Sheet) -> Markup:
    """Draw the spacers under the can, to scale; nothing when there is no stack."""
    stack = sheet.set_up.stack.exact
    if not sheet.works or stack is None or sheet.sealer.seat_height is None:
        return Markup()
    title = f"Spacers under a {sheet.can.code} can on the {sheet.sealer.title.lower()}"
    words = ", ".join(f"{n} × {spacer.name}, {mixed_number(spacer.size_in)} in" for spacer, n in stack.pieces)
    svg = stack_svg(
        [(spacer.name, float(spacer.size_in)) for spacer, number in stack.pieces for _ in range(number)],
        can_height_in=float(sheet.code.height_in),
        seat_height_in=float(sheet.sealer.seat_height.inches),
        title=title,
        description=f"{title}: {words or 'no spacer'}.",
        id_prefix="stack",
    )
    return Markup(svg)  # noqa: S704 figures escapes every text in it
