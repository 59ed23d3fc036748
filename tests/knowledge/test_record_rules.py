"""What fits the form of a record and still cannot be meant."""

from __future__ import annotations

import datetime as dt
import textwrap
from typing import TYPE_CHECKING

import pytest

from tinwright.errors import ContentError
from tinwright.knowledge import find_problems, load

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    Content = Callable[[dict[str, str]], Path]

TODAY = dt.date(2026, 12, 1)

TERM = """\
title: Overlap
definition: {text: How far the hooks reach past each other., evidence: memory}
reviewed: 2026-11-02
"""
DEFECT = """\
title: Rusty seam
said: [rust, brown spots, rust under the rim]
summary: Rust shows.
found_by: [see]
places: [seam-face]
extents: [one-place]
can_action:
  disposition: hold
  steps:
    - {text: Set the can aside and ask., evidence: practice}
what: {text: The steel has rusted., evidence: practice}
look: [{text: Look along the seam., evidence: practice}]
figure: {outside: {feature: abrasion}, caption: A stripe.}
causes:
  - {cause: wet, likelihood: rare, because: It rusts., evidence: practice}
reviewed: 2026-11-02
"""
CAUSE = """\
title: Wet can
adjuster: handling
what: {text: It stays wet., evidence: practice}
confirm: [{do: Feel it., if_so: It is wet., if_not: It is dry., evidence: practice}]
minutes: 1
extent: [one-place]
repeats: [one-can]
correction:
  say: Wipe it clean.
  direction: clean
  procedure: dry
  do: [{text: Dry it., evidence: practice}]
retest: look
reviewed: 2026-11-02
"""
PROCEDURE = """\
title: Look at it
purpose: {text: It shows., evidence: practice}
when: Now.
minutes: 1
judges_seam: true
steps: [{do: Look.}]
done_when: You looked.
evidence: practice
reviewed: 2026-11-02
"""
SOUND = {
    "defects/rusty.yml": DEFECT,
    "causes/wet.yml": CAUSE,
    "procedures/look.yml": PROCEDURE,
    "procedures/dry.yml": PROCEDURE.replace("Look at it", "Dry it").replace("judges_seam: true\n", ""),
}


def told(root: Path) -> list[str]:
    return [str(problem) for problem in find_problems(root, today=TODAY)]


def changed(file: str, old: str, new: str) -> dict[str, str]:
    assert old in SOUND[file]
    return {**SOUND, file: SOUND[file].replace(old, new)}


def test_the_records_themselves_are_sound(content: Content) -> None:
    assert told(content(SOUND)) == []


@pytest.mark.parametrize("id_", ["index", "con", "com1"])
def test_an_id_that_is_the_address_of_something_else_is_refused(content: Content, id_: str) -> None:
    (found,) = told(content({f"terms/{id_}.yml": TERM}))
    assert f"a record cannot be called {id_!r}" in found


def test_a_former_id_cannot_be_the_address_of_something_else(content: Content) -> None:
    (found,) = told(content({"terms/overlap.yml": TERM + "formerly: [index]\n"}))
    assert found == "content/terms/overlap.yml:4:12: term overlap: no record was ever called 'index'"


@pytest.mark.parametrize("title", ["Overlap", "OVERLAP", "'Over lap!'"])
def test_two_records_of_a_kind_called_alike_are_told(content: Content, title: str) -> None:
    (found,) = told(content({"terms/a.yml": TERM, "terms/b.yml": TERM.replace("Overlap", title)}))
    assert found == (
        "content/terms/b.yml:1:8: term b: has the same name as 'a' in content/terms/a.yml:1: nobody could tell the two apart"
    )


@pytest.mark.parametrize(
    ("letter", "said"),
    [
        ("\\u200b", "a letter that nobody sees (U+200B): delete it"),
        ("\\u00ad", "a letter that nobody sees (U+00AD): delete it"),
        ("\\u2060", "a letter that nobody sees (U+2060): delete it"),
        ("\\u3164", "a letter that nobody sees (U+3164): delete it"),
        ("\\u202e", "a letter that nobody sees (U+202E): delete it"),
        ("\\ue000", "a letter that nobody sees (U+E000): delete it"),
        ("\\u05d0", "the right-to-left letter 'א': it turns the words and numbers beside it around"),
        ("\\u0661", "the right-to-left letter '١': it turns the words and numbers beside it around"),
        ("\\ufffd", "'\ufffd' stands where another letter was lost: write that letter again"),
        ("â€™", "'â€™' stands where another letter was lost: write that letter again"),
    ],
)
def test_letters_nobody_sees_and_letters_that_turn_the_line_around_are_told(
    content: Content, letter: str, said: str
) -> None:
    (found,) = told(content({"terms/overlap.yml": TERM.replace("Overlap", f'"Over{letter}lap"')}))
    assert found == f"content/terms/overlap.yml:1:8: term overlap: {said}"
    page = f"# A\n\nOver{letter.encode().decode('unicode-escape') if letter[0] == chr(92) else letter}lap\n"
    assert f"content/pages/a.md:3:5: {said}" in told(content({"terms/overlap.yml": TERM, "pages/a.md": page}))


def test_letters_of_the_trade_are_welcome(content: Content) -> None:
    assert (
        told(content({"terms/overlap.yml": TERM.replace("Overlap", "Überlapp — “¾ × 2°”, −1 µm, café\u00a0é")})) == []
    )


@pytest.mark.parametrize(
    ("file", "old", "new", "place"),
    [
        (
            "defects/rusty.yml",
            "causes:\n",
            "causes:\n  - {cause: wet, likelihood: common, because: So., evidence: practice}\n",
            "16:13: defect rusty: 'wet' is here twice",
        ),
        ("defects/rusty.yml", "found_by: [see]", "found_by: [see, see]", "4:17: defect rusty: 'see' is here twice"),
        (
            "procedures/look.yml",
            "when: Now.",
            "when: Now.\nthen: [dry, dry]",
            "4:13: procedure look: 'dry' is here twice",
        ),
    ],
)
def test_what_may_stand_once_is_told_the_second_time(
    content: Content, file: str, old: str, new: str, place: str
) -> None:
    assert told(content(changed(file, old, new))) == [f"content/{file}:{place}"]


@pytest.mark.parametrize(
    "step",
    ["Reject the can.", "Look at it. Do not use it.", "Mark it; throw it away.", "Discard it."],
)
def test_a_defect_is_not_cosmetic_beside_a_step_that_refuses_the_can(content: Content, step: str) -> None:
    files = changed("defects/rusty.yml", "disposition: hold", "disposition: cosmetic")
    files["defects/rusty.yml"] = files["defects/rusty.yml"].replace("Set the can aside and ask.", step)
    (found,) = told(content(files))
    assert "the disposition is cosmetic, and this step refuses the can" in found
    soft = files["defects/rusty.yml"].replace(step, '"If metal is cut, reject the can."')
    assert told(content({**files, "defects/rusty.yml": soft})) == []


@pytest.mark.parametrize("grade", ["serious", "Unacceptable", "class I, critical", "critical 1"])
def test_a_defect_is_not_cosmetic_that_a_scheme_calls_unacceptable(content: Content, grade: str) -> None:
    severity = f"severity: [{{scheme: cfia, grade: '{grade}', evidence: practice}}]\n"
    files = changed("defects/rusty.yml", "disposition: hold", "disposition: cosmetic")
    files["defects/rusty.yml"] += severity
    (found,) = told(content(files))
    assert f"the disposition is cosmetic, and cfia calls it {grade!r}" in found


def test_a_retest_is_a_procedure_that_judges_a_seam(content: Content) -> None:
    (found,) = told(content(changed("causes/wet.yml", "retest: look", "retest: dry")))
    assert found == (
        "content/causes/wet.yml:13:9: cause wet: retest: 'dry' does not judge a seam (it has no 'judges_seam: true')"
    )


@pytest.mark.parametrize(
    ("old", "new", "expected"),
    [
        ("altitude_ft: 100", "altitude_ft: true", "altitude_ft: expected a whole number, without quotes, got true"),
        ("altitude_ft: 100", "altitude_ft: '100'", "altitude_ft: expected a whole number, without quotes, got '100'"),
        ("test_cans: 2", "test_cans: true", "test_cans: expected a whole number, without quotes, got true"),
        (
            "local_rules: Ask.",
            'local_rules: Ask.\ndemonstration: "no"',
            "demonstration: expected true or false, without quotes, got 'no'",
        ),
        (
            "local_rules: Ask.",
            "local_rules: Ask.\ndemonstration: 1",
            "demonstration: expected true or false, without quotes, got 1",
        ),
    ],
)
def test_a_word_is_no_number_and_a_number_no_answer(content: Content, old: str, new: str, expected: str) -> None:
    root = content({})
    file = root / "program.yml"
    text = file.read_text(encoding="utf-8")
    assert old in text
    file.write_text(text.replace(old, new), encoding="utf-8")
    (found,) = told(root)
    assert expected in found


def test_a_day_that_has_not_come_is_told_with_the_day_it_is(content: Content) -> None:
    root = content({"terms/overlap.yml": TERM.replace("2026-11-02", "2027-11-02")})
    expected = (
        "content/terms/overlap.yml:3:11: term overlap: reviewed: expected a day up to today, 2026-12-01, got 2027-11-02"
    )
    assert told(root) == [expected]
    with pytest.raises(ContentError):
        load(root, today=TODAY)
    assert list(load(root).terms) == ["overlap"], "with no day given, none is too late"


def test_a_review_noted_where_it_is_tomorrow_already_is_sound(content: Content) -> None:
    assert told(content({"terms/overlap.yml": TERM.replace("2026-11-02", "2026-12-02")})) == []
    assert len(told(content({"terms/overlap.yml": TERM.replace("2026-11-02", "2026-12-03")}))) == 1


def test_the_days_of_instruments_and_the_years_of_counts_are_looked_at_too(content: Content) -> None:
    root = content({"seen-here.yml": "through: 2027\n"})
    file = root / "program.yml"
    instrument = textwrap.dedent("""\
        instruments:
        - {name: micrometer, measures: [body-hook], standard_uncertainty: 0.0005 in, calibrated: 2027-01-01}
        """)
    file.write_text(file.read_text(encoding="utf-8") + instrument, encoding="utf-8")
    found = told(root)
    assert len(found) == 2
    assert "calibrated: expected a day up to today" in found[0]
    assert "expected a year up to 2026, got 2027" in found[1]


def test_a_symbolic_link_out_of_the_folder_is_told(content: Content, tmp_path: Path) -> None:
    secret = tmp_path / "secret.yml"
    secret.write_text(TERM, encoding="utf-8")
    root = content({"terms/a.yml": TERM.replace("Overlap", "A")})
    (root / "terms" / "b.yml").symlink_to(secret)
    assert told(root) == [
        "content/terms/b.yml:1:1: a symbolic link that leads out of the folder: put the file itself here"
    ]
