"""Entries made void: they stay with the reason, count no more, and what rests on them is in doubt."""

from __future__ import annotations

import datetime as dt
import json
from typing import TYPE_CHECKING

import pytest
from click.testing import CliRunner, Result

from register_entries import MAY, a_practical, a_ready_volunteer, a_sitting
from tinwright.cli import main
from tinwright.errors import RecordError
from tinwright.register import open_register

if TYPE_CHECKING:
    from tinwright.register import Register


def run(*arguments: str, place: str) -> Result:
    return CliRunner().invoke(main, ["register", *arguments, "--register", place])


def test_a_void_sitting_counts_no_more_and_stays(register: Register) -> None:
    id_ = a_ready_volunteer(register)
    assert register.void("S0001", MAY, "the sheet of somebody else") == ["S0001"]
    assert [row.voided for row in register.sittings(id_)] == ["the sheet of somebody else"]
    assert register.missing_for_certificate(id_, MAY) == ["the examination: none was sat by 2026-05-02"]
    assert register.item_responses() == []
    assert [change.what for change in register.changes()][-1] == "sitting made void"


def test_all_gradings_of_a_void_sitting_are_void(register: Register) -> None:
    id_ = a_ready_volunteer(register)
    a_sitting(register, id_, graded_with="key 2")
    a_sitting(register, id_, form="A2", digest="second", second_of="S0002", passed=True)
    assert register.void("S0001", MAY, "another person") == ["S0001", "S0002", "S0003"]
    assert a_sitting(register, id_, digest="typed right").id == "S0004"


def test_a_void_response_is_not_taken_again_by_accident(register: Register) -> None:
    id_ = a_ready_volunteer(register)
    register.void("S0001", MAY, "another person")
    with pytest.raises(RecordError, match="S0001, made void: another person"):
        a_sitting(register, id_)


def test_a_void_practical_check_counts_no_more_and_can_be_entered_rightly(register: Register) -> None:
    id_ = a_ready_volunteer(register)
    assert register.void("p0001", MAY, "another drive") == ["P0001"]
    assert register.missing_for_certificate(id_, MAY) == ["the practical check: none was observed by 2026-05-02"]
    assert a_practical(register, id_).id == "P0002"
    assert register.missing_for_certificate(id_, MAY) == []


def test_a_certificate_that_rests_on_a_void_entry_is_in_doubt(register: Register) -> None:
    for number, entry in ((1, "S0001"), (2, "P0002")):
        id_ = a_ready_volunteer(register, f"Person {number}")
        certificate = register.issue_certificate(id_, issued_on=MAY, years=2)
        register.void(entry, MAY, "another person")
        (found,) = [why for row, why in register.in_doubt(MAY) if row == certificate]
        assert "was made void: another person" in found


def test_nothing_is_made_void_twice_or_out_of_nothing(register: Register) -> None:
    a_ready_volunteer(register)
    register.void("S0001", MAY, "another person")
    with pytest.raises(RecordError, match="S0001 is void already: another person"):
        register.void("S0001", MAY, "again")
    with pytest.raises(RecordError, match="no sitting has the id 'S0009'"):
        register.void("S0009", MAY, "again")
    with pytest.raises(RecordError, match="reason: expected some text"):
        register.void("P0001", MAY, " ")


def test_erasing_takes_names_out_of_reasons_and_coaching(register: Register) -> None:
    id_ = a_ready_volunteer(register)
    other = a_ready_volunteer(register, "Bob Example")
    register.void("S0001", MAY, "it was Bob Example")
    register.void("S0002", MAY, "it was Ann Example")
    register.record_coaching(other, coached_on=MAY, coach="Ann Example", about="holding cans")
    register.record_coaching(id_, coached_on=MAY, coach="AE", about="holding cans")
    register.erase(id_, MAY)
    assert [row.coach for row in register.coachings()] == ["(erased)"]
    kept = json.dumps(register.export())
    assert "Ann Example" not in kept
    assert {row.voided for row in register.sittings()} == {"(erased)", "it was (erased)"}


def test_show_says_first_whether_somebody_is_in_force(sqlite_place: str) -> None:
    with open_register(sqlite_place) as register:
        id_ = a_ready_volunteer(register)
        register.record_coaching(id_, coached_on=MAY, coach="AE", about="holding cans")
        certificate = register.issue_certificate(id_, issued_on=MAY, years=2)
    lines = run("show", id_, "--on", "2026-06-01", place=sqlite_place).stdout.splitlines()
    assert lines[1] == f"  certificate in force on 2026-06-01: hand-lever until 2028-05-02 ({certificate.id})"
    assert "  C0001  2026-05-02  coached by AE: holding cans" in lines
    assert any(line.startswith("  missing for another certificate: ") for line in lines)
    done = run("void", "P0001", "--reason", "another drive", "--on", "2026-06-01", place=sqlite_place)
    assert done.stdout.splitlines()[0] == "void: P0001"
    assert f"in doubt: certificate {certificate.id} of {id_}" in done.stdout
    lines = run("show", id_, "--on", "2026-06-01", place=sqlite_place).stdout.splitlines()
    assert lines[2] == "  IN DOUBT: its practical check was made void: another drive"
    assert any("VOID: another drive" in line for line in lines)
    shown = json.loads(run("show", id_, "--json", "--on", "2026-06-01", place=sqlite_place).stdout)
    assert (shown["in_force"], "made void" in shown["in_doubt"]) == (certificate.id, True)


def test_coaching_is_noted_once(sqlite_place: str) -> None:
    with open_register(sqlite_place) as register:
        register.add_volunteer("Ann Example", added_on=dt.date(2026, 5, 2))
    for _ in range(2):
        done = run("coach", "V0001", "--by", "AE", "--about", "holding cans", "--on", "2026-05-02", place=sqlite_place)
        assert done.stdout == "Ann Example: C0001  2026-05-02  coached by AE: holding cans\n"
