"""What the register takes, refuses and remembers, on both databases."""

from __future__ import annotations

import datetime as dt

import pytest
from sqlalchemy import text

from register_entries import MAY, a_practical, a_ready_volunteer, a_sitting
from tinwright.errors import RecordError
from tinwright.register import ItemResponse, Register, Volunteer, open_register

DAY = dt.timedelta(days=1)


def added(register: Register, name: str = "Ann Example") -> Volunteer:
    return register.add_volunteer(name, added_on=MAY)


def test_a_volunteer_comes_back_as_entered(register: Register) -> None:
    entry = register.add_volunteer("  Ann Example ", email="ann@example.org", kitchen="Mill Street", added_on=MAY)
    assert entry == Volunteer("V0001", "Ann Example", "ann@example.org", "Mill Street", MAY)
    assert register.volunteer("v0001") == entry
    assert register.volunteers() == [entry]


def test_the_ten_thousandth_volunteer_is_listed_last(register: Register) -> None:
    with register.store.writing() as connection:
        connection.execute(text("UPDATE counter SET last = 9998 WHERE name = 'volunteer'"))
    assert [added(register).id for _ in range(2)] == ["V9999", "V10000"]
    assert [entry.id for entry in register.volunteers()] == ["V9999", "V10000"]


@pytest.mark.parametrize(
    ("name", "message"),
    [
        ("  ", "name: expected some text, got nothing"),
        ("Ann\nExample", "name: expected one line of plain text, got the character U+000A"),
        ("Ann\x1b[2J", "name: expected one line of plain text, got the character U+001B"),
        ("Ann\u202eelpmaxE", "name: expected one line of plain text, got the character U+202E"),
        ("A" * 201, "name: expected at most 200 characters, got 201"),
    ],
)
def test_a_name_that_cannot_be_shown_is_refused(register: Register, name: str, message: str) -> None:
    with pytest.raises(RecordError) as refusal:
        added(register, name)
    assert str(refusal.value) == message
    assert register.volunteers() == []
    assert register.changes() == []


def test_an_address_that_is_none_is_refused(register: Register) -> None:
    with pytest.raises(RecordError, match=r"expected an address such as name@example\.org, got 'ann'"):
        register.add_volunteer("Ann Example", email="ann", added_on=MAY)


def test_a_correction_changes_what_is_given_and_nothing_else(register: Register) -> None:
    id_ = register.add_volunteer("An Exmaple", email="ann@example.org", kitchen="Mill Street", added_on=MAY).id
    corrected = register.correct_volunteer(id_, name="Ann Example", kitchen="")
    assert corrected == Volunteer(id_, "Ann Example", "ann@example.org", None, MAY)
    assert register.volunteer(id_) == corrected
    assert register.changes()[-1].what == "volunteer corrected: name, kitchen"


def test_nobody_is_found_under_an_id_that_was_never_given(register: Register) -> None:
    for ask in (register.volunteer, register.sittings, register.practicals, register.certificates):
        with pytest.raises(RecordError, match="no volunteer has the id 'V0009'"):
            ask("V0009")


def test_a_sitting_comes_back_exactly_with_its_answers(register: Register) -> None:
    id_ = added(register).id
    sitting = a_sitting(register, id_)
    assert register.sittings(id_) == [sitting]
    assert register.sitting("S0001") == sitting
    assert (sitting.score, sitting.profile) == ("26.5", {"set-up": ["8.5", "10"], "defects": ["18", "20"]})
    assert register.item_responses(sitting.id) == [
        ItemResponse("droop-cause", "b", "1", "S0001"),
        ItemResponse("overlap", ".045 in", "0.5", "S0001"),
    ]


def test_entering_a_sitting_twice_changes_nothing(register: Register) -> None:
    id_ = added(register).id
    first = a_sitting(register, id_)
    before = register.export()
    assert a_sitting(register, id_) == first
    assert register.export() == before


def test_a_response_of_somebody_else_is_refused(register: Register) -> None:
    ann, ben = added(register).id, added(register, "Ben Example").id
    a_sitting(register, ann, digest="one response")
    with pytest.raises(RecordError, match="this response is already in the register, for V0001"):
        a_sitting(register, ben, digest="one response")
    assert register.sittings(ben) == []


def test_a_corrected_key_grades_anew_and_keeps_the_old_grading(register: Register) -> None:
    id_ = added(register).id
    first = a_sitting(register, id_, passed=False, score="20")
    second = a_sitting(register, id_, graded_with="key 2", score="24", responses=[ItemResponse("overlap", "x", "1")])
    assert second.supersedes == first.id
    assert register.sittings(id_) == [first, second]
    # only the answers of the grading that counts are analysed
    assert [(row.sitting_id, row.item_id) for row in register.item_responses(exam="supervisor")] == [
        ("S0002", "overlap")
    ]
    assert [row.item_id for row in register.item_responses(first.id)] == ["droop-cause", "overlap"]
    assert register.changes()[-1].what == "sitting graded again"


def test_entering_the_old_grading_again_does_not_bring_it_back(register: Register) -> None:
    id_ = added(register).id
    first = a_sitting(register, id_)
    a_sitting(register, id_, graded_with="key 2", passed=False)
    assert a_sitting(register, id_) == first
    a_practical(register, id_)
    assert register.missing_for_certificate(id_, MAY) == [
        "the examination: the last one, on 2026-05-02, was not passed (26.5 of 30)"
    ]


def test_a_second_response_to_the_same_form_on_the_same_day_must_say_which_one_it_corrects(register: Register) -> None:
    id_ = added(register).id
    first = a_sitting(register, id_, digest="typed wrong")
    with pytest.raises(
        RecordError, match=r"already has a sitting of supervisor, form A, on 2026-05-02: .* supersedes S0001"
    ):
        a_sitting(register, id_, digest="typed right")
    second = a_sitting(register, id_, digest="typed right", supersedes=first.id)
    assert second.supersedes == first.id
    with pytest.raises(RecordError, match="V0001 has no sitting S0001 that still counts"):
        a_sitting(register, id_, digest="typed again", supersedes=first.id)


def test_a_sitting_cannot_supersede_one_of_another_form(register: Register) -> None:
    id_ = added(register).id
    first = a_sitting(register, id_)
    with pytest.raises(RecordError, match="S0001 is of another examination, form or day"):
        a_sitting(register, id_, form="B", digest="other", supersedes=first.id)


@pytest.mark.parametrize("score", ["-1", "30.5", "NaN", "Infinity", "1/3", ""])
def test_a_score_that_is_none_is_refused(register: Register, score: str) -> None:
    id_ = added(register).id
    with pytest.raises(RecordError, match="score: expected"):
        a_sitting(register, id_, score=score)
    assert register.sittings() == []


def test_an_item_answered_twice_is_refused(register: Register) -> None:
    id_ = added(register).id
    with pytest.raises(RecordError, match="items: expected each once, got overlap more often"):
        a_sitting(register, id_, responses=[ItemResponse("overlap", "a", "1"), ItemResponse("overlap", "b", "0")])
    assert register.export()["item_response"] == []


def test_a_practical_check_comes_back_as_entered_and_only_once(register: Register) -> None:
    id_ = added(register).id
    check = a_practical(register, id_)
    assert register.practicals(id_) == [check]
    assert a_practical(register, id_) == check
    assert register.practicals() == [check]
    assert a_practical(register, id_, observed_on=MAY + DAY).id == "P0002"


def test_a_check_with_a_step_not_done_cannot_be_passed(register: Register) -> None:
    id_ = added(register).id
    with pytest.raises(
        RecordError, match="expected a check that was passed to have every step done, got judge not done"
    ):
        a_practical(register, id_, steps={"assemble": "done", "judge": "not-done"})


def test_every_change_is_recorded_with_who_and_what_and_no_name(register: Register) -> None:
    id_ = a_ready_volunteer(register)
    certificate = register.issue_certificate(id_, issued_on=MAY, years=2)
    register.revoke(certificate.id, MAY, "Ann asked for it")
    lines = register.changes()
    assert [(line.number, line.by, line.what, line.subject) for line in lines] == [
        (1, "tester", "volunteer added", "V0001"),
        (2, "tester", "sitting recorded", "S0001"),
        (3, "tester", "practical recorded", "P0001"),
        (4, "tester", "certificate issued", certificate.id),
        (5, "tester", "certificate revoked", certificate.id),
    ]
    now = dt.datetime.now(tz=dt.UTC)
    assert all(abs(now - dt.datetime.fromisoformat(line.at)) < dt.timedelta(minutes=2) for line in lines)


@pytest.mark.parametrize("statement", ["DELETE FROM change", "UPDATE change SET by = 'nobody'"])
def test_the_change_record_can_only_be_added_to(register: Register, statement: str) -> None:
    added(register)
    before = register.changes()
    with pytest.raises(RecordError), register.store.writing() as connection:
        connection.execute(text(statement))
    assert register.changes() == before


def test_an_error_halfway_undoes_the_whole_change(register: Register) -> None:
    id_ = added(register).id
    before = register.export()
    with pytest.raises(RecordError):
        a_sitting(register, id_, responses=[ItemResponse("fine", "a", "1"), ItemResponse("out of range", "a", "-1")])
    with pytest.raises(ZeroDivisionError):
        _break_off_in_mid_write(register)
    assert register.export() == before


def _break_off_in_mid_write(register: Register) -> None:
    with register.store.writing() as connection:
        connection.execute(text("DELETE FROM volunteer"))
        raise ZeroDivisionError


def test_what_was_entered_is_there_after_opening_again(place: str) -> None:
    with open_register(place) as register:
        a_ready_volunteer(register)
        before = register.export()
    with open_register(place, create=False) as register:
        assert register.export() == before
        assert added(register, "Ben Example").id == "V0002"
