"""What is wrong with a file is told to somebody who never heard of YAML, at the place where it went wrong."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tinwright.knowledge import find_problems

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    Content = Callable[[dict[str, str]], Path]

PROCEDURE = """\
title: Lift a can
purpose: {text: It gets the can up., evidence: practice}
when: Now.
minutes: 1
steps:
  - do: Take it in both hands.
done_when: It is up.
evidence: practice
reviewed: 2026-11-02
"""


def told(content: Content, text: str | bytes, file: str = "procedures/lift.yml") -> list[str]:
    root = content({file: "x"})
    (root / file).write_bytes(text if isinstance(text, bytes) else text.encode())
    return [str(problem).removeprefix(f"content/{file}:") for problem in find_problems(root)]


def test_the_procedure_itself_is_sound(content: Content) -> None:
    assert told(content, PROCEDURE) == []


CUT = "is cut off: a # after a space begins a note; put the whole text in quotes"


@pytest.mark.parametrize(
    ("old", "new", "expected"),
    [
        (
            "do: Take it in both hands.",
            "do: Never lift a #10 can here. Use can #2 only",
            f"6:22: '#10 can here. Use can #2 only' {CUT}",
        ),
        ("do: Take it in both hands.", "do: Never lift\n      #10 cans", f"7:7: '#10 cans' {CUT}"),
        ("do: Take it in both hands.", "do: Take it in both hands. # ask first", f"6:32: '# ask first' {CUT}"),
        ("when: Now.", "when: now #10 is in", f"3:11: '#10 is in' {CUT}"),
        ("text: It gets the can up.,", "text: It gets can #2 up.,", f"2:29: '#2 up., evidence: practice}}' {CUT}"),
        ("do: Take it in both hands.", "do: Take a #10 can\n      in both hands.", f"6:16: '#10 can' {CUT}"),
    ],
)
def test_a_text_that_a_sign_for_a_note_cuts_off_is_the_one_thing_told(
    content: Content, old: str, new: str, expected: str
) -> None:
    assert told(content, PROCEDURE.replace(old, new)) == [expected]


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("do: Take it in both hands.", "do: 'Never lift a #10 can.'"),
        ("do: Take it in both hands.", "do: >-\n      Never lift a #10 can.\n      #10 is large."),
        ("do: Take it in both hands.", "do: Never lift can#10"),
        ("when: Now.", "# a note\nwhen: Now.\n# another"),
        ("minutes: 1", "minutes: 1 # with practice"),
        ("evidence: practice\nreviewed", "evidence: practice # ours\nreviewed"),
        ("steps:", "steps: # in order"),
        ("  - do: Take it in both hands.", "  # first\n  - do: Take it in both hands.\n  # that is all"),
    ],
)
def test_notes_that_cut_nothing_off_are_welcome(content: Content, old: str, new: str) -> None:
    assert old in PROCEDURE
    assert told(content, PROCEDURE.replace(old, new)) == []


@pytest.mark.parametrize(
    ("old", "new", "expected"),
    [
        (
            "when: Now.",
            "when: 'Don't wait'",
            "3:12: an apostrophe ends a text in single quotes: put the text in double quotes",
        ),
        (
            "when: Now.",
            "when: 'tis time",
            "3:7: the quotation mark ' that opens here is never closed; a text with an apostrophe goes in double quotes",
        ),
        (
            "when: Now.",
            'when: "Now" or never',
            '3:13: text after the closing ": put all of the text in quotes, of the other sort than those inside it',
        ),
        ("when: Now.", 'when: "Now', '3:7: the quotation mark " that opens here is never closed'),
        (
            "when: Now.",
            'when: "C:\\dir"',
            "3:10: a backslash in double quotes: write it twice, or put the text in single quotes",
        ),
        ("when: Now.", "when: @once", "3:7: a text cannot begin with @: put it in quotes"),
        ("when: Now.", "when: `now`", "3:7: a text cannot begin with `: put it in quotes"),
        ("when: Now.", "when: !Now", "3:7: a text cannot begin with !: put it in quotes"),
        ("minutes: 1", "\tminutes: 1", "4:1: a tab: indent with spaces"),
        (
            "minutes: 1",
            "  minutes: 1",
            "4:10: indented deeper than the line above, which has its text already: line it up, or, if it goes on with "
            "that text, put the whole text in quotes",
        ),
        (
            "  - do: Take it in both hands.",
            "  - do: Take it.\n - do: Lift.",
            "7:2: indented by 1 spaces, which lines up with nothing above: the keys that begin in line 1 are indented by 0",
        ),
        (
            "minutes: 1",
            "minutes 1",
            "4:1: neither a key with ': ' after it, nor indented as part of the text above it",
        ),
        ("when: Now.", "when: [Now", "4:8: a comma is missing, or the [ in line 3 is never closed"),
        (
            "when: Now.",
            "when: Now\n- x",
            "4:1: a list entry in line with the keys above it: expected a key, as in line 1",
        ),
    ],
)
def test_quotes_apostrophes_and_indents_are_told_in_plain_words(
    content: Content, old: str, new: str, expected: str
) -> None:
    found = told(content, PROCEDURE.replace(old, new, 1))
    assert found[:1] == [expected]
    assert not any(word in line for line in found for word in ("mapping", "scalar", "token", "YAML", "sequence"))


def test_two_versions_left_in_a_file_are_told_once_with_their_lines(content: Content) -> None:
    text = PROCEDURE.replace("when: Now.", "<<<<<<< HEAD\nwhen: Now.\n=======\nwhen: Later.\n>>>>>>> other")
    assert told(content, text) == [
        "3:1: two versions of the same lines, 3 to 7: keep the lines that are right, and delete the others and the marks "
        "(<<<<<<<, =======, >>>>>>>)"
    ]


@pytest.mark.parametrize(
    ("raw", "expected"),
    [
        (b"title: Caf\xe9\n", "1:11: expected UTF-8 text, got the byte 0xe9 ('é' in Windows-1252)"),
        (b"x: y\ntitle: don\x92t\n", "2:11: expected UTF-8 text, got the byte 0x92 ('’' in Windows-1252)"),
        (b"title: don\xd5t\n", "1:11: expected UTF-8 text, got the byte 0xd5 ('’' in Mac Roman)"),
        ("title: x\n".encode("utf-16"), "1:1: expected UTF-8 text, got UTF-16"),
        ("title: x\n".encode("utf-16-le"), "1:1: expected UTF-8 text, got UTF-16"),
        ("title: x\n".encode("utf-32"), "1:1: expected UTF-8 text, got UTF-32"),
    ],
)
def test_bytes_of_another_encoding_are_named_with_the_cure(content: Content, raw: bytes, expected: str) -> None:
    cure = f"{expected}: save the file again as UTF-8"
    assert told(content, raw) == [cure]
    assert cure in told(content, raw, "pages/a.md")


@pytest.mark.parametrize("text", ["See [[defect/droop", "See [[defect/Droop]]", "See [[droop]]", "See [[defect/droop]"])
def test_a_link_that_is_none_is_told_in_records_and_in_pages(content: Content, text: str) -> None:
    expected = f"expected a link such as [[defect/droop]] or [[defect/droop|words]], got '{text[4:]}'"
    (in_record,) = told(content, PROCEDURE.replace("Take it in both hands.", f"'{text}'"))
    assert expected in in_record
    assert f"3:5: {expected}" in told(content, f"# A\n\n{text}\n", "pages/a.md")


def test_a_wrong_entry_is_told_without_blaming_the_length_of_its_list(content: Content) -> None:
    assert told(content, PROCEDURE.replace("do: Take", "dew: Take")) == [
        "6:5: procedure lift: the key 'do' is missing",
        "6:5: procedure lift: unknown key 'dew'",
    ]
    assert told(content, PROCEDURE.replace("\n  - do: Take it in both hands.", " []")) == [
        "5:8: procedure lift: steps: expected at least 1, got 0"
    ]


def test_a_text_of_nothing_but_spaces_is_called_nothing(content: Content) -> None:
    assert told(content, PROCEDURE.replace("when: Now.", "when: '  '")) == [
        "3:7: procedure lift: when: expected text, got nothing"
    ]


def test_a_comma_that_splits_a_text_between_braces_is_told_with_the_cure(content: Content) -> None:
    assert told(content, PROCEDURE.replace("It gets the can up.", "Up, and not down.")) == [
        "2:21: procedure lift: 'and not down.' is taken for a key: between { and } a comma ends a text; "
        "put the whole text in quotes"
    ]
