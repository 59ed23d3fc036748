"""What no font can print is told in one line, whichever command prints, and nothing is left behind."""

from __future__ import annotations

from typing import TYPE_CHECKING

from click.testing import CliRunner

from small_kitchen import lay_down
from tinwright.cli import main

if TYPE_CHECKING:
    from pathlib import Path

LOST = "\U00012f90"
"""A letter of Cypro-Minoan, which no font here has."""


def test_a_safety_card_with_an_empty_box_is_not_printed(tmp_path: Path) -> None:
    lay_down(tmp_path / "programme")
    file = tmp_path / "programme" / "content" / "cautions" / "our-cautions.yml"
    text = file.read_text(encoding="utf-8")
    file.write_text(text.replace("title: ", f"title: {LOST} "), encoding="utf-8")
    given = ["--content", str(tmp_path / "programme" / "content"), "--out", str(tmp_path / "out")]
    result = CliRunner().invoke(main, ["paper", "cautions", *given])
    assert (result.exit_code, result.stdout) == (1, "")
    assert result.stderr == (
        f"Caution card: no font on this computer has the letters {LOST!r} (U+12F90): install one, or do without them\n"
    )
    assert list((tmp_path / "out").iterdir()) == []
