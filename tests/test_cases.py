"""Python and the browser are held to the same cases, which lie in `cases` for any other implementation."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from cases import FOLDER, read_cases
from cases.kinds import KINDS

if TYPE_CHECKING:
    from cases.kinds import Kind

MOST_BYTES = 200_000


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.name)
def test_python_answers_as_the_cases_say(kind: Kind) -> None:
    for case in read_cases(kind.name):
        assert kind.python(case["given"]) == case["expected"]


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.name)
def test_the_browser_answers_as_the_cases_say(kind: Kind) -> None:
    cases = read_cases(kind.name)
    assert kind.browser([case["given"] for case in cases]) == [case["expected"] for case in cases]


def test_every_file_of_cases_is_read_and_small() -> None:
    files = {file.stem: file.stat().st_size for file in FOLDER.glob("*.json")}
    assert set(files) == {kind.name for kind in KINDS}
    assert max(files.values()) <= MOST_BYTES


def test_the_cases_have_every_outcome() -> None:
    found = {name: [case["expected"] for case in read_cases(name)] for name in ("judge", "rank", "correct", "score")}
    assert {verdict["outcome"] for verdict in found["judge"]} == {"accept", "measure-again", "reject", "no-limit"}
    assert {ranking["explained"] for ranking in found["rank"]} == {True, False}
    assert {advice["turns"] is None for advice in found["correct"]} == {True, False}
    assert {None, (1, 1), (0, 1)} < {share if share is None else tuple(share) for share in found["score"]}
