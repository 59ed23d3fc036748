"""Every script that has a twin in Python is held to it by a test."""

from __future__ import annotations

import ast
import re
from pathlib import Path

import pytest

from cases.kinds import KINDS
from tinwright.browser import scripts
from twins import CASES, NO_CASES, TWINS, Twin

TESTS = Path(__file__).parent
PACKAGE = TESTS.parent / "generator" / "tinwright"
SAYS_TWIN = re.compile(r"browser's (?:half|twin)|Python twin")


def parity_test(twin: Twin) -> ast.AST | None:
    """Find the function of a twin's parity test; None when there is none."""
    name, _, function = twin.test.partition("::")
    file = TESTS / name
    if not function or not file.is_file():
        return None
    found = ast.walk(ast.parse(file.read_text(encoding="utf-8")))
    return next((node for node in found if isinstance(node, ast.FunctionDef) and node.name == function), None)


@pytest.mark.parametrize("twin", TWINS, ids=lambda twin: twin.script)
def test_a_twin_has_its_script_its_module_and_its_parity_test(twin: Twin) -> None:
    assert twin.script in scripts()
    assert (PACKAGE / twin.module).is_file()
    assert parity_test(twin) is not None, f"{twin.script} and {twin.module} have no test that holds them together"


def test_every_twin_has_cases_or_a_reason_why_it_has_none() -> None:
    scripts_of_twins = {twin.script for twin in TWINS}
    assert scripts_of_twins - {*CASES, *NO_CASES} == set(), "no cases in tests/cases and no reason in tests/twins.py"
    assert {*CASES, *NO_CASES} <= scripts_of_twins
    assert not CASES.keys() & NO_CASES.keys()
    assert {name for names in CASES.values() for name in names} == {kind.name for kind in KINDS}


def test_a_script_that_calls_itself_a_twin_stands_in_the_table() -> None:
    heads = {script.name: script.text.partition("\n\n")[0] for script in scripts().values()}
    assert {name for name, head in heads.items() if SAYS_TWIN.search(head)} <= {twin.script for twin in TWINS}


def test_every_module_of_seaming_that_the_browser_computes_with_has_its_script() -> None:
    spoken = {twin.script for twin in TWINS if twin.module.startswith("seaming/")}
    room = {script.name for script in scripts().values() if script.joined == "seaming.js"}
    # the one that joins the others, and the one that looks things up as Python does
    assert room - spoken == {"seaming.js", "seaming-values.js"}


def test_a_twin_without_a_parity_test_is_told() -> None:
    assert parity_test(Twin("a.js", "a.py", "test_twins.py::no_such_function")) is None
    assert parity_test(Twin("a.js", "a.py", "no_such_file.py::test_it")) is None
    assert parity_test(Twin("a.js", "a.py", "")) is None
