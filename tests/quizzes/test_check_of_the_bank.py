"""`tinwright check` reviews the question bank, with the place of each item; the demonstration's own bank passes."""

from __future__ import annotations

import json
import shutil
import subprocess
import sys
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
import textstat
from click.testing import CliRunner, Result

from tinwright.advice.generated_questions import generate
from tinwright.advice.item_questions import question_of
from tinwright.cli import main
from tinwright.knowledge.bank import Bank, load_bank

if TYPE_CHECKING:
    from tinwright.knowledge import KnowledgeBase

ROOT = Path(__file__).parents[2]

ITEM = """\
- id: set-up-one
  topic: set-up
  use: practice
  asks: one-answer
  difficulty: 0.7
  question: What do you set first?
  options:
    - {text: The chuck, right: true, why: It holds the can.}
    - {text: The first roller, why: It comes later.}
    - {text: The second roller, why: It comes last.}
  why: The chuck holds the can.
  teaches: [procedure/fit-chuck]
  reviewed: 2026-11-20
"""
POINT = """\
- id: set-up-point
  topic: set-up
  use: practice
  asks: point
  difficulty: 0.7
  question: Point at the body hook.
  figure: seam-section
  place: PLACE
  mistakes: [{place: cover-hook, why: That one comes from the lid.}]
  why: It comes from the can body.
  teaches: [term/body-hook]
  reviewed: 2026-11-20
"""


@pytest.fixture
def bank(tmp_path: Path) -> Path:
    """A bank of one topic and one sound item."""
    folder = tmp_path / "quizzes"
    (folder / "practice").mkdir(parents=True)
    topic = "- {id: set-up, title: Set-up, about: Set up a sealer., reviewed: 2026-11-20}\n"
    (folder / "topics.yml").write_text(topic, encoding="utf-8")
    (folder / "practice" / "set-up.yml").write_text(ITEM, encoding="utf-8")
    return folder


def check(bank: Path, *more: str) -> Result:
    arguments = ["check", "--content", str(ROOT / "content"), "--quizzes", str(bank), "--today", "2026-12-01", *more]
    return CliRunner().invoke(main, arguments)


def test_a_sound_item_passes_and_what_the_bank_lacks_is_listed(bank: Path) -> None:
    result = check(bank)
    assert (result.exit_code, result.stderr) == (0, "")
    assert "quizzes/topics.yml:1:1: cause lid-wrong: no practice item teaches it" in result.stdout
    assert "procedure fit-chuck" not in result.stdout
    assert "defect droop" not in result.stdout, "a question made from the records teaches it"
    assert "examination" not in result.stdout
    assert check(bank, "--strict").exit_code == 1


def test_a_flaw_of_an_item_is_told_with_its_place_and_fails_the_check(bank: Path) -> None:
    file = bank / "practice" / "set-up.yml"
    file.write_text("# a comment\n" + ITEM.replace("The second roller", "All of the above"), encoding="utf-8")
    result = check(bank)
    assert result.exit_code == 1
    assert (
        "quizzes/practice/set-up.yml:2:3: item set-up-one: an option points at the others: 'All of the above'"
        in result.stderr
    )
    assert json.loads(check(bank, "--json").stdout)["problems"][0]["line"] == 2


def test_a_place_that_is_not_in_the_drawing_is_told(bank: Path) -> None:
    file = bank / "practice" / "set-up.yml"
    file.write_text(ITEM + POINT.replace("PLACE", "body-hook"), encoding="utf-8")
    assert check(bank).exit_code == 0
    file.write_text(ITEM + POINT.replace("PLACE", "nowhere"), encoding="utf-8")
    assert "item set-up-point: the place is not in this drawing" in check(bank).stderr


def test_a_topic_without_examination_items_is_a_gap_once_those_are_read(bank: Path) -> None:
    (bank / "examination").mkdir()
    assert "quizzes/topics.yml:1:1: topic set-up: has no examination item" in check(bank).stdout


EXAM = ITEM.replace("use: practice", "use: examination").replace("set-up-one", "x-set-up-one")


def test_a_question_of_practice_asked_again_in_the_examination_is_told(bank: Path) -> None:
    (bank / "examination").mkdir()
    other = EXAM.replace("What do you set first?", "Which of these do you set first?")
    (bank / "examination" / "set-up.yml").write_text(other, encoding="utf-8")
    result = check(bank)
    assert result.exit_code == 1
    assert "item x-set-up-one: asks the same as set-up-one (practice) " in result.stderr


def test_a_sealer_that_stands_in_no_kitchen_is_not_named(tmp_path: Path, bank: Path) -> None:
    shutil.copytree(ROOT / "content", tmp_path / "content")
    programme = tmp_path / "content" / "sorrel-county" / "program.yml"
    text = programme.read_text(encoding="utf-8")
    programme.write_text(text.replace("sealers: [bench-crank-sealer, bench-lever-sealer]", "sealers: []"), "utf-8")
    file = bank / "practice" / "set-up.yml"
    file.write_text(ITEM.replace("[procedure/fit-chuck]", "[procedure/fit-chuck, sealer/bench-lever-sealer]"), "utf-8")
    arguments = ["check", "--content", str(tmp_path / "content"), "--quizzes", str(bank), "--today", "2026-12-01"]
    result = CliRunner().invoke(main, arguments)
    assert "item set-up-one: names the sealer bench-lever-sealer, which stands in no kitchen" in result.stderr


def test_what_picking_by_the_look_scores_is_told_when_asked_for(bank: Path) -> None:
    file = bank / "practice" / "set-up.yml"
    file.write_text(ITEM.replace("text: The chuck,", "text: Stop and hold the cans,"), encoding="utf-8")
    line = next(row for row in check(bank, "--bank").stdout.splitlines() if "most cautious" in row)
    assert (
        line.split() == "practice most cautious 1 100% 33% too good: write wrong options that tempt in this way".split()
    )
    assert "most cautious" not in check(bank).stdout
    score = json.loads(check(bank, "--bank", "--json").stdout)["strategies"][0]
    assert (score["group"], score["score"]["strategy"], score["score"]["share"]) == ("practice", "most cautious", 1.0)


def test_a_mistake_in_a_bank_file_is_told_before_any_review(bank: Path) -> None:
    (bank / "practice" / "set-up.yml").write_text(ITEM.replace("asks: one", "asks: on"), encoding="utf-8")
    result = check(bank)
    assert result.exit_code == 1
    assert "expected one of one-answer" in result.stderr


def test_records_without_a_bank_are_checked_alone(tmp_path: Path) -> None:
    shutil.copytree(ROOT / "content", tmp_path / "content")
    result = CliRunner().invoke(
        main, ["check", "--content", str(tmp_path / "content"), "--strict", "--today", "2026-12-01"]
    )
    assert (result.exit_code, result.stderr) == (0, "")
    assert "question bank" not in result.stdout


def test_the_check_loads_no_statistics(bank: Path) -> None:
    code = (
        "import sys; from tinwright.cli import main\n"
        f"try: main(['check', '--content', {str(ROOT / 'content')!r}, '--quizzes', {str(bank)!r}])\n"
        "except SystemExit: print('scipy' in sys.modules, 'numpy' in sys.modules)"
    )
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert run.stdout.endswith("False False\n")


@pytest.fixture(scope="module")
def demonstration(kb: KnowledgeBase) -> Bank:
    return load_bank(ROOT / "quizzes", kb, examination=ROOT / "quizzes" / "examination")


def test_the_bank_of_the_demonstration_has_no_flaw() -> None:
    result = check(ROOT / "quizzes")
    assert (result.exit_code, result.stderr) == (0, "")


def test_every_item_reads_at_grade_8_or_below_by_topic(kb: KnowledgeBase, demonstration: Bank) -> None:
    # US grade 8 by Flesch-Kincaid, as for procedures; over a topic, since one short question has too few words to grade
    texts: dict[str, list[str]] = {}
    items = [*demonstration.practice.values(), *demonstration.examination.values()]
    for question in [*map(question_of, items), *generate(kb)]:
        whole = [question.text, *(f"{choice.text.rstrip('.')}." for choice in question.choices)]
        texts.setdefault(question.topic, []).append(" ".join(whole))
    grades = {topic: textstat.flesch_kincaid_grade(" ".join(whole)) for topic, whole in texts.items()}
    assert {topic: grade for topic, grade in grades.items() if grade > 8} == {}
