"""What one session comes to: cans, checks, holds and what became of them, what was missed and what was changed."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tinwright.advice.held_cans import bench_policy, defect_dispositions, defect_reaches
from tinwright.benchlog import (
    bad_cans,
    cans_to_hold,
    clock_went_back,
    counter_went_back,
    missed_checks,
    read_lines,
    still_held,
    unchecked_before_change,
)
from tinwright.benchlog.checks import CHECKS, outcome_of
from tinwright.benchlog.early_warning import defects_per_check, walk
from tinwright.benchlog.ranges import RUN, can_name, cans_in_words, count, joined, shared
from tinwright.benchlog.sampling import sampling_in_words
from tinwright.benchlog.writing import sealed_cans

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from tinwright.benchlog import Event, Held, Hold, Line, Missed, Session, Unchecked
    from tinwright.benchlog.early_warning import Step
    from tinwright.benchlog.ranges import Ranges
    from tinwright.knowledge import KnowledgeBase
    from tinwright.logbook.entries import LoggedSession

__all__ = ["Correction", "Findings", "can_at", "corrections_of", "find"]


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
    lines: Mapping[str, Line]
    """Each of them in its place, by the id of the event."""
    sealed: int
    """Cans sealed, as the counter shows, all its runs together."""
    bad: Ranges
    """Cans found bad, by a check or as having a defect that holds cans."""
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
    new_runs: tuple[Line, ...]
    """Lines at which the counter goes back although nobody wrote that it was set back."""
    clock_back: tuple[tuple[Event, Event], ...]
    """Lines whose time is before that of the line above them, with that line."""

    @property
    def session(self) -> Session:
        """The head of the session."""
        return self.logged.session

    def of_kind(self, *kinds: str) -> list[Event]:
        """Return the events of some kinds, in order."""
        return [event for event in self.events if event.kind in kinds]

    def cans_of(self, event: Event) -> str:
        """Return the cans that an event is about, by name."""
        line = self.lines[event.id]
        if line.cans:
            return cans_in_words([line.cans])
        return "" if event.can_number is None else can_name(line.run * RUN + event.can_number)

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
        return joined([cans for event in self.of_kind("discard") if (cans := self.lines[event.id].cans)])

    @property
    def people(self) -> list[str]:
        """Everybody who is named, as logged."""
        return sorted({event.by for event in self.events} - {""})

    @property
    def sampling(self) -> str:
        """What the looks at filled cans can show of those not looked at, in words; empty when no can was sealed."""
        if not self.sealed:
            return ""
        sealed = sealed_cans(self.lines.values())
        checks = [(can, can) for event in self.checks if (can := self.lines[event.id].can)]
        looked = count(shared(joined(checks, self.bad), sealed))
        if bad := count(self.bad):
            return (
                f"{looked} of {self.sealed} cans checked, {bad} of them bad. "
                "The others are not good because they were not looked at."
            )
        return f"{sampling_in_words(self.sealed, looked)} The cans were not drawn blindly, so even that is too kind."


def find(kb: KnowledgeBase, logged: LoggedSession) -> Findings:
    """Work out what a session comes to, by the programme's rules and what the content says of each defect."""
    dispositions, reaches = defect_dispositions(kb), defect_reaches(kb)
    lines = read_lines(logged.events)
    events = tuple(line.event for line in lines)
    outcomes = {event.id: outcome_of(event, dispositions) for event in events if event.kind in {*CHECKS, "defect"}}
    per_check = defects_per_check(events)
    steps = walk(number for _, number in per_check)
    return Findings(
        logged=logged,
        events=events,
        outcomes=outcomes,
        lines={line.event.id: line for line in lines},
        sealed=count(sealed_cans(lines)),
        bad=bad_cans(logged.events, dispositions),
        holds=tuple(hold for hold in cans_to_hold(logged.events, dispositions, reaches) if count(hold.cans)),
        held=still_held(logged.events, dispositions, reaches),
        unchecked=tuple(unchecked_before_change(logged.events, dispositions, reaches)),
        missed=tuple(missed_checks(logged.events, bench_policy(kb), dispositions)),
        corrections=corrections_of(events, outcomes),
        warnings=tuple((event, step) for (event, _), step in zip(per_check, steps, strict=True) if step.warns),
        new_runs=tuple(counter_went_back(logged.events)),
        clock_back=tuple(clock_went_back(logged.events)),
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
