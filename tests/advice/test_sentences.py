"""Each sentence of the table is said in Python and on the phone, with the same put in."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tinwright.browser import scripts
from tinwright.seaming.sentences import SENTENCES, sentence

PACKAGE = Path(__file__).parents[2] / "generator" / "tinwright"
FAMILIES = frozenset({"outcome", "action", "ask", "with"})
"""First words of names whose rest is an id, so that the whole name stands nowhere."""


def python() -> str:
    files = [file for room in ("advice", "seaming") for file in sorted((PACKAGE / room).glob("*.py"))]
    return "".join(file.read_text(encoding="utf-8") for file in files if file.name != "sentences.py")


def phone() -> str:
    return "".join(script.text for script in scripts().values() if script.name != "seaming-sentences.js")


@pytest.mark.parametrize("name", SENTENCES)
def test_a_sentence_is_said_in_both(name: str) -> None:
    family = name.partition("-")[0]
    in_python = f'f"{family}-{{' if family in FAMILIES else f'"{name}"'
    in_script = f"`{family}-${{" if family in FAMILIES - {"ask"} else f'"{name}"'
    assert in_python in python()
    assert in_script in phone()


def test_nothing_that_stands_in_the_table_is_written_again() -> None:
    """Long ones only: `reject` is an id, too."""
    texts = {name: re.split(r"[{][a-z]+[}]", text) for name, text in SENTENCES.items()}
    long = {part for parts in texts.values() for part in parts if len(part) > 30}
    assert len(long) > 20
    assert [part for part in sorted(long) if part in python() + phone()] == []


def test_what_is_missing_is_no_sentence() -> None:
    with pytest.raises(KeyError):
        sentence("move")
