"""Every set-up sheet against a search of its own: all counts of all spacers, straight from the YAML."""

from __future__ import annotations

import itertools
import re
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING, Any

import pytest
import yaml

from demo_site import ROOT

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from bs4 import BeautifulSoup

SEALERS: dict[str, dict[str, Any]] = {
    file.stem: yaml.safe_load(file.read_text(encoding="utf-8"))
    for file in (ROOT / "content/sorrel-county/sealers").glob("*.yml")
}
CANS: list[str] = [
    str(can["code"])
    for file in (ROOT / "content/shared/cans").glob("*.yml")
    for can in yaml.safe_load(file.read_text(encoding="utf-8"))
]


def inches(text: str) -> Fraction:
    """`4 11/16 in` as a number."""
    return sum((Fraction(part) for part in text.removesuffix(" in").split()), Fraction(0))


def size(code: str) -> Fraction:
    """`307` as 3 7/16 in, `200.25` as 2 in and a quarter of a sixteenth."""
    whole, _, rest = code.partition(".")
    return int(whole[:-2]) + Fraction(f"{whole[-2:]}.{rest or 0}") / 16


@dataclass(frozen=True)
class Expected:
    """What a sheet has to say."""

    chuck: bool
    slot: str | None
    exact: list[dict[str, int]]
    gaps: set[Fraction]
    needed: Fraction


def search(can: str, sealer: dict[str, Any]) -> Expected:
    """Try every number of every spacer."""
    diameter, height = can.split("x")
    needed = inches(sealer["seat_height"]) - size(height)
    kinds = sealer.get("spacers", [])
    stacks: dict[Fraction, list[dict[str, int]]] = {}
    for counts in itertools.product(*(range(kind["count"] + 1) for kind in kinds)):
        total = sum((n * inches(kind["size"]) for n, kind in zip(counts, kinds, strict=True)), Fraction(0))
        used = {kind["name"]: n for n, kind in zip(counts, kinds, strict=True) if n}
        stacks.setdefault(total, []).append(used)
    exact = stacks.get(needed, [])
    fewest = min((sum(stack.values()) for stack in exact), default=0)
    gaps = set()
    if not exact and needed >= 0:
        below, above = [h for h in stacks if h < needed], [h for h in stacks if h > needed]
        gaps = ({needed - max(below)} if below else set()) | ({min(above) - needed} if above else set())
    slots = sealer.get("roller_slots", [])
    slot = next((s["slot"] for s in slots if diameter in s["sizes"]), None if slots else "no change needed")
    chuck = diameter in [c["size"] for c in sealer["chucks"]]
    return Expected(chuck, slot, [s for s in exact if sum(s.values()) == fewest], gaps, needed)


PAIRS = sorted(itertools.product(sorted(SEALERS), sorted(CANS)))


@pytest.fixture(scope="module")
def sheet_of(pages: Mapping[str, BeautifulSoup]) -> Callable[[str, str], BeautifulSoup]:
    return lambda sealer, can: pages[f"set-up/{sealer}-{can}.html"]


def facts(sheet: BeautifulSoup) -> dict[str, str]:
    return {
        dt.get_text(strip=True): " ".join(dt.find_next("dd").get_text().split()) for dt in sheet.select(".tw-sheet dt")
    }


def stack_said(words: str) -> dict[str, int]:
    if words.startswith("none"):
        return {}
    return {name: int(n) for n, name in re.findall(r"(\d+) × (.+?) \([\d /]+ in\)(?:, |$)", words)}


def test_there_are_cans_and_sealers_enough() -> None:
    assert len(CANS) >= 24
    assert len(SEALERS) == 3


@pytest.mark.parametrize(("sealer", "can"), PAIRS)
def test_the_sheet_agrees_with_trying_every_stack(
    sheet_of: Callable[[str, str], BeautifulSoup], sealer: str, can: str
) -> None:
    sheet, expected = sheet_of(sealer, can), search(can, SEALERS[sealer])
    found, words = facts(sheet), " ".join(sheet.article.get_text().split())
    if expected.chuck and expected.slot and expected.exact:
        assert found["Chuck"] == can.split("x", maxsplit=1)[0]
        assert found["Roller position"] == expected.slot
        assert stack_said(found["Spacers"]) in expected.exact
        assert inches(found["Height of the stack"].split(" in")[0] + " in") == expected.needed
        assert "cannot be set up" not in words
        assert sheet.select_one("article svg[role=img]")
    else:
        assert found == {}
        assert "This can cannot be set up on this sealer." in words
        assert ("no " + can.split("x", maxsplit=1)[0] + " chuck" in words) == (not expected.chuck)
        assert ("too tall" in words) == (expected.needed < 0)
        shown = {inches(gap) for gap in re.findall(r"([\d /]+) in too (?:low|high)", words)}
        assert shown == (expected.gaps if expected.chuck else set())


@pytest.mark.parametrize("sealer", sorted(SEALERS))
def test_a_sheet_gives_the_steps_in_the_order_of_adjustment_for_its_drive(
    sheet_of: Callable[[str, str], BeautifulSoup], sealer: str
) -> None:
    can = next(can for can in CANS if search(can, SEALERS[sealer]).exact and search(can, SEALERS[sealer]).chuck)
    steps = [str(a["href"]).rsplit("/", 1)[-1] for a in sheet_of(sealer, can).select(".tw-steps__do a")]
    order = ["set-base-height", "set-base-pressure", "set-first-roller", "check-first-operation", "set-second-roller"]
    order += ["make-test-can", "look-and-feel"]
    assert [step.removesuffix(".html") for step in steps if step.removesuffix(".html") in order] == order
    own = {"crank-cam": "seal-crank-cam", "hand-lever": "seal-hand-lever", "motor": "seal-motor"}
    drives = [step.removesuffix(".html") for step in steps if step.removesuffix(".html") in own.values()]
    assert drives == [own[SEALERS[sealer]["drive"]]]


def test_the_index_leads_to_every_sheet(pages: Mapping[str, BeautifulSoup]) -> None:
    linked = {str(a["href"]) for a in pages["set-up/index.html"].select("td a")}
    assert linked == {f"{sealer}-{can}.html" for sealer, can in PAIRS}


def test_the_tall_can_takes_its_own_chuck_and_the_flat_one_the_chuck_of_the_tall_one_of_its_width(
    sheet_of: Callable[[str, str], BeautifulSoup],
) -> None:
    for can, chuck in (("301x408", "301"), ("307x200.25", "307"), ("307x409", "307")):
        found = [facts(sheet_of(sealer, can)) for sealer in SEALERS]
        assert {sheet["Chuck"] for sheet in found if sheet} == {chuck}
