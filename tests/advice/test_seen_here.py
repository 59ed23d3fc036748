"""`tinwright cause` says what was confirmed at the programme's own benches, for the sealer named first of all."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner

from tinwright.cli import main

ROOT = Path(__file__).parents[2]
COUNTS = """\
through: 2026
invented: true
confirmed:
  - {sealer: bench-crank-sealer, defect: droop, cause: lid-curl-bent, times: 4}
  - {sealer: bench-lever-sealer, defect: droop, cause: product-in-seam, times: 1}
  - {sealer: bench-lever-sealer, defect: long-cover-hook, cause: first-roller-tight, times: 3}
"""


@pytest.fixture(scope="module")
def content(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("learned") / "content"
    shutil.copytree(ROOT / "content", folder)
    (folder / "sorrel-county" / "seen-here.yml").write_text(COUNTS)
    return folder


def said(content: Path, *arguments: str) -> str:
    done = CliRunner().invoke(main, ["cause", *arguments, "--content", str(content)])
    assert done.exit_code == 0, done.output
    return done.stdout


def test_how_often_is_said_in_counts_and_never_in_percent(content: Path) -> None:
    text = said(content, "--defect", "droop")
    assert "seen here 4 of 5 times\n" in text
    assert "The counts are invented as an example." in text
    assert "%" not in text


def test_a_sealer_that_is_named_is_told_apart(content: Path) -> None:
    text = said(content, "--defect", "droop", "--sealer", "bench-crank-sealer")
    assert "seen here 4 of 5 times, on this sealer 4 of 4\n" in text


def test_a_cause_confirmed_four_times_on_the_sealer_is_the_first_thing_named(content: Path) -> None:
    on_it, before = (
        said(folder, "--defect", "droop", "--sealer", "bench-crank-sealer") for folder in (content, ROOT / "content")
    )
    assert "Likely causes:\n  likely: Lid curl bent or dented\n" in on_it
    assert "Likely causes:\n  likely: Lid curl bent or dented\n" not in before


def test_a_measured_defect_is_told_by_its_dimension(content: Path) -> None:
    assert "seen here 3 of 3 times" in said(content, "--dimension", "cover-hook=longer")


def test_without_counts_there_is_no_word_of_them() -> None:
    for arguments in (["--defect", "droop"], ["--dimension", "cover-hook=longer"]):
        assert "seen here" not in said(ROOT / "content", *arguments)
