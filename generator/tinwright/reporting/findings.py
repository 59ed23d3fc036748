"""What one session comes to: cans, checks, holds and what became of them, what was missed and what was changed."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tinwright.advice.held_cans import defect_dispositions
from tinwright.benchlog import Policy, cans_to_hold, in_order, missed_checks, still_held, unchecked_before_change
from tinwright.benchlog.checks import CHECKS, cans_shown, checked_can, outcome_of
from tinwright.benchlog.early_warning import defects_per_check, walk
from tinwright.benchlog.ranges import count, joined
from tinwright.benchlog.sampling import sampling_in_words

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from tinwright.benchlog import Event, Held, Hold, Missed, Session, Unchecked
    from tinwright.benchlog.early_warning import Step
    from tinwright.benchlog.ranges import Ranges
    from tinwright.knowledge import KnowledgeBase
    from tinwright.logbook.entries import LoggedSession

__all__ = ["Correction", "Findings", "can_at", "corrections_of", "find", "policy_of"]


@dataclass(frozen=True)
class Correction:
    """An adjustment, and what the next check said of it."""

    event: Event
    """The adjustment."""
    check: Event | None
    """The first check after it that says anything; None when there was none before the next adjustment."""
    worked: bool | None
    """Whether that check was good; None when there was none."""


@dataclass(frozen=True)
class Findings:
    """All that follows from the events of one session."""

    logged: LoggedSession
    """The session."""
    events: tuple[Event, ...]
    """Its events in order, without those struck out."""
    outcomes: Mapping[str, str]
    """What each check, and each defect found, came to, by the id of the event: `good`, `failed` or empty."""
    sealed: int
    """Cans sealed, as the counter shows."""
    holds: tuple[Hold, ...]
    """What was to be held, and why."""
    held: Held
    """What still is."""
    unchecked: tuple[Unchecked, ...]
    """Cans that nobody looked at before the sealer was changed."""
    missed: tuple[Missed, ...]
    """Checks that the policy asked for and that were not made in time."""
    corrections: tuple[Correction, ...]
    """The adjustments."""
    warnings: tuple[tuple[Event, Step], ...]
    """Checks at which the early warning spoke."""

    @property
    def session(self) -> Session:
        """The head of the session."""
        return self.logged.session

    def of_kind(self, *kinds: str) -> list[Event]:
        """Return the events of some kinds, in order."""
        return [event for event in self.events if event.kind in kinds]

    @property
    def checks(self) -> list[Event]:
        """The looks at seams, in order."""
        return [event for event in self.events if event.kind in CHECKS]

    @property
    def failures(self) -> list[Event]:
        """The checks that failed, and the defects found that hold cans."""
        return [event for event in self.events if self.outcomes.get(event.id) == "failed"]

    @property
    def discarded(self) -> Ranges:
        """The cans that were thrown away."""
        return joined([(event.first or 0, event.last or 0) for event in self.of_kind("discard")])

    @property
    def people(self) -> list[str]:
        """Everybody who is named, as logged."""
        return sorted({event.by for event in self.events} - {""})

    @property
    def sampling(self) -> str:
        """What the looks at filled cans can show of those not looked at, in words; empty when no can was sealed."""
        if not self.sealed:
            return ""
        looked = {number for event in self.checks if (number := checked_can(event)) and number <= self.sealed}
        bad = {checked_can(event) for event in self.failures} & looked
        if bad:
            return (
                f"{len(looked)} of {self.sealed} cans checked, {len(bad)} of them bad. "
                "The others are not good because they were not looked at."
            )
        return (
            f"{sampling_in_words(self.sealed, len(looked))} The cans were not drawn blindly, so even that is too kind."
        )


def policy_of(kb: KnowledgeBase) -> Policy:
    """Return the programme's rules for the bench."""
    policy = kb.programme.policy
    return Policy(policy.test_cans, policy.recheck_cans, policy.recheck_minutes)


def find(kb: KnowledgeBase, logged: LoggedSession) -> Findings:
    """Work out what a session comes to, by the programme's rules and what the content says of each defect."""
    dispositions = defect_dispositions(kb)
    events = tuple(in_order(event for event in logged.events if not event.struck))
    outcomes = {event.id: outcome_of(event, dispositions) for event in events if event.kind in {*CHECKS, "defect"}}
    per_check = defects_per_check(events)
    steps = walk(number for _, number in per_check)
    return Findings(
        logged=logged,
        events=events,
        outcomes=outcomes,
        sealed=max((cans_shown(event) for event in events), default=0),
        holds=tuple(hold for hold in cans_to_hold(events, dispositions) if count(hold.cans)),
        held=still_held(events, dispositions),
        unchecked=tuple(unchecked_before_change(events, dispositions)),
        missed=tuple(missed_checks(events, policy_of(kb), dispositions)),
        corrections=corrections_of(events, outcomes),
        warnings=tuple((event, step) for (event, _), step in zip(per_check, steps, strict=True) if step.warns),
    )


def corrections_of(events: Sequence[Event], outcomes: Mapping[str, str]) -> tuple[Correction, ...]:
    """Return each adjustment with the first check after it that says anything.

    Args:
        events: events of one session in order, none struck out.
        outcomes: what each check came to, by the id of the event.
    """
    found = []
    for place, event in enumerate(events):
        if event.kind != "adjustment":
            continue
        check = worked = None
        for after in events[place + 1 :]:
            if after.kind == "adjustment":
                break
            if outcomes.get(after.id):
                check, worked = after, outcomes[after.id] == "good"
                break
        found.append(Correction(event, check, worked))
    return tuple(found)


def can_at(session: Session, events: Iterable[Event]) -> dict[str, str]:
    """Return the id of the can that was being sealed at each event, by the id of the event.

    Args:
        session: the head of the session.
        events: its events in order.
    """
    can, found = session.can, {}
    for event in events:
        can = event.can or can
        found[event.id] = can
    return found
