"""The scripts of the site, by subject: plain scripts for the browser, without modules and without a framework.

    from tinwright.browser import published_scripts

    published_scripts()["quiz-scoring.js"]

A folder is a subject; the site publishes the scripts of all subjects side by side, by their names. `examination` goes
into the page of an examination alone, and `worker` becomes the site's service worker.
"""

from __future__ import annotations

from importlib.resources import files

__all__ = ["SUBJECTS", "published_scripts", "script_text"]

SUBJECTS = ("seaming", "advice", "benchlog", "quiz", "certificate", "shell")
"""Folders whose scripts the site publishes."""


def published_scripts() -> dict[str, bytes]:
    """Return the scripts that the site publishes, by name."""
    folders = (files(__name__).joinpath(subject) for subject in SUBJECTS)
    found = {
        entry.name: entry.read_bytes() for folder in folders for entry in folder.iterdir() if _is_script(entry.name)
    }
    return dict(sorted(found.items()))


def script_text(folder: str, name: str) -> str:
    """Return one script.

    Args:
        folder: its subject, or `examination` or `worker`.
        name: name of the file.
    """
    return files(__name__).joinpath(folder, name).read_text(encoding="utf-8")


def _is_script(name: str) -> bool:
    return name.endswith(".js") and not name.startswith(".")
