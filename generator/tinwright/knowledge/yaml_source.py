"""YAML with a line and a column for every key and value, and nothing surprising in it."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any, ClassVar

import yaml

from tinwright.errors import Problem
from tinwright.remembering import remembered

if TYPE_CHECKING:
    from pathlib import Path

__all__ = ["LocatedYaml", "read_yaml"]

PathInData = tuple[str | int, ...]
Mark = tuple[int, int]

_MAX_DEPTH = 40
_MAX_BYTES = 2_000_000

_PLAIN_TAGS = {"map", "seq", "str", "int", "float", "bool", "null"}
_TEXT_TAG = "tag:yaml.org,2002:str"
_NO_ALIASES = "expected the text written out, got an alias (*name): YAML aliases are not allowed"

_YAML_1_1_SURPRISE = re.compile(
    r"""(?ix) (?P<boolean> y|n|yes|no|on|off )
        | (?P<octal> [-+]?0[0-7_]+ ) | (?P<base> [-+]?0[box][0-9a-f_]+ )
        | (?P<sexagesimal> [-+]?[0-9]+(:[0-5]?[0-9])+(\.[0-9_]*)? )
        | (?P<underscore> [-+]?[0-9][0-9]*_[0-9_]* )
        | (?P<merge> << ) | (?P<infinity> [-+]?\.(inf|nan) )"""
)
"""Plain words and numbers that YAML 1.1 and 1.2 readers take for different things."""


class _Loader(getattr(yaml, "CSafeLoader", yaml.SafeLoader)):  # type: ignore[misc]
    """A safe loader that knows true, false, null and decimal numbers only; all else is text."""

    yaml_implicit_resolvers: ClassVar[dict[str | None, list[tuple[str, re.Pattern[str]]]]] = {}


for _tag, _pattern, _first in (
    ("tag:yaml.org,2002:bool", r"true|false", "tf"),
    ("tag:yaml.org,2002:null", r"~|null|", "~n"),
    ("tag:yaml.org,2002:int", r"0|-?[1-9][0-9]*", "-0123456789"),
    ("tag:yaml.org,2002:float", r"-?(?:0|[1-9][0-9]*)\.[0-9]+", "-0123456789"),
):
    _Loader.add_implicit_resolver(_tag, re.compile(f"(?:{_pattern})$"), list(_first) + ([""] if "null" in _tag else []))


@dataclass
class LocatedYaml:
    """The value of one YAML file, where each part of it stands, and what is wrong with its YAML."""

    file: str
    """Path as shown in problems."""
    value: Any = None
    """Plain lists, dicts, texts and numbers; None when the file could not be read."""
    problems: list[Problem] = field(default_factory=list)
    """What is wrong with the YAML itself."""
    marks: dict[PathInData, Mark] = field(default_factory=dict)
    """Line and column of each value."""
    key_marks: dict[PathInData, Mark] = field(default_factory=dict)
    """Line and column of each key, by the path of its value."""
    is_safe: bool = True
    """False when it holds aliases, tags or the like, so that no value was made of it."""

    def at(self, path: PathInData, *, key: bool = False) -> Mark:
        """Return line and column of the part at `path`, or of the nearest part around it that has one."""
        if key and path in self.key_marks:
            return self.key_marks[path]
        for length in range(len(path), -1, -1):
            if path[:length] in self.marks:
                return self.marks[path[:length]]
        return (1, 1)

    def refuse(self, mark: Mark, message: str) -> None:
        """Note a problem so bad that the file's value is not to be used."""
        self.problems.append(Problem(self.file, *mark, "", message))
        self.is_safe = False

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
        raw = path.read_bytes()
    except OSError as error:
        result.problems.append(Problem(shown_as, 1, 1, "", f"cannot be read: {error.strerror}"))
        return result
    if len(raw) > _MAX_BYTES:
        result.problems.append(Problem(shown_as, 1, 1, "", f"expected at most {_MAX_BYTES} bytes, got {len(raw)}"))
        return result
    return _parsed(raw, shown_as)


@remembered
def _parsed(raw: bytes, shown_as: str) -> LocatedYaml:
    """Read the content of a file; nobody changes the result, so files that are read again are not parsed again."""
    result = LocatedYaml(shown_as)
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = raw[: error.start].count(b"\n") + 1
        result.problems.append(Problem(shown_as, line, 1, "", "expected UTF-8 text, got other bytes"))
        return result
    try:
        _refuse_aliases(text, result)
        if not result.is_safe:
            return result
        loader = _Loader(text)
        node = loader.get_single_node()
        if node is None:
            result.problems.append(Problem(shown_as, 1, 1, "", "expected a record, got an empty file"))
            return result
        value = _walk(node, (), result, 0, loader)
        if result.is_safe:
            result.value = value
    except yaml.MarkedYAMLError as error:
        mark = error.problem_mark or error.context_mark
        line, column = _place(mark)
        message = _plain_yaml_message(error)
        result.problems.append(Problem(shown_as, line, column, "", message))
        result.value = None
    except yaml.reader.ReaderError as error:
        before = text.encode()[: error.position].decode(errors="ignore")  # libyaml counts bytes
        column = len(before) - before.rfind("\n")
        message = f"expected readable text, got the character #x{error.character:02x}"
        result.problems.append(Problem(shown_as, before.count("\n") + 1, column, "", message))
    except (yaml.YAMLError, ValueError, RecursionError) as error:
        result.problems.append(Problem(shown_as, 1, 1, "", f"not valid YAML: {str(error).splitlines()[0]}"))
        result.value = None
    return result


def _place(mark: Any) -> Mark:
    """Line and column from 1; the parser counts from 0 and may not know."""
    return (mark.line + 1, mark.column + 1) if mark else (1, 1)


def _refuse_aliases(text: str, result: LocatedYaml) -> None:
    if "*" not in text:
        return
    for event in yaml.parse(text, Loader=_Loader):
        if isinstance(event, yaml.AliasEvent):
            result.refuse(_place(event.start_mark), _NO_ALIASES)


def _plain_yaml_message(error: yaml.MarkedYAMLError) -> str:
    said = (error.problem or error.context or "it cannot be read").strip()
    if "mapping values are not allowed" in said:
        return "not valid YAML: a second ': ' in one line; put the text in quotes"
    if "cannot start any token" in said and "\\t" in said:
        return "not valid YAML: a tab; indent with spaces"
    began = error.context_mark
    return f"not valid YAML: {said}" + (
        f"; this part began in line {began.line + 1}" if began and error.problem else ""
    )


def _walk(node: yaml.Node, path: PathInData, result: LocatedYaml, depth: int, loader: _Loader) -> Any:
    """Note where each part stands, find aliases, tags, duplicate keys and surprises, and return the value."""
    mark = _place(node.start_mark)
    if depth > _MAX_DEPTH:
        result.refuse(mark, f"expected at most {_MAX_DEPTH} levels, got more")
    elif node.tag.removeprefix("tag:yaml.org,2002:") not in _PLAIN_TAGS:
        result.refuse(mark, f"expected plain YAML, got the tag {node.tag!r}")
    else:
        result.marks[path] = mark
        if isinstance(node, yaml.MappingNode):
            return _walk_mapping(node, path, result, depth, loader)
        if isinstance(node, yaml.SequenceNode):
            return [_walk(item, (*path, index), result, depth + 1, loader) for index, item in enumerate(node.value)]
        if isinstance(node, yaml.ScalarNode):
            _check_scalar(node, result, "value")
            return node.value if node.tag == _TEXT_TAG else loader.construct_object(node)
    return None


def _walk_mapping(
    node: yaml.MappingNode, path: PathInData, result: LocatedYaml, depth: int, loader: _Loader
) -> dict[Any, Any]:
    first_seen: dict[str, Mark] = {}
    value: dict[Any, Any] = {}
    for key_node, value_node in node.value:
        key_mark = _place(key_node.start_mark)
        if not isinstance(key_node, yaml.ScalarNode):
            result.refuse(key_mark, "expected a word as key, got a list or keys and values")
            continue
        if key_node.tag.removeprefix("tag:yaml.org,2002:") not in _PLAIN_TAGS:
            result.refuse(key_mark, f"expected plain YAML, got the tag {key_node.tag!r}")
            continue
        key = str(key_node.value)
        _check_scalar(key_node, result, "key")
        if key in first_seen:
            message = f"duplicate key {key!r}; it already stands in line {first_seen[key][0]}"
            result.problems.append(Problem(result.file, *key_mark, "", message))
            continue
        first_seen[key] = key_mark
        result.key_marks[(*path, key)] = key_mark
        found = _walk(value_node, (*path, key), result, depth + 1, loader)
        value[key if key_node.tag == _TEXT_TAG else loader.construct_object(key_node)] = found
    return value


def _check_scalar(node: yaml.ScalarNode, result: LocatedYaml, role: str) -> None:
    plain = not node.style
    surprise = _YAML_1_1_SURPRISE.fullmatch(node.value) if plain else None
    if surprise:
        mark = _place(node.start_mark)
        message = f"the {role} {node.value} means different things to different YAML readers: put it in quotes"
        result.problems.append(Problem(result.file, *mark, "", message))
