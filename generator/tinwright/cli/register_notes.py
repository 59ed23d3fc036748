"""Commands that note coaching, and that make an entry void."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from tinwright.cli.private import ON, REGISTER, day_of, opened
from tinwright.cli.register_lines import coaching_line

if TYPE_CHECKING:
    import datetime as dt

__all__ = ["coach", "void"]


@click.command()
@click.argument("volunteer")
@click.option("--by", "coach_name", required=True, help="Who coached: a register id, a name or initials.")
@click.option("--about", required=True, help="In what, such as the critical area that was missed.")
@ON
@REGISTER
def coach(volunteer: str, coach_name: str, about: str, on: dt.datetime | None, place: str | None) -> None:
    """Note that a volunteer was coached, before a second try or before another sitting.

    Example: tinwright register coach V0001 --by AE --about "which cans to hold"
    """
    with opened(place) as register:
        person = register.volunteer(volunteer)
        entry = register.record_coaching(person.id, coached_on=day_of(on), coach=coach_name, about=about)
    click.echo(f"{person.name}: {coaching_line(entry)}")


@click.command()
@click.argument("entry")
@click.option("--reason", required=True, help="Why; it stays in the register.")
@ON
@REGISTER
def void(entry: str, reason: str, on: dt.datetime | None, place: str | None) -> None:
    """Make a sitting or a practical check void that was entered by mistake, such as for the wrong person.

    ENTRY is its id, such as S0001 or P0001. It stays in the register with the reason, and counts no more. A certificate
    that rests on it is listed by `tinwright register due` as in doubt: revoke it when it must not stand.

    Example: tinwright register void S0001 --reason "the sheet of somebody else"
    """
    with opened(place) as register:
        voided = register.void(entry, day_of(on), reason)
        doubtful = register.in_doubt(day_of(on))
    click.echo(f"void: {', '.join(voided)}")
    for row, why in doubtful:
        click.echo(f"in doubt: certificate {row.id} of {row.volunteer_id}, {why}")
