"""Each cause says its correction in one short order of its own, and mistakes in it are told like all others."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tinwright.knowledge import find_problems

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

CAUSE = """\
title: Chuck dirty
adjuster: chuck
what: {text: Dirt keeps the lid from seating., evidence: memory}
confirm:
- {do: Wipe the chuck., if_so: The cloth is dirty., if_not: The cloth is clean., evidence: practice}
minutes: 1
extent: [part-round]
repeats: [every-can]
correction:
  SAY
  direction: clean
  do: [{text: Clean the chuck and its seat., evidence: practice}]
  procedure: fit-chuck
retest: fit-chuck
reviewed: 2026-11-20
"""
PLACE = "content/causes/chuck-dirty.yml:10:8: cause chuck-dirty: say: "


def told(content: Callable[[dict[str, str]], Path], line: str) -> list[str]:
    problems = find_problems(content({"causes/chuck-dirty.yml": CAUSE.replace("SAY", line)}))
    return [str(problem) for problem in problems if "say" in str(problem)]


def test_a_short_order_is_sound(content: Callable[[dict[str, str]], Path]) -> None:
    assert told(content, "say: Wipe the chuck and its seat clean.") == []


@pytest.mark.parametrize(
    ("line", "message"),
    [
        (
            "say: Take the chuck off and wipe it clean all over.",
            "expected a short order of at most 8 words, got 10",
        ),
        (
            "say: Wipe the chuck clean",
            "expected one order with a capital letter and a period, such as 'Throw away bent lids.', "
            "got 'Wipe the chuck clean'",
        ),
        (
            "say: wipe the chuck clean.",
            "expected one order with a capital letter and a period, such as 'Throw away bent lids.', "
            "got 'wipe the chuck clean.'",
        ),
        (
            "say: Stop. Wipe the chuck clean.",
            "expected one order with a capital letter and a period, such as 'Throw away bent lids.', "
            "got 'Stop. Wipe the chuck clean.'",
        ),
        ("say: Wipe the [[part/chuck]].", "expected plain words without a link"),
    ],
)
def test_mistakes_in_it_are_told_with_their_place(
    content: Callable[[dict[str, str]], Path], line: str, message: str
) -> None:
    assert told(content, line) == [PLACE + message]


def test_a_cause_without_one_is_told_so(content: Callable[[dict[str, str]], Path]) -> None:
    assert told(content, "# no order") == [
        "content/causes/chuck-dirty.yml:11:3: cause chuck-dirty: the key 'say' is missing"
    ]
