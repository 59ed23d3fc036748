"""YAML with a line and a column for every key and value, and nothing surprising in it."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from functools import cached_property
from typing import TYPE_CHECKING, Any

import yaml

from tinwright.errors import Problem, RecordError
from tinwright.given_file import read_given
from tinwright.knowledge.text_bytes import conflict_problems, text_of
from tinwright.knowledge.yaml_words import cut_off, fault_of
from tinwright.remembering import remembered

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

__all__ = ["MOST_BYTES", "LocatedYaml", "read_yaml"]

PathInData = tuple[str | int, ...]
Mark = tuple[int, int]

_MAX_DEPTH = 40
MOST_BYTES = 500_000
"""Ten times the longest file there is; reading that many takes a second."""

_Parser: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
"""Only its events are used: what values are made of them is said here."""

_SHOWN = 40
"""How many letters of what is cut off are shown."""
_FOLLOWS = 2
"""How many lines below a text that is cut off an error of the parser follows from it."""

_NO_RECORD = "expected a record, got an empty file"
_NO_ALIASES = "YAML aliases are not allowed; put text that begins so in quotes"
_SURPRISE = "the {} {} means different things to different YAML readers: put it in quotes"
_TAGS = {
    yaml.MappingStartEvent: {None, "!", "tag:yaml.org,2002:map"},
    yaml.SequenceStartEvent: {None, "!", "tag:yaml.org,2002:seq"},
    yaml.ScalarEvent: {None, "!", "tag:yaml.org,2002:str"},
}
"""The tags that say no more than what stands there anyway, and the one that makes text of a number."""

_NOT_TEXT = re.compile(
    r"""(?x) (?P<true> true ) | (?P<false> false ) | (?P<null> ~|null| )
        | (?P<whole> 0|-?[1-9][0-9]* ) | (?P<decimal> -?(?:0|[1-9][0-9]*)\.[0-9]+ )
        | (?P<surprise> (?i: y|n|yes|no|on|off  # booleans
            | [-+]?0[0-7_]+ | [-+]?0[box][0-9a-f_]+  # octal and other bases
            | [-+]?[0-9]+(?::[0-5]?[0-9])+(?:\.[0-9_]*)?  # base sixty
            | [-+]?[0-9]+_[0-9_]* | [-+]?\.(?:inf|nan) | << ))"""
)
"""Words out of quotes that are more than text; a surprise is one that YAML 1.1 and 1.2 readers take differently."""

_MADE_OF: dict[str | None, Callable[[str], Any]] = {
    "true": lambda _: True,
    "false": lambda _: False,
    "null": lambda _: None,
    "whole": int,
    "decimal": float,
}


@dataclass(eq=False)
class LocatedYaml:
    """The value of one YAML file, where each part of it stands, and what is wrong with its YAML; nobody changes it."""

    file: str
    """Path as shown in problems."""
    value: Any = None
    """Plain lists, dicts, texts and numbers; None when the file could not be read."""
    problems: list[Problem] = field(default_factory=list)
    """What is wrong with the YAML itself."""
    text: str = ""
    """The text it was read from; places are looked up in it when there is a problem to tell."""

    def at(self, path: PathInData, *, key: bool = False) -> Mark:
        """Return line and column of the part at `path`, or of the nearest part around it that has one.

        Args:
            path: the keys and numbers that lead to the part.
            key: True for the place of its key, where it has one.
        """
        found = list(self._parts(path))
        key_node, node = found[-1] if found else (self._tree, self._tree)
        chosen = key_node if key and len(found) == len(path) else node
        return _place(chosen.start_mark if chosen else None)

    def holds(self, path: PathInData) -> bool:
        """Tell whether there is a part at `path`."""
        return len(list(self._parts(path))) == len(path)

    @cached_property
    def _tree(self) -> yaml.Node | None:
        if self.value is None:
            return None
        return yaml.compose(self.text, Loader=getattr(yaml, "CBaseLoader", yaml.BaseLoader))

    def _parts(self, path: PathInData) -> Iterator[tuple[yaml.Node, yaml.Node]]:
        """Yield key and value of each part on the way to `path`, as far as there are any."""
        node = self._tree
        for step in path:
            if isinstance(node, yaml.MappingNode):
                found = next((pair for pair in node.value if pair[0].value == step), None)
            elif isinstance(node, yaml.SequenceNode) and isinstance(step, int) and step < len(node.value):
                found = (node.value[step], node.value[step])
            else:
                found = None
            if found is None:
                return
            yield found
            node = found[1]

    def problem(self, path: PathInData, message: str, *, record: str = "", key: bool = False) -> Problem:
        """Make a problem that points at the part at `path`."""
        line, column = self.at(path, key=key)
        return Problem(self.file, line, column, record, message)


def read_yaml(path: Path, shown_as: str) -> LocatedYaml:
    """Read one YAML file without ever raising for what is in it.

    Args:
        path: the file.
        shown_as: how problems name it.
    """
    result = LocatedYaml(shown_as)
    try:
        raw = read_given(path, MOST_BYTES)
    except RecordError as error:
        result.problems.append(Problem(shown_as, 1, 1, "", str(error)))
        return result
    return _parsed(raw, shown_as)


@remembered
def _parsed(raw: bytes, shown_as: str) -> LocatedYaml:
    """Read the content of a file; nobody changes the result, so files that are read again are not parsed again."""
    result = LocatedYaml(shown_as)
    text = text_of(raw, shown_as)
    if isinstance(text, Problem):
        result.problems.append(text)
        return result
    result.problems.extend(conflict_problems(text, shown_as))
    if result.problems:
        return result
    result.text = text
    reader = _Reader(text, result)
    try:
        value = reader.document()
        if reader.is_safe:
            result.value = value
    except yaml.MarkedYAMLError as error:
        fault = fault_of(error, text)
        if not any(0 <= fault.line - line <= _FOLLOWS for line in reader.cut):
            result.problems.append(Problem(shown_as, fault.line + 1, fault.column + 1, "", fault.message))
    except yaml.reader.ReaderError as error:
        before = text.encode()[: error.position].decode(errors="ignore")  # libyaml counts bytes
        column = len(before) - before.rfind("\n")
        message = f"expected readable text, got the character #x{error.character:02x}"
        result.problems.append(Problem(shown_as, before.count("\n") + 1, column, "", message))
    except (yaml.YAMLError, ValueError, RecursionError) as error:
        result.problems.append(Problem(shown_as, 1, 1, "", f"cannot be read: {str(error).splitlines()[0]}"))
    return result


def _place(mark: Any) -> Mark:
    """Line and column from 1; the parser counts from 0 and may not know."""
    return (mark.line + 1, mark.column + 1) if mark else (1, 1)


class _Reader:
    """Makes the value of one file from the parser's events, and tells what is wrong with it."""

    def __init__(self, text: str, result: LocatedYaml) -> None:
        self._next: Callable[[], Any] = _Parser(text).get_event
        self._text = text
        self._result = result
        self.cut: list[int] = []
        """Lines, from 0, in which a # cuts a text off; what does not fit just below follows from it."""
        self.is_safe = True
        """False when it holds aliases, tags or the like, so that its value is not to be used."""

    def document(self) -> Any:
        """Return the value of the whole text."""
        self._next()
        if isinstance(self._next(), yaml.StreamEndEvent):
            self._result.problems.append(Problem(self._result.file, 1, 1, "", _NO_RECORD))
            return None
        first = self._next()
        value = self._value(first, 0)
        if value is None and self.is_safe:
            self._tell(first, _NO_RECORD)
        self._next()
        more = self._next()
        if not isinstance(more, yaml.StreamEndEvent):
            self._refuse(more, "expected the end of the file, got another document")
        return value

    def _value(self, event: Any, depth: int, deeper_than: int | None = None) -> Any:
        kind = type(event)
        if event.anchor is not None:
            return self._refuse_name(event)
        if event.tag not in _TAGS[kind]:
            return self._refuse_tag(event)
        if kind is yaml.ScalarEvent:
            if "#" in self._text and event.implicit[0]:
                self._tell_cut(event, deeper_than)
            word = _NOT_TEXT.fullmatch(event.value) if event.implicit[0] else None
            if word is None:
                return event.value
            if word["surprise"]:
                self._tell(event, _SURPRISE.format("value", event.value))
                return event.value
            return _MADE_OF[word.lastgroup](event.value)
        if depth == _MAX_DEPTH:
            return self._refuse(event, f"expected at most {_MAX_DEPTH} levels, got more")
        in_block = not event.flow_style
        return (self._mapping if kind is yaml.MappingStartEvent else self._list)(depth + 1, in_block=in_block)

    def _list(self, depth: int, *, in_block: bool) -> list[Any]:
        found = []
        while not isinstance(event := self._next(), yaml.SequenceEndEvent):
            found.append(self._value(event, depth, event.start_mark.column - 1 if in_block else None))
        return found

    def _mapping(self, depth: int, *, in_block: bool) -> dict[str, Any]:
        found: dict[str, Any] = {}
        first_seen: dict[str, yaml.Mark] = {}
        while not isinstance(key := self._next(), yaml.MappingEndEvent):
            is_sound = self._is_sound_key(key, first_seen)
            value = self._value(self._next(), depth, key.start_mark.column if in_block else None)
            if is_sound:
                found[key.value] = value
                first_seen[key.value] = key.start_mark
        return found

    def _is_sound_key(self, key: Any, first_seen: dict[str, yaml.Mark]) -> bool:
        if key.anchor is not None:
            self._refuse_name(key)
        elif not isinstance(key, yaml.ScalarEvent):
            self._refuse(key, "expected a word as key, got a list or keys and values")
        elif key.tag not in _TAGS[yaml.ScalarEvent]:
            self._refuse_tag(key)
        elif key.value in first_seen:
            line, _ = _place(first_seen[key.value])
            self._tell(key, f"duplicate key {key.value!r}; it already stands in line {line}")
        else:
            if key.implicit[0] and (word := _NOT_TEXT.fullmatch(key.value)) and word["surprise"]:
                self._tell(key, _SURPRISE.format("key", key.value))
            return True
        return False

    def _tell_cut(self, event: Any, deeper_than: int | None) -> None:
        """Tell of a text that a # cuts off without a word: the rest would be taken for a note."""
        found = cut_off(event.value, self._text, event.end_mark.index, deeper_than=deeper_than)
        if found is None:
            return
        after, words = found
        before = self._text[: event.end_mark.index + after]
        line, column = before.count("\n"), len(before) - before.rfind("\n")
        shown = words if len(words) <= _SHOWN else f"{words[:_SHOWN]}..."
        message = f"{shown!r} is cut off: a # after a space begins a note; put the whole text in quotes"
        self._result.problems.append(Problem(self._result.file, line + 1, column, "", message))
        self.cut.append(line)

    def _refuse_tag(self, event: Any) -> None:
        if event.tag.startswith("!"):
            self._refuse(event, "a text cannot begin with !: put it in quotes")
        else:
            self._refuse(event, f"expected plain YAML, got the tag {event.tag!r}")

    def _refuse_name(self, event: Any) -> None:
        if isinstance(event, yaml.AliasEvent):
            self._refuse(event, f"expected the text written out, got an alias (*{event.anchor}): {_NO_ALIASES}")
        else:
            self._refuse(event, f"expected text, got a name for an alias (&{event.anchor}): {_NO_ALIASES}")

    def _refuse(self, event: Any, message: str) -> None:
        """Tell a problem so bad that the file's value is not to be used, and pass over what the event begins."""
        self._tell(event, message)
        self.is_safe = False
        levels = int(isinstance(event, yaml.CollectionStartEvent))
        while levels:
            event = self._next()
            levels += isinstance(event, yaml.CollectionStartEvent) - isinstance(event, yaml.CollectionEndEvent)

    def _tell(self, event: Any, message: str) -> None:
        self._result.problems.append(Problem(self._result.file, *_place(event.start_mark), "", message))
