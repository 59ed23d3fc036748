"""What is installed already is asked of nobody: `scripts/missing.py` names only what a lock file has and this place lacks."""

from __future__ import annotations

import json
import subprocess
import sys
from importlib.metadata import version
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
SHELL = ("check", "common", "lock", "serve", "test")


def missing(*arguments: object) -> list[str]:
    command = [sys.executable, ROOT / "scripts" / "missing.py", *arguments]
    return subprocess.run(command, capture_output=True, text=True, check=True).stdout.splitlines()


def test_a_python_package_is_missing_when_it_is_not_there_in_its_version(tmp_path: Path) -> None:
    lock = tmp_path / "lock"
    there = f"pytest=={version('pytest')} \\\n    --hash=sha256:00\n"
    lock.write_text(f"# a note\n{there}", encoding="utf-8")
    assert missing(lock) == []
    lock.write_text(f"{there}click==0.0.1 \\\nno-such-thing==1.0 \\\n    # via click\n", encoding="utf-8")
    assert missing(lock) == ["click==0.0.1", "no-such-thing==1.0"]


def test_a_package_from_npm_is_missing_when_it_is_not_there_in_its_version(tmp_path: Path) -> None:
    def package(version: str, **more: bool) -> dict[str, object]:
        return {"version": version, **more}

    packages = {"": {"name": "ours"}, "node_modules/a": package("1.2.0"), "node_modules/b": package("2.0.0")}
    packages["node_modules/c"] = package("3.0.0", optional=True)
    lock, a = tmp_path / "package-lock.json", tmp_path / "node_modules" / "a" / "package.json"
    lock.write_text(json.dumps({"packages": packages}), encoding="utf-8")
    a.parent.mkdir(parents=True)
    a.write_text('{"version": "1.2.0"}', encoding="utf-8")
    assert missing(lock, tmp_path) == ["node_modules/b"]
    a.write_text('{"version": "1.1.9"}', encoding="utf-8")
    assert missing(lock, tmp_path) == ["node_modules/a", "node_modules/b"]


@pytest.mark.parametrize("script", SHELL)
def test_scripts_are_sound_shell(script: str) -> None:
    assert subprocess.run(["sh", "-n", ROOT / "scripts" / script], check=False).returncode == 0
