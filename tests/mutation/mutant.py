"""A change of a single token in a file."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Mutant:
    """One token of a text, and what stands there instead."""

    at: int
    """Where the token begins, in letters from the beginning of the text."""
    old: str
    new: str

    def change(self, text: str) -> str:
        """Return the text with the other token in it."""
        assert text.startswith(self.old, self.at)
        return text[: self.at] + self.new + text[self.at + len(self.old) :]

    def place(self, text: str) -> str:
        """Return line and column, both from 1."""
        line = text.count("\n", 0, self.at) + 1
        return f"{line}:{self.at - text.rfind(chr(10), 0, self.at)}"

    def __str__(self) -> str:
        return f"{self.old} -> {self.new or 'nothing'}"
