"""One slip of the finger in a supplier's sheet never lets a seam pass in silence."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest

from knowledge.test_sheet_rules import CAN, READINGS, SHEET, confirmed
from tinwright.advice.advice import advise_on_sheet
from tinwright.advice.readings_file import read_sheet
from tinwright.knowledge import find_problems, load

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

    Content = Callable[[dict[str, str]], Path]

HARMLESS = ("title:", "evidence:", "reviewed:", "supplier:", "cans:", "read_against_paper:", "digest:", "by:", "- {who")
"""Lines that hold no number of the seam; without one of them the sheet cannot be read, or is unread."""


def slips(text: str) -> Iterator[tuple[str, str]]:
    """Yield sheets with one slip each: a line or a part of it gone, a digit, the point or the unit another one."""
    lines = text.splitlines(keepends=True)
    for number, line in enumerate(lines):
        if line.strip().startswith(HARMLESS):
            continue
        rest = [*lines[:number], *lines[number + 1 :]]
        yield f"without {line.strip()}", "".join(rest)
        for part in re.findall(r", (?:min|max|aim): [^,}]+", line):
            yield f"without {part}", "".join([*lines[:number], line.replace(part, ""), *lines[number + 1 :]])
        for match in re.finditer(r"0\.0?(\d+) in|: (\d+)$", line, re.MULTILINE):
            found = match[0]
            for other in (
                found.replace("0.", "0.0", 1),
                found.replace("0.0", "0.", 1),
                found.replace(" in", " mm"),
                found.replace("6", "9"),
                found.replace("1", "7"),
                f"{found[:-1]}.{found[-1]}"
                if found[-1].isdigit()
                else found.replace(" in", "0 in").replace("0.", "", 1),
            ):
                if other != found:
                    changed = line[: match.start()] + other + line[match.end() :]
                    yield f"{found} -> {other}", "".join([*lines[:number], changed, *lines[number + 1 :]])


@pytest.mark.slow
def test_no_slip_in_a_confirmed_sheet_is_silent(content: Content, tmp_path: Path) -> None:
    file = "seam-specifications/ours.yml"
    sheet = confirmed(content({"cans/a.yml": CAN, file: SHEET}))
    readings = tmp_path / "readings.csv"
    readings.write_text(READINGS, encoding="utf-8")
    told = accepted = 0
    for what, text in slips(sheet):
        root = content({file: text})
        if find_problems(root):
            told += 1
            continue
        kb = load(root)
        (advice,) = advise_on_sheet(kb, read_sheet(readings, kb))
        same = advice.verdict.outcome == "accept"
        assert not same, what
        accepted += same
    assert told > 40
    assert accepted == 0
