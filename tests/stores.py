"""Registers to test with: an SQLite file, and a database on a PostgreSQL server started for these tests alone."""

from __future__ import annotations

import itertools
import os
import pwd
import shutil
import signal
import subprocess
import tempfile
import time
from pathlib import Path
from typing import TYPE_CHECKING

import psycopg
import pytest

from tinwright.register import Register, open_register

if TYPE_CHECKING:
    from collections.abc import Iterator

BACK_ENDS = ("sqlite", "postgresql")
NUMBERS = itertools.count()


@pytest.fixture(scope="session")
def server() -> Iterator[str]:
    """Start PostgreSQL on a socket in a folder of its own, and give the socket's folder."""
    programs = _programs()
    # a short path: a socket's name has room for about a hundred characters
    folder = Path(tempfile.mkdtemp(prefix="twpg"))
    user = _other_user()
    if user is not None:
        shutil.chown(folder, user)
    base, log = folder / "data", folder / "log"
    try:
        settings = ["-A", "trust", "-U", "postgres", "-E", "UTF8", "--locale=C", "--no-sync"]
        made = subprocess.run(
            [programs / "initdb", "-D", base, *settings], user=user, cwd=folder, capture_output=True, check=False
        )
        assert made.returncode == 0, made.stderr.decode()
        options = [f"-cunix_socket_directories={folder}", "-clisten_addresses=", "-cfsync=off", "-cshared_buffers=16MB"]
        with log.open("wb") as out:
            process = subprocess.Popen(
                [programs / "postgres", "-D", base, *options], user=user, cwd=folder, stdout=out, stderr=out
            )
        try:
            _wait_for(folder, process, log)
            yield str(folder)
        finally:
            process.send_signal(signal.SIGINT)
            process.wait(timeout=60)
    finally:
        shutil.rmtree(folder)


def _programs() -> Path:
    places = [*sorted(Path("/usr/lib/postgresql").glob("*/bin"), reverse=True)]
    if found := shutil.which("initdb"):
        places.append(Path(found).parent)
    for place in places:
        if (place / "initdb").is_file() and (place / "postgres").is_file():
            return place
    raise RuntimeError("PostgreSQL is missing; scripts/test installs the system package postgresql")


def _other_user() -> str | None:
    """Name an account to run the server as: it refuses to run as root."""
    if os.geteuid() != 0:
        return None
    names = {entry.pw_name for entry in pwd.getpwall()}
    return "postgres" if "postgres" in names else "nobody"


def _wait_for(folder: Path, process: subprocess.Popen[bytes], log: Path) -> None:
    end = time.monotonic() + 60
    while True:
        assert process.poll() is None, log.read_text(encoding="utf-8")
        try:
            psycopg.connect(host=str(folder), user="postgres", dbname="postgres").close()
        except psycopg.OperationalError:
            assert time.monotonic() < end, log.read_text(encoding="utf-8")
            time.sleep(0.05)
        else:
            return


@pytest.fixture
def sqlite_place(tmp_path: Path) -> str:
    return str(tmp_path / "register.db")


@pytest.fixture
def server_place(server: str) -> Iterator[str]:
    """Give the address of an empty database, and drop it afterwards."""
    name = f"register_{next(NUMBERS)}"
    with psycopg.connect(host=server, user="postgres", dbname="postgres", autocommit=True) as connection:
        connection.execute(f"CREATE DATABASE {name}".encode())
        yield f"postgresql+psycopg://postgres@/{name}?host={server}"
        connection.execute(f"DROP DATABASE {name} WITH (FORCE)".encode())


@pytest.fixture(params=[BACK_ENDS[0], pytest.param(BACK_ENDS[1], marks=pytest.mark.slow)])
def place(request: pytest.FixtureRequest) -> str:
    """Give a place for a register, once on each database."""
    kind = {"sqlite": "sqlite_place", "postgresql": "server_place"}[request.param]
    return str(request.getfixturevalue(kind))


@pytest.fixture
def register(place: str) -> Iterator[Register]:
    """Give an empty register, once on each database."""
    with open_register(place, by="tester") as opened:
        yield opened
