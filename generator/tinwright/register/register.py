"""The register of volunteers, as the commands and the certificates use it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Self

from tinwright.errors import RecordError
from tinwright.register import certificates, coachings, erasing, practicals, sittings, voiding, volunteers
from tinwright.register.entries import Certificate, Coaching, Erasure, ItemResponse, Practical, Sitting, Volunteer
from tinwright.store import changes, exporting
from tinwright.store.store import Store, open_store

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Callable, Iterable, Mapping
    from pathlib import Path

    from sqlalchemy import Connection

__all__ = [
    "Certificate",
    "Erasure",
    "ItemResponse",
    "Practical",
    "Register",
    "Sitting",
    "Volunteer",
    "open_register",
]


def open_register(place: str | Path, *, by: str | None = None, create: bool = True) -> Register:
    """Open the register, and make or upgrade it where that is needed.

    Args:
        place: a file, or `postgresql+psycopg://user@host/database`.
        by: who makes changes, for the change record; the account on this computer when left out.
        create: whether to make the file when it is not there.

    Raises:
        RecordError: when the place is refused, cannot be reached, or holds something else.
    """
    return Register(open_store(place, create=create), by or changes.account())


class Register:
    """An open register. Each method is one transaction: it is done whole, or not at all.

    Args:
        store: an open store; closed with the register.
        by: who makes changes, for the change record.
    """

    def __init__(self, store: Store, by: str) -> None:
        self.store = store
        self.by = changes.plain_text(by, "who makes the change")

    def close(self) -> None:
        """Let go of the file or the server."""
        self.store.close()

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    def add_volunteer(
        self, name: str, *, email: str | None = None, kitchen: str | None = None, added_on: dt.date
    ) -> Volunteer:
        """Enter a volunteer and return the entry with its id."""
        with self.store.writing() as connection:
            return volunteers.add(connection, self.by, name=name, email=email, kitchen=kitchen, added_on=added_on)

    def correct_volunteer(
        self, volunteer_id: str, *, name: str | None = None, email: str | None = None, kitchen: str | None = None
    ) -> Volunteer:
        """Change what is given of an entry; an empty e-mail or kitchen is taken out."""
        with self.store.writing() as connection:
            return volunteers.correct(connection, self.by, volunteer_id, name=name, email=email, kitchen=kitchen)

    def volunteer(self, volunteer_id: str) -> Volunteer:
        """Return one volunteer."""
        with self.store.reading() as connection:
            return volunteers.find(connection, volunteer_id)

    def volunteers(self) -> list[Volunteer]:
        """Return all volunteers in the order they were entered."""
        with self.store.reading() as connection:
            return volunteers.every(connection)

    def record_sitting(
        self,
        volunteer_id: str,
        *,
        exam: str,
        form: str,
        taken_on: dt.date,
        score: str,
        out_of: str,
        passed: bool,
        digest: str,
        graded_with: str,
        profile: Mapping[str, Iterable[str]],
        responses: Iterable[ItemResponse] = (),
        supersedes: str | None = None,
        second_of: str | None = None,
        allowed: str | None = None,
        public_bank: bool = False,
    ) -> Sitting:
        """Enter a graded sitting with what was answered to each item; the same again changes nothing.

        The same response (`digest`) graded with another key (`graded_with`) takes the place of the first grading, which
        is kept. A response that was typed in anew names the sitting it supersedes.

        Raises:
            RecordError: when the response is somebody else's, or the day already has a sitting of that form.
        """
        values = {
            "volunteer_id": volunteer_id,
            "exam": exam,
            "form": form,
            "taken_on": taken_on,
            "score": score,
            "out_of": out_of,
            "passed": passed,
            "digest": digest,
            "graded_with": graded_with,
            "profile": {topic: list(points) for topic, points in profile.items()},
            "supersedes": supersedes,
            "second_of": second_of,
            "allowed": allowed,
            "public_bank": public_bank,
        }
        with self.store.writing() as connection:
            return sittings.record(connection, self.by, values, tuple(responses))

    def record_sittings(self, entries: Iterable[tuple[Sitting, Iterable[ItemResponse]]]) -> list[Sitting]:
        """Enter graded sittings in one transaction: all of them as `record_sitting` would, or none.

        Args:
            entries: each sitting, its id left empty and given here, with what was answered to its items.

        Raises:
            RecordError: naming the volunteer whose sitting is refused.
        """
        recorded = []
        with self.store.writing() as connection:
            for draft, responses in entries:
                values = {name: value for name, value in vars(draft).items() if name not in {"id", "voided"}}
                try:
                    recorded.append(sittings.record(connection, self.by, values, tuple(responses)))
                except RecordError as error:
                    raise RecordError(f"{draft.volunteer_id}: {error}") from error
        return recorded

    def sitting(self, sitting_id: str) -> Sitting:
        """Return one sitting."""
        with self.store.reading() as connection:
            return sittings.find(connection, sitting_id)

    def sittings(self, volunteer_id: str | None = None) -> list[Sitting]:
        """Return sittings, superseded ones among them: of one volunteer, or of all, those of nobody among them."""
        with self.store.reading() as connection:
            return sittings.every(connection, self._known(connection, volunteer_id))

    def item_responses(
        self, sitting_id: str | None = None, *, exam: str | None = None, form: str | None = None
    ) -> list[ItemResponse]:
        """Return what was answered to items: of one sitting, or of all that no other supersedes."""
        with self.store.reading() as connection:
            return sittings.item_responses(connection, sitting_id=sitting_id, exam=exam, form=form)

    def record_practical(
        self,
        volunteer_id: str,
        *,
        drive: str,
        observed_on: dt.date,
        examiner: str,
        passed: bool,
        steps: Mapping[str, str],
        sealer: str | None = None,
    ) -> Practical:
        """Enter a practical check that was observed; the same again changes nothing."""
        draft = Practical("", volunteer_id, drive, sealer, observed_on, examiner, passed, dict(steps))
        with self.store.writing() as connection:
            return practicals.record(connection, self.by, draft)

    def record_practicals(self, drafts: Iterable[Practical]) -> list[Practical]:
        """Enter practical checks in one transaction: all of them as `record_practical` would, or none.

        Args:
            drafts: each check, its id left empty and given here.
        """
        with self.store.writing() as connection:
            return [practicals.record(connection, self.by, draft) for draft in drafts]

    def practicals(self, volunteer_id: str | None = None) -> list[Practical]:
        """Return practical checks in the order they were entered."""
        with self.store.reading() as connection:
            return practicals.every(connection, self._known(connection, volunteer_id))

    def record_coaching(self, volunteer_id: str, *, coached_on: dt.date, coach: str, about: str) -> Coaching:
        """Enter that a volunteer was coached; the same again changes nothing."""
        with self.store.writing() as connection:
            return coachings.record(connection, self.by, volunteer_id, coached_on=coached_on, coach=coach, about=about)

    def coachings(self, volunteer_id: str | None = None) -> list[Coaching]:
        """Return coachings in the order they were entered."""
        with self.store.reading() as connection:
            return coachings.every(connection, self._known(connection, volunteer_id))

    def void(self, id_: str, on: dt.date, reason: str) -> list[str]:
        """Make a sitting (`S0001`) or a practical check (`P0001`) void, so that it counts no more.

        Of a sitting all gradings and its second try are void, too. Everything stays in the register with the reason.

        Returns:
            The ids that are void now.

        Raises:
            RecordError: when there is no such entry, or it is void already.
        """
        id_ = id_.strip().upper()
        with self.store.writing() as connection:
            if id_ in {check.id for check in practicals.every(connection)}:
                voiding.void(connection, self.by, "practical", [id_], on=on, reason=reason)
                return [id_]
            person = sittings.find(connection, id_).volunteer_id
            family = sittings.family_of(sittings.every(connection, person), id_)
            voiding.void(connection, self.by, "sitting", family, on=on, reason=reason)
            return family

    def missing_for_certificate(self, volunteer_id: str, on: dt.date, *, years: int | None = None) -> list[str]:
        """Say in plain words what a volunteer lacks for a certificate; nothing when one can be issued.

        Args:
            volunteer_id: who.
            on: the day it would be issued.
            years: how long it would be good for; then older examinations and checks do not count.
        """
        with self.store.reading() as connection:
            return certificates.missing(connection, volunteer_id, on=on, years=years)

    def issue_certificate(
        self,
        volunteer_id: str,
        *,
        issued_on: dt.date,
        years: int,
        before_it_is_kept: Callable[[Certificate], object] | None = None,
    ) -> Certificate:
        """Issue a certificate for the drives that were passed; see `grounds` for what it must rest on.

        Args:
            volunteer_id: whom it is for.
            issued_on: its first day.
            years: how long it is good for.
            before_it_is_kept: called with it; when that fails, it was never issued.

        Raises:
            RecordError: naming what is missing.
        """
        with self.store.writing() as connection:
            entry = certificates.issue(connection, self.by, volunteer_id, issued_on=issued_on, years=years)
            if before_it_is_kept is not None:
                before_it_is_kept(entry)
            return entry

    def certificate(self, certificate_id: str) -> Certificate:
        """Return one certificate, by its id with or without `urn:uuid:`."""
        with self.store.reading() as connection:
            return certificates.find(connection, certificate_id)

    def certificates(self, volunteer_id: str | None = None) -> list[Certificate]:
        """Return certificates by day of issue."""
        with self.store.reading() as connection:
            return certificates.every(connection, self._known(connection, volunteer_id))

    def revoke(self, certificate_id: str, on: dt.date, reason: str) -> Certificate:
        """Revoke a certificate; the reason stays in the register."""
        with self.store.writing() as connection:
            return certificates.revoke(connection, self.by, certificate_id, on=on, reason=reason)

    def revoked(self) -> list[tuple[str, dt.date]]:
        """Return id and day of each revoked certificate: all of the register that is ever published."""
        with self.store.reading() as connection:
            return certificates.revoked(connection)

    def due_for_renewal(self, on: dt.date, within_days: int, *, lapsed_days: int = 365) -> list[Certificate]:
        """Return the last certificates that end within some days, or ended lately; the first to end first."""
        with self.store.reading() as connection:
            return certificates.due(connection, on=on, within_days=within_days, lapsed_days=lapsed_days)

    def in_doubt(self, on: dt.date) -> list[tuple[Certificate, str]]:
        """Return the certificates in force that rest on what does not hold any more, each with the reason."""
        with self.store.reading() as connection:
            return certificates.in_doubt(connection, on=on)

    def erase(self, volunteer_id: str, on: dt.date) -> None:
        """Erase a person on request, also from the file's bytes; see `erasing` for what stays.

        Raises:
            RecordError: when there is no such person, or when another program kept the remains from being cleared; they
                are cleared by asking again.
        """
        volunteer_id = volunteer_id.strip().upper()
        with self.store.reading() as connection:
            again = any(entry.volunteer_id == volunteer_id for entry in erasing.erasures(connection))
        if not again:
            with self.store.writing() as connection:
                erasing.erase(connection, self.by, volunteer_id, on)
        if not self.store.scrub():
            raise RecordError(
                f"{volunteer_id} is erased, but another program has the register open, so remains may be left in "
                "the file: close that program, then erase again"
            )

    def erasures(self) -> list[Erasure]:
        """Return who was erased and when, by id."""
        with self.store.reading() as connection:
            return erasing.erasures(connection)

    def changes(self) -> list[changes.Change]:
        """Return the change record, oldest first."""
        with self.store.reading() as connection:
            return changes.changes(connection)

    def last_change(self) -> dt.datetime | None:
        """Return the moment of the newest line of the change record."""
        with self.store.reading() as connection:
            return changes.last_change(connection)

    def export(self) -> dict[str, Any]:
        """Return everything, as JSON can hold it; `csv_tables` makes CSV files of it."""
        with self.store.reading() as connection:
            return exporting.everything(connection)

    @staticmethod
    def _known(connection: Connection, volunteer_id: str | None) -> str | None:
        return None if volunteer_id is None else volunteers.find(connection, volunteer_id).id
