"""Say what a lock file names and is not installed, so that nothing is asked for that is there already.

missing.py requirements.lock                          for the Python that runs this
missing.py tests/judges/package-lock.json .judges     for a folder with programs from npm
"""  # noqa: INP001 - a script, no package

from __future__ import annotations

import json
import re
import sys
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path


def of_python(lock: str) -> list[str]:
    """Name the packages of a requirements file that are not there in its version."""
    return [f"{name}=={wanted}" for name, wanted in re.findall(r"^(\S+)==(\S+)", lock, re.M) if _of(name) != wanted]


def of_npm(lock: str, folder: Path) -> list[str]:
    """Name the packages of a package-lock.json that are not there in its version; optional ones may be missing."""
    packages = {path: entry for path, entry in json.loads(lock)["packages"].items() if path and "optional" not in entry}
    return [path for path, entry in packages.items() if _in(folder / path) != entry["version"]]


def _of(name: str) -> str | None:
    try:
        return version(name)
    except PackageNotFoundError:
        return None


def _in(package: Path) -> str | None:
    try:
        found: str = json.loads((package / "package.json").read_text(encoding="utf-8"))["version"]
    except (OSError, ValueError, KeyError):
        return None
    return found


if __name__ == "__main__":
    text = Path(sys.argv[1]).read_text(encoding="utf-8")
    missing = of_npm(text, Path(sys.argv[2])) if sys.argv[2:] else of_python(text)
    sys.stdout.write("".join(f"{line}\n" for line in missing))
