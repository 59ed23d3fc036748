"""Counts of confirmed causes on the pages: said as counts, marked when invented, and no trace of them without a log."""

from __future__ import annotations

import dataclasses
import json
from typing import TYPE_CHECKING

import pytest

from tinwright.advice.seen_here import causes_in_order, link_shares
from tinwright.knowledge.models.seen_here import SeenHere
from tinwright.site.building import build_site
from tinwright.site.defect_checks import branches_of

if TYPE_CHECKING:
    from tinwright.knowledge import KnowledgeBase


def with_counts(kb: KnowledgeBase, *counts: tuple[str, str, str, int], invented: bool = False) -> KnowledgeBase:
    rows = [dict(zip(("sealer", "defect", "cause", "times"), count, strict=True)) for count in counts]
    text = {"id": "seen-here", "through": 2026, "invented": invented, "confirmed": rows}
    return dataclasses.replace(kb, seen_here=SeenHere.model_validate(text))


CRANK, LEVER = "bench-crank-sealer", "bench-lever-sealer"
COUNTS = (
    (CRANK, "droop", "product-in-seam", 3),
    (LEVER, "droop", "product-in-seam", 1),
    (CRANK, "droop", "chuck-worn", 2),
)


@pytest.fixture(scope="module")
def learned(kb: KnowledgeBase) -> dict[str, str]:
    return texts(with_counts(kb, *COUNTS))


def texts(kb: KnowledgeBase) -> dict[str, str]:
    site = build_site(kb)
    return {page.uri: page.text for page in site.pages} | {
        asset.uri: asset.content.decode() for asset in site.assets if asset.uri.endswith((".js", ".json", ".xml"))
    }


def test_without_counts_nothing_on_the_site_is_different(kb: KnowledgeBase) -> None:
    without = texts(kb)
    assert texts(with_counts(kb)) == without
    said = {uri for uri, text in without.items() if "seen here" in text.lower() or "tw-times" in text}
    assert said <= {"assets/bench-advice.js", "assets/seaming.js"}


def test_the_pages_say_how_often_in_counts(learned: dict[str, str]) -> None:
    assert "6 causes of this defect were confirmed here through 2026" in learned["defects/droop.md"]
    for page in ("defects/droop.md", "trees/droop.md"):
        assert "seen here 4 of 6 times" in learned[page]
        assert "seen here 2 of 6 times" in learned[page]
        assert "%" not in learned[page].split("seen here 4")[1].split("</p>")[0]
    assert "was confirmed" not in learned["defects/vee.md"]


def test_a_sealers_page_lists_its_own(learned: dict[str, str]) -> None:
    crank, motor = learned[f"sealers/{CRANK}.md"], learned["sealers/motor-sealer.md"]
    assert "Causes confirmed through 2026" in crank
    assert "confirmed through" not in motor


def test_invented_counts_say_so(kb: KnowledgeBase, learned: dict[str, str]) -> None:
    invented = texts(with_counts(kb, *COUNTS, invented=True))
    for page in ("defects/droop.md", "trees/droop.md", f"sealers/{CRANK}.md"):
        assert invented[page].count("invented as an example") > learned[page].count("invented as an example")


def test_the_data_of_the_finder_is_counts_alone(learned: dict[str, str]) -> None:
    data = json.loads(learned["assets/bench-data.js"].removeprefix("globalThis.tinwrightData = ").rstrip(";\n"))
    assert data["seenHere"] == {
        "invented": False,
        "confirmed": [dict(zip(("sealer", "defect", "cause", "times"), count, strict=True)) for count in COUNTS],
    }


def test_causes_and_checks_are_put_in_the_order_that_the_counts_teach(kb: KnowledgeBase) -> None:
    droop = kb.defects["droop"]
    *_, last = causes_in_order(kb, droop)
    taught = with_counts(kb, (CRANK, "droop", last.cause, 40))
    assert causes_in_order(taught, droop)[0] == last
    assert link_shares(taught, droop)[last.cause] > 0.75
    before = [branch.cause.id for branch in branches_of(droop, kb)]
    after = [branch.cause.id for branch in branches_of(droop, taught)]
    assert after.index(last.cause) <= before.index(last.cause)
    assert sorted(before) == sorted(after)


def test_a_confirmed_cause_that_the_defect_does_not_name_is_shown(kb: KnowledgeBase) -> None:
    page = texts(with_counts(kb, (CRANK, "droop", "overfilled", 1)))["defects/droop.md"]
    named = {link.cause for link in kb.defects["droop"].causes}
    assert "overfilled" not in named
    assert "1 cause of this defect was confirmed" in page
    assert "not among those below" in page
    assert "seen here 1 of 1 times" in page
