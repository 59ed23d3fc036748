"""What is said of causes: which check comes first and why, and each cause's own order; on a small content of its own."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest
from click.testing import CliRunner

from small_kitchen import lay_down
from tinwright.cli import main

if TYPE_CHECKING:
    from pathlib import Path

TIMES_AND_ORDERS = {
    "first-roller-loose": (5, "Bring the first roller nearer."),
    "base-pressure-high": (9, "Ease the spring."),
    "product-in-seam": (1, "Wipe all flanges dry."),
}


@pytest.fixture(scope="module")
def small(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Lay down the starter; minutes and orders of three causes behind a droop are the test's own."""
    folder = tmp_path_factory.mktemp("small") / "ours"
    lay_down(folder)
    for id_, (minutes, order) in TIMES_AND_ORDERS.items():
        file = folder / "content" / "causes" / f"{id_}.yml"
        text = re.sub(r"(?m)^minutes: .*$", f"minutes: {minutes}", file.read_text(encoding="utf-8"))
        file.write_text(re.sub(r"(?m)^  say: .*$", f"  say: {order}", text), encoding="utf-8")
    return folder / "content"


def said(content: Path, *arguments: str) -> str:
    done = CliRunner().invoke(main, ["cause", *arguments, "--content", str(content)])
    assert done.exit_code == 0, done.output
    return done.stdout


def blocks(text: str) -> dict[str, str]:
    """Return what is said under each heading."""
    parts = re.split(r"(?m)^(\S.*)$", text)
    return dict(zip((head.rstrip(":") for head in parts[1::2]), parts[2::2], strict=True))


def title(content: Path, cause: str) -> str:
    found = re.search(r"(?m)^title: (.*)$", (content / "causes" / f"{cause}.yml").read_text(encoding="utf-8"))
    assert found is not None
    return found[1]


def test_check_and_correction_name_one_cause_where_the_likeliest_is_checked_first(small: Path) -> None:
    text = blocks(
        said(small, "--defect", "droop", "--dimension", "cover-hook=normal", "--dimension", "body-hook=normal")
    )
    food = title(small, "product-in-seam")
    assert f"Check first: {food}" in text
    assert "Wipe all flanges dry." in text[f"Correction, if it is: {food}"]
    assert "before the likeliest cause" not in "".join(text.values())


def test_a_quick_check_of_another_cause_says_so_and_what_to_do_if_it_is(small: Path) -> None:
    text = blocks(said(small, "--defect", "droop", "--changed", "adjustment"))
    food, loose = (title(small, id_) for id_ in ("product-in-seam", "first-roller-loose"))
    first = text[f"Check first: {food}"]
    assert f"This check is quick. It rules this out before the likeliest cause: {loose}." in first
    assert "Wipe all flanges dry." in first
    assert loose in first.split("Then check")[1]
    assert f"Then, for the likeliest cause: {loose}" in text
    assert "Bring the first roller nearer." in text[f"Correction, if it is: {loose}"]


def test_what_is_set_before_the_likeliest_cause_is_ruled_out_first_and_says_so(small: Path) -> None:
    directions = ("body-hook=longer", "cover-hook=shorter")
    text = blocks(said(small, *(word for way in directions for word in ("--dimension", way)), "--changed", "roller"))
    pressure, loose = (title(small, id_) for id_ in ("base-pressure-high", "first-roller-loose"))
    first = text[f"Check first: {pressure}"]
    assert f"This is set before, so rule it out before the likeliest cause: {loose}." in first
    assert "Ease the spring." in first


def test_without_a_fault_no_cause_is_named_and_the_cans_are_held(small: Path) -> None:
    text = blocks(said(small, "--where", "all-round", "--changed", "roller"))
    assert not any(head.startswith(("Likely causes", "Check", "Correction")) for head in text)
    held = text["The fault itself is not named yet"]
    assert "Say what you see, feel or measure." in held
    assert "Hold every can" in held
