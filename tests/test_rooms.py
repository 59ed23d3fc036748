"""Each room imports only what lies further in, and each script uses only what lies further in."""

from __future__ import annotations

import ast
import re
from importlib import import_module
from inspect import ismodule
from pathlib import Path

import pytest

from tinwright import browser

PACKAGE = Path(__file__).parents[1] / "generator" / "tinwright"

ROOMS = (
    *("errors", "templates", "remembering", "when_asked"),
    *("measures", "figures", "quizzes", "printing"),
    *("seaming", "benchlog"),
    "codegen",
    "knowledge",
    "advice",
    *("store", "credentials", "logbook", "register"),
    "browser",
    *("exchange", "paper", "site", "reporting", "examining", "starter", "cli"),
)
"""The rooms, each after those that it may import."""

PRIVATE = {"store", "credentials", "logbook", "register"}
MAY_KNOW_PRIVATE = {*PRIVATE, "reporting", "examining", "cli"}
"""Rooms that may import what is private. What the site and the other public rooms cannot reach, they cannot publish."""

NEVER = {
    "knowledge": {"figures", "quizzes", "printing", "seaming", "benchlog", "codegen"},
    "figures": {"quizzes", "seaming", "knowledge"},
    "quizzes": {"seaming", "knowledge"},
}
"""Reading never computes, and each room of plain values stands alone."""

SCRIPTS = ("shell", "seaming", "advice", "benchlog", "quiz", "certificate")
"""Folders of scripts, each after those whose globals it may use."""

ALONE = ("examination", "worker")
"""Folders of scripts that no other script shares a page with."""

ELSEWHERE = {
    "benchlog": {"pydantic", "yaml", "mkdocs", "jinja2", "sqlalchemy"},
    "seaming": {"pydantic", "yaml", "mkdocs", "jinja2"},
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


@pytest.mark.parametrize("file", FILES, ids=lambda file: str(file.relative_to(PACKAGE)))
def test_a_room_imports_only_what_comes_before_it(file: Path) -> None:
    room = room_of(file)
    before = set(ROOMS[: ROOMS.index(room)]) - NEVER.get(room, set())
    if room not in MAY_KNOW_PRIVATE:
        before -= PRIVATE
    assert inner_rooms(file) <= before
    libraries = {name.split(".")[0] for name in imports(file)}
    assert not libraries & ELSEWHERE.get(room, set())


GLOBAL = re.compile(r"\btinwright[A-Z]\w*")
DEFINED = re.compile(r"[.](tinwright[A-Z]\w*) = ")


def globals_by_folder(pattern: re.Pattern[str]) -> dict[str, set[str]]:
    found: dict[str, set[str]] = {}
    for file in sorted((PACKAGE / "browser").glob("*/*.js")):
        found.setdefault(file.parent.name, set()).update(pattern.findall(file.read_text(encoding="utf-8")))
    return found


def test_every_folder_of_scripts_has_its_place_in_the_list() -> None:
    assert set(globals_by_folder(GLOBAL)) == {*SCRIPTS, *ALONE}
    assert set(browser.SUBJECTS) == set(SCRIPTS)


@pytest.mark.parametrize("folder", [*SCRIPTS, *ALONE])
def test_a_script_uses_globals_only_of_what_comes_before_it(folder: str) -> None:
    before = (*SCRIPTS[: SCRIPTS.index(folder) + 1],) if folder in SCRIPTS else (folder,)
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


@pytest.mark.parametrize("room", ["advice", "figures", "seaming"])
def test_names_loaded_when_asked_come_from_where_the_types_are_read(room: str) -> None:
    tree = ast.parse((PACKAGE / room / "__init__.py").read_text(encoding="utf-8"))
    typed = {
        alias.name: (node.module or "").rpartition(".")[2]
        for node in ast.walk(tree)
        if isinstance(node, ast.ImportFrom) and (node.module or "").startswith(f"tinwright.{room}.")
        for alias in node.names
    }
    (names,) = [ast.literal_eval(node.args[1]) for node in ast.walk(tree) if isinstance(node, ast.Call)]
    assert typed == {name: module for module, given in names.items() for name in given.split()}
    package = import_module(f"tinwright.{room}")
    assert sorted(package.__all__) == sorted(typed)
    assert {name: getattr(package, name).__class__ for name in typed if ismodule(getattr(package, name))} == {}
    assert not set(typed) & {file.stem for file in (PACKAGE / room).glob("*.py")}, "a name hides a module"
    with pytest.raises(AttributeError, match="no attribute 'nothing'"):
        _ = package.nothing
