"""Edits a copy of the demonstration as an educator does, and runs tests on it: one that is red depends on the demonstration.

    .venv/bin/python tests/mutation/educator.py tests/advice tests/site

A defect gets another id and another name, one that nothing mentions goes, a can that nothing mentions goes, another one
comes; the office, its kitchens and its policy change. What is still sound content must leave every test green.
"""

from __future__ import annotations

import os
import re
import subprocess
import sys
import tempfile
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT / "tests"))

from mutation.copying import lay_copy  # noqa: E402

RENAMED = ("droop", "hanging-lip", "Hanging lip")
POLICY = {
    "test_cans: 2": "test_cans: 3",
    "recheck_minutes: 30": "recheck_minutes: 20",
    "altitude_ft: 2350": "altitude_ft: 120",
    "standard_uncertainty: 0.0005 in": "standard_uncertainty: 0.0004 in",
}
NAMES = {"Mill Street": "Oak Street", "Sorrel County": "Juniper County"}


def edit(root: Path) -> None:
    """Make all the changes below `root`."""
    _rename_defect(root, *RENAMED)
    _remove_a_defect(root)
    _exchange_a_can(root)
    _replace(root / "content" / "sorrel-county" / "program.yml", POLICY)
    for file in _written(root):
        _replace(file, NAMES)


def _written(root: Path) -> Iterator[Path]:
    for folder in ("content", "quizzes"):
        yield from (file for file in (root / folder).rglob("*") if file.suffix in {".yml", ".md"})


def _replace(file: Path, changes: dict[str, str]) -> None:
    text = file.read_text(encoding="utf-8")
    for old, new in changes.items():
        text = text.replace(old, new)
    file.write_text(text, encoding="utf-8")


def _rename_defect(root: Path, old: str, new: str, title: str) -> None:
    for file in _written(root):
        text = file.read_text(encoding="utf-8")
        file.write_text(re.sub(rf"(defect/|defect: |drawing: ){old}\b", rf"\g<1>{new}", text), encoding="utf-8")
    before = root / "content" / "shared" / "defects" / f"{old}.yml"
    text = re.sub(r"^title: .*", f"title: {title}", before.read_text(encoding="utf-8"), count=1, flags=re.MULTILINE)
    text = re.sub(r"^reviewed:", f"formerly: [{old}]\nreviewed:", text, count=1, flags=re.MULTILINE)
    before.with_stem(new).write_text(text, encoding="utf-8")
    before.unlink()


def _mentions(root: Path, name: str) -> int:
    return sum(len(re.findall(rf"\b{name}\b", file.read_text(encoding="utf-8"))) for file in _written(root))


def _remove_a_defect(root: Path) -> None:
    files = sorted((root / "content" / "shared" / "defects").glob("*.yml"))
    unmentioned = next((file for file in files if not _mentions(root, file.stem)), None)
    if unmentioned:
        unmentioned.unlink()


def _exchange_a_can(root: Path) -> None:
    records = [
        (file, part)
        for file in sorted((root / "content" / "shared" / "cans").glob("*.yml"))
        for part in re.split(r"(?m)^(?=- id: )", file.read_text(encoding="utf-8"))[1:]
    ]
    code = re.compile(r'- id: "([0-9.]+x)([0-9]+)"')
    for file, part in records:
        width, height = code.match(part).groups()  # type: ignore[union-attr]
        if _mentions(root, width + height) == 2:  # its id and its code
            other = f"{int(height) - 1:03}" if height[1:] != "00" else f"{int(height) + 1:03}"
            _replace(file, {part: part.replace(width + height, width + other)})
            return


def main() -> int:
    """Edit a copy, see that it is sound, and run tests on it."""
    with tempfile.TemporaryDirectory(prefix="educator-") as name:
        folder = Path(name)
        lay_copy(folder)
        edit(folder)
        surroundings = {**os.environ, "PYTHONPATH": str(folder / "generator"), "NO_MKDOCS_2_WARNING": "1"}
        check = [sys.executable, "-c", "from tinwright.cli import main; main()", "check"]
        command = [sys.executable, "-m", "pytest", "-q", "--tb=line", "-p", "no:cacheprovider", *sys.argv[1:]]
        for each in (check, command):
            code = subprocess.run(each, cwd=folder, env=surroundings, check=False).returncode
            if code:
                return code
    return 0


if __name__ == "__main__":
    sys.exit(main())
