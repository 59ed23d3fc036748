"""A size that no machine has, and a size written so that it means another one, is told with what was meant."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tinwright.errors import MeasureError
from tinwright.knowledge import find_problems
from tinwright.measures import parse_length

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    Content = Callable[[dict[str, str]], Path]


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("51/16 in", "expected a fraction below one, got '51/16': write 3 3/16 in, or 5 1/16 in if a space is missing"),
        ("5 17/16 in", "expected a fraction below one, got '5 17/16': write 6 1/16 in"),
        ("5 1/16 mm", "expected millimeters with a decimal point, got the fraction '5 1/16': is it in inches?"),
        ("3/17 in", "expected halves, quarters and so on to 64ths, or a decimal number, got '3/17'"),
        ('5-1/16"', "expected the unit in or mm, got '\"': write 5 1/16 in"),
        ("5-1/16”", "expected the unit in or mm, got '”': write 5 1/16 in"),
        ("3/16 inch", "expected the unit in or mm, got 'inch': write 3/16 in"),
        ("1.4 Millimeters", "expected the unit in or mm, got 'Millimeters': write 1.4 mm"),
        ("1,40 mm", "expected a decimal point, got '1,40 mm': write 1.40 mm"),
        ("9 cm", "expected a length in inches (in) or millimeters (mm), got '9 cm' with the unit 'cm'"),
        ("9", "expected a length in inches (in) or millimeters (mm), got '9' with no unit"),
    ],
)
def test_a_length_written_another_way_is_refused_with_the_way_to_write_it(text: str, message: str) -> None:
    with pytest.raises(MeasureError) as caught:
        parse_length(text)
    assert str(caught.value) == message


def can(code: str, id_: str = "307x409") -> str:
    return f'- id: "{id_}"\n  code: "{code}"\n  evidence: practice\n  reviewed: 2026-11-02\n'


def told(root: Path) -> list[str]:
    return [problem.message for problem in find_problems(root)]


def test_an_id_that_is_a_code_is_the_code_of_its_can(content: Content) -> None:
    assert told(content({"cans/a.yml": can("307x409")})) == []
    assert told(content({"cans/a.yml": can("307X409")})) == []
    assert told(content({"cans/a.yml": can("401x411")})) == ["the id says 307x409, the code says 401x411"]
    assert told(content({"cans/a.yml": can("401x411", "307x409-tall")})) == [
        "the id says 307x409, the code says 401x411"
    ]
    assert told(content({"cans/a.yml": can("401x411", "our-tall-can")})) == []
    assert told(content({"cans/a.yml": can("307x200.25", "307x200.25")})) == []


@pytest.mark.parametrize("code", ["3007x409", "307x4009", "000x409", "307x000"])
def test_a_code_of_a_size_no_can_has_is_told(content: Content, code: str) -> None:
    (message,) = told(content({"cans/a.yml": can(code, "our-can")}))
    assert message.startswith("expected a ")


SEALER = """\
title: A sealer
drive: motor
about: It seals.
chucks: [{size: "307"}]
seat_height: 4 11/16 in
spacers: [{name: thin, size: 3/16 in, count: 2}]
spring_travel: 1/8 in
adjusters:
  - adjuster: first-roller
    part: crank
    tighten: Turn it right.
    loosen: Turn it left.
    travel_per_turn: 0.024 in
gauges: [{adjuster: first-roller, name: wire, diameter: 0.057 in, use: Slide it in.}]
parts: [crank]
evidence: practice
reviewed: 2026-11-02
"""
PART = """\
title: Crank
does: {text: It turns., evidence: practice}
inspect: [{text: Look., evidence: practice}]
reviewed: 2026-11-02
"""


def test_the_sealer_itself_is_sound(content: Content) -> None:
    assert told(content({"sealers/a.yml": SEALER, "parts/crank.yml": PART})) == []


@pytest.mark.parametrize(
    ("good", "slip"),
    [
        ("4 11/16 in", "4 11/16 in".replace(" in", " mm").replace("4 11/16", "4.6875")),
        ("4 11/16 in", "46.875 in"),
        ("size: 3/16 in", "size: 38 in"),
        ("spring_travel: 1/8 in", "spring_travel: 18 in"),
        ("0.024 in", "0.6 in"),
        ("0.024 in", "0.00024 in"),
        ("0.057 in", "0.57 in"),
        ("0.057 in", "0.057 mm"),
    ],
)
def test_a_size_no_sealer_has_is_told_at_its_place(content: Content, good: str, slip: str) -> None:
    assert good in SEALER
    text = SEALER.replace(good, slip)
    (problem,) = find_problems(content({"sealers/a.yml": text, "parts/crank.yml": PART}))
    assert "is a fraction, a decimal point or the other unit meant?" in problem.message
    wrong = next(
        number
        for number, lines in enumerate(zip(SEALER.splitlines(), text.splitlines(), strict=True), 1)
        if lines[0] != lines[1]
    )
    assert problem.line == wrong


@pytest.mark.parametrize("given", ["0.05 in", "0.000001 in", "0.2 mm"])
def test_an_instrument_has_the_error_of_such_an_instrument(content: Content, given: str) -> None:
    root = content({})
    file = root / "program.yml"
    micrometer = f"instruments:\n- {{name: micrometer, measures: [body-hook], standard_uncertainty: {given}}}\n"
    file.write_text(file.read_text(encoding="utf-8") + micrometer, encoding="utf-8")
    (problem,) = find_problems(root)
    assert problem.message.startswith("standard_uncertainty: expected 0.00002 in to 0.003 in, got ")
