"""What the store holds of the bench log, as plain frozen values."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from tinwright.benchlog import Event, Session

__all__ = ["HEAD", "Choice", "Dispute", "LogFile", "LoggedSession", "TakenIn", "Version", "session_id"]

HEAD = "head"
"""Stands for the head of a session where an event's id would stand."""


def session_id(number: int) -> str:
    """Return the id of a session.

    >>> session_id(12)
    'B0012'
    """
    return f"B{number:04d}"


@dataclass(frozen=True)
class LogFile:
    """A file of a telephone, or a sheet that was typed in, read and found sound."""

    name: str
    """Its name, without the folder."""
    digest: str
    """SHA-256 of its bytes, in hexadecimal digits."""
    source: str
    """The telephone or the sheet, such as `k7f3q2` or `P04`."""
    sessions: tuple[tuple[Session, tuple[Event, ...]], ...]
    """What it tells, session by session."""


@dataclass(frozen=True)
class TakenIn:
    """What a file changed in the log."""

    added: int = 0
    """Events that were not there."""
    revised: int = 0
    """Events of which it has a newer version."""
    older: int = 0
    """Versions kept as history, because a newer one is there."""
    same: int = 0
    """Events that were there as they are."""
    disputes: tuple[tuple[str, str], ...] = ()
    """Session and event (or `head`) of what is told in two ways since, and was not before."""
    again: bool = False
    """Whether this very file was taken in before, so that nothing was looked at."""

    @property
    def changes_nothing(self) -> bool:
        """Whether the log is as it was."""
        return not (self.added or self.revised or self.older or self.disputes)


@dataclass(frozen=True)
class Version:
    """One way in which an event, or the head of a session, is told."""

    digest: str
    """What to call it by: a digest of its content, of which the first digits do."""
    source: str
    """Who tells it so: a telephone, a sheet or the desk."""
    counts: bool
    """Whether this is the version that counts."""
    event: Event | None = None
    """The event, told so."""
    head: Session | None = None
    """The head of the session, told so."""


@dataclass(frozen=True)
class Choice:
    """What somebody decided between versions that disagree."""

    digest: str
    """The version that counts."""
    among: tuple[str, ...]
    """The versions there were; it holds until there is another one."""
    at: str
    """When, as in `2026-11-14T19:20:00Z`."""
    by: str
    """Who: an id of the register, or initials."""
    reason: str
    """Why."""

    def settles(self, versions: Iterable[str]) -> bool:
        """Tell whether it was made among all the versions there are now, by their digests."""
        return self.digest in (there := set(versions)) and there <= set(self.among)


@dataclass(frozen=True)
class Dispute:
    """An event, or the head of a session, that is told in several ways."""

    session_id: str
    """Such as `B0001`."""
    event_id: str
    """Id of the event, or `head`."""
    versions: tuple[Version, ...]
    """The ways it is told in; at least two, in the order of their digests."""
    choice: Choice | None = None
    """What was decided; None while it is open, and the most cautious version counts."""


@dataclass(frozen=True)
class LoggedSession:
    """One session as it stands: what counts, and what is told in several ways."""

    id: str
    """`B0001` and so on."""
    session: Session
    """Its head."""
    events: Sequence[Event]
    """What counts of each event, in order; struck ones are among them."""
    disputes: tuple[Dispute, ...] = ()
    """What is told in several ways, decided or not."""

    @property
    def open_disputes(self) -> tuple[Dispute, ...]:
        """What nobody has decided yet."""
        return tuple(dispute for dispute in self.disputes if dispute.choice is None)
