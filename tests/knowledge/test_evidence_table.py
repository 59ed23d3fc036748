"""How statements are known is counted honestly: a translation is no second source, and nothing rises by being cited."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from evidence_content import ALL_NAMED, SMALL, sources
from tinwright.knowledge import find_problems, load
from tinwright.knowledge.evidence_table import evidence_table, independent_sources, with_evidence_table

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    Content = Callable[[dict[str, str]], Path]


def term(evidence: str) -> str:
    return f"title: Overlap\ndefinition: {{text: It overlaps., evidence: {evidence}}}\nreviewed: 2026-11-02\n"


def content_of(content: Content, evidence: str, **more: str) -> Path:
    extra = "".join(f"[[source/{id_}]]\n" for id_ in more)
    return content(
        {
            "sources/all.yml": sources(**more),
            "terms/overlap.yml": term(evidence),
            "pages/read.md": f"# Read\n\n{ALL_NAMED}{extra}",
        }
    )


@pytest.mark.parametrize(
    ("evidence", "expected"),
    [
        ("memory", set()),
        ("{grade: memory, source: manual, where: p. 1}", set()),
        ("{source: manual, where: p. 1}", {"manual"}),
        ("{source: manuel, where: p. 1}", {"manual"}),
        ("{source: manual, where: p. 1, also: [{source: manuel, where: p. 2}]}", {"manual"}),
        ("{source: manuel, where: p. 1, also: [{source: leaflet, where: p. 2}]}", {"manual"}),
        ("{source: leaflet, where: p. 1, also: [{source: book, where: p. 2}]}", {"manual", "book"}),
        ("{grade: derived, source: book, where: p. 1, also: [{source: manual, where: p. 2}]}", {"manual", "book"}),
        ("{source: book, where: p. 1, also: [{source: unread, where: p. 2}]}", {"book"}),
    ],
    ids=[
        "nothing named",
        "named but remembered",
        "one",
        "a translation alone stands for what it translates",
        "a manual and its translation",
        "a translation and a leaflet that passes it on",
        "a leaflet and another book",
        "worked out from either of two",
        "a source nobody read",
    ],
)
def test_only_sources_that_were_read_and_do_not_pass_each_other_on_count(
    content: Content, evidence: str, expected: set[str]
) -> None:
    kb = load(content_of(content, evidence, unread="reading: memory"))
    assert independent_sources(kb, kb.terms["overlap"].definition.evidence) == expected


@pytest.fixture
def small(content: Content) -> Path:
    """One defect with two causes."""
    return content(SMALL)


def test_each_statement_is_counted_once_and_those_of_causes_apart(small: Path) -> None:
    # counted by hand in the records above: grade, all, on two or more sources, on one read whole
    table = evidence_table(load(small))
    assert [(r.grade, r.statements, r.two_or_more, r.read_whole) for r in table.statements] == [
        ("source", 2, 1, 1),
        ("derived", 1, 0, 0),
        ("practice", 7, 0, 0),
        ("memory", 1, 0, 0),
        ("invented", 2, 0, 0),
    ]
    assert [(r.grade, r.statements, r.two_or_more, r.read_whole) for r in table.causes_of_defects] == [
        ("source", 1, 1, 1),
        ("derived", 0, 0, 0),
        ("practice", 0, 0, 0),
        ("memory", 1, 0, 0),
        ("invented", 0, 0, 0),
    ]


def test_the_place_in_a_page_becomes_both_tables_and_the_rest_stays(small: Path) -> None:
    text = with_evidence_table(load(small), "Before.\n\n{{table:evidence}}\n\nAfter {{ figure:x }}.\n")
    assert text.startswith("Before.\n\n**Every statement that can be checked**\n\n| How it is known |")
    assert "\n| Source | 2 | 1 | 1 |\n" in text
    assert "\n\n**Causes of defects**\n\n" in text
    assert "\n| From trade memory | 1 | 0 | 0 |\n" in text
    assert text.endswith("\n\nAfter {{ figure:x }}.\n")


@pytest.mark.parametrize(
    ("evidence", "message"),
    [
        (
            "{grade: memory, also: [{source: book, where: p. 1}]}",
            "'also' goes with a 'source' that was read: the first one stands there",
        ),
        (
            "{source: manual, where: p. 1, single: true, also: [{source: book, where: p. 1}]}",
            "'single' says that one source says so, and 'also' names another; keep one of them",
        ),
        (
            "{source: manual, where: p. 1, also: [{source: manual, where: p. 2}]}",
            "each source is cited once; put both places into one 'where'",
        ),
        (
            "{source: manual, where: p. 1, also: [{source: bok, where: p. 2}]}",
            "no source is called 'bok'; did you mean 'book'?",
        ),
    ],
)
def test_a_second_source_that_cannot_be_one_is_told_with_its_place(
    content: Content, evidence: str, message: str
) -> None:
    (problem,) = find_problems(content_of(content, evidence))
    assert (problem.file, problem.line) == ("content/terms/overlap.yml", 2)
    assert message in problem.message


def test_sources_that_pass_each_other_on_in_a_ring_are_a_problem_and_so_is_one_that_passes_on_itself(
    content: Content,
) -> None:
    ring = {"here": "reading: part\n  same_as: there", "there": "reading: part\n  same_as: here"}
    told = [
        str(p) for p in find_problems(content_of(content, "memory", **ring, alone="reading: part\n  same_as: alone"))
    ]
    assert [line.split(": ", 1)[1] for line in told] == [
        f"source {id_}: same_as: this source leads back to itself; name the first one"
        for id_ in ("here", "there", "alone")
    ]
