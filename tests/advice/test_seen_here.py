"""`tinwright cause` says what was confirmed at the programme's own benches, for the sealer named first of all."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from click.testing import CliRunner

from bench_content import lay_bench
from tinwright.cli import main

if TYPE_CHECKING:
    from pathlib import Path

COUNTS = """\
through: 2026
invented: true
confirmed:
  - {sealer: bench-crank-sealer, defect: droop, cause: flange-bent, times: 4}
  - {sealer: bench-lever-sealer, defect: droop, cause: product-in-seam, times: 1}
  - {sealer: bench-lever-sealer, defect: loose-seam, cause: chuck-worn, times: 3}
"""


@pytest.fixture(scope="module")
def plain(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Content without counts."""
    return lay_bench(tmp_path_factory.mktemp("plain"))


@pytest.fixture(scope="module")
def content(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = lay_bench(tmp_path_factory.mktemp("learned"))
    (folder / "seen-here.yml").write_text(COUNTS)
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


def test_a_cause_confirmed_four_times_on_the_sealer_is_the_first_thing_named(content: Path, plain: Path) -> None:
    on_it, before = (said(folder, "--defect", "droop", "--sealer", "bench-crank-sealer") for folder in (content, plain))
    assert "Likely causes:\n  likely: Flange bent or dented before sealing\n" in on_it
    assert "Likely causes:\n  likely: Flange bent or dented before sealing\n" not in before


def test_a_measured_defect_is_told_by_its_dimension(content: Path) -> None:
    assert "seen here 3 of 3 times" in said(content, "--dimension", "seam-thickness=thicker")


def test_without_counts_there_is_no_word_of_them(plain: Path) -> None:
    for arguments in (["--defect", "droop"], ["--dimension", "seam-thickness=thicker"]):
        assert "seen here" not in said(plain, *arguments)
