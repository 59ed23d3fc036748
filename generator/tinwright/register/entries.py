"""What the register holds, as plain frozen values."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import datetime as dt

__all__ = ["Certificate", "Coaching", "Erasure", "ItemResponse", "Practical", "Sitting", "Volunteer"]


@dataclass(frozen=True)
class Volunteer:
    """A person in the register."""

    id: str
    """`V0001` and so on; never given to anybody else, not even after an erasure."""
    name: str
    """As it is to stand on a certificate."""
    email: str | None
    """Where to reach them, if they gave it."""
    kitchen: str | None
    """Where they work."""
    added_on: dt.date
    """Day they were entered."""


@dataclass(frozen=True)
class Sitting:
    """One graded examination of one volunteer."""

    id: str
    """`S0001` and so on; a random one once the volunteer is erased."""
    volunteer_id: str
    """Who sat it; empty once the volunteer is erased."""
    exam: str
    """Id of the blueprint."""
    form: str
    """Which form of it."""
    taken_on: dt.date
    """Day of the examination; only its year stays once the volunteer is erased."""
    score: str
    """Points, as exact decimal text."""
    out_of: str
    """Points there were to be had, as exact decimal text."""
    passed: bool
    """Whether the pass rule of the blueprint was met."""
    digest: str
    """Digest of the response that was graded."""
    graded_with: str
    """Digest of the key it was graded with."""
    profile: dict[str, list[str]]
    """Topic: points and points there were, as exact decimal text."""
    supersedes: str | None
    """The sitting that this one grades anew; that one is kept and counts no more."""
    second_of: str | None = None
    """For a second try of the same day, the sitting whose missed areas it repairs."""
    allowed: str | None = None
    """What was allowed at it, such as extra time or large print."""
    public_bank: bool = False
    """Whether anybody could read the questions beforehand: a demonstration's bank."""
    voided: str | None = None
    """Why it does not count, where it was entered by mistake; filled in by the register."""


@dataclass(frozen=True)
class ItemResponse:
    """What was answered to one item, for the analysis of items."""

    item_id: str
    """Id of the item."""
    response: str | None
    """The answer as given; none when left blank, or once the volunteer is erased."""
    score: str
    """Points for it, as exact decimal text."""
    sitting_id: str = ""
    """The sitting it belongs to; filled in by the register."""


@dataclass(frozen=True)
class Practical:
    """One observed check at a sealer."""

    id: str
    """`P0001` and so on."""
    volunteer_id: str
    """Who was observed."""
    drive: str
    """Drive of the sealer, such as `hand-lever`."""
    sealer: str | None
    """Id of the sealer, if noted."""
    observed_on: dt.date
    """Day of the check."""
    examiner: str
    """Who observed: a register id, a name or initials."""
    passed: bool
    """Whether the examiner passed it."""
    steps: dict[str, str]
    """Step of the checklist: how it went."""
    voided: str | None = None
    """Why it does not count, where it was entered by mistake; filled in by the register."""


@dataclass(frozen=True)
class Coaching:
    """A volunteer was coached in what they missed."""

    id: str
    """`C0001` and so on."""
    volunteer_id: str
    """Who was coached."""
    coached_on: dt.date
    """Day of it."""
    coach: str
    """Who coached: a register id, a name or initials."""
    about: str
    """In what."""


@dataclass(frozen=True)
class Certificate:
    """A certificate that was issued; the signed credential is made from it."""

    id: str
    """A random UUID, so that `urn:uuid:` and it name the certificate."""
    volunteer_id: str
    """Who holds it; empty once the volunteer is erased."""
    name: str
    """The name on it; empty once the volunteer is erased."""
    drives: tuple[str, ...]
    """Drives the holder passed a practical check on, sorted."""
    exam: str
    """The examination it rests on."""
    form: str
    """The form of it that was sat."""
    issued_on: dt.date
    """Day of issue."""
    valid_until: dt.date
    """Last day it is good for."""
    revoked_on: dt.date | None
    """Day it was revoked, if it was."""
    revoked_reason: str | None
    """Why; never published."""
    renews: str | None
    """The certificate before it, if there is one."""
    public_bank: bool = False
    """Whether anybody could read the questions of its examination beforehand; the certificate says so."""

    def in_force(self, on: dt.date) -> bool:
        """Tell whether the certificate is good on a day."""
        return self.issued_on <= on <= self.valid_until and (self.revoked_on is None or on < self.revoked_on)


@dataclass(frozen=True)
class Erasure:
    """The fact that somebody was erased on request."""

    volunteer_id: str
    """The id they had."""
    erased_on: dt.date
    """Day of the erasure."""
