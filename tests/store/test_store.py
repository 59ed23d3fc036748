"""Where a store may lie, how it is opened and brought up to date, and what it says when it cannot be."""

from __future__ import annotations

import datetime as dt
import json
import os
import sqlite3
import stat
import subprocess
import sys
from pathlib import Path

import psycopg
import pytest
import sqlalchemy as sa
from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext
from alembic.script import ScriptDirectory

import tinwright.store
from register_entries import MAY, a_ready_volunteer
from tinwright.errors import RecordError
from tinwright.given_file import read_given
from tinwright.register import open_register
from tinwright.store import open_store
from tinwright.store.migrating import NEWEST, VERSION_TABLE, bring_up_to_date
from tinwright.store.network_shares import network_share
from tinwright.store.store import _engine_for
from tinwright.store.tables import metadata

VERSIONS = ScriptDirectory(str(Path(tinwright.store.__file__).parent / "migrations"))


@pytest.mark.parametrize(
    "folder", ["site", "content", "quizzes", "Site/deeper", "content/private", "public_html", "www/office", "_site"]
)
def test_no_register_is_made_where_it_might_be_published(tmp_path: Path, folder: str) -> None:
    place = tmp_path / folder / "register.db"
    place.parent.mkdir(parents=True)
    with pytest.raises(RecordError, match=r"private records must not lie in the folder .*, which is published"):
        open_register(place)
    assert not place.exists()


@pytest.mark.parametrize("mark", ["index.html", "mkdocs.yml"])
def test_no_register_is_made_below_a_web_site_or_its_sources(tmp_path: Path, mark: str) -> None:
    (tmp_path / mark).touch()
    place = tmp_path / "private" / "register.db"
    place.parent.mkdir()
    with pytest.raises(RecordError) as refusal:
        open_register(place)
    assert str(refusal.value) == f"{place}: private records must not lie in {tmp_path}, a web site's ({mark} is there)"
    assert not place.exists()


def test_a_link_into_the_site_or_out_of_it_is_seen_through(tmp_path: Path) -> None:
    (tmp_path / "site").mkdir()
    (tmp_path / "harmless").symlink_to(tmp_path / "site")
    (tmp_path / "private").mkdir()
    (tmp_path / "site" / "link").symlink_to(tmp_path / "private")
    for place in (tmp_path / "harmless" / "register.db", tmp_path / "site" / "link" / "register.db"):
        with pytest.raises(RecordError, match="private records must not lie"):
            open_register(place)


def test_a_register_moved_into_the_site_is_not_opened_there(tmp_path: Path) -> None:
    open_register(tmp_path / "register.db").close()
    (tmp_path / "site").mkdir()
    (tmp_path / "register.db").rename(tmp_path / "site" / "register.db")
    with pytest.raises(RecordError, match="private records must not lie"):
        open_register(tmp_path / "site" / "register.db")


def test_only_its_owner_may_read_a_register_and_what_lies_beside_it(tmp_path: Path) -> None:
    place = tmp_path / "register.db"
    before = os.umask(0)
    try:
        with open_register(place) as register:
            a_ready_volunteer(register)
            modes = {file.name: stat.S_IMODE(file.stat().st_mode) for file in tmp_path.iterdir()}
    finally:
        os.umask(before)
    assert modes == {"register.db": 0o600, "register.db-wal": 0o600, "register.db-shm": 0o600}


@pytest.mark.parametrize("mode", [0o664, 0o777, 0o640, 0o622, 0o700])
def test_a_register_is_its_owners_alone_whatever_it_was_before(tmp_path: Path, mode: int) -> None:
    place = tmp_path / "register.db"
    open_register(place).close()
    place.chmod(mode)
    other = tmp_path / "register.db-wal"
    other.touch()
    other.chmod(mode)
    with open_register(place) as register:
        register.add_volunteer("Ann Example", added_on=MAY)
        modes = {stat.S_IMODE(file.stat().st_mode) for file in tmp_path.iterdir()}
    assert modes == {0o600}


def test_another_programs_file_keeps_what_others_may_do_with_it(tmp_path: Path) -> None:
    place = tmp_path / "notes.txt"
    place.write_text("Not a register, but long enough to have a header of sixteen bytes and more.", encoding="utf-8")
    place.chmod(0o664)
    with pytest.raises(RecordError, match="expected a register, got a file of another kind"):
        open_register(place)
    assert stat.S_IMODE(place.stat().st_mode) == 0o664


def test_a_pipe_and_a_device_are_no_register_and_nobody_waits_for_them(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe")
    for place, kind in ((tmp_path / "pipe", "a pipe"), (Path("/dev/zero"), "a device"), (tmp_path, "a folder")):
        with pytest.raises(RecordError) as refusal:
            open_register(place)
        assert str(refusal.value) == f"{place}: expected a file, got {kind}"


MOUNTS = """\
24 1 0:20 / / rw,relatime shared:1 - ext4 /dev/sda1 rw
25 24 0:21 / /mnt/our\\040office rw,relatime shared:2 master:3 - cifs //nas/office rw
26 24 0:22 / /mnt/far rw - nfs4 nas:/far rw
27 26 0:23 / /mnt/far/near rw - ext4 /dev/sdb1 rw
28 24 0:24 / /mnt/twice rw - ext4 /dev/sdc1 rw
29 28 0:25 / /mnt/twice rw - fuse.sshfs ann@far: rw
"""


@pytest.mark.parametrize(
    ("place", "share"),
    [
        ("/mnt/our office/register.db", "cifs"),
        ("/mnt/far/register.db", "nfs4"),
        ("/mnt/far/near/register.db", None),
        ("/mnt/farther/register.db", None),
        ("/mnt/twice/a/register.db", "fuse.sshfs"),
        ("/office/ann/register.db", None),
    ],
)
def test_a_network_share_is_told_from_the_list_of_mounts(place: str, share: str | None) -> None:
    assert network_share(Path(place), MOUNTS) == share


def test_a_register_on_a_network_share_is_refused_with_the_reason(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    mounts = tmp_path / "mountinfo"
    mounts.write_text(f"24 1 0:20 / {tmp_path} rw - nfs4 nas:/office rw\n", encoding="utf-8")
    monkeypatch.setattr("tinwright.store.network_shares._MOUNTS", mounts)
    with pytest.raises(
        RecordError, match=r"lies on a network share \(nfs4\), where two writers at once can destroy it"
    ):
        open_register(tmp_path / "register.db")
    assert not (tmp_path / "register.db").exists()


def test_a_file_that_is_named_is_read_only_when_it_is_one_and_not_too_long(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe")
    (tmp_path / "sheet.csv").mkdir()
    with (tmp_path / "long").open("wb") as long:
        long.truncate(200_000_000)
    for name, told in (
        ("pipe", "expected a file, got a pipe"),
        ("sheet.csv", "expected a file, got a folder"),
        ("/dev/zero", "expected a file, got a device"),
        ("long", "expected at most 1,000 bytes, got more"),
        ("none", "cannot be read: No such file or directory"),
    ):
        with pytest.raises(RecordError) as refusal:
            read_given(tmp_path / name, 1000)
        assert str(refusal.value) == told
    (tmp_path / "long").write_bytes(b"x" * 1000)
    assert read_given(tmp_path / "long", 1000) == b"x" * 1000


def test_sqlite_is_set_to_lose_nothing_and_leave_nothing(sqlite_place: str) -> None:
    # the numbers are SQLite's: sqlite.org/pragma.html, synchronous 2 is FULL
    with open_store(sqlite_place) as store, store.writing() as connection:
        wanted = {
            "journal_mode": "wal",
            "synchronous": 2,
            "foreign_keys": 1,
            "secure_delete": 1,
            "busy_timeout": 30_000,
        }
        found = {name: connection.exec_driver_sql(f"PRAGMA {name}").scalar() for name in wanted}
    assert found == wanted


def test_a_second_writer_waits_for_its_turn_from_the_start(sqlite_place: str) -> None:
    with open_store(sqlite_place) as store, store.writing():
        other = sqlite3.connect(sqlite_place, timeout=0)
        try:
            with pytest.raises(sqlite3.OperationalError, match="database is locked"):
                other.execute("BEGIN IMMEDIATE")
        finally:
            other.close()


def test_nothing_is_made_when_only_looking(tmp_path: Path) -> None:
    with pytest.raises(RecordError, match=r"register\.db: there is no register; adding the first volunteer makes one"):
        open_register(tmp_path / "register.db", create=False)
    assert list(tmp_path.iterdir()) == []


def test_what_is_not_a_register_is_left_alone(tmp_path: Path) -> None:
    text, other, folder = tmp_path / "notes.txt", tmp_path / "other.db", tmp_path / "folder"
    text.write_text("Not a register, but long enough to have a header of sixteen bytes and more.", encoding="utf-8")
    folder.mkdir()
    with sqlite3.connect(other) as connection:
        connection.execute("CREATE TABLE volunteer (id TEXT)")
    connection.close()
    before = {file: file.read_bytes() for file in (text, other)}
    for place, message in (
        (text, "expected a register, got a file of another kind"),
        (other, "expected a register, got another program's database"),
        (folder, "expected a file, got a folder"),
        (tmp_path / "none" / "register.db", f"there is no folder {tmp_path / 'none'}"),
    ):
        with pytest.raises(RecordError) as refusal:
            open_register(place)
        assert str(refusal.value) == f"{place}: {message}"
    assert text.read_bytes() == before[text]
    with sqlite3.connect(other) as connection:
        assert connection.execute("SELECT name FROM sqlite_master").fetchall() == [("volunteer",)]
    connection.close()


@pytest.mark.slow
def test_a_database_of_another_program_on_the_server_is_left_alone(server_place: str) -> None:
    engine, _ = _engine_for(server_place, create=True)
    with engine.begin() as connection:
        connection.execute(sa.text("CREATE TABLE volunteer (id TEXT)"))
    with pytest.raises(RecordError, match="expected a register, got another program's database"):
        open_register(server_place)
    with engine.connect() as connection:
        assert sa.inspect(connection).get_table_names() == ["volunteer"]
    engine.dispose()


@pytest.mark.parametrize("address", ["mysql://host/db", "sqlite:///register.db", "postgresql+asyncpg://host/db", "://"])
def test_an_address_of_another_kind_is_refused(address: str) -> None:
    with pytest.raises(RecordError, match=r"expected a file or postgresql\+psycopg://user@host/database, got"):
        open_register(address)


def test_a_server_that_is_not_there_is_told_in_one_line_without_the_password(tmp_path: Path) -> None:
    with pytest.raises(RecordError) as refusal:
        open_register(f"postgresql://ann:secret@/register?host={tmp_path}")
    assert "the server cannot be reached" in str(refusal.value)
    assert "secret" not in str(refusal.value)
    assert "\n" not in str(refusal.value)


def test_a_missing_database_is_told_in_plain_words(server: str) -> None:
    with pytest.raises(RecordError, match=r"the server (cannot be reached|has no such database)"):
        open_register(f"postgresql+psycopg://postgres@/nowhere?host={server}")


def test_a_damaged_register_is_told_in_one_line(tmp_path: Path) -> None:
    place = tmp_path / "register.db"
    with open_register(place) as register:
        for number in range(50):
            register.add_volunteer(f"Ann {number}", added_on=MAY)
    content = bytearray(place.read_bytes())
    for page in range(4096, len(content), 4096):
        content[page : page + 200] = b"\xff" * 200
    place.write_bytes(content)
    with pytest.raises(RecordError, match="the file is damaged") as refusal, open_register(place) as register:
        register.volunteers()
    assert "\n" not in str(refusal.value)


def test_a_message_never_shows_a_value_that_was_entered(place: str) -> None:
    statement = "INSERT INTO volunteer (id, name, added_on) VALUES ('V0001', 'Ann Example', '2026-05-02')"
    with open_store(place) as store:
        with store.writing() as connection:
            connection.execute(sa.text(statement))
        with pytest.raises(RecordError) as refusal, store.writing() as connection:
            connection.execute(sa.text(statement))
    assert "somebody else entered the same thing" in str(refusal.value)
    assert "Ann" not in str(refusal.value)


def test_the_newest_migration_makes_the_tables_that_the_code_expects(place: str) -> None:
    with open_store(place) as store, store.reading() as connection:
        context = MigrationContext.configure(connection, opts={"compare_type": True, "version_table": VERSION_TABLE})
        assert compare_metadata(context, metadata) == []


def test_the_newest_revision_is_the_one_the_code_names() -> None:
    assert VERSIONS.get_heads() == [NEWEST]
    assert VERSIONS.get_bases() == ["0001"]


def test_upgrading_from_the_first_revision_keeps_what_is_in_it(place: str) -> None:
    engine, shown = _engine_for(place, create=True)
    bring_up_to_date(engine, shown, to="0001")
    day = dt.date(2026, 5, 2)
    with engine.connect().execution_options(writes=True) as connection, connection.begin():
        assert "certificate" not in sa.inspect(connection).get_table_names()
        first = sa.MetaData()
        first.reflect(connection, only=FIRST_TABLES)
        tables = first.tables
        for name, row in (
            ("volunteer", {"id": "V0001", "name": "Zoë Example", "added_on": day}),
            ("sitting", {**SITTING, "volunteer_id": "V0001", "taken_on": day}),
            ("item_response", {"sitting_id": "S0001", "item_id": "overlap", "response": "b", "score": "1"}),
            ("change", {"at": "2026-05-02T10:00:00Z", "by": "ann", "what": "sitting recorded", "subject": "S0001"}),
        ):
            connection.execute(sa.insert(tables[name]).values(row))
        connection.execute(sa.text("UPDATE counter SET last = 1 WHERE name IN ('volunteer', 'sitting')"))
        old = {name: connection.execute(sa.select(tables[name])).all() for name in FIRST_TABLES}
    engine.dispose()
    old["counter"] += [("desk", 0), ("coaching", 0)]  # the third and the fifth revision's own
    with open_register(place) as register:
        with register.store.reading() as connection:
            assert {name: connection.execute(sa.select(tables[name])).all() for name in FIRST_TABLES} == old
        assert register.export()["revision"] == NEWEST
        assert register.volunteer("V0001").name == "Zoë Example"
        assert a_ready_volunteer(register) == "V0002"


FIRST_TABLES = ("volunteer", "sitting", "item_response", "practical", "erasure", "change", "counter")
SITTING = {
    "id": "S0001",
    "exam": "supervisor",
    "form": "A",
    "score": "26.5",
    "out_of": "30",
    "passed": True,
    "digest": "d",
    "graded_with": "k",
    "profile": {"set-up": ["1", "2"]},
    "supersedes": None,
}


def test_an_upgrade_that_breaks_off_leaves_the_register_as_it_was(place: str) -> None:
    engine, shown = _engine_for(place, create=True)
    bring_up_to_date(engine, shown, to="0001")
    # in the way of the index that the second revision makes last
    with engine.connect().execution_options(writes=True) as connection, connection.begin():
        connection.execute(sa.text("CREATE INDEX ix_certificate_revoked_on ON volunteer (name)"))
    with pytest.raises(RecordError):
        open_register(place)
    with engine.connect() as connection:
        assert "certificate" not in sa.inspect(connection).get_table_names()
        assert connection.execute(sa.text("SELECT version_num FROM schema_revision")).scalars().all() == ["0001"]
    with engine.connect().execution_options(writes=True) as connection, connection.begin():
        connection.execute(sa.text("DROP INDEX ix_certificate_revoked_on"))
    engine.dispose()
    open_register(place).close()


def test_a_register_of_a_newer_version_is_refused_and_left_alone(place: str) -> None:
    with open_store(place) as store, store.writing() as connection:
        connection.execute(sa.text("UPDATE schema_revision SET version_num = '9999'"))
    with pytest.raises(RecordError, match=r"made by a newer version \(9999; this one knows up to"):
        open_register(place)


def test_the_database_is_loaded_by_no_command_that_does_without() -> None:
    code = "import json, sys, tinwright.cli; print(json.dumps(sorted(sys.modules)))"
    loaded = json.loads(subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout)
    assert not {"sqlalchemy", "alembic", "psycopg", "tinwright.store"} & set(loaded)


@pytest.mark.parametrize("encoding", ["LATIN1", "SQL_ASCII", "EUC_JP"])
def test_a_server_database_that_cannot_hold_every_letter_is_told_in_one_line(server: str, encoding: str) -> None:
    name = f"register_in_{encoding.lower()}"
    with psycopg.connect(host=server, user="postgres", dbname="postgres", autocommit=True) as connection:
        connection.execute(f"CREATE DATABASE {name} ENCODING '{encoding}' LOCALE 'C' TEMPLATE template0".encode())
        try:
            with pytest.raises(RecordError) as refusal:
                open_register(f"postgresql+psycopg://postgres@/{name}?host={server}")
        finally:
            connection.execute(f"DROP DATABASE {name} WITH (FORCE)".encode())
    told = f"expected a database in the encoding UTF8, got {encoding}: make one with createdb --encoding=UTF8 --template=template0"
    assert str(refusal.value).endswith(told)
