"""What is made once in a run: made by the first who asks, and told to everybody when it fails."""

from __future__ import annotations

import threading
import time
from concurrent.futures import ThreadPoolExecutor
from typing import TYPE_CHECKING

import pytest

from once import made_once, value_once

if TYPE_CHECKING:
    from pathlib import Path


def test_two_who_ask_at_once_get_what_one_of_them_made(tmp_path_factory: pytest.TempPathFactory) -> None:
    """Two threads, as two workers are two processes: each opens the lock for itself."""
    tmp_path_factory.getbasetemp()  # which pytest makes when first asked, for one thread alone
    both = threading.Barrier(2)
    made: list[int] = []

    def make(folder: Path) -> None:
        made.append(1)
        time.sleep(0.1)  # long enough for the other to come in, if it could
        (folder / "file").touch()

    def ask() -> list[str]:
        both.wait()
        return [file.name for file in made_once(tmp_path_factory, "for-two", make).iterdir()]

    with ThreadPoolExecutor(2) as pool:
        assert [asked.result() for asked in [pool.submit(ask), pool.submit(ask)]] == [["file"], ["file"]]
    assert made == [1]


def test_a_value_is_worked_out_once(tmp_path_factory: pytest.TempPathFactory) -> None:
    asked: list[int] = []

    def work_out() -> int:
        asked.append(1)
        return 7

    assert [value_once(tmp_path_factory, "a-value", work_out) for _ in range(2)] == [7, 7]
    assert asked == [1]


def test_what_cannot_be_made_fails_with_its_reason_for_all_who_ask(tmp_path_factory: pytest.TempPathFactory) -> None:
    def fail(folder: Path) -> None:
        assert folder.is_file(), "the reason"

    for _ in range(2):
        with pytest.raises(pytest.fail.Exception, match="the reason"):
            made_once(tmp_path_factory, "not-made", fail)
