"""Which scripts there are, what each needs before it, and as which files they are published."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from graphlib import TopologicalSorter
from importlib.resources import files
from types import MappingProxyType
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

__all__ = ["SUBJECTS", "Script", "needed_scripts", "published_scripts", "script_text", "scripts"]

SUBJECTS = ("shell", "seaming", "practice", "advice", "benchlog", "quiz", "certificate")
"""Folders whose scripts the site publishes, each after those that it may use."""

_HEAD = re.compile(r"(?://[^\n]*\n)*")
_LINE_COMMENT = re.compile(rb"^[ \t]*//.*\n", re.MULTILINE)
_BLOCK_COMMENT = re.compile(rb"^[ \t]*/\*\*(?:(?!\*/).)*\*/[ \t]*\n", re.MULTILINE | re.DOTALL)
"""Comments that have their lines to themselves; they are for those who read the sources, not for a phone."""
_INDENT = re.compile(rb"^[ ]+", re.MULTILINE)
"""What lines are set in by, for readers, too. A test compares the words of what is published with what was written."""


@dataclass(frozen=True)
class Script:
    """One file of the site's scripts."""

    name: str
    """Its file's name."""
    subject: str
    """Its folder."""
    needs: tuple[str, ...]
    """Names of the scripts that must run before it, as its `// needs:` lines say."""
    joined: str
    """The file as part of which it is published, as its `// joined:` line says; its own name when there is none."""
    text: str
    """What is in it."""


@cache
def scripts() -> Mapping[str, Script]:
    """Return every script that the site publishes by name, each after what it needs.

    Raises:
        ValueError: scripts need each other in a circle.
        KeyError: a script needs one that is not there.
    """
    found = {script.name: script for subject in SUBJECTS for script in _scripts_of(subject)}
    needs = {name: {found[need].name for need in script.needs} for name, script in found.items()}
    return MappingProxyType({name: found[name] for name in _in_order(needs)})


def needed_scripts(*names: str) -> tuple[str, ...]:
    """Return the published files that a page needs for some scripts, in the order in which they must run.

    Args:
        names: what the page wants to run.

    >>> needed_scripts("verify-certificate.js")[-2:]
    ('certificate-check.js', 'verify-certificate.js')
    """
    found = scripts()
    wanted, waiting = dict[str, set[str]](), [found[name].joined for name in names]
    while waiting:
        file = waiting.pop()
        if file not in wanted:
            parts = [script for script in found.values() if script.joined == file]
            wanted[file] = {found[need].joined for script in parts for need in script.needs} - {file}
            waiting += wanted[file]
    return tuple(
        _in_order({file: wanted[file] for file in dict.fromkeys(s.joined for s in found.values()) if file in wanted})
    )


def published_scripts() -> dict[str, bytes]:
    """Return what the site publishes of the scripts, by file: joined, without comments and indents."""
    parts: dict[str, list[bytes]] = {}
    for script in scripts().values():
        parts.setdefault(script.joined, []).append(_without_comments(script.text.encode()))
    return {name: b"\n".join(parts[name]) for name in sorted(parts)}


def script_text(folder: str, name: str) -> str:
    """Return one script as it was written.

    Args:
        folder: its subject, or `examination` or `worker`.
        name: name of the file.
    """
    return files("tinwright.browser").joinpath(folder, name).read_text(encoding="utf-8")


def _scripts_of(subject: str) -> Iterable[Script]:
    for entry in sorted(files("tinwright.browser").joinpath(subject).iterdir(), key=lambda entry: entry.name):
        if entry.name.endswith(".js") and not entry.name.startswith("."):
            text = entry.read_text(encoding="utf-8")
            joined = _said(text, "joined") or (entry.name,)
            yield Script(entry.name, subject, _said(text, "needs"), joined[0], text)


def _said(text: str, word: str) -> tuple[str, ...]:
    """Return the names on the lines of the head that begin with a word."""
    head = _HEAD.match(text)
    lines = head[0].splitlines() if head else []
    return tuple(name for line in lines if line.startswith(f"// {word}: ") for name in line.split()[2:])


def _in_order(needs: Mapping[str, set[str]]) -> list[str]:
    """Order names by what each needs and, where that leaves it open, as they came."""
    place = {name: number for number, name in enumerate(needs)}
    sorter = TopologicalSorter(needs)
    sorter.prepare()
    order: list[str] = []
    ready: list[str] = []
    while sorter.is_active():
        ready = sorted([*ready, *sorter.get_ready()], key=place.__getitem__)
        order.append(ready.pop(0))
        sorter.done(order[-1])
    return order


def _without_comments(script: bytes) -> bytes:
    return _INDENT.sub(b"", _BLOCK_COMMENT.sub(b"", _LINE_COMMENT.sub(b"", script)))
