"""The documents say what is so."""

from __future__ import annotations

import re
import shutil
from fnmatch import fnmatch
from pathlib import Path

import pytest
from click import Context
from click.testing import CliRunner
from PIL import Image

from rooms import ROOMS
from small_kitchen import KITCHEN
from tinwright.advice.practice_scenarios import scenario_problems
from tinwright.cli import main
from tinwright.knowledge import find_problems, load
from tinwright.knowledge.bank import find_bank_problems
from tinwright.knowledge.scenarios import placed_scenarios
from tree import BLOCK, TESTS, TOPS, tree_text

ROOT = Path(__file__).parents[1]
DOCUMENTS = ("README.md", "DEVELOPERS.md", "CHANGELOG.md", "docs/editing.md")
README = (ROOT / "README.md").read_text(encoding="utf-8")
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
EDITING = (ROOT / "docs" / "editing.md").read_text(encoding="utf-8")
PACKAGE = ROOT / "generator" / "tinwright"
COMMANDS = main.list_commands(Context(main))


@pytest.mark.parametrize("name", COMMANDS)
def test_every_command_stands_in_the_readme_with_its_help_and_has_an_example(name: str) -> None:
    command = main.get_command(Context(main), name)
    assert command is not None
    short = (command.help or "").split("\n\n")[0].replace("\n", " ").strip()
    assert f"| `tinwright {name}` | {short} |" in README
    result = CliRunner().invoke(main, [name, "--help"])
    assert result.exit_code == 0
    assert f"Example: tinwright {name}" in result.output


def test_the_two_commands_exist_and_ci_calls_the_second() -> None:
    for script in ("scripts/serve", "scripts/test"):
        assert f"    {script}\n" in README
        assert (ROOT / script).stat().st_mode & 0o111
    assert "scripts/test" in (ROOT / ".ci" / "run").read_text(encoding="utf-8")


def test_the_recipes_for_content_pass_the_checker(tmp_path: Path) -> None:
    content = tmp_path / "content"
    shutil.copytree(ROOT / "content", content)
    shutil.copytree(ROOT / "quizzes", tmp_path / "quizzes")
    photo = content / "sorrel-county" / "photos" / "rusty-seam.jpg"
    photo.parent.mkdir(exist_ok=True)
    Image.new("RGB", (4, 3)).save(photo)
    blocks = re.findall(r"```yaml (\S+)( \+)?(?: (\w+))?\n(.*?)```", EDITING, re.DOTALL)
    assert len(blocks) == EDITING.count("```yaml") == 11
    for path, added, key, text in blocks:
        target = tmp_path / path
        if added and not key:
            target.write_text(target.read_text(encoding="utf-8") + text, encoding="utf-8")
        elif key:
            whole = target.read_text(encoding="utf-8")
            assert f"{key}:\n" in whole
            target.write_text(whole.replace(f"{key}:\n", f"{key}:\n{text}"), encoding="utf-8")
        else:
            target.parent.mkdir(exist_ok=True)
            target.write_text(text, encoding="utf-8")
    assert [str(problem) for problem in find_problems(content)] == []
    kb = load(content)
    assert [str(problem) for problem in find_bank_problems(tmp_path / "quizzes", kb)] == []
    assert [str(problem) for problem in scenario_problems(kb, placed_scenarios(kb))] == []


@pytest.mark.parametrize(
    ("good", "bad", "message"),
    [
        (
            "cause: rough-handling",
            "cause: rough-handlin",
            "no cause is called 'rough-handlin'; did you mean 'rough-handling'?",
        ),
        ("summary:", "summry:", "unknown key 'summry'; did you mean 'summary'?"),
        (
            "likelihood: occasional",
            "likelihood: often",
            "likelihood: expected one of common, occasional, rare, got 'often'",
        ),
        (
            "    - text: Wipe",
            "\t- text: Wipe",
            "a tab: indent with spaces",
        ),
        (
            "summary: Rust shows",
            "summary: Rust: it shows",
            "a second ': ' in one line; put the text in quotes",
        ),
        (
            "- the rim is rusty",
            "- it's can #2 again",
            "'#2 again' is cut off: a # after a space begins a note; put the whole text in quotes",
        ),
        (
            "- the rim is rusty",
            "- 'it's rusty'",
            "an apostrophe ends a text in single quotes: put the text in double quotes",
        ),
        ("title:", "id: rusty-seam\ntitle:", "unknown key 'id': the file's name is the id (rusty-seam)"),
        ("reviewed: 2026-11-20\n", "", "the key 'reviewed' is missing"),
        (
            "2026-11-20",
            "20 November 2026",
            "reviewed: expected a date such as 2026-04-30, got '20 November 2026'",
        ),
        ("Look along", "See [[defect/drop]]. Look along", "no defect is called 'drop'; did you mean 'droop'?"),
        ("  - rust under the rim\n", "", "said: expected at least 3, got 2"),
        (
            "evidence: memory\nlook",
            "evidence: {source: cfr-21-113-60}\nlook",
            "evidence: evidence of grade 'source' needs 'source' and 'where'",
        ),
    ],
)
def test_the_mistakes_of_the_recipe_give_the_messages_it_shows(
    tmp_path: Path, good: str, bad: str, message: str
) -> None:
    assert f"`{message}`" in EDITING
    content = tmp_path / "content"
    shutil.copytree(ROOT / "content", content)
    shutil.copy(KITCHEN / "content" / "defects" / "droop.yml", content / "shared" / "defects")
    text = re.search(r"```yaml content/sorrel-county/defects/rusty-seam.yml\n(.*?)```", EDITING, re.DOTALL)
    assert text is not None
    assert good in text[1]
    target = content / "sorrel-county" / "defects" / "rusty-seam.yml"
    target.parent.mkdir(exist_ok=True)
    target.write_text(text[1].replace(good, bad), encoding="utf-8")
    found = [
        problem for problem in find_problems(content) if problem.file == "content/sorrel-county/defects/rusty-seam.yml"
    ]
    assert message in [problem.message for problem in found]


def test_the_tree_in_the_developers_guide_is_the_tree() -> None:
    assert BLOCK.findall(DEVELOPERS) == [tree_text()], "run: python tests/tree.py"
    ignored = [line.strip("/") for line in (ROOT / ".gitignore").read_text(encoding="utf-8").split()] + [".git"]
    folders = [path.name for path in ROOT.iterdir() if path.is_dir()]
    assert {name for name in folders if not any(fnmatch(name, pattern) for pattern in ignored)} == set(TOPS)
    of_tests = {path.parent.name for path in (ROOT / "tests").glob("*/*.py")}
    assert of_tests - set(ROOMS) == set(TESTS) - set(ROOMS)


def test_the_first_page_of_the_developers_guide_is_one_page() -> None:
    lines = DEVELOPERS.partition("## How it flows")[0].splitlines()
    assert len(lines) <= 65
    commands = re.findall(r"^\| [^|]+ \| `(?:\.venv/bin/python )?([^` ]+)", "\n".join(lines), re.MULTILINE)
    assert len(commands) == 8
    assert [file for file in commands if not file.startswith(("-m", ".venv")) and not (ROOT / file).is_file()] == []


def test_the_recipe_for_the_bench_log_names_every_file_that_an_entry_lives_in() -> None:
    recipe = DEVELOPERS.partition("### Change the bench log")[2].partition("###")[0]
    files = [file for ending in ("py", "js") for file in PACKAGE.rglob(f"*.{ending}")]
    living = [file for file in files if re.search(r"\btorn_down\b", file.read_text(encoding="utf-8"))]
    assert len(living) > 5
    told = [file for file in living if file.parent.name != "versions"]
    assert [file.name for file in told if f"{file.name}`" not in recipe] == []


def test_what_depends_on_the_theme_is_told() -> None:
    decision = DEVELOPERS.partition("Material's end of life")[2].partition("\n- **")[0]
    files = [*PACKAGE.glob("*/assets/*.css"), *(PACKAGE / "browser").rglob("*.js")]
    depending = {file.name for file in files if re.search(r"[.\[]md-|data-md", file.read_text(encoding="utf-8"))}
    assert {name for name in depending if f"`{name}`" not in decision} == set()
    assert set(re.findall(r"`(\S+[.](?:css|js))`", decision)) == depending


@pytest.mark.parametrize("name", DOCUMENTS)
def test_links_between_the_documents_lead_somewhere(name: str) -> None:
    text = (ROOT / name).read_text(encoding="utf-8")
    for target in re.findall(r"\]\((?!https?:)([^)#]+)", text):
        assert ((ROOT / name).parent / target).is_file(), target


def test_the_lock_files_hold_no_address_and_pin_everything_with_hashes() -> None:
    for name in ("requirements.lock", "requirements-test.lock"):
        lines = (ROOT / name).read_text(encoding="utf-8").splitlines()
        assert not [line for line in lines if "://" in line]
        packages = [line for line in lines if re.match(r"[a-z0-9]", line)]
        assert packages
        assert all(re.fullmatch(r"\S+==\S+( ; .*)? \\", line) for line in packages)


def test_every_dependency_of_the_project_is_locked() -> None:
    import tomllib

    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    locked = (ROOT / "requirements-test.lock").read_text(encoding="utf-8").lower()
    named = [*project["dependencies"], *(name for extra in project["optional-dependencies"].values() for name in extra)]
    for requirement in named:
        name = re.split(r"[\[<>=!~ ]", requirement)[0].lower()
        assert re.search(rf"^{re.escape(name)}==", locked, re.MULTILINE), name


def test_the_example_of_the_readme_runs(tmp_path: Path) -> None:
    report = tmp_path / "report.html"
    result = CliRunner().invoke(
        main,
        ["seam", str(ROOT / "docs/readings-example.csv"), "--content", str(ROOT / "content"), "--report", str(report)],
    )
    assert result.exit_code == 0
    assert report.is_file()


def test_no_word_of_the_workplace_stands_in_the_documents() -> None:
    for name in DOCUMENTS:
        text = (ROOT / name).read_text(encoding="utf-8")
        assert not re.search(r"/(?:work|root|tmp|home|opt)/", text)
        assert not re.search(r"pypi|pythonhosted|npmjs|\bregistry\.|index-url", text, re.IGNORECASE)


@pytest.mark.parametrize("name", ["README.md", "CHANGELOG.md"])
def test_no_document_counts_the_records(name: str) -> None:
    """The educator edits them every week, and a number in prose would be wrong the next day."""
    text = re.sub(r"\s+", " ", (ROOT / name).read_text(encoding="utf-8"))
    assert not re.findall(r"\d+ (?:invented )?(?:can|sealer|part|procedure|defect|cause|caution)s\b", text)


def test_what_others_wrote_is_listed_with_its_licence_beside_it() -> None:
    folder = PACKAGE / "site" / "vendor"
    for file in folder.glob("*.js"):
        licence = folder / f"{file.stem}.LICENSE.txt"
        assert "Copyright" in licence.read_text(encoding="utf-8")
        assert f"`{file.name}` " in README
        assert f"({licence.relative_to(ROOT)})" in README
    assert {file.suffix for file in folder.iterdir() if file.is_file()} == {".js", ".txt"}
