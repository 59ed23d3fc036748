"""What a report is made from: sessions of the log as they stand, with what is told in several ways."""

from __future__ import annotations

from typing import TYPE_CHECKING, Protocol

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tinwright.benchlog import Event, Session

__all__ = ["Disagreement", "LoggedSession", "Told"]


class Told(Protocol):
    """One way in which something is told."""

    @property
    def source(self) -> str:
        """The telephone or sheet that tells it so."""

    @property
    def counts(self) -> bool:
        """Whether this is the one that counts."""

    @property
    def event(self) -> Event | None:
        """The event, told so."""

    @property
    def head(self) -> Session | None:
        """The head of the session, told so."""


class Disagreement(Protocol):
    """Something that is told in several ways."""

    @property
    def event_id(self) -> str:
        """Id of the event, or `head`."""

    @property
    def versions(self) -> Sequence[Told]:
        """The ways."""

    @property
    def choice(self) -> object | None:
        """What somebody decided; None while it is open."""


class LoggedSession(Protocol):
    """One session as it stands."""

    @property
    def id(self) -> str:
        """Such as `B0001`."""

    @property
    def session(self) -> Session:
        """Its head."""

    @property
    def events(self) -> Sequence[Event]:
        """What counts of each event, in order; struck ones are among them."""

    @property
    def disputes(self) -> Sequence[Disagreement]:
        """What is told in several ways, decided or not."""
