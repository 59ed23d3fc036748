"""A kit is written whole or not at all."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tinwright.errors import ExamError
from tinwright.examining.kit import KitFile, write_kit

if TYPE_CHECKING:
    from pathlib import Path

LONG = "x" * 300
"""No file system takes a name of so many letters."""


def files(*names: str) -> list[KitFile]:
    return [KitFile(name, name.encode(), "for tests", secret=False) for name in names]


def test_a_name_that_cannot_be_is_told(tmp_path: Path) -> None:
    with pytest.raises(ExamError, match="cannot be written: File name too long"):
        write_kit(files("a.pdf"), tmp_path / LONG)
    with pytest.raises(ExamError, match="cannot be written: File name too long"):
        write_kit(files("a.pdf", LONG), tmp_path)


def test_a_file_that_cannot_be_written_takes_the_others_back(tmp_path: Path) -> None:
    """The second one stands in a folder that is not there."""
    with pytest.raises(ExamError, match="cannot be written: No such file or directory"):
        write_kit(files("a.pdf", "none/b.pdf"), tmp_path)
    assert list(tmp_path.iterdir()) == []


def test_a_folder_made_for_it_goes_again(tmp_path: Path) -> None:
    with pytest.raises(ExamError):
        write_kit(files("a.pdf", "none/b.pdf"), tmp_path / "new" / "deep")
    assert not (tmp_path / "new" / "deep").exists()


def test_what_else_lies_in_the_folder_stays(tmp_path: Path) -> None:
    (tmp_path / "mine.txt").write_text("mine", encoding="utf-8")
    write_kit(files("a.pdf", "b.pdf"), tmp_path)
    assert {file.name: file.read_text(encoding="utf-8") for file in tmp_path.iterdir()} == {
        "mine.txt": "mine",
        "a.pdf": "a.pdf",
        "b.pdf": "b.pdf",
    }
