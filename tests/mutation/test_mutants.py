"""Each change of a single token leaves a text that can still be read, and is another one."""

from __future__ import annotations

import ast
import subprocess
from typing import TYPE_CHECKING

import pytest

from demo_site import ROOT
from mutation.python_mutants import python_mutants
from mutation.script_mutants import script_mutants

if TYPE_CHECKING:
    from pathlib import Path

PYTHON = '''\
def f(a: int | None, *, b: int = 2) -> int:
    """1 + 1"""
    if not a and b <= -1:
        return min(a, b) // 3
    return a is None or f"{a + 1}" == "a + b"  # 1 < 2
'''
SCRIPT = """\
// 1 + 1
const f = (a, b = 2) => !a && b <= -1 ? Math.min(a, b) / 3 : a === null || `${a + 1}` === "a + b";
const g = /[/]+1/.test(a) ? a / 2 / 3 : "x" + a;
"""


def changed(text: str, found: list) -> set[str]:
    return {str(mutant) for mutant in found if mutant.change(text) != text}


def test_in_python_each_operator_number_and_not_is_changed_but_no_type_and_no_text() -> None:
    found = python_mutants(PYTHON)
    assert [str(mutant) for mutant in found] == [
        *("2 -> 3", "not  -> nothing", "and -> or", "<= -> <", "- -> nothing", "1 -> 2", "min -> max"),
        *("// -> *", "3 -> 4", "or -> and", "== -> !="),
    ]
    assert found[1].place(PYTHON) == "3:8"


def test_in_a_script_each_operator_number_and_not_is_changed_but_no_text() -> None:
    assert [str(mutant) for mutant in script_mutants(SCRIPT)] == [
        *("2 -> 3", "! -> nothing", "&& -> ||", "<= -> <", "- -> nothing", "1 -> 2", "min -> max", "/ -> *", "3 -> 4"),
        *("=== -> !==", "/ -> *", "2 -> 3", "/ -> *", "3 -> 4"),
    ]


def test_every_change_of_a_module_can_be_read() -> None:
    text = (ROOT / "generator" / "tinwright" / "seaming" / "order.py").read_text(encoding="utf-8")
    found = python_mutants(text)
    assert found
    for mutant in found:
        ast.parse(mutant.change(text))


@pytest.mark.slow
def test_every_change_of_a_script_can_be_read(tmp_path: Path) -> None:
    for file in sorted((ROOT / "generator" / "tinwright" / "browser").rglob("*.js")):
        text = file.read_text(encoding="utf-8")
        for number, mutant in enumerate(script_mutants(text)[::25]):
            target = tmp_path / f"{file.stem}-{number}.js"
            target.write_text(mutant.change(text), encoding="utf-8")
    check = (
        "for (const f of process.argv.slice(1)) new (require('vm').Script)(require('fs').readFileSync(f, 'utf8'), f);"
    )
    files = sorted(map(str, tmp_path.glob("*.js")))
    done = subprocess.run(["node", "-e", check, *files], capture_output=True, text=True, check=False)
    assert files
    assert done.returncode == 0, done.stderr
