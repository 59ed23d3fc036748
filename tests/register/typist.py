"""A program that types entries into a register until it is done, or stopped; it prints each id once it is confirmed.

Run as `typist.py PLACE NAME COUNT [LIMIT]`: LIMIT is how many bytes any file of it may have.
"""

from __future__ import annotations

import datetime as dt
import resource
import sys
from typing import TYPE_CHECKING

from tinwright.errors import RecordError
from tinwright.register import ItemResponse, open_register

if TYPE_CHECKING:
    from collections.abc import Callable

ANSWERS = 20
MAY = dt.date(2026, 5, 2)


def say(line: str) -> None:
    """Print a line at once, so that it is out before the next entry begins."""
    sys.stdout.write(f"{line}\n")
    sys.stdout.flush()


def main(place: str, name: str, count: int, say: Callable[[str], None] = say) -> None:
    """Enter volunteers, each with a sitting of twenty answers and a practical check, saying each id once it is confirmed."""
    with open_register(place, by=name) as register:
        for number in range(count):
            volunteer = register.add_volunteer(f"{name} {number}", added_on=MAY)
            say(volunteer.id)
            sitting = register.record_sitting(
                volunteer.id,
                exam="supervisor",
                form="A",
                taken_on=MAY,
                score="20",
                out_of="20",
                passed=True,
                digest=f"{name} {number}",
                graded_with="key 1",
                profile={"all": ["20", "20"]},
                responses=[ItemResponse(f"item-{item}", "b" * 50, "1") for item in range(ANSWERS)],
            )
            say(sitting.id)
            check = register.record_practical(
                volunteer.id,
                drive="motor",
                observed_on=MAY,
                examiner="AE",
                passed=True,
                steps={"assemble": "done"},
            )
            say(check.id)
            say(register.issue_certificate(volunteer.id, issued_on=MAY, years=2).id)


if __name__ == "__main__":
    if len(sys.argv) > 4:
        resource.setrlimit(resource.RLIMIT_FSIZE, (int(sys.argv[4]), int(sys.argv[4])))
    try:
        main(sys.argv[1], sys.argv[2], int(sys.argv[3]))
    except RecordError as error:
        sys.exit(str(error))
