"""What takes long to make and is only read: made once in a run, however many workers the tests have."""

from __future__ import annotations

import fcntl
import os
import pickle
import traceback
from typing import TYPE_CHECKING, TypeVar

import pytest

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

Value = TypeVar("Value")


def made_once(factory: pytest.TempPathFactory, name: str, make: Callable[[Path], None]) -> Path:
    """Return a folder that `make` fills, in the first worker that asks; the others wait for it and get the same one.

    Whoever asks must not change it. When `make` fails, it fails for everybody, with the same words.
    """
    shared = factory.getbasetemp()
    if "PYTEST_XDIST_WORKER" in os.environ:
        shared = shared.parent
    folder, said = shared / f"once-{name}", shared / f"once-{name}-said"
    with (shared / f"once-{name}-lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)  # the system lets it go even when its worker is killed
        if not said.is_file():
            folder.mkdir(exist_ok=True)
            problem = ""
            try:
                make(folder)
            except (Exception, pytest.fail.Exception):  # noqa: BLE001 - told below
                problem = traceback.format_exc()
            said.write_text(problem, encoding="utf-8")
    if problem := said.read_text(encoding="utf-8"):
        pytest.fail(problem, pytrace=False)
    return folder


def value_once(factory: pytest.TempPathFactory, name: str, make: Callable[[], Value]) -> Value:
    """Return what `make` returns, which the first worker that asks works out and the others read as it left it."""

    def keep(folder: Path) -> None:
        (folder / "value").write_bytes(pickle.dumps(make()))

    value: Value = pickle.loads((made_once(factory, name, keep) / "value").read_bytes())  # noqa: S301 - our own
    return value
