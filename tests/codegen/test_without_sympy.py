"""Sympy is for those who change a formula: no command and no build loads it, so that nobody else needs it installed."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from demo_site import ROOT, python
from small_kitchen import lay_down

if TYPE_CHECKING:
    import subprocess
    from pathlib import Path

TINWRIGHT = "from tinwright.cli import main; main()"
MKDOCS = "from mkdocs.__main__ import cli; cli()"


def without_sympy(program: str, *arguments: str, folder: Path) -> subprocess.CompletedProcess[str]:
    """Run a program as if sympy were not installed."""
    return python("-c", f"import sys; sys.modules['sympy'] = None; {program}", *arguments, folder=folder)


def test_printing_does_need_it() -> None:
    result = without_sympy("import tinwright.codegen.for_python", folder=ROOT)
    assert "import of sympy halted" in result.stderr


@pytest.mark.parametrize("command", ["check", "seam docs/readings-example.csv"])
def test_commands_run_without_it(command: str) -> None:
    result = without_sympy(TINWRIGHT, *command.split(), folder=ROOT)
    assert (result.returncode, result.stderr) == (0, "")


def test_a_site_is_built_without_it(tmp_path: Path) -> None:
    lay_down(tmp_path / "ours")
    result = without_sympy(MKDOCS, "build", "--strict", "--quiet", folder=tmp_path / "ours")
    assert (result.returncode, result.stderr) == (0, "")
    assert "O = CH + BH + Te − W" in (tmp_path / "ours" / "site" / "seam-check.html").read_text(encoding="utf-8")
