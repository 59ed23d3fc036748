"""`tinwright cause`: from signs to causes, in words."""

from __future__ import annotations

import json
from dataclasses import asdict
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from click.testing import CliRunner, Result

from tinwright.advice.advice import advise_on_signs, signs_from
from tinwright.cli import main

if TYPE_CHECKING:
    from tinwright.knowledge import KnowledgeBase

ROOT = Path(__file__).parents[2]


def run(*arguments: str, content: Path = ROOT / "content") -> Result:
    return CliRunner().invoke(main, ["cause", *arguments, "--content", str(content)])


def seen_or_felt(kb: KnowledgeBase) -> list[str]:
    """Defects that are no dimension out of its limit, whatever the demonstration calls them."""
    return [id_ for id_, defect in kb.defects.items() if not defect.measured and {"see", "feel"} & set(defect.found_by)]


def test_the_cans_come_first_with_the_steps_of_the_defect_seen(kb: KnowledgeBase) -> None:
    lines = run("--defect", "vee").stdout.splitlines()
    assert lines[0] == (
        "The cans first: stop, and hold every can sealed since the last good check that could have found this. "
        "Do not taste."
    )
    assert lines[1] == "Vee, what to do with the can:"
    assert lines[2].strip() == kb.defects["vee"].can_action.steps[0].text


def test_causes_come_in_words_with_reasons_a_first_check_and_what_tells_two_apart() -> None:
    said = run("--dimension", "body-hook=longer", "--dimension", "cover-hook=shorter").stdout
    assert "  likely: First roller set too loose\n    for: body hook longer; cover hook shorter\n" in said
    for heading in (
        "What shows which of the first two it is:",
        "Check first: ",
        "What would help:",
        "Correction, if it is: ",
    ):
        assert heading in said
    assert "%" not in said


def test_without_a_sealer_the_steps_of_the_cause_stand_in_place_of_a_screw(kb: KnowledgeBase) -> None:
    said = run(
        "--dimension", "body-hook=longer", "--dimension", "cover-hook=shorter", "--dimension", "countersink=normal"
    )
    steps = kb.causes["first-roller-loose"].correction.do
    assert "Tighten the first roller." in said.stdout
    assert steps[0].text.split("[[")[0] in said.stdout
    assert " turn" not in said.stdout.split("Move it as little as you can.")[1].split("\n")[0]


def test_a_defect_may_be_named_by_id_title_or_trade_name() -> None:
    named = [run("--defect", name, "--json").stdout for name in ("vee", "Vee", "spur")]
    assert named[0] == named[1] == named[2]


def test_a_defect_that_is_a_dimension_out_counts_once_and_what_was_measured_comes_first(kb: KnowledgeBase) -> None:
    seen = seen_or_felt(kb)[0]
    signs = signs_from(kb, ["short-body-hook", seen], {"body-hook": "normal"})
    assert signs.defects == (seen,)
    assert signs.directions == {"body-hook": "normal"}
    assert signs_from(kb, ["short-body-hook"]).directions == {"body-hook": "smaller"}


def test_the_order_of_the_options_changes_nothing(kb: KnowledgeBase) -> None:
    ways = ("--defect", "--defect", "--absent", "--absent")
    told = list(zip(ways, seen_or_felt(kb), strict=False))
    told += [("--dimension", "cover-hook=shorter"), ("--dimension", "body-hook=normal"), ("--where", "one-place")]
    one, other = (run(*(word for pair in order for word in pair)) for order in (told, told[::-1]))
    assert one.exit_code == other.exit_code == 0
    assert one.stdout == other.stdout


def test_a_dimension_told_both_ways_is_uneven_in_whatever_order(kb: KnowledgeBase) -> None:
    for defects in (["long-body-hook", "short-body-hook"], ["short-body-hook", "long-body-hook"]):
        assert signs_from(kb, defects).directions == {"body-hook": "varies"}


def test_json_is_the_library_result(kb: KnowledgeBase) -> None:
    seen, absent = seen_or_felt(kb)[:2]
    found = json.loads(
        run(
            *("--defect", seen, "--absent", absent, "--dimension", "cover-hook=shorter", "--where", "one-place"),
            *("--repeats", "same-place", "--changed", "chuck", "--sealer", "motor-sealer", "--json"),
        ).stdout
    )
    signs = signs_from(
        kb,
        [seen],
        {"cover-hook": "smaller"},
        absent=[absent],
        extent="one-place",
        repeats="same-place",
        last_change="chuck",
    )
    advice = advise_on_signs(kb, signs, kb.sealers["motor-sealer"])
    assert found == json.loads(json.dumps(asdict(advice), default=str))


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        (("--defect", "droo"), "no defect is called 'droo'; did you mean 'droop'?"),
        (("--absent", "drop"), "no defect is called 'drop'; did you mean 'droop'?"),
        (("--defect", "droop", "--absent", "Droop"), "droop: expected seen or not found, got both"),
        (
            ("--dimension", "body-hook=longer", "--dimension", "body-hook=shorter"),
            "body-hook: expected one direction, got two; one that differs is body-hook=uneven",
        ),
        (("--dimension", "bodyhook=longer"), "no dimension is called 'bodyhook'; did you mean 'body-hook'?"),
        (("--dimension", "body-hook"), "body-hook: expected one of longer, shorter, normal, uneven, got ''"),
        (("--sealer", "or-sealer"), "no sealer is called 'or-sealer'; did you mean 'our-sealer'?"),
        (("--where", "everywhere"), "'everywhere' is not one of"),
    ],
)
def test_misuse_ends_with_2_and_says_what_was_expected(starter: Path, arguments: tuple[str, ...], message: str) -> None:
    result = run(*arguments, content=starter)
    assert result.exit_code == 2
    assert message in " ".join(result.stderr.split())
