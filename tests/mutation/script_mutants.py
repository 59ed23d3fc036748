"""Every change of a single token that a browser script can suffer and still be read."""

from __future__ import annotations

import re

from mutation.mutant import Mutant

OPERATORS = {
    "+": "-",
    "-": "+",
    "*": "/",
    "/": "*",
    "%": "*",
    "<": "<=",
    "<=": "<",
    ">": ">=",
    ">=": ">",
    "===": "!==",
    "!==": "===",
    "&&": "||",
    "||": "&&",
    "!": "",
}
WORDS = {"true": "false", "false": "true", "min": "max", "max": "min", "some": "every", "every": "some"}
_TOKEN = re.compile(
    r"""(?P<blank>\s+|//[^\n]*|/\*.*?\*/)
    |(?P<text>"(?:\\.|[^"\\])*"|'(?:\\.|[^'\\])*')
    |(?P<number>(?:\d[\d_]*\.?\d*|\.\d+)(?:[eE][-+]?\d+)?)
    |(?P<word>[\w$]+)
    |(?P<sign>>>>?=?|<<=?|===|!==|=>|<=|>=|&&=?|\|\|=?|\?\?=?|\?\.|\.\.\.|\+\+|--|\*\*|[-+*/%]=|.)""",
    re.VERBOSE | re.DOTALL,
)
_REGULAR = re.compile(r"/(?:\\.|\[(?:\\.|[^\]\\])*\]|[^/\\\[\n])+/[a-z]*")
_VALUE_BEFORE = ("number", "word", "text", "template")
_KEYWORDS = {"return", "case", "typeof", "in", "of", "else"}


def script_mutants(text: str) -> list[Mutant]:
    """Find them in the order of the text; comments, what stands in quotes and regular expressions are left alone."""
    tokens = _tokens(text)
    found = []
    for place, (kind, at, word) in enumerate(tokens):
        before = tokens[place - 1] if place else ("", 0, "")
        after = tokens[place + 1] if place + 1 < len(tokens) else ("", 0, "")
        if kind == "number":
            new = str(float(word.replace("_", "")) + 1).removesuffix(".0")
            found.append(Mutant(at, word, new))
        elif kind == "word" and word in WORDS and after[2] != ":":
            found.append(Mutant(at, word, WORDS[word]))
        elif kind == "sign" and word in OPERATORS and not {before[0], after[0]} & {"text", "template"}:
            if _ends_a_value(before) or word == "!":
                found.append(Mutant(at, word, OPERATORS[word]))
            elif word == "-":
                found.append(Mutant(at, word, ""))
    return found


def _ends_a_value(token: tuple[str, int, str]) -> bool:
    kind, _, word = token
    return (kind in _VALUE_BEFORE and word not in _KEYWORDS) or word in (")", "]", "}")


def _tokens(text: str) -> list[tuple[str, int, str]]:
    """Read kind, place and word of each token; what stands in a template is one token, its inserted parts too."""
    tokens: list[tuple[str, int, str]] = []
    at = 0
    while at < len(text):
        if text[at] == "`":
            end = _end_of_template(text, at)
            tokens.append(("template", at, text[at:end]))
        elif text[at] == "/" and text[at + 1 : at + 2] not in ("/", "*") and not _ends_a_value(_last(tokens)):
            match = _REGULAR.match(text, at)
            assert match, f"a regular expression without an end: {text[at : at + 40]!r}"
            end = match.end()
            tokens.append(("template", at, match.group()))
        else:
            match = _TOKEN.match(text, at)
            assert match
            end = match.end()
            if match.lastgroup != "blank":
                tokens.append((str(match.lastgroup), at, match.group()))
        at = end
    return tokens


def _last(tokens: list[tuple[str, int, str]]) -> tuple[str, int, str]:
    return tokens[-1] if tokens else ("", 0, "")


def _end_of_template(text: str, at: int) -> int:
    at += 1
    while text[at] != "`":
        if text[at] == "\\":
            at += 2
        elif text.startswith("${", at):
            at = _end_of_insertion(text, at + 2)
        else:
            at += 1
    return at + 1


def _end_of_insertion(text: str, at: int) -> int:
    depth = 1
    while depth:
        if text[at] == "`":
            at = _end_of_template(text, at)
            continue
        depth += {"{": 1, "}": -1}.get(text[at], 0)
        at += 1
    return at
