"""The sheet that people sign on a class or an examination day."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tinwright.examining.print import sheet_pdf

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Sequence

    from tinwright.knowledge.models import Programme
    from tinwright.register.entries import Volunteer

__all__ = ["sign_in_sheet"]

_FREE_LINES = 4


def sign_in_sheet(people: Sequence[Volunteer], *, title: str, on: dt.date, programme: Programme | None) -> bytes:
    """Return the sheet as PDF, with a few free lines at its end.

    Args:
        people: who is expected.
        title: what stands above it.
        on: the day.
        programme: whose office it is, where that is known.
    """
    return sheet_pdf("sign-in.html.j2", title=title, people=people, on=on, programme=programme, free=range(_FREE_LINES))
