"""Each room imports only what lies further in."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parents[1] / "generator" / "tinwright"

MAY_IMPORT = {
    "errors": set(),
    "algebra": {"errors", "seaming", "algebra"},
    "remembering": set(),
    "templates": set(),
    "printing": {"errors", "printing"},
    "measures": {"errors", "remembering", "measures"},
    "seaming": {"errors", "remembering", "measures", "seaming"},
    "knowledge": {"errors", "remembering", "measures", "knowledge"},
    "figures": {"errors", "remembering", "measures", "figures"},
    "starter": {"errors", "starter"},
    "quizzes": {"errors", "quizzes"},
    "benchlog": {"errors", "measures", "seaming", "benchlog"},
    "records": {"errors", "templates", "printing", "measures", "seaming", "knowledge", "benchlog", "records"},
    "bench": {"errors", "templates", "measures", "seaming", "knowledge", "quizzes", "figures", "bench"},
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
