"""What the office publishes so that its certificates can be checked: its public keys, and the list of revoked ones."""

from __future__ import annotations

import json
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from tinwright.errors import Problem

if TYPE_CHECKING:
    from pathlib import Path

__all__ = ["FOLDER", "PUBLIC_FILES", "PublishedFile", "published_problems", "read_published"]

FOLDER = "certificates"
"""Folder of the content that holds it."""

PUBLIC_FILES = {
    "issuer.json": "verificationMethod",
    "revoked.json": "revoked",
    "status-list.json": "credentialSubject",
}
"""The files there may be, each with a member it must have. None of them holds a name."""


@dataclass(frozen=True)
class PublishedFile:
    """One file, as it is published."""

    name: str
    """Its name."""
    content: bytes
    """What is in it, to the letter."""
    value: dict[str, Any]
    """What its JSON holds."""


def read_published(root: Path) -> dict[str, PublishedFile]:
    """Return the published files of a content folder by name; none is fine.

    What is not among them is not read, and so never reaches the site.
    """
    found = {}
    for name in PUBLIC_FILES:
        file = root / FOLDER / name
        if file.is_file():
            content = file.read_bytes()
            found[name] = PublishedFile(name, content, json.loads(content))
    return found


def published_problems(root: Path, shown_as: str) -> list[Problem]:
    """Return what is wrong with the folder: a broken file, or one that must not lie there."""
    folder = root / FOLDER
    problems = []
    for file in sorted(folder.iterdir()) if folder.is_dir() else ():
        shown = f"{shown_as}/{FOLDER}/{file.name}"
        if file.name not in PUBLIC_FILES:
            if not file.name.startswith("."):
                message = (
                    f"expected only {', '.join(PUBLIC_FILES)} here: keep certificates of people out of the content"
                )
                problems.append(Problem(shown, 1, 1, "", message))
            continue
        try:
            value = json.loads(file.read_bytes())
        except (OSError, ValueError, RecursionError):
            value = None
        if not isinstance(value, dict) or PUBLIC_FILES[file.name] not in value:
            message = "expected what `tinwright certificate publish` writes, got something else: publish it again"
            problems.append(Problem(shown, 1, 1, "", message))
    if not problems and folder.is_dir() and any(folder.iterdir()) and not (folder / "issuer.json").is_file():
        problems.append(Problem(f"{shown_as}/{FOLDER}/issuer.json", 1, 1, "", "the file is missing"))
    return problems
