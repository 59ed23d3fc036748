"""What to do with held cans comes from the content, in its words and with its evidence."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tinwright.advice.held_cans import UNTIL_TOLD, defect_dispositions, what_to_do_with_held
from tinwright.knowledge import load
from tinwright.starter import lay_down

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
