"""The phone says what Python says: causes, checks, and the numbered correction in the same order."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest

from advice.phone import on_the_phone
from advice.test_out_of_limits import with_measured, without_records_about
from seaming.twin import ANSWERS, plain, seeded
from tinwright.advice.advice import advise_on_signs, nowhere_text, signs_from
from tinwright.advice.profiles import defect_of, leads_somewhere
from tinwright.advice.spoken import spoken_causes
from tinwright.knowledge.models.can import ComputedValue
from tinwright.knowledge.models.trouble import Direction, MeasuredSign
from tinwright.knowledge.plain_words import COMPUTED_WORDS, DIRECTION_WORDS
from tinwright.seaming.wording import PERCENTS

if TYPE_CHECKING:
    from tinwright.knowledge import KnowledgeBase

CASES = 1500
ASK = """
const bench = globalThis.tinwrightBench;
const sealer = given.data.sealers.find((each) => each.id === call.sealer) || null;
const signs = { ...bench.signsFrom(call.defects, call.directions), extent: call.extent, repeats: call.repeats, lastChange: call.changed };
const advice = bench.adviseOnSigns(signs, sealer, call.outBy);
const said = bench.sayAdvice(advice, sealer);
const listed = said.find((node) => node.attributes.class === "tw-causes");
const lists = said.filter((node) => node.tag === "ol" && node.attributes.class === "tw-list");
return { first: advice.first, question: advice.question, reasons: listed ? listed.textContent : "", order: advice.order, correction: advice.correction,
  steps: lists.map((list) => list.children.map((item) => item.textContent)) };
"""


@pytest.fixture(scope="module")
def cases(kb: KnowledgeBase) -> list[dict[str, Any]]:
    """Random mixes of signs, each about some sealer or none."""
    rng = seeded(20261130)
    found = []
    for _ in range(CASES):
        ways = {name: rng.choice(("larger", "smaller", "normal")) for name in DIRECTION_WORDS if rng.random() < 0.25}
        amounts = {name: rng.choice((0.0005, 0.004, 0.03)) for name in ways if rng.random() < 0.7}
        found.append(
            {
                "sealer": rng.choice([None, *kb.sealers]),
                "defects": rng.sample(list(kb.defects), rng.choice((0, 1, 1, 2))),
                "directions": ways,
                "extent": rng.choice([None, *ANSWERS["extent"]]),
                "repeats": rng.choice([None, *ANSWERS["repeats"]]),
                "changed": rng.choice([None, *ANSWERS["change"]]),
                # a rating may be out by thirty, which is no travel of a roller
                "outBy": {name: 30.0 if name in PERCENTS else amount for name, amount in amounts.items()},
            }
        )
    return found


def _said(text: str) -> str:
    return " ".join(text.replace(" The steps: ", " ").rstrip(".").split())


def test_the_numbered_correction_is_the_same_in_the_same_order(kb: KnowledgeBase, cases: list[dict[str, Any]]) -> None:
    explained = 0
    for case, phone in zip(cases, on_the_phone(kb, ASK, cases), strict=True):
        signs = signs_from(
            kb,
            case["defects"],
            case["directions"],
            extent=case["extent"],
            repeats=case["repeats"],
            last_change=case["changed"],
        )
        sealer = kb.sealers.get(case["sealer"])
        advice = advise_on_signs(kb, signs, sealer, case["outBy"])
        assert (phone["first"], tuple(phone["order"])) == (advice.first, advice.order)
        assert phone["question"] == plain(advice.question)
        if advice.first is None:
            continue
        explained += 1
        block = next(block for block in spoken_causes(kb, advice) if block.heading.startswith("Correction"))
        steps = [_said(line) for line, _ in block.lines if "invented as an example" not in line]
        assert [_said(line) for line in phone["steps"][-1]] == steps
        assert advice.correction is not None
        assert phone["correction"]["amount"] == advice.correction.amount
    assert explained > CASES / 2


def test_the_plug_is_pulled_before_anything_is_checked_or_done(kb: KnowledgeBase, cases: list[dict[str, Any]]) -> None:
    unplugged = 0
    for phone in on_the_phone(kb, ASK, cases):
        for steps in phone["steps"]:
            at = next((place for place, step in enumerate(steps) if "unplug" in step), None)
            if at is not None:
                unplugged += 1
                # before it: what it comes to, and that the sealer is stopped
                assert at <= 1 + any(step.startswith("Stop the sealer") for step in steps[:at]), steps
    assert unplugged


def test_where_nothing_more_is_known_the_phone_says_that_it_is_none_of_these(kb: KnowledgeBase) -> None:
    said = on_the_phone(kb, "return tinwrightBench.none(...call).textContent;", [[], [True], [False]])
    assert said[0] == said[1]
    assert said[0].startswith("None of these")
    assert not said[2].startswith("None of these")


@pytest.fixture(scope="module")
def with_butting(kb: KnowledgeBase) -> KnowledgeBase:
    """The demonstration with one defect that is a computed value out of its limit, and nothing about the seam width."""
    low = MeasuredSign(dimension=ComputedValue.BODY_HOOK_BUTTING, direction=Direction.SMALLER)
    silent = without_records_about(without_records_about(kb, "body-hook-butting"), "seam-width")
    return with_measured(silent, "short-body-hook", "made-butting", low)


def test_each_limit_leads_where_it_leads_in_python(with_butting: KnowledgeBase) -> None:
    values = [(name, way) for name in DIRECTION_WORDS | COMPUTED_WORDS for way in ("larger", "smaller", "varies")]
    asked = """
    const bench = globalThis.tinwrightBench;
    return [bench.defectOf(...call), bench.leadsSomewhere(...call), bench.sayNowhere(...call)];
    """
    found = on_the_phone(with_butting, asked, values)
    for (name, way), phone in zip(values, found, strict=True):
        python = [defect_of(with_butting, name, way), leads_somewhere(with_butting, name, way)]
        assert phone == [*python, nowhere_text(with_butting, name, way)]
    assert [where for _, where, _ in found].count(False) > 2
    assert ["made-butting", True] in [each[:2] for each in found]


def test_a_computed_value_alone_leads_to_the_same_causes(
    with_butting: KnowledgeBase, cases: list[dict[str, Any]]
) -> None:
    some = [
        {**case, "directions": case["directions"] | {"body-hook-butting": "smaller"}, "defects": []}
        for case in cases[:300]
    ]
    for case, phone in zip(some, on_the_phone(with_butting, ASK, some), strict=True):
        told = {name: case[name] for name in ("extent", "repeats")}
        signs = signs_from(with_butting, (), case["directions"], last_change=case["changed"], **told)
        advice = advise_on_signs(with_butting, signs, with_butting.sealers.get(case["sealer"]), case["outBy"])
        assert "seen: Made for a test" not in phone["reasons"]
        assert (phone["first"], tuple(phone["order"])) == (advice.first, advice.order)
        assert phone["question"] == plain(advice.question)
