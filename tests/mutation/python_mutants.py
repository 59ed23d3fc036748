"""Every change of a single token that a Python module can suffer and still be read."""

from __future__ import annotations

import ast
import io
import tokenize
from typing import TYPE_CHECKING

from mutation.mutant import Mutant

if TYPE_CHECKING:
    from collections.abc import Iterator

OPERATORS = {
    "+": "-",
    "-": "+",
    "*": "/",
    "/": "*",
    "//": "*",
    "%": "*",
    "**": "*",
    "<": "<=",
    "<=": "<",
    ">": ">=",
    ">=": ">",
    "==": "!=",
    "!=": "==",
    "and": "or",
    "or": "and",
}
NAMES = {"min": "max", "max": "min", "any": "all", "all": "any"}


def python_mutants(text: str) -> list[Mutant]:
    """Find them in the order of the text; types and names in quotes are left alone."""
    finder = _Finder(text)
    finder.visit(ast.parse(text))
    return sorted(finder.found, key=lambda mutant: mutant.at)


class _Finder(ast.NodeVisitor):
    def __init__(self, text: str) -> None:
        lines = text.splitlines(keepends=True)
        self._starts = [0]
        for line in lines:
            self._starts.append(self._starts[-1] + len(line))
        self._lines = lines
        tokens = tokenize.generate_tokens(io.StringIO(text).readline)
        self._tokens = [(self._starts[t.start[0] - 1] + t.start[1], t.string) for t in tokens]
        self.found: list[Mutant] = []

    def _offset(self, line: int, column: int) -> int:
        """Columns of a tree count bytes."""
        return self._starts[line - 1] + len(self._lines[line - 1].encode()[:column].decode())

    def _between(self, left: ast.AST, right: ast.AST) -> Iterator[tuple[int, str]]:
        first = self._offset(left.end_lineno, left.end_col_offset)  # type: ignore[attr-defined]
        last = self._offset(right.lineno, right.col_offset)  # type: ignore[attr-defined]
        return ((at, word) for at, word in self._tokens if first <= at < last)

    def _operator(self, left: ast.AST, right: ast.AST) -> None:
        self.found += [
            Mutant(at, word, OPERATORS[word]) for at, word in self._between(left, right) if word in OPERATORS
        ]

    def visit_AnnAssign(self, node: ast.AnnAssign) -> None:
        if node.value:
            self.visit(node.value)

    def visit_FunctionDef(self, node: ast.FunctionDef) -> None:
        for part in (*node.args.defaults, *filter(None, node.args.kw_defaults), *node.body):
            self.visit(part)

    def visit_BinOp(self, node: ast.BinOp) -> None:
        self._operator(node.left, node.right)
        self.generic_visit(node)

    def visit_BoolOp(self, node: ast.BoolOp) -> None:
        for left, right in zip(node.values, node.values[1:], strict=False):
            self._operator(left, right)
        self.generic_visit(node)

    def visit_Compare(self, node: ast.Compare) -> None:
        left: ast.AST = node.left
        for right in node.comparators:
            self._operator(left, right)
            left = right
        self.generic_visit(node)

    def visit_UnaryOp(self, node: ast.UnaryOp) -> None:
        at = self._offset(node.lineno, node.col_offset)
        if isinstance(node.op, ast.Not):
            self.found.append(Mutant(at, "not ", ""))
        elif isinstance(node.op, ast.USub):
            self.found.append(Mutant(at, "-", ""))
        self.generic_visit(node)

    def visit_Constant(self, node: ast.Constant) -> None:
        at = self._offset(node.lineno, node.col_offset)
        if isinstance(node.value, bool):
            self.found.append(Mutant(at, str(node.value), str(not node.value)))
        elif isinstance(node.value, int | float):
            old = next(word for place, word in self._tokens if place == at)
            self.found.append(Mutant(at, old, str(node.value + 1)))

    def visit_Call(self, node: ast.Call) -> None:
        if isinstance(node.func, ast.Name) and node.func.id in NAMES:
            at = self._offset(node.func.lineno, node.func.col_offset)
            self.found.append(Mutant(at, node.func.id, NAMES[node.func.id]))
        self.generic_visit(node)

    def visit_JoinedStr(self, node: ast.JoinedStr) -> None:
        """Leave alone what is put into text: before Python 3.12 it has no place of its own."""
