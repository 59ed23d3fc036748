"""A small program for tests, of one layer: one sealer, two cans, three defects. No edit of the demonstration changes it."""

from __future__ import annotations

from importlib.resources import files
from pathlib import Path

from tinwright.starter.laying import lay_whole

__all__ = ["KITCHEN", "lay_down"]

KITCHEN = Path(__file__).with_name("kitchen")
"""Its content as it is kept."""


def lay_down(folder: Path) -> int:
    """Copy it into a new or empty folder, with the settings that `tinwright new` begins from; returns how many files."""

    def make(whole: Path) -> int:
        settings = files("tinwright.starter") / "county_files" / "mkdocs.yml"
        found = {"mkdocs.yml": settings.read_bytes()} | {
            path.relative_to(KITCHEN).as_posix(): path.read_bytes() for path in KITCHEN.rglob("*") if path.is_file()
        }
        for name, content in found.items():
            (whole / name).parent.mkdir(parents=True, exist_ok=True)
            (whole / name).write_bytes(content)
        return len(found)

    return lay_whole(folder, make)
