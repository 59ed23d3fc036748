"""Each room imports only what lies further in, and each script uses only what lies further in."""

from __future__ import annotations

import ast
import re
from pathlib import Path

import pytest

from rooms import ALONE, ROOMS
from tinwright.browser import SUBJECTS

PACKAGE = Path(__file__).parents[1] / "generator" / "tinwright"

PRIVATE = {"store", "credentials", "logbook", "register"}
MAY_KNOW_PRIVATE = {*PRIVATE, "reporting", "examining", "cli"}
"""Rooms that may import what is private. What the site and the other public rooms cannot reach, they cannot publish."""

NEVER = {
    "knowledge": {"figures", "quizzes", "printing", "seaming", "practice", "benchlog", "codegen"},
    "practice": {"figures", "quizzes", "printing"},
    "figures": {"quizzes", "seaming", "knowledge"},
    "quizzes": {"seaming", "knowledge"},
}
"""Reading never computes, and each room of plain values stands alone."""

ELSEWHERE = {
    "benchlog": {"pydantic", "yaml", "mkdocs", "jinja2", "sqlalchemy"},
    "seaming": {"pydantic", "yaml", "mkdocs", "jinja2"},
    "practice": {"pydantic", "yaml", "mkdocs", "jinja2"},
    "quizzes": {"pydantic", "yaml", "mkdocs", "jinja2"},
    "figures": {"pydantic", "yaml", "mkdocs", "jinja2"},
    "knowledge": {"mkdocs", "jinja2"},
}
"""Room: libraries it must do without."""


def imports(file: Path) -> set[str]:
    found: set[str] = set()
    for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
        if isinstance(node, ast.ImportFrom) and node.module:
            found.add(node.module)
        elif isinstance(node, ast.Import):
            found.update(alias.name for alias in node.names)
    return found


def room_of(file: Path) -> str:
    return file.relative_to(PACKAGE).parts[0].removesuffix(".py")


FILES = sorted(file for file in PACKAGE.rglob("*.py") if room_of(file) != "__init__")


def inner_rooms(file: Path) -> set[str]:
    return {name.split(".")[1] for name in imports(file) if name.startswith("tinwright.")} - {room_of(file)}


def test_every_room_has_its_place_in_the_list() -> None:
    assert {room_of(file) for file in FILES} == set(ROOMS)


SHOWN = re.compile(r"""(?:asset_of|templates?_of)\("(\w+)""")
"""Rooms whose style sheets or templates a module shows."""


@pytest.mark.parametrize("file", FILES, ids=lambda file: str(file.relative_to(PACKAGE)))
def test_a_room_imports_only_what_comes_before_it(file: Path) -> None:
    room = room_of(file)
    before = set(ROOMS[: ROOMS.index(room)]) - NEVER.get(room, set())
    if room not in MAY_KNOW_PRIVATE:
        before -= PRIVATE
    assert inner_rooms(file) <= before
    libraries = {name.split(".")[0] for name in imports(file)}
    assert not libraries & ELSEWHERE.get(room, set())
    assert set(SHOWN.findall(file.read_text(encoding="utf-8"))) <= {*ROOMS[: ROOMS.index(room)], room}


GLOBAL = re.compile(r"\btinwright[A-Z]\w*")
DEFINED = re.compile(r"[.](tinwright[A-Z]\w*) = ")


def globals_by_folder(pattern: re.Pattern[str]) -> dict[str, set[str]]:
    found: dict[str, set[str]] = {}
    for file in sorted((PACKAGE / "browser").glob("*/*.js")):
        found.setdefault(file.parent.name, set()).update(pattern.findall(file.read_text(encoding="utf-8")))
    return found


def test_every_folder_of_scripts_has_its_place_in_the_list() -> None:
    assert set(globals_by_folder(GLOBAL)) == {*SUBJECTS, *ALONE}


@pytest.mark.parametrize("folder", [*SUBJECTS, *ALONE])
def test_a_script_uses_globals_only_of_what_comes_before_it(folder: str) -> None:
    before = (*SUBJECTS[: SUBJECTS.index(folder) + 1],) if folder in SUBJECTS else (folder,)
    used, defined = globals_by_folder(GLOBAL), globals_by_folder(DEFINED)
    theirs = set().union(*(names for other, names in defined.items() if other not in before))
    assert not used[folder] & theirs


def test_each_global_is_defined_in_one_folder() -> None:
    defined = [name for names in globals_by_folder(DEFINED).values() for name in names]
    assert sorted(defined) == sorted(set(defined))
    assert {"tinwrightSeaming", "tinwrightBench", "tinwrightBenchLog", "tinwrightScoring"} <= set(defined)


def test_only_codegen_imports_sympy() -> None:
    assert {room_of(file) for file in FILES if "sympy" in imports(file)} == {"codegen"}


def test_the_arithmetic_can_be_printed_when_what_was_printed_is_broken() -> None:
    needing = {file.name for file in (PACKAGE / "codegen").glob("*.py") if any(".seaming" in n for n in imports(file))}
    assert needing == {"for_browser.py"}


def test_one_room_alone_prints_and_one_alone_sets_up_templates() -> None:
    for library in ("weasyprint", "segno"):
        assert {room_of(file) for file in FILES if library in imports(file)} == {"printing"}
    assert {room_of(file) for file in FILES if "PackageLoader(" in file.read_text(encoding="utf-8")} == {"templates"}


USES_THE_SITE_TOOL = {"site/kept_pages.py", "site/plugin.py", "site/served_theme.py"}


def test_three_modules_alone_know_the_site_tool() -> None:
    knowing = {
        str(file.relative_to(PACKAGE)) for file in FILES if any(n.split(".")[0] == "mkdocs" for n in imports(file))
    }
    assert knowing == USES_THE_SITE_TOOL


TESTED_ELSEWHERE = {"errors", "given_file", "remembering", "templates", "measures", "cli", "browser"}
"""Single modules; `measures` by its examples and in `outside`; commands in the room they call; scripts in their twin's."""


def test_every_room_has_its_folder_of_tests() -> None:
    tests = Path(__file__).parent
    assert {room for room in ROOMS if not list((tests / room).glob("test_*.py"))} <= TESTED_ELSEWHERE
