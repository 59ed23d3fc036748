"""Each mistake an educator makes gets one clear line that points at it."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tinwright.errors import ContentError
from tinwright.knowledge import find_problems, load

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    Content = Callable[[dict[str, str]], Path]

TERM = """\
title: Overlap
definition: {text: How far the hooks reach past each other., evidence: memory}
reviewed: 2026-11-02
"""


def lines(root: Path) -> list[str]:
    return [str(problem) for problem in find_problems(root)]


def test_sound_content_has_no_problems(content: Content) -> None:
    assert lines(content({"terms/overlap.yml": TERM})) == []


def test_what_is_read_again_is_new_only_where_its_file_changed(content: Content) -> None:
    other = TERM.replace("Overlap", "Curl")
    root = content({"terms/overlap.yml": TERM, "terms/curl.yml": other})
    before = load(root)
    (root / "terms" / "curl.yml").write_text(other.replace("How far", "How much"), encoding="utf-8")
    after = load(root)
    assert after.terms["overlap"] is before.terms["overlap"]
    assert after.terms["curl"].definition.text == "How much the hooks reach past each other."
    (root / "terms" / "curl.yml").write_text(other.replace("title", "titel"), encoding="utf-8")
    told = lines(root)
    assert told == lines(root)
    assert len(told) == 2


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (
            TERM.replace("title:", "titel:"),
            [
                "content/terms/overlap.yml:1:1: term overlap: the key 'title' is missing",
                "content/terms/overlap.yml:1:1: term overlap: unknown key 'titel'; did you mean 'title'?",
            ],
        ),
        (
            TERM.replace("memory", "memry"),
            [
                "content/terms/overlap.yml:2:72: term overlap: evidence: expected one of source, derived, practice, memory, "
                "invented, got 'memry'; did you mean 'memory'?"
            ],
        ),
        (
            TERM.replace("2026-11-02", "2026-13-02"),
            [
                "content/terms/overlap.yml:3:11: term overlap: reviewed: expected a date such as 2026-04-30, got '2026-13-02'"
            ],
        ),
        (
            TERM + "title: Again\n",
            ["content/terms/overlap.yml:4:1: duplicate key 'title'; it already stands in line 1"],
        ),
        (
            TERM.replace("Overlap", "012"),
            [
                "content/terms/overlap.yml:1:8: the value 012 means different things to different YAML readers: "
                "put it in quotes"
            ],
        ),
        (
            TERM.replace("Overlap", "&name Overlap") + "also: [*name]\n",
            [
                "content/terms/overlap.yml:1:8: expected text, got a name for an alias (&name): YAML aliases are not "
                "allowed; put text that begins so in quotes",
                "content/terms/overlap.yml:4:8: expected the text written out, got an alias (*name): YAML aliases are not "
                "allowed; put text that begins so in quotes",
            ],
        ),
        (
            TERM.replace("Overlap", "!!python/name:os.system x"),
            [
                "content/terms/overlap.yml:1:8: expected plain YAML, got the tag 'tag:yaml.org,2002:python/name:os.system'"
            ],
        ),
        (
            TERM.replace("Overlap", "307"),
            ["content/terms/overlap.yml:1:8: term overlap: title: expected text, got 307: put it in quotes"],
        ),
        (
            TERM + "see: [overlop, overlap]\n",
            ["content/terms/overlap.yml:4:7: term overlap: no term is called 'overlop'; did you mean 'overlap'?"],
        ),
        (
            TERM.replace("Overlap", "See [[trem/overlap]]"),
            ["content/terms/overlap.yml:1:8: term overlap: unknown kind 'trem' in a link; did you mean 'term'?"],
        ),
        (
            TERM.replace("evidence: memory", "evidence: {source: none}"),
            [
                "content/terms/overlap.yml:2:72: term overlap: evidence: evidence of grade 'source' needs 'source' and 'where'"
            ],
        ),
        ("", ["content/terms/overlap.yml:1:1: expected a record, got an empty file"]),
        ("# Overlap\n---\n", ["content/terms/overlap.yml:3:1: expected a record, got an empty file"]),
        (
            TERM + "---\n" + TERM,
            ["content/terms/overlap.yml:4:1: expected the end of the file, got another document"],
        ),
        (
            TERM.replace("Overlap", "!!int '3'") + "*title: x\n[a, b]: x\nno: x\nsee: [a\n",
            [
                "content/terms/overlap.yml:1:8: expected plain YAML, got the tag 'tag:yaml.org,2002:int'",
                "content/terms/overlap.yml:4:1: expected the text written out, got an alias (*title): YAML aliases are not "
                "allowed; put text that begins so in quotes",
                "content/terms/overlap.yml:5:1: expected a word as key, got a list or keys and values",
                "content/terms/overlap.yml:6:1: the key no means different things to different YAML readers: put it in "
                "quotes",
                "content/terms/overlap.yml:8:1: a comma is missing, or the [ in line 7 is never closed",
            ],
        ),
        (
            "just text",
            ["content/terms/overlap.yml:1:1: term overlap: expected keys and values, got 'just text'"],
        ),
        (
            "a: [1,\nb: 2",
            ["content/terms/overlap.yml:3:1: a comma is missing, or the [ in line 1 is never closed"],
        ),
    ],
)
def test_a_mistake_is_told_with_its_place(content: Content, text: str, expected: list[str]) -> None:
    assert lines(content({"terms/overlap.yml": text})) == expected


def test_all_problems_of_all_files_come_at_once_in_order(content: Content) -> None:
    root = content({"terms/b.yml": "titel: x\n", "terms/a.yml": TERM + "sea: []\n", "trems/c.yml": TERM})
    found = find_problems(root)
    assert found == sorted(found)
    assert {problem.file for problem in found} == {
        "content/terms/a.yml",
        "content/terms/b.yml",
        "content/trems",
    }
    with pytest.raises(ContentError) as caught:
        load(root)
    assert list(caught.value.problems) == found


def test_a_wrong_unit_is_refused_with_the_units_expected(content: Content) -> None:
    sealer = "seat_height: 9 cm\n"
    [line] = [line for line in lines(content({"sealers/x.yml": sealer})) if "seat_height" in line]
    assert line == (
        "content/sealers/x.yml:1:14: sealer x: seat_height: expected a length in inches (in) or millimeters (mm), "
        "got '9 cm' with the unit 'cm'"
    )


def test_two_records_of_one_id_are_told_with_the_place_of_the_first(content: Content) -> None:
    one = "- id: overlap\n" + "".join(f"  {line}\n" for line in TERM.splitlines())
    root = content({"terms/a.yml": one, "terms/b.yml": one})
    assert lines(root) == [
        "content/terms/b.yml:1:7: term overlap: duplicate id; it already stands in content/terms/a.yml:1"
    ]


def test_a_cause_no_defect_names_a_part_no_sealer_has_and_a_source_nobody_cites_are_orphans(
    content: Content,
) -> None:
    source = (
        "title: A\nshort: A\npublisher: A\nyear: '1990'\nabout: A\nreading: whole\nlicence: A\nreviewed: 2026-11-02\n"
    )
    part = "title: Crank\ndoes: {text: It turns., evidence: practice}\ninspect:\n- {text: Look., evidence: practice}\nreviewed: 2026-11-02\n"
    root = content({"sources/a.yml": source, "parts/crank.yml": part})
    assert lines(root) == [
        "content/parts/crank.yml:1:1: part crank: no sealer has this part",
        "content/sources/a.yml:1:1: source a: nothing cites this source",
    ]


def test_a_photograph_that_is_missing_or_outside_its_folder_is_told(content: Content) -> None:
    part = (
        "title: Crank\ndoes: {text: It turns., evidence: practice}\ninspect:\n- {text: Look., evidence: practice}\n"
        "photos:\n- {file: ../program.yml, alt: A, credit: B}\n- {file: crank.jpg, alt: A, credit: B}\n"
        "reviewed: 2026-11-02\n"
    )
    procedure = (
        "title: Turn\nsteps:\n- {do: Turn., photo: {file: turn.jpg, alt: A, credit: B}}\n"
        "purpose: {text: It turns., evidence: practice}\nwhen: Now.\nminutes: 1\ndone_when: It turned.\nevidence: practice\n"
        "reviewed: 2026-11-02\n"
    )
    found = lines(content({"parts/crank.yml": part, "procedures/turn.yml": procedure}))
    assert "content/parts/crank.yml:6:10: part crank: no photograph '../program.yml' in content/photos" in found
    assert "content/parts/crank.yml:7:10: part crank: no photograph 'crank.jpg' in content/photos" in found
    assert "content/procedures/turn.yml:3:29: procedure turn: no photograph 'turn.jpg' in content/photos" in found


def test_a_missing_folder_and_a_missing_programme_are_told(tmp_path: Path) -> None:
    assert lines(tmp_path / "content") == ["content:1:1: expected a content folder, found none"]
    (tmp_path / "content").mkdir()
    assert lines(tmp_path / "content") == ["content/program.yml:1:1: the file is missing"]


def test_the_old_name_of_the_program_s_file_is_still_read(content: Content) -> None:
    root = content({"terms/overlap.yml": TERM})
    new = load(root).programme
    (root / "program.yml").rename(root / "programme.yml")
    assert lines(root) == []
    assert load(root).programme == new


def test_two_files_of_the_program_are_one_too_many(content: Content) -> None:
    root = content({"terms/overlap.yml": TERM})
    (root / "programme.yml").write_bytes((root / "program.yml").read_bytes())
    assert lines(root) == [
        "content/programme.yml:1:1: program.yml is here too, and only one of them can count: keep program.yml"
    ]


def test_a_mistake_in_the_program_s_file_is_named_in_plain_words(content: Content) -> None:
    root = content({"terms/overlap.yml": TERM})
    file = root / "program.yml"
    file.write_text(file.read_text(encoding="utf-8").replace("altitude_ft: 100", "altitude_ft: high"), encoding="utf-8")
    (found,) = lines(root)
    assert found.startswith("content/program.yml:4:14: program: altitude_ft: ")


def test_a_link_in_a_hand_written_page_must_lead_somewhere(content: Content) -> None:
    root = content({"terms/overlap.yml": TERM, "pages/a.md": "# A\n\nSee [[term/overlop]].\n"})
    assert lines(root) == ["content/pages/a.md:3:5: no record is called 'term/overlop'; did you mean 'term/overlap'?"]
