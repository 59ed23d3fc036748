"""What a certificate rests on, how long it is good for, and who is due."""

from __future__ import annotations

import datetime as dt
import uuid
from typing import TYPE_CHECKING, Any

import pytest
from dateutil.relativedelta import relativedelta
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from sqlalchemy import insert

from register_entries import MAY, a_practical, a_ready_volunteer, a_sitting
from tinwright.errors import RecordError
from tinwright.register import open_register
from tinwright.register.validity import plus_years
from tinwright.store import tables

if TYPE_CHECKING:
    from tinwright.register import Register

DAY = dt.timedelta(days=1)


@given(
    st.dates(dt.date(1900, 1, 1), dt.date(2200, 12, 31)) | st.sampled_from([dt.date(y, 2, 29) for y in (2024, 2096)]),
    st.integers(-50, 50),
)
def test_years_are_counted_as_a_general_purpose_calendar_library_does(day: dt.date, years: int) -> None:
    # python-dateutil's relativedelta as an independent oracle
    assert plus_years(day, years) == day + relativedelta(years=years)


def test_a_year_that_no_calendar_has_is_refused() -> None:
    with pytest.raises(RecordError, match="got 9999-01-01"):
        plus_years(dt.date(9999, 1, 1), 1)


def test_both_parts_are_needed(register: Register) -> None:
    id_ = register.add_volunteer("Ann Example", added_on=MAY).id
    sat, seen = "the examination: none was sat by 2026-05-02", "the practical check: none was observed by 2026-05-02"
    assert register.missing_for_certificate(id_, MAY) == [sat, seen]
    a_sitting(register, id_)
    assert register.missing_for_certificate(id_, MAY) == [seen]
    with pytest.raises(RecordError) as refusal:
        register.issue_certificate(id_, issued_on=MAY, years=2)
    assert str(refusal.value) == f"no certificate for V0001 yet; missing: {seen}"
    assert register.certificates() == []
    a_practical(register, id_)
    assert register.missing_for_certificate(id_, MAY) == []


def test_a_certificate_says_who_what_and_until_when(register: Register) -> None:
    id_ = a_ready_volunteer(register)
    a_practical(register, id_, drive="crank-cam")
    a_practical(register, id_, drive="motor", passed=False, steps={"judge": "not-done"})
    certificate = register.issue_certificate(id_, issued_on=dt.date(2028, 2, 29), years=2)
    assert uuid.UUID(certificate.id).version == 4
    assert (certificate.volunteer_id, certificate.name) == (id_, "Ann Example")
    assert certificate.drives == ("crank-cam", "hand-lever")
    assert (certificate.exam, certificate.form) == ("supervisor", "A")
    assert (certificate.issued_on, certificate.valid_until) == (dt.date(2028, 2, 29), dt.date(2030, 2, 28))
    assert (certificate.revoked_on, certificate.revoked_reason, certificate.renews) == (None, None, None)
    assert register.certificate(f"urn:uuid:{certificate.id.upper()}") == certificate
    assert register.certificates(id_) == [certificate]


def test_parts_that_were_not_passed_or_lie_in_the_future_do_not_count(register: Register) -> None:
    id_ = register.add_volunteer("Ann Example", added_on=MAY).id
    a_sitting(register, id_, passed=False, score="12")
    a_practical(register, id_, observed_on=MAY + DAY)
    assert register.missing_for_certificate(id_, MAY) == [
        "the examination: the last one, on 2026-05-02, was not passed (12 of 30)",
        "the practical check: none was observed by 2026-05-02",
    ]


def test_the_last_word_counts(register: Register) -> None:
    id_ = a_ready_volunteer(register)
    a_sitting(register, id_, taken_on=MAY + DAY, form="B", passed=False, score="10")
    a_practical(register, id_, observed_on=MAY + DAY, passed=False, steps={"test-can": "not-done"})
    assert register.missing_for_certificate(id_, MAY) == []
    assert register.missing_for_certificate(id_, MAY + DAY) == [
        "the examination: the last one, on 2026-05-03, was not passed (10 of 30)",
        "the practical check: the last one on hand-lever, on 2026-05-03, was not passed",
    ]


def test_parts_older_than_the_certificate_would_last_do_not_count(register: Register) -> None:
    id_ = a_ready_volunteer(register)
    on_the_day, a_day_later = dt.date(2028, 5, 2), dt.date(2028, 5, 3)
    assert register.missing_for_certificate(id_, on_the_day, years=2) == []
    assert register.missing_for_certificate(id_, a_day_later, years=2) == [
        "a new examination: the one passed on 2026-05-02 is from before 2026-05-03",
        "a new practical check on hand-lever: the one passed on 2026-05-02 is from before 2026-05-03",
    ]


def test_a_renewal_needs_both_parts_anew_and_names_the_one_before(register: Register) -> None:
    id_ = a_ready_volunteer(register)
    first = register.issue_certificate(id_, issued_on=MAY, years=2)
    spring = dt.date(2028, 4, 1)
    a_sitting(register, id_, taken_on=spring, form="B")
    assert register.missing_for_certificate(id_, spring) == [
        "a new practical check on hand-lever: an earlier certificate rests on the one of 2026-05-02"
    ]
    a_practical(register, id_, observed_on=spring)
    second = register.issue_certificate(id_, issued_on=spring, years=2)
    assert (second.renews, second.valid_until) == (first.id, dt.date(2030, 4, 1))


def test_the_same_examination_does_not_make_a_second_certificate(register: Register) -> None:
    id_ = a_ready_volunteer(register)
    register.issue_certificate(id_, issued_on=MAY, years=2)
    with pytest.raises(RecordError, match="a certificate good until 2028-05-02 rests on the one passed on 2026-05-02"):
        register.issue_certificate(id_, issued_on=MAY, years=2)
    a_practical(register, id_, drive="motor", observed_on=dt.date(2028, 5, 3))
    assert register.missing_for_certificate(id_, dt.date(2028, 5, 3)) == [
        "a new examination: the certificate that rests on the one passed on 2026-05-02 has ended"
    ]


def test_another_drive_is_added_by_a_certificate_that_ends_with_the_first(register: Register) -> None:
    id_ = a_ready_volunteer(register)
    first = register.issue_certificate(id_, issued_on=MAY, years=2)
    a_practical(register, id_, drive="motor", observed_on=MAY + 30 * DAY)
    second = register.issue_certificate(id_, issued_on=MAY + 31 * DAY, years=2)
    assert second.drives == ("hand-lever", "motor")
    assert second.valid_until == first.valid_until == dt.date(2028, 5, 2)


def test_a_regrade_does_not_make_the_examination_a_new_one(register: Register) -> None:
    id_ = a_ready_volunteer(register)
    register.issue_certificate(id_, issued_on=MAY, years=2)
    a_sitting(register, id_, graded_with="key 2", score="27")
    assert register.missing_for_certificate(id_, MAY) != []


def test_a_certificate_issued_again_after_a_revocation_ends_with_the_revoked_one(register: Register) -> None:
    id_ = a_ready_volunteer(register)
    first = register.issue_certificate(id_, issued_on=MAY, years=2)
    register.revoke(first.id, MAY + DAY, "the name was wrong")
    second = register.issue_certificate(id_, issued_on=MAY + DAY, years=2)
    assert (second.valid_until, second.renews) == (first.valid_until, None)


@pytest.mark.parametrize("years", [0, -1, 51])
def test_a_validity_without_sense_is_refused(register: Register, years: int) -> None:
    id_ = a_ready_volunteer(register)
    with pytest.raises(RecordError, match="years: expected from 1 to 50"):
        register.issue_certificate(id_, issued_on=MAY, years=years)


def test_revoking_needs_a_certificate_a_day_and_a_reason_and_happens_once(register: Register) -> None:
    certificate = register.issue_certificate(a_ready_volunteer(register), issued_on=MAY, years=2)
    for id_, on, reason, message in (
        (str(uuid.UUID(int=0)), MAY, "lost", "no certificate has the id"),
        (certificate.id, MAY - DAY, "lost", "was issued on 2026-05-02: it cannot be revoked on 2026-05-01"),
        (certificate.id, MAY, " ", "reason: expected some text"),
    ):
        with pytest.raises(RecordError, match=message):
            register.revoke(id_, on, reason)
    assert register.revoked() == []
    revoked = register.revoke(certificate.id, MAY + DAY, "lost")
    assert (revoked.revoked_on, revoked.revoked_reason) == (MAY + DAY, "lost")
    assert [revoked.in_force(day) for day in (MAY - DAY, MAY, MAY + DAY)] == [False, True, False]
    with pytest.raises(RecordError, match="was revoked on 2026-05-03 already"):
        register.revoke(certificate.id, MAY + DAY, "lost")


def test_the_list_of_the_revoked_holds_ids_and_days_and_nothing_else(register: Register) -> None:
    ids = [
        register.issue_certificate(a_ready_volunteer(register, n), issued_on=MAY, years=2).id for n in ("A", "B", "C")
    ]
    register.revoke(ids[2], MAY + DAY, "why")
    register.revoke(ids[0], MAY + 2 * DAY, "why")
    assert register.revoked() == [(ids[2], MAY + DAY), (ids[0], MAY + 2 * DAY)]


def test_who_ends_soon_or_ended_lately_is_due_the_first_to_end_first(register: Register) -> None:
    ann, ben, cat, dan = (a_ready_volunteer(register, name) for name in ("Ann", "Ben", "Cat", "Dan"))
    first = register.issue_certificate(ann, issued_on=MAY, years=2)
    second = register.issue_certificate(ben, issued_on=MAY + DAY, years=1)
    register.issue_certificate(cat, issued_on=MAY, years=3)
    register.revoke(register.issue_certificate(dan, issued_on=MAY, years=2).id, MAY, "left")
    # Ann's ends on 2028-05-02, Ben's ended on 2027-05-03, Cat's ends in 2029
    due = register.due_for_renewal(dt.date(2028, 4, 2), 30)
    assert [(entry.volunteer_id, entry.id) for entry in due] == [(ben, second.id), (ann, first.id)]
    assert [entry.volunteer_id for entry in register.due_for_renewal(dt.date(2028, 4, 1), 30)] == [ben]
    assert register.due_for_renewal(dt.date(2028, 4, 1), 30, lapsed_days=333) == []


def test_nobody_is_due_whose_certificate_was_renewed(register: Register) -> None:
    id_ = a_ready_volunteer(register)
    register.issue_certificate(id_, issued_on=MAY, years=1)
    spring = dt.date(2027, 4, 1)
    assert len(register.due_for_renewal(spring, 60)) == 1
    a_sitting(register, id_, taken_on=spring)
    a_practical(register, id_, observed_on=spring)
    register.issue_certificate(id_, issued_on=spring, years=1)
    assert register.due_for_renewal(spring, 60) == []


def test_a_certificate_is_in_doubt_once_its_examination_graded_anew_is_not_passed(register: Register) -> None:
    id_ = a_ready_volunteer(register)
    certificate = register.issue_certificate(id_, issued_on=MAY, years=2)
    assert register.in_doubt(MAY) == []
    a_sitting(register, id_, graded_with="key 2", passed=False, score="19")
    assert register.in_doubt(MAY) == [(certificate, "graded again, the examination is not passed")]
    a_sitting(register, id_, graded_with="key 3", score="25")
    assert register.in_doubt(MAY) == []


@given(
    rows=st.lists(
        st.tuples(st.integers(1, 3), st.integers(-20, 5), st.integers(-5, 20), st.sampled_from([None, MAY])), max_size=9
    )
)
@settings(max_examples=40, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_who_is_due_is_reckoned_as_by_hand(tmp_path_factory: pytest.TempPathFactory, rows: list[Any]) -> None:
    place = tmp_path_factory.mktemp("due") / "register.db"
    entries = []
    for number, (holder, begins, ends, revoked) in enumerate(rows):
        entry = {"id": f"{number:08d}-0000-4000-8000-000000000000", "volunteer_id": f"V{holder:04d}", "name": "A"}
        days = {"issued_on": MAY + dt.timedelta(begins), "valid_until": MAY + dt.timedelta(ends), "revoked_on": revoked}
        entries.append({**entry, **days, "drives": [], "exam": "e", "form": "A", "practical_ids": []})
    with open_register(place) as register:
        with register.store.writing() as connection:
            people = [{"id": f"V{number:04d}", "name": "A", "added_on": MAY} for number in (1, 2, 3)]
            connection.execute(insert(tables.volunteer), people)
            for entry in entries:
                connection.execute(insert(tables.certificate), entry)
        found = [entry.id for entry in register.due_for_renewal(MAY, 10, lapsed_days=3)]
    last: dict[str, dict[str, Any]] = {}
    for entry in sorted(entries, key=lambda entry: (entry["valid_until"], entry["issued_on"], entry["id"])):
        if entry["revoked_on"] is None and entry["issued_on"] <= MAY:
            last[entry["volunteer_id"]] = entry
    ending = [entry for entry in last.values() if -3 <= (entry["valid_until"] - MAY).days <= 10]
    assert found == [
        entry["id"] for entry in sorted(ending, key=lambda entry: (entry["valid_until"], entry["volunteer_id"]))
    ]
