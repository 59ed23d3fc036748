"""A copy of what the tests read, to change at will."""

from __future__ import annotations

import shutil
from pathlib import Path

ROOT = Path(__file__).parents[2]
COPIED = (
    *("content", "docs", "generator", "quizzes", "scripts", "tests", ".ci", "mkdocs.yml", "pyproject.toml"),
    *("README.md", "DEVELOPERS.md", "CHANGELOG.md", "LICENSE", "LICENSE-CONTENT", "requirements.lock"),
    *("requirements-test.lock", ".gitignore"),
)


def lay_copy(folder: Path) -> None:
    """Lay the copy into an empty folder; what is installed is linked."""
    for name in COPIED:
        if (ROOT / name).is_dir():
            shutil.copytree(ROOT / name, folder / name, ignore=shutil.ignore_patterns("__pycache__"))
        else:
            shutil.copy(ROOT / name, folder / name)
    for name in (".judges", ".venv"):
        (folder / name).symlink_to(ROOT / name)
