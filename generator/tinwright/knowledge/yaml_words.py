"""What is wrong with the YAML of a file, in words for somebody who only wanted to write a sentence down."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    import yaml

__all__ = ["Fault", "cut_off", "fault_of"]

_ONE_WORD = re.compile(r"[a-z0-9][a-z0-9./-]*|[\d./ -]*\d ?(?:in|mm|turns?)")
"""Ids, dates, numbers and lengths: a note after them cuts nothing off."""
_NOTE = re.compile(r"[ \t]+(#.*)")
_NOTE_BELOW = re.compile(r"[ \t]*\r?\n(?:[ \t]*\r?\n)*([ \t]*)(#.*)")


class Fault(NamedTuple):
    """What is wrong, and where; line and column count from 0."""

    line: int
    column: int
    message: str


def fault_of(error: yaml.MarkedYAMLError, text: str) -> Fault:
    """Say in plain words what the parser could not read.

    Args:
        error: what the parser raised.
        text: the text it was reading.
    """
    said = error.problem or error.context or ""
    at = error.problem_mark or error.context_mark
    if at is None:
        return Fault(0, 0, f"cannot be read: {said}")
    lines = re.split("\r\n|[\r\n\x85\u2028\u2029]", text)
    line = lines[at.line] if at.line < len(lines) else ""
    began = error.context_mark or at
    if "quoted scalar" in (error.context or ""):
        return _in_quotes(said, began, at, lines)
    if "could not find expected ':'" in said:
        message = "neither a key with ': ' after it, nor indented as part of the text above it"
        return Fault(began.line, began.column, message)
    return Fault(at.line, at.column, _message(said, line, at, began))


def _in_quotes(said: str, began: yaml.Mark, at: yaml.Mark, lines: list[str]) -> Fault:
    mark = lines[began.line][began.column : began.column + 1]
    if "escape" in said:
        message = "a backslash in double quotes: write it twice, or put the text in single quotes"
        return Fault(at.line, at.column, message)
    other = "; a text with an apostrophe goes in double quotes" if mark == "'" else ""
    return Fault(began.line, began.column, f"the quotation mark {mark} that opens here is never closed{other}")


def _message(said: str, line: str, at: yaml.Mark, began: yaml.Mark) -> str:
    before, rest = line[: at.column], line[at.column :]
    if "\t" in (rest[:1], *before[-1:]) or "\t" in line[: len(line) - len(line.lstrip())]:
        return "a tab: indent with spaces"
    if "cannot start any token" in said and rest:
        return f"a text cannot begin with {rest[0]}: put it in quotes"
    if "mapping values are not allowed" in said:
        if re.search(r":\s", before):
            return "a second ': ' in one line; put the text in quotes"
        return (
            "indented deeper than the line above, which has its text already: line it up, "
            "or, if it goes on with that text, put the whole text in quotes"
        )
    if "',' or" in said:
        bracket = said.rstrip("'")[-1]
        opening = {"]": "[", "}": "{"}.get(bracket, bracket)
        return f"a comma is missing, or the {opening} in line {began.line + 1} is never closed"
    if "expected key" in said or "'-' indicator" in said:
        return _does_not_fit(line, before, rest, began, in_list="'-'" in said)
    return f"cannot be read; the part it stands in begins in line {began.line + 1}"


def _does_not_fit(line: str, before: str, rest: str, began: yaml.Mark, *, in_list: bool) -> str:
    last = before.rstrip()[-1:]
    if last == "'" and rest[:1].isalnum() and before[-2:-1].isalnum():
        return "an apostrophe ends a text in single quotes: put the text in double quotes"
    if last in {"'", '"'}:
        return f"text after the closing {last}: put all of the text in quotes, of the other sort than those inside it"
    if in_list:
        return f"expected '- ' below that of line {began.line + 1}, where the list begins"
    if rest.startswith("- ") and len(before) == began.column:
        return f"a list entry in line with the keys above it: expected a key, as in line {began.line + 1}"
    spaces = len(line) - len(line.lstrip(" "))
    return (
        f"indented by {spaces} spaces, which lines up with nothing above: "
        f"the keys that begin in line {began.line + 1} are indented by {began.column}"
    )


def cut_off(value: str, text: str, end: int, *, deeper_than: int | None) -> tuple[int, str] | None:
    r"""Return what a # cuts off a text that has no quotes: how far after its end, and the words; None when nothing.

    Args:
        value: the text as far as it was read.
        text: all of the file.
        end: where in it the value ends.
        deeper_than: column of the key or dash it belongs to: text on the next line that is indented deeper belongs to
            the value; None between brackets, where indentation says nothing.

    >>> cut_off("Never lift a", "do: Never lift a #10 can\n", 16, deeper_than=0)
    (1, '#10 can')
    """
    match, group = _NOTE.match(text, end), 1
    if match is None and deeper_than is not None:
        match, group = _NOTE_BELOW.match(text, end), 2
        if match is not None and len(match[1]) <= deeper_than:
            return None
    if match is None:
        return None
    words = match[group].rstrip()
    if _ONE_WORD.fullmatch(value) and words[1:2] in {"", " "}:
        return None
    return match.start(group) - end, words
