"""`tinwright exam make`: files in a private folder, all or none, and one clear line where it cannot be."""

from __future__ import annotations

import os
import stat
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from examining.exam_banks import lay_bank
from tinwright.cli import main
from tinwright.examining.form import read_form, read_key

CONTENT = Path(__file__).parents[2] / "content"


@pytest.fixture(scope="module")
def bank(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return lay_bank(tmp_path_factory.mktemp("command"))


def make(bank: Path, out: Path, *more: str, blueprint: str = "small") -> Result:
    given = ["--quizzes", str(bank), "--content", str(CONTENT), "--out", str(out), "--on", "2026-11-25", *more]
    return CliRunner().invoke(main, ["exam", "make", blueprint, *given])


@pytest.fixture(scope="module")
def done(bank: Path, tmp_path_factory: pytest.TempPathFactory) -> tuple[Result, Path]:
    out = tmp_path_factory.mktemp("made") / "spring"
    return make(bank, out, "--forms", "2", "--seed", "4"), out


def test_all_is_made_and_only_its_owner_may_read_it(done: tuple[Result, Path]) -> None:
    result, out = done
    assert result.exit_code == 0, result.output
    forms = [
        f"small-{letter}{end}"
        for letter in ("A", "AB2", "B")
        for end in ("-answers.pdf", "-key.pdf", ".form.json", ".html", ".key.json", ".pdf")
    ]
    drives = [f"small-practical-{kind}-sealer.pdf" for kind in ("bench-crank", "bench-lever", "motor")]
    assert sorted(file.name for file in out.iterdir()) == sorted([*forms, *drives])
    assert {stat.S_IMODE(file.stat().st_mode) for file in out.iterdir()} == {0o600}
    assert stat.S_IMODE(out.stat().st_mode) == 0o700
    for letter in "AB":
        form = read_form(out / f"small-{letter}.form.json")
        key = read_key(out / f"small-{letter}.key.json", form)
        assert f"form {form.code}: passes with {key.cut} of 10 points" in result.output


def test_what_is_secret_is_told_apart_from_what_is_handed_out(done: tuple[Result, Path]) -> None:
    before, _, after = done[0].output.partition("keep to yourself:")
    for name in ("small-A-key.pdf", "small-A.key.json", "small-A.form.json"):
        assert name in after
        assert name not in before
    for name in ("small-A.pdf", "small-A.html", "small-A-answers.pdf"):
        assert name in before


def test_a_second_run_takes_no_form_away(done: tuple[Result, Path], bank: Path) -> None:
    _, out = done
    before = {file.name: file.read_bytes() for file in out.iterdir()}
    result = make(bank, out, "--seed", "5")
    assert result.exit_code == 1
    assert "small-A.pdf is there already: name another folder" in result.output
    assert {file.name: file.read_bytes() for file in out.iterdir()} == before


def test_items_of_forms_that_were_used_do_not_come_again(done: tuple[Result, Path], bank: Path, tmp_path: Path) -> None:
    _, out = done
    used = ["--used", str(out / "small-A.form.json")]
    assert make(bank, tmp_path / "autumn", "--seed", "4", *used).exit_code == 0
    earlier = {item.id for item in read_form(out / "small-A.form.json").items}
    assert not earlier & {item.id for item in read_form(tmp_path / "autumn" / "small-A.form.json").items}
    result = make(bank, tmp_path / "winter", "--used", str(out / "small-A.key.json"))
    assert (result.exit_code, "got 'key'" in result.output) == (1, True)
    assert not (tmp_path / "winter").exists()


@pytest.mark.parametrize("folder", ["site", "content", "quizzes", "docs"])
def test_nothing_is_written_where_it_might_be_published(bank: Path, tmp_path: Path, folder: str) -> None:
    if folder == "docs":
        (tmp_path / "mkdocs.yml").touch()
    result = make(bank, tmp_path / folder / "forms")
    assert result.exit_code == 1
    assert "private records must not lie in" in result.output
    assert not (tmp_path / folder).exists()


@pytest.mark.parametrize(
    ("change", "told"),
    [
        ({"blueprint": "smal"}, "no blueprint is called 'smal'; did you mean 'small'?"),
        ({"forms": "3"}, "topic sealing: 3 forms of 6 need 18 items, only 16 can be placed (16 there, 0 used before)"),
        ({"examination": "nowhere"}, "nowhere:1:1: expected a folder of examination items, found none"),
        ({"used": "none.form.json"}, "none.form.json: cannot be read: No such file or directory"),
    ],
)
def test_what_cannot_be_made_is_told_in_one_line_and_leaves_nothing(
    bank: Path, tmp_path: Path, change: dict[str, str], told: str
) -> None:
    blueprint = change.pop("blueprint", "small")
    options = [part for name, value in change.items() for part in (f"--{name}", value)]
    result = make(bank, tmp_path / "out", *options, blueprint=blueprint)
    assert result.exit_code == 1
    assert told in result.output
    assert isinstance(result.exception, SystemExit)
    assert not (tmp_path / "out").exists()


def test_where_nothing_can_be_printed_it_is_told_before_the_long_work(
    bank: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(sys.modules, "weasyprint", None)
    result = make(bank, tmp_path / "out", blueprint="there is none")
    assert (result.exit_code, 'pip install "tinwright[paper]"' in result.stderr) == (1, True)
    assert result.stderr.count("\n") == 1
    assert not (tmp_path / "out").exists()


def test_misuse_ends_with_2(bank: Path, tmp_path: Path) -> None:
    assert make(bank, tmp_path, "--forms", "0").exit_code == 2
    assert make(bank, tmp_path, "--seed", "-1").exit_code == 2
    assert CliRunner().invoke(main, ["exam", "make", "small"]).exit_code == 2


@pytest.mark.skipif(os.geteuid() == 0, reason="root may write anywhere")
def test_a_folder_that_cannot_be_written_is_told(bank: Path, tmp_path: Path) -> None:
    tmp_path.chmod(0o500)
    result = make(bank, tmp_path / "out")
    tmp_path.chmod(0o700)
    assert (result.exit_code, "cannot be written: Permission denied" in result.output) == (1, True)


def test_a_file_in_the_place_of_the_folder_is_told(bank: Path, tmp_path: Path) -> None:
    (tmp_path / "out").write_text("mine", encoding="utf-8")
    result = make(bank, tmp_path / "out")
    assert result.exit_code in {1, 2}
    assert (tmp_path / "out").read_text(encoding="utf-8") == "mine"
