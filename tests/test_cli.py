"""The command line: exit codes, places of problems, and JSON a script may read."""

from __future__ import annotations

import datetime as dt
import json
import shutil
from pathlib import Path
from typing import TYPE_CHECKING

import jsonschema
import pytest
from click.testing import CliRunner, Result

from evidence_content import SMALL
from tinwright.cli import main
from tinwright.knowledge.models import KINDS
from tinwright.knowledge.yaml_source import read_yaml

if TYPE_CHECKING:
    from collections.abc import Callable

ROOT = Path(__file__).parents[1]
CONTENT = str(ROOT / "content")
PROGRAMME = ROOT / "content" / "sorrel-county" / "program.yml"


def run(*arguments: str) -> Result:
    return CliRunner().invoke(main, list(arguments))


@pytest.fixture
def broken(starter: Path) -> Path:
    file = starter / "defects" / "droop.yml"
    file.write_text(file.read_text(encoding="utf-8").replace("title:", "titel:", 1), encoding="utf-8")
    return starter


@pytest.fixture
def alone(tmp_path: Path) -> str:
    """The demonstration's records with no question bank beside them."""
    shutil.copytree(ROOT / "content", tmp_path / "content")
    return str(tmp_path / "content")


def test_check_is_silent_about_sound_content_and_counts_it() -> None:
    result = run("check", "--content", CONTENT, "--today", "2026-12-01")
    assert result.exit_code == 0
    assert "no problems, 0 overdue for review" in result.stdout
    assert result.stderr == ""


def test_check_tells_each_problem_with_its_place_on_standard_error(broken: Path) -> None:
    result = run("check", "--content", str(broken))
    assert result.exit_code == 1
    assert "content/defects/droop.yml:2:1: defect droop: unknown key 'titel'; did you mean 'title'?" in result.stderr
    assert result.stdout == ""


def test_check_lists_what_is_overdue_by_the_policy_and_fails_for_it_only_when_strict(alone: str) -> None:
    # the programme reviews every 24 months: what was reviewed in November 2026 is overdue in January 2029
    result = run("check", "--content", alone, "--today", "2029-01-01")
    assert result.exit_code == 0
    assert "overdue for review since" in result.stdout
    assert run("check", "--content", alone, "--today", "2029-01-01", "--strict").exit_code == 1


def test_check_prints_json(broken: Path) -> None:
    found = json.loads(run("check", "--content", str(broken), "--json").stdout)
    assert {problem["file"] for problem in found["problems"]} == {"content/defects/droop.yml"}


def test_check_prints_what_is_overdue_as_json_too() -> None:
    found = json.loads(run("check", "--content", CONTENT, "--today", "2029-01-01", "--json").stdout)
    assert found["problems"] == []
    dues = [row["due"] for row in found["overdue"]]
    assert dues == sorted(dues)
    assert max(dues) < "2029-01-01"


def test_check_counts_how_the_statements_are_known(content: Callable[[dict[str, str]], Path]) -> None:
    # counted by hand in evidence_content.py: all, on two or more independent sources, on one read whole; twice
    folder = content(SMALL)
    printed = run("check", "--content", str(folder)).stdout
    assert ["Source", "2", "1", "1", "1", "1", "1"] in [line.split() for line in printed.splitlines()]
    assert "From trade memory                  1" in printed
    found = json.loads(run("check", "--content", str(folder), "--json").stdout)["evidence"]
    grades = ["source", "derived", "practice", "memory", "invented"]
    assert [row["grade"] for row in found["statements"]] == grades
    assert [row["statements"] for row in found["statements"]] == [2, 1, 7, 1, 2]
    assert [row["statements"] for row in found["causes_of_defects"]] == [1, 0, 0, 1, 0]
    assert (found["causes_of_defects"][0]["two_or_more"], found["causes_of_defects"][0]["read_whole"]) == (1, 1)


def test_check_counts_nothing_where_records_have_problems(broken: Path) -> None:
    assert json.loads(run("check", "--content", str(broken), "--json").stdout)["evidence"] is None


def test_a_record_is_overdue_the_day_after_it_is_due_and_not_before(alone: str) -> None:
    found = json.loads(run("check", "--content", alone, "--today", "2029-01-01", "--json").stdout)
    first = dt.date.fromisoformat(found["overdue"][0]["due"])
    late = [
        json.loads(run("check", "--content", alone, "--today", str(day), "--json").stdout)["overdue"]
        for day in (first, first + dt.timedelta(days=1))
    ]
    assert late[0] == []
    assert [row["due"] for row in late[1]][:1] == [str(first)]


def test_content_that_is_not_there_is_a_problem_with_a_place() -> None:
    for arguments in (["check"], ["write", "never-made"], ["seam", "none.csv"], ["cause"]):
        result = run(*arguments, "--content", "no-such-folder")
        assert result.exit_code == 1
        assert result.stderr.splitlines()[0] == "no-such-folder:1:1: expected a content folder, found none"
    assert not Path("never-made").exists()


NEW = [
    "new",
    "--county",
    "Fern",
    "--contact",
    "Call.",
    "--altitude",
    "9",
    "--kitchen",
    "A",
    "--sealer",
    "B; motor; 603",
]


@pytest.mark.parametrize("command", [["schema"], ["write", "--content", CONTENT], NEW], ids=lambda c: c[0])
def test_a_folder_that_cannot_be_written_is_told_in_one_line(tmp_path: Path, command: list[str]) -> None:
    (tmp_path / "file").write_text("not a folder")
    result = run(*command, str(tmp_path / "file" / "inside"))
    assert result.exit_code == 1
    assert isinstance(result.exception, SystemExit)
    assert len(result.stderr.splitlines()) == 1
    assert "cannot be written" in result.stderr


def test_misuse_ends_with_2() -> None:
    assert run("chekc").exit_code == 2
    assert run("check", "--today", "soon").exit_code == 2
    assert run("seam").exit_code == 2
    assert run("cause", "--content", CONTENT, "--dimension", "body-hook=shrt").exit_code == 2


def test_schema_writes_what_is_committed(tmp_path: Path) -> None:
    assert run("schema", str(tmp_path)).exit_code == 0
    made = {file.name: file.read_text(encoding="utf-8") for file in tmp_path.iterdir()}
    kept = {file.name: file.read_text(encoding="utf-8") for file in (ROOT / "content" / "schema").iterdir()}
    assert made == kept


def test_write_puts_the_pages_on_disk_and_refuses_a_folder_with_other_files(tmp_path: Path) -> None:
    folder = tmp_path / "pages"
    assert run("write", str(folder), "--content", CONTENT).exit_code == 0
    defects = {file.stem for file in (folder / "defects").glob("*.md")} - {"index"}
    assert defects == {file.stem for file in (ROOT / "content" / "shared" / "defects").glob("*.yml")}
    other = tmp_path / "other"
    other.mkdir()
    (other / "mine.txt").write_text("mine")
    result = run("write", str(other), "--content", CONTENT)
    assert result.exit_code == 1
    assert len(result.stderr.splitlines()) == 1
    assert [file.name for file in other.iterdir()] == ["mine.txt"]


@pytest.mark.parametrize("kind", sorted(KINDS))
def test_content_passes_its_schema_in_another_validator(kind: str) -> None:
    schema = json.loads((ROOT / "content" / "schema" / f"{kind}.json").read_text(encoding="utf-8"))
    jsonschema.Draft202012Validator.check_schema(schema)
    validator = jsonschema.Draft202012Validator(schema)
    folder = KINDS[kind].folder
    files = sorted((ROOT / "content").glob(f"*/{folder}/*.yml")) if kind != "programme" else [PROGRAMME]
    assert files
    for file in files[:: max(1, len(files) // 5)]:
        values = read_yaml(file, file.name).value
        assert [error.message for error in validator.iter_errors(values)] == [], file.name


def test_the_schema_refuses_an_unknown_key() -> None:
    schema = json.loads((ROOT / "content" / "schema" / "programme.json").read_text(encoding="utf-8"))
    values = dict(read_yaml(PROGRAMME, PROGRAMME.name).value)
    assert jsonschema.Draft202012Validator(schema).is_valid(values)
    values["offise"] = values["office"]
    assert not jsonschema.Draft202012Validator(schema).is_valid(values)
