"""What to do with held cans comes from the content, in its words and with its evidence."""

from __future__ import annotations

import re
from dataclasses import replace
from types import SimpleNamespace
from typing import TYPE_CHECKING, cast

import pytest

from small_kitchen import lay_down
from tinwright.advice.held_cans import (
    HOW_TO_HOLD,
    UNTIL_TOLD,
    WATCH,
    bench_policy,
    defect_dispositions,
    defect_reaches,
    what_to_do_with_held,
)
from tinwright.benchlog import Event
from tinwright.benchlog.checks import REACHES, outcome_of
from tinwright.knowledge import load
from tinwright.knowledge.models.trouble import Disposition
from tinwright.site.building import build_site

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from tinwright.knowledge import KnowledgeBase


def test_heated_cans_have_another_rule_and_each_part_of_it_its_evidence(kb: KnowledgeBase) -> None:
    not_heated, heated = (what_to_do_with_held(kb, heated=heated) for heated in (False, True))
    steps = {step.do: step for step in kb.procedures["when-a-check-fails"].steps}
    assert {statement.text for statement in (*not_heated, *heated)} <= set(steps)
    assert not_heated[-1].text.startswith("Can it again only in another, new container")
    assert not_heated[-1].evidence == steps[not_heated[-1].text].evidence
    assert not_heated[-1] not in heated
    assert any(statement.text.startswith("Ask your Extension office about heated cans") for statement in heated)
    for rule in (not_heated, heated):
        assert [list(steps).index(statement.text) for statement in rule] == sorted(
            list(steps).index(statement.text) for statement in rule
        )


def test_no_held_can_is_both_never_tasted_and_eaten(kb: KnowledgeBase) -> None:
    """Fresh food under a bad seam may be cooked within its time; food that was heated is never tasted to find out."""
    not_heated, heated = (
        [statement.text.lower() for statement in what_to_do_with_held(kb, heated=heated)] for heated in (False, True)
    )
    assert any("eat it at once" in text for text in not_heated)
    assert not any("taste" in text for text in not_heated)
    assert any(text.startswith("never taste") for text in heated)
    assert not any(" eat " in text for text in heated)


def test_each_way_out_has_a_time_limit_and_one_needs_no_sealer(kb: KnowledgeBase) -> None:
    """2 hours: former 9 CFR 318.301(f)(2). 6 hours and 38 F: 9 CFR 355.25(d). 24 hours: NCHFP, for jars."""
    not_heated, heated = (
        " ".join(statement.text for statement in what_to_do_with_held(kb, heated=heated)) for heated in (False, True)
    )
    assert "2 hours from the minute the can was sealed" in not_heated
    assert "needs no sealer" in not_heated
    assert "6 hours from the end of their heating" in heated
    assert "38 °F" in heated
    assert "24 hours from the end of the heating" in heated


def test_a_step_without_evidence_of_its_own_has_that_of_its_procedure(kb: KnowledgeBase) -> None:
    marked = what_to_do_with_held(kb, heated=True)[0]
    assert marked.text.startswith("Mark each one HOLD")
    assert marked.evidence == kb.procedures["when-a-check-fails"].evidence


def test_where_the_content_says_nothing_cans_stay_on_hold(content: Callable[[dict[str, str]], Path]) -> None:
    assert what_to_do_with_held(load(content({})), heated=True) == (UNTIL_TOLD,)


def test_the_starter_has_a_rule_for_both(tmp_path: Path) -> None:
    lay_down(tmp_path / "ours")
    kb = load(tmp_path / "ours" / "content")
    assert UNTIL_TOLD not in (*what_to_do_with_held(kb, heated=True), *what_to_do_with_held(kb, heated=False))


def test_dispositions_are_those_of_the_content(kb: KnowledgeBase) -> None:
    found = defect_dispositions(kb)
    assert found.keys() == kb.defects.keys()
    assert (found["vee"], found["mushroomed-flange"]) == ("reject", "discard-part")


def test_a_cosmetic_defect_with_a_cause_that_can_do_worse_clears_no_can(kb: KnowledgeBase) -> None:
    """A can that shows it is neither good nor failed; one whose causes do nothing worse says nothing against the seam."""
    print_ = kb.defects["knurl-print"]
    action = print_.can_action.model_copy(update={"disposition": Disposition.COSMETIC})
    mild = print_.model_copy(update={"can_action": action})
    (cause, *_) = mild.causes
    worse = kb.defects["vee"].model_copy(update={"causes": (cause,)})
    alone = defect_dispositions(cast("KnowledgeBase", SimpleNamespace(defects={mild.id: mild})))
    beside = defect_dispositions(cast("KnowledgeBase", SimpleNamespace(defects={mild.id: mild, "vee": worse})))
    assert (alone[mild.id], beside[mild.id]) == ("cosmetic", WATCH)
    good = Event("a-1", ("2026-11-14", "Mill Street", "s"), "09:05", "visual-check", can_number=1, result="good")
    shows_it = replace(good, defect=mild.id)
    assert [outcome_of(shows_it, known) for known in (alone, beside)] == ["good", ""]


@pytest.mark.parametrize(
    ("found_by", "cleared_by", "reach"),
    [
        ("[see]", "", 1),
        ("[feel, teardown]", "", 1),
        ("[measure]", "", 2),
        ("[teardown, measure]", "", 3),
        ("[feel, measure, teardown]", "measure", 2),
        ("[see, feel]", "teardown", 3),
    ],
)
def test_how_far_a_check_must_reach_comes_from_the_defect(
    starter: Path, found_by: str, cleared_by: str, reach: int
) -> None:
    """A fault that shows now and then from outside, but can hide, says itself which check clears cans of it."""
    droop = starter / "defects" / "droop.yml"
    said = f"found_by: {found_by}\n" + (f"cleared_by: {cleared_by}\n" if cleared_by else "")
    droop.write_text(re.sub(r"found_by:\n(  - .*\n)+", said, droop.read_text("utf-8")), "utf-8")
    assert defect_reaches(load(starter))["droop"] == reach


@pytest.mark.parametrize("id_", ["loose-seam", "thin-seam", "deep-countersink", "shallow-countersink", "jump-over"])
def test_a_look_clears_no_can_of_what_the_gauge_must_show(kb: KnowledgeBase, id_: str) -> None:
    """CFIA, dairy manual, appendix 9: the thickness is measured; how far a thumb tells it is nowhere published."""
    assert defect_reaches(kb)[id_] >= 2


@pytest.mark.parametrize(
    "id_", ["false-seam", "seam-inclusion", "bubbles-in-water-test", "swell", "springer", "flipper"]
)
def test_a_look_clears_no_can_of_what_hides_inside_or_shows_later(kb: KnowledgeBase, id_: str) -> None:
    """21 CFR 113.60(a)(1): visual checks and teardowns are two things; FDA BAM 22A: leaks are found after heating."""
    assert defect_reaches(kb)[id_] == 3


def test_the_programmes_rules_are_those_of_the_bench(kb: KnowledgeBase) -> None:
    policy, said = bench_policy(kb), kb.programme.policy
    assert (policy.test_cans, policy.recheck_cans, policy.recheck_minutes) == (
        said.test_cans,
        said.recheck_cans,
        said.recheck_minutes,
    )
    assert (policy.teardown_cans, policy.teardown_minutes) == (said.teardown_cans or 0, said.teardown_minutes)
    assert REACHES[policy.end_check].split()[0][:4] == str(said.end_check)[:4].replace("tear", "torn")


def test_the_page_says_the_rule_and_which_check_finds_which_fault(kb: KnowledgeBase) -> None:
    (page,) = (page for page in build_site(kb).pages if page.uri == "cans-to-hold.md")
    for said in HOW_TO_HOLD:
        assert said.text in page.text
    assert [str(said.evidence.grade) for said in HOW_TO_HOLD] == ["practice"] * len(HOW_TO_HOLD)
    inside = page.text.split("When the can is torn down:")[1].split("</p>")[0]
    assert "defects/pleat.html" in inside
    assert "defects/droop.html" not in inside


@pytest.mark.parametrize("id_", ["chuck-print", "compound-squeeze-out"])
def test_a_can_is_not_judged_by_another_when_the_cause_comes_and_goes(kb: KnowledgeBase, id_: str) -> None:
    steps = [step.text for step in kb.defects[id_].can_action.steps]
    assert any(step.startswith("Judge each can by itself.") for step in steps)
    assert not any("empty test can" in step for step in steps)
