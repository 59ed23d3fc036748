"""The tree of the repository as DEVELOPERS.md shows it, printed from the code.

python tests/tree.py    writes it into DEVELOPERS.md
"""

from __future__ import annotations

import ast
import re
from pathlib import Path

from rooms import ALONE, ROOMS
from tinwright.browser import SUBJECTS

ROOT = Path(__file__).parents[1]
DEVELOPERS = ROOT / "DEVELOPERS.md"
BLOCK = re.compile(r"(?<=```text tree\n).*?(?=```)", re.DOTALL)

TOPS = {
    "content": "layers: `shared`, the knowledge of every program, and on it the demonstration's own, `sorrel-county`; `layers.yml` lists them",
    "quizzes": "the question bank: `practice` is published, `examination` never",
    "docs": "the educators' document, pictures, and examples to try",
    "generator": "the package `tinwright`, room by room; each room imports only rooms above it",
    "tests": "a folder for each room, and beside them",
    "scripts": "`serve`, `check`, `test`, `lock`, and what they share",
    ".ci": "`run`, what the forge calls: `scripts/test`, with every random case",
}
"""Folder at the top: what is in it."""

TESTS = {
    "browser": "journeys in a browser",
    "hosting": "the built folder behind web servers",
    "judges": "programs of others judge what is published",
    "attack": "files, sheets and folders that try to fool us",
    "cases": "what is given and what is expected, as JSON, for any implementation of a twin",
    "outside": "against published figures and reference libraries",
    "bench": "benchmarks, run by hand; they fail nothing",
    "mutation": "single tokens of a room changed, by hand, to see which changes its tests notice",
}
"""Folder of tests that belongs to no room: what is in it."""


def tree_text() -> str:
    """Return the tree, one line for each folder."""
    lines: list[str] = []
    for name, said in TOPS.items():
        lines.append(_line(0, f"{name}/", said))
        if name == "generator":
            for room in ROOMS:
                lines.append(_line(1, f"{room}{'/' if (PACKAGE / room).is_dir() else '.py'}", _first_line(room)))
                if room == "browser":
                    lines.append(_line(2, "", f"{', '.join(f'{folder}/' for folder in (*SUBJECTS, *ALONE))}"))
        if name == "tests":
            lines += [_line(1, f"{folder}/", told) for folder, told in TESTS.items()]
    return "".join(f"{line.rstrip()}\n" for line in lines)


PACKAGE = ROOT / "generator" / "tinwright"


def _line(depth: int, name: str, said: str) -> str:
    return f"{'  ' * depth + name:<17}{said}"


def _first_line(room: str) -> str:
    file = PACKAGE / room / "__init__.py" if (PACKAGE / room).is_dir() else PACKAGE / f"{room}.py"
    docstring = ast.get_docstring(ast.parse(file.read_text(encoding="utf-8"))) or ""
    line = docstring.partition("\n")[0].removesuffix(".")
    return line[0].lower() + line[1:]


if __name__ == "__main__":
    DEVELOPERS.write_text(BLOCK.sub(tree_text(), DEVELOPERS.read_text(encoding="utf-8"), count=1), encoding="utf-8")
