"""The counts of confirmed causes are read with the records, and their mistakes told like theirs."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tinwright.knowledge import find_problems, load

if TYPE_CHECKING:
    from pathlib import Path

ONE = "  - {sealer: our-sealer, defect: droop, cause: first-roller-loose, times: 4}\n"
SOUND = f"through: 2026\nconfirmed:\n{ONE}"


def test_counts_are_read_and_are_no_record_of_their_own(starter: Path) -> None:
    without = load(starter)
    (starter / "seen-here.yml").write_text(SOUND)
    kb = load(starter)
    assert kb.seen_here is not None
    assert [(count.cause, count.times) for count in kb.seen_here.confirmed] == [("first-roller-loose", 4)]
    assert kb.records.keys() == without.records.keys()
    assert kb.named_by("cause", "first-roller-loose") == without.named_by("cause", "first-roller-loose")
    assert without.seen_here is None


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (
            SOUND.replace("our-sealer", "our-saeler"),
            "content/seen-here.yml:3:14: seen-here: no sealer is called 'our-saeler'; did you mean 'our-sealer'?",
        ),
        (
            SOUND.replace("droop", "drop"),
            "content/seen-here.yml:3:34: seen-here: no defect is called 'drop'; did you mean 'droop'?",
        ),
        (
            SOUND.replace("roller-loose", "roller-lose"),
            "content/seen-here.yml:3:48: seen-here: no cause is called 'first-roller-lose'; "
            "did you mean 'first-roller-loose'?",
        ),
        (
            SOUND.replace("times: 4", "times: 0"),
            "content/seen-here.yml:3:75: seen-here: times: expected at least 1, got 0",
        ),
        (SOUND.replace("through: 2026", "through: 2026-11"), "content/seen-here.yml:1:10: seen-here: through: "),
        (SOUND + "person: AE\n", "content/seen-here.yml:4:1: seen-here: unknown key 'person'"),
        (
            SOUND + ONE,
            "content/seen-here.yml:3:3: seen-here: confirmed: our-sealer, droop, first-roller-loose stands here twice: add the two up",
        ),
    ],
    ids=["sealer", "defect", "cause", "none", "month", "person", "twice"],
)
def test_each_mistake_is_told_in_one_line(starter: Path, text: str, expected: str) -> None:
    (starter / "seen-here.yml").write_text(text)
    (line,) = [str(problem) for problem in find_problems(starter)]
    assert line.startswith(expected)


def test_a_count_does_not_stand_for_the_defect_that_names_a_cause(starter: Path) -> None:
    cause = (starter / "causes" / "chuck-worn.yml").read_text(encoding="utf-8")
    unnamed = cause.replace("title: ", "title: No ")
    (starter / "causes" / "unnamed.yml").write_text(unnamed, encoding="utf-8")
    (starter / "seen-here.yml").write_text(SOUND.replace("first-roller-loose", "unnamed"))
    assert [str(problem) for problem in find_problems(starter)] == [
        "content/causes/unnamed.yml:2:1: cause unnamed: no defect names this cause"
    ]
