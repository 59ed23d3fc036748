"""Whatever stands in a file, reading it ends in records or in problems, never in a traceback."""

from __future__ import annotations

import tempfile
from pathlib import Path

from hypothesis import given, settings
from hypothesis import strategies as st

from tinwright.errors import Problem
from tinwright.knowledge import find_problems
from tinwright.knowledge.yaml_source import read_yaml

ROOT = Path(__file__).parents[2] / "content"
FILES = sorted([*ROOT.glob("*/defects/d*.yml"), *ROOT.glob("*/sealers/*.yml"), *ROOT.glob("*/program.yml")])


def problems_of(kind: str, raw: bytes) -> list[Problem]:
    with tempfile.TemporaryDirectory() as folder:
        root = Path(folder) / "content"
        target = root / "program.yml" if kind == "program.yml" else root / kind / "x.yml"
        target.parent.mkdir(parents=True)
        target.write_bytes(raw)
        return find_problems(root)


@st.composite
def mutated(draw: st.DrawFn) -> tuple[str, bytes]:
    """A real record with a few bytes cut, doubled or replaced."""
    file = draw(st.sampled_from(FILES))
    raw = bytearray(file.read_bytes())
    for _ in range(draw(st.integers(1, 4))):
        at = draw(st.integers(0, len(raw)))
        length = draw(st.integers(0, 40))
        new = draw(
            st.one_of(
                st.binary(max_size=8),
                st.sampled_from([b"*x", b"&x ", b"!!set ", b": ", b"- ", b"{", b"'", b"\t", b"[["]),
            )
        )
        raw[at : at + length] = new
    return ("program.yml" if file.name == "program.yml" else file.parent.name), bytes(raw)


@given(mutated())
@settings(max_examples=300, deadline=None)
def test_mutated_records_never_raise(case: tuple[str, bytes]) -> None:
    for problem in problems_of(*case):
        assert problem.line >= 1
        assert problem.column >= 1
        assert "\n" not in str(problem)


@given(st.sampled_from(["defects", "causes", "cans", "terms"]), st.text(max_size=200))
@settings(max_examples=200, deadline=None)
def test_any_text_as_a_file_never_raises(kind: str, text: str) -> None:
    assert all(isinstance(p, Problem) for p in problems_of(kind, text.encode("utf-8", "surrogatepass")))


def test_nesting_without_end_is_refused() -> None:
    assert len(problems_of("terms", b"[" * 5000)) >= 1


def test_an_alias_bomb_is_refused_at_once() -> None:
    bomb = b"a: &a [x,x]\n" + b"".join(b"%c: &%c [*%c,*%c]\n" % (c + 1, c + 1, c, c) for c in range(97, 115))
    assert any("aliases are not allowed" in p.message for p in problems_of("terms", bomb))


def test_a_problem_of_a_file_that_is_no_yaml_stands_at_its_beginning(tmp_path: Path) -> None:
    file = tmp_path / "x.json"  # JSON may be indented with tabs, YAML may not
    file.write_text('{\n\t"a": 1,\n\t- "b": 2}\n', encoding="utf-8")
    located = read_yaml(file, "x.json")
    assert len(located.problems) == 1
    assert str(located.problem(("a",), "expected text, got 1")) == "x.json:1:1: expected text, got 1"
