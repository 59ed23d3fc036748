"""How long a bank lasts."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from click.testing import CliRunner

from examining.exam_banks import lay_bank
from tinwright.cli import main
from tinwright.examining.planning import BankPlan, plan_bank, plan_lines
from tinwright.examining.ratings import read_ratings
from tinwright.knowledge.bank import load_bank

if TYPE_CHECKING:
    from tinwright.knowledge import KnowledgeBase

CONTENT = Path(__file__).parents[2] / "content"


def test_as_many_forms_are_found_as_the_scarcest_items_give(tmp_path: Path, kb: KnowledgeBase) -> None:
    """Sixteen a topic: six on a form, so two forms; six critical ones of sealing give one form, two and two each."""
    root = lay_bank(tmp_path)
    bank = load_bank(root, kb, examination=root / "examination")
    ratings = read_ratings(root / "blueprints" / "small-ratings.csv")
    found = plan_bank(bank, bank.blueprints["small"], ratings, classes=2, people=12)
    assert (found.forms, found.a_year) == (1, 3)
    assert "2 forms and 2 for a second try of 2 need 8 items, only 6 can be placed" in found.short


def test_years_and_people_an_item_follow_from_the_forms() -> None:
    found = BankPlan(forms=6, short="", classes=2, people=12, a_year=3)
    assert (found.years, found.people_an_item, found.years_to_statistics) == (2.0, 4.0, 8)
    said = " ".join(plan_lines(found, items=200))
    assert "gives 6 form(s)" in said
    assert "after 8 year(s)" in said


def test_the_command_says_what_the_bank_is_short_of(tmp_path: Path) -> None:
    root = lay_bank(tmp_path)
    given = ["exam", "plan", "small", "--quizzes", str(root), "--content", str(CONTENT), "--classes", "1"]
    done = CliRunner().invoke(main, given)
    assert done.exit_code == 0, done.output
    assert "The bank of 32 items gives 1 form(s)" in done.stdout
    assert "For one form more: critical items of Sealing safely" in done.stdout
    wrong = CliRunner().invoke(main, [*given[:2], "smal", *given[3:]])
    assert (wrong.exit_code, "did you mean" in wrong.stderr or "small" in wrong.stderr) == (1, True)
