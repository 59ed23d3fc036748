"""A county's own program on top of the shared knowledge: what `tinwright new` asks and writes."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

import pytest
from click.testing import CliRunner, Result

from demo_site import ROOT, mkdocs
from tinwright.cli import content as command
from tinwright.cli import main
from tinwright.knowledge import find_problems, load
from tinwright.seaming import SealerSetup, set_up

if TYPE_CHECKING:
    from pathlib import Path

SAID = {
    "--county": "Fern County",
    "--contact": 'Call 555-0101: ask for "cans" # any day.',
    "--altitude": "900",
    "--kitchen": "Main: kitchen",
}
CRANK = "Old crank; crank-cam; 307, 401"


def new(folder: Path, *sealers: str, **other: str) -> Result:
    said = [word for pair in {**SAID, **other}.items() for word in pair]
    said += [word for sealer in sealers for word in ("--sealer", sealer)]
    return CliRunner().invoke(main, ["new", str(folder), *said])


def left_in(folder: Path) -> list[Path]:
    return list(folder.rglob("*"))


@pytest.mark.parametrize("drive", ["crank-cam", "hand-lever", "motor"])
def test_each_drive_alone_makes_a_program_with_all_shared_defects_and_no_problem(tmp_path: Path, drive: str) -> None:
    result = new(tmp_path / "ours", f"Our sealer; {drive}; 307 401")
    assert (result.exit_code, result.stderr) == (0, "")
    root = tmp_path / "ours" / "content"
    assert find_problems(root) == []
    kb = load(root)
    shared = {path.stem for path in (ROOT / "content" / "shared" / "defects").glob("*.yml")}
    assert shared
    assert set(kb.defects) >= shared
    assert not kb.programme.demonstration
    assert kb.programme.kitchens[0].name == "Main: kitchen"
    assert kb.programme.contact == SAID["--contact"]


def test_no_measure_is_invented(tmp_path: Path) -> None:
    new(tmp_path / "ours", CRANK)
    (sealer,) = load(tmp_path / "ours" / "content").sealers.values()
    assert (sealer.seat_height, sealer.spring_travel, sealer.spacers, sealer.roller_slots) == (None, None, (), ())
    assert {(a.thread, a.travel_per_turn, a.safe_step) for a in sealer.adjusters} == {(None, None, None)}
    assert not [a for a in sealer.adjusters if "clockwise" in a.tighten + a.loosen]


def test_a_sealer_whose_seat_is_not_measured_fits_no_can_and_says_what_to_measure() -> None:
    found = set_up("307x409", SealerSetup(("307",), None))
    assert not found.fits
    assert found.stack.exact is None
    assert found.problems == ("Measure this sealer first: from the chuck's seat to the bare base, lever home.",)


@pytest.mark.slow
def test_the_site_is_built_strictly_and_holds_no_word_of_the_demonstration(tmp_path: Path) -> None:
    new(tmp_path / "ours", CRANK, "Lever; hand-lever; 307")
    built = mkdocs("build", "--strict", "--quiet", folder=tmp_path / "ours")
    assert built.returncode == 0, built.stderr
    issuer = json.loads(next((ROOT / "content").glob("*/certificates/issuer.json")).read_text(encoding="utf-8"))
    words = ["sorrel", "mill street", "fairground", "bench-crank-sealer", "bench crank sealer", *keys_of(issuer)]
    assert len(words) > 5
    files = {path: path.read_bytes().lower() for path in (tmp_path / "ours").rglob("*") if path.is_file()}
    found = [(path.name, word) for path, text in files.items() for word in words if word.lower().encode() in text]
    assert found == []
    site = tmp_path / "ours" / "site"
    assert "measure this first" in (site / "sealers" / "old-crank.html").read_text(encoding="utf-8")
    assert "Measure this sealer first" in (site / "set-up" / "old-crank-307x409.html").read_text(encoding="utf-8")
    assert (site / "measure-first.html").is_file()


def keys_of(value: object) -> list[str]:
    """Every multibase key in the issuer's file."""
    if isinstance(value, dict):
        return [key for each in value.values() for key in keys_of(each)]
    if isinstance(value, list):
        return [key for each in value for key in keys_of(each)]
    return [value.partition("#")[2] or value] if isinstance(value, str) and "z6Mk" in value else []


def test_on_a_terminal_it_asks_and_asks_again_after_a_wrong_answer(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(command, "on_a_terminal", lambda: True)
    answers = ["Fern County", "", "Call.", "high", "900", "Main", "Hall", "", "Old crank", "crank-cam", "abc"]
    answers += ["crank-cam", "307", ""]
    result = CliRunner().invoke(main, ["new", str(tmp_path / "ours")], input="".join(f"{each}\n" for each in answers))
    assert result.exit_code == 0, result.output
    kb = load(tmp_path / "ours" / "content")
    assert kb.programme.office == "Fern County Extension"
    assert [kitchen.name for kitchen in kb.programme.kitchens] == ["Main", "Hall"]
    assert [chuck.size for chuck in kb.sealers["old-crank"].chucks] == ["307"]


@pytest.mark.parametrize(
    ("sealers", "said"),
    [
        (["Old crank; crank; 307"], "expected a drive of crank-cam, hand-lever, motor, got 'crank'"),
        (["Old crank; crank-cam"], "expected a sealer as 'NAME; DRIVE; CHUCK SIZES', got 'Old crank; crank-cam'"),
        (["Old crank; crank-cam; wide"], "chuck sizes of Old crank: "),
        ([CRANK, CRANK], "expected a name of its own for each sealer, got 'old-crank' twice"),
        ([], "nothing written; expected --sealer too, or a terminal to ask on"),
    ],
)
def test_a_wrong_answer_gets_one_line_and_nothing_is_written(tmp_path: Path, sealers: list[str], said: str) -> None:
    result = new(tmp_path / "ours", *sealers)
    assert (result.exit_code, result.stdout) == (1, "")
    assert said in result.stderr
    assert result.stderr.count("\n") == 1
    assert left_in(tmp_path) == []


def test_a_folder_that_holds_something_is_refused_in_one_line(tmp_path: Path) -> None:
    (tmp_path / "mine").write_text("mine", encoding="utf-8")
    result = new(tmp_path, CRANK)
    assert (result.exit_code, result.stdout) == (1, "")
    assert result.stderr == f"{tmp_path}: expected a new or an empty folder, but something is there already\n"
    assert left_in(tmp_path) == [tmp_path / "mine"]


def test_the_editors_settings_name_only_schemas_that_are_there(tmp_path: Path) -> None:
    new(tmp_path / "ours", CRANK)
    settings = json.loads((tmp_path / "ours" / ".vscode" / "settings.json").read_text(encoding="utf-8"))
    assert settings["yaml.schemas"]
    assert [name for name in settings["yaml.schemas"] if not (tmp_path / "ours" / name).is_file()] == []


def test_the_readme_is_short_and_names_only_files_that_are_there_or_to_be_made(tmp_path: Path) -> None:
    folder = tmp_path / "ours"
    assert new(folder, CRANK).exit_code == 0
    readme = (folder / "README.md").read_text(encoding="utf-8")
    assert len(readme.splitlines()) <= 40
    named = {word for word in readme.split("`")[1::2] if word.startswith(("content/", "mkdocs"))}
    assert {name for name in named if not (folder / name).exists()} == {"content/ours/seam-specifications/"}
