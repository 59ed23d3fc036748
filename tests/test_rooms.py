"""Each room imports only what lies further in."""

from __future__ import annotations

import ast
from importlib import import_module
from inspect import ismodule
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parents[1] / "generator" / "tinwright"

MAY_IMPORT = {
    "errors": set(),
    "algebra": {"errors", "seaming", "algebra"},
    "remembering": set(),
    "when_asked": set(),
    "templates": set(),
    "printing": {"errors", "printing"},
    "measures": {"errors", "remembering", "measures"},
    "seaming": {"errors", "remembering", "when_asked", "measures", "seaming"},
    "knowledge": {"errors", "remembering", "measures", "knowledge"},
    "figures": {"errors", "remembering", "when_asked", "measures", "figures"},
    "starter": {"errors", "starter"},
    "quizzes": {"errors", "quizzes"},
    "benchlog": {"errors", "measures", "seaming", "benchlog"},
    "records": {"errors", "templates", "printing", "measures", "seaming", "knowledge", "benchlog", "records"},
    "bench": {
        "errors",
        "templates",
        "when_asked",
        "measures",
        "seaming",
        "knowledge",
        "quizzes",
        "benchlog",
        "figures",
        "bench",
    },
    "paper": {
        "errors",
        "templates",
        "printing",
        "measures",
        "seaming",
        "knowledge",
        "benchlog",
        "figures",
        "bench",
        "paper",
    },
    "examining": {
        "errors",
        "templates",
        "printing",
        "measures",
        "seaming",
        "knowledge",
        "quizzes",
        "benchlog",
        "records",
        "figures",
        "bench",
        "paper",
        "examining",
        "exchange",
    },
    "reporting": {
        "errors",
        "templates",
        "printing",
        "measures",
        "seaming",
        "knowledge",
        "benchlog",
        "records",
        "figures",
        "bench",
        "paper",
        "reporting",
    },
    "exchange": {"errors", "measures", "seaming", "knowledge", "quizzes", "exchange"},
    "site": {
        "errors",
        "remembering",
        "templates",
        "measures",
        "seaming",
        "knowledge",
        "quizzes",
        "benchlog",
        "figures",
        "bench",
        "exchange",
        "site",
    },
    "cli": {
        "errors",
        "printing",
        "measures",
        "seaming",
        "knowledge",
        "quizzes",
        "benchlog",
        "records",
        "figures",
        "bench",
        "paper",
        "examining",
        "reporting",
        "exchange",
        "site",
        "starter",
        "cli",
    },
}
"""Room: the rooms it may import."""

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


@pytest.mark.parametrize("file", FILES, ids=lambda file: str(file.relative_to(PACKAGE)))
def test_a_room_imports_only_what_lies_further_in(file: Path) -> None:
    room = room_of(file)
    inner = {name.split(".")[1] for name in imports(file) if name.startswith("tinwright.")}
    assert inner <= MAY_IMPORT[room]
    libraries = {name.split(".")[0] for name in imports(file)}
    assert not libraries & ELSEWHERE.get(room, set())


def test_only_algebra_imports_sympy() -> None:
    assert {room_of(file) for file in FILES if "sympy" in imports(file)} == {"algebra"}


def test_the_arithmetic_can_be_printed_when_what_was_printed_is_broken() -> None:
    needing = {file.name for file in (PACKAGE / "algebra").glob("*.py") if any(".seaming" in n for n in imports(file))}
    assert needing == {"for_browser.py"}


def test_one_room_alone_prints_and_one_alone_sets_up_templates() -> None:
    for library in ("weasyprint", "segno"):
        assert {room_of(file) for file in FILES if library in imports(file)} == {"printing"}
    assert {room_of(file) for file in FILES if "PackageLoader(" in file.read_text(encoding="utf-8")} == {"templates"}


@pytest.mark.parametrize("room", ["bench", "figures", "seaming"])
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
