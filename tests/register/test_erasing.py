"""A person erased on request: what goes, what stays, and that no trace is left in the file."""

from __future__ import annotations

import datetime as dt
import json
import sqlite3
from pathlib import Path

import psycopg
import pytest

from register_entries import MAY, a_practical, a_ready_volunteer, a_sitting
from tinwright.errors import RecordError
from tinwright.register import Erasure, ItemResponse, Register, open_register

NAME = "Quillfeather Zenobia"
ANSWER = "an answer that nobody else gave"


def a_person_with_everything(register: Register) -> tuple[str, str]:
    """Enter somebody whose name stands in every place it can, and return their id and their certificate's."""
    id_ = register.add_volunteer(
        "Quilfether Zenobia", email="zenobia@quillfeather.example", kitchen="Mill Street", added_on=MAY
    ).id
    first = a_sitting(register, id_, digest="zenobias-file", responses=[ItemResponse("overlap", ANSWER, "1")])
    a_sitting(
        register,
        id_,
        digest="zenobias-file",
        graded_with="key 2",
        supersedes=first.id,
        score="27",
        responses=[ItemResponse("overlap", ANSWER, "0.5")],
    )
    a_practical(register, id_, examiner="Mrs. Practical Examiner")
    certificate = register.issue_certificate(id_, issued_on=MAY, years=2)
    register.correct_volunteer(id_, name=NAME)
    register.revoke(certificate.id, MAY, f"{NAME} asked for it")
    return id_, certificate.id


def test_the_person_is_gone_and_the_erasure_is_recorded(register: Register) -> None:
    id_, certificate = a_person_with_everything(register)
    register.erase(id_.lower(), MAY)
    everything = json.dumps(register.export(), ensure_ascii=False).casefold()
    for trace in ("zenobia", "quil", ANSWER, "mill street", "mrs. practical", "asked for it"):
        assert trace not in everything
    assert register.erasures() == [Erasure("V0001", MAY)]
    assert (register.changes()[-1].what, register.changes()[-1].subject) == ("volunteer erased", "V0001")
    with pytest.raises(RecordError, match="volunteer V0001 was erased on 2026-05-02"):
        register.volunteer(id_)
    with pytest.raises(RecordError, match="volunteer V0001 was erased"):
        a_sitting(register, id_)
    assert register.add_volunteer("Ben Example", added_on=MAY).id == "V0002"
    assert certificate in everything


def test_a_revocation_stays_published_and_scores_stay_for_the_statistics(register: Register) -> None:
    id_, certificate = a_person_with_everything(register)
    revoked = register.revoked()
    register.erase(id_, MAY)
    assert register.revoked() == revoked == [(certificate, MAY)]
    entry = register.certificate(certificate)
    assert (entry.volunteer_id, entry.name, entry.drives, entry.exam, entry.revoked_reason) == ("", "", (), "", None)
    first, second = sorted(register.sittings(), key=lambda row: row.score)
    assert [first.score, second.score] == ["26.5", "27"]
    assert {first.volunteer_id, second.volunteer_id} == {""}
    assert second.supersedes == first.id
    assert {str(row.taken_on) for row in (first, second)} == {"2026-01-01"}
    assert not {first.id, second.id} & {"S0001", "S0002"}
    assert register.item_responses(exam="supervisor") == [ItemResponse("overlap", None, "0.5", second.id)]


def test_a_certificate_without_a_person_can_still_be_revoked_and_is_never_due(register: Register) -> None:
    certificate = register.issue_certificate(a_ready_volunteer(register), issued_on=MAY, years=2)
    register.erase("V0001", MAY)
    assert register.due_for_renewal(certificate.valid_until, 30) == []
    register.revoke(certificate.id, MAY, "presented by a stranger")
    assert register.revoked() == [(certificate.id, MAY)]


def test_the_name_goes_where_it_stands_as_the_examiner_of_others(register: Register) -> None:
    id_, other = register.add_volunteer(NAME, added_on=MAY).id, register.add_volunteer("Al", added_on=MAY).id
    a_sitting(register, id_)
    a_practical(register, id_)
    register.issue_certificate(id_, issued_on=MAY, years=2)
    married = "Zenobia Oakapple"
    register.correct_volunteer(id_, name=married)
    a_practical(register, other, examiner=f"{NAME.upper()}, supervisor")
    a_practical(register, other, observed_on=MAY + dt.timedelta(days=1), examiner=married)
    a_practical(register, other, drive="motor", examiner=id_)
    a_practical(register, other, drive="crank-cam", examiner="Alice Alder")
    register.erase(id_, MAY)
    assert [row.examiner for row in register.practicals()] == [
        "(erased), supervisor",
        "(erased)",
        "(erased)",
        "Alice Alder",
    ]
    register.erase(other, MAY)
    assert register.practicals() == []


def test_other_people_are_left_as_they_were(register: Register) -> None:
    id_, _ = a_person_with_everything(register)
    other = a_ready_volunteer(register)
    register.issue_certificate(other, issued_on=MAY, years=2)

    def all_of_the_other() -> list[object]:
        return [
            register.volunteer(other),
            register.sittings(other),
            register.practicals(other),
            register.certificates(other),
        ]

    before = all_of_the_other()
    register.erase(id_, MAY)
    assert all_of_the_other() == before


def files_holding(folder: Path, *words: str) -> list[str]:
    traces = [word.encode() for word in words]
    return sorted({file.name for file in folder.iterdir() for trace in traces if trace in file.read_bytes()})


def test_no_trace_is_left_in_the_bytes_of_the_file_or_of_what_lies_beside_it(tmp_path: Path) -> None:
    words = ("Zenobia", "zenobia", "Quil", "quill", ANSWER, "zenobias-file")
    with open_register(tmp_path / "register.db") as register:
        for number in range(30):
            a_ready_volunteer(register, f"Somebody Else {number}")
        id_, _ = a_person_with_everything(register)
        assert files_holding(tmp_path, *words) != []
        register.erase(id_, MAY)
        # while it is still open: a program that ends tidies up, one that is killed does not
        assert files_holding(tmp_path, *words) == []
        assert len(register.volunteers()) == 30
    assert files_holding(tmp_path, *words) == []
    assert files_holding(tmp_path, "Somebody Else 29") == ["register.db"]


def test_remains_that_another_tool_left_in_the_file_are_cleared_too(tmp_path: Path) -> None:
    place = tmp_path / "register.db"
    with open_register(place) as register:
        id_ = a_ready_volunteer(register)
    with sqlite3.connect(place) as tool:
        tool.execute("PRAGMA secure_delete=OFF")
        tool.execute("INSERT INTO volunteer (id, name, added_on) VALUES ('V9', 'Zenobia', '2026-05-02')")
        tool.execute("DELETE FROM volunteer WHERE id = 'V9'")
    tool.close()
    assert files_holding(tmp_path, "Zenobia") == ["register.db"]
    with open_register(place) as register:
        register.erase(id_, MAY)
        assert files_holding(tmp_path, "Zenobia") == []


def test_remains_that_another_program_program_holds_are_told_and_cleared_by_asking_again(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("tinwright.store.store.WAIT_SECONDS", 0.2)
    place = tmp_path / "register.db"
    with open_register(place) as register:
        id_, _ = a_person_with_everything(register)
        reader = sqlite3.connect(place, isolation_level=None)
        reader.execute("BEGIN")
        reader.execute("SELECT count(*) FROM volunteer").fetchone()
        with pytest.raises(RecordError, match="V0001 is erased, but another program has the register open"):
            register.erase(id_, MAY)
        assert register.volunteers() == []
        reader.close()
        register.erase(id_, MAY)
        assert files_holding(tmp_path, "Zenobia") == []
        assert [line.what for line in register.changes()].count("volunteer erased") == 1


@pytest.mark.slow
def test_no_trace_is_left_in_the_tables_of_the_server(server: str, server_place: str) -> None:
    # its log of writes and its backups are the server's own matter, and the documents say so
    with open_register(server_place) as register:
        id_, _ = a_person_with_everything(register)
        checkpoint(server)
        assert tables_holding(server, "Zenobia") != []
        register.erase(id_, MAY)
        checkpoint(server)
        assert tables_holding(server, "Zenobia") == []


def checkpoint(server: str) -> None:
    with psycopg.connect(host=server, user="postgres", dbname="postgres", autocommit=True) as connection:
        connection.execute("CHECKPOINT")


def tables_holding(server: str, word: str) -> list[str]:
    files = (file for file in (Path(server) / "data" / "base").rglob("*") if file.is_file())
    return [file.name for file in files if word.encode() in file.read_bytes()]
