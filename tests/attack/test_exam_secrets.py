"""Somebody who has the bank, the code of a form and time cannot tell which questions are in it or what is right."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from click.testing import CliRunner

from examining.exam_banks import DAY, lay_bank
from examining.exam_forms import a_form
from tinwright.cli import main
from tinwright.examining.exam_page import exam_page
from tinwright.examining.form import FormItem, read_form
from tinwright.examining.making import make_forms
from tinwright.examining.pictures import picture_of
from tinwright.examining.ratings import read_ratings
from tinwright.knowledge.bank import load_bank

if TYPE_CHECKING:
    from tinwright.examining.making import MadeForm
    from tinwright.knowledge import KnowledgeBase

ROOT = Path(__file__).parents[2]
SALT = "0f" * 16


def made(root: Path, kb: KnowledgeBase, *, seed: int, salt: str) -> MadeForm:
    bank = load_bank(root, kb, examination=root / "examination")
    (blueprint,) = bank.blueprints.values()
    ratings = read_ratings(root / "blueprints" / blueprint.standard_setting.ratings)
    return make_forms(kb, bank, blueprint, ratings, forms=1, seed=seed, salt=salt, made_on=DAY)[0]


def test_the_code_of_a_form_cannot_be_found_by_making_the_forms_of_every_seed(
    tmp_path: Path, kb: KnowledgeBase
) -> None:
    root = lay_bank(tmp_path)
    real = made(root, kb, seed=3, salt=SALT).form
    guesses = [made(root, kb, seed=seed, salt="").form for seed in range(6)]
    assert real.items in [guess.items for guess in guesses], "the questions were guessed"
    assert real.digest not in [guess.digest for guess in guesses], "and nothing tells that the guess was right"
    assert real.code not in [guess.code for guess in guesses]


def test_the_same_seed_and_salt_make_the_same_form_and_another_salt_another_code(
    tmp_path: Path, kb: KnowledgeBase
) -> None:
    root = lay_bank(tmp_path)
    once, again, other = (made(root, kb, seed=3, salt=salt) for salt in (SALT, SALT, "1f" * 16))
    assert once == again
    assert once.form.items == other.form.items
    assert once.form.code != other.form.code


def test_the_page_that_is_handed_out_does_not_hold_the_salt_or_the_seed(tmp_path: Path, kb: KnowledgeBase) -> None:
    form = made(lay_bank(tmp_path), kb, seed=2**127 + 11, salt=SALT).form
    page = exam_page(form, kb)
    assert form.code in page
    assert SALT not in page
    assert str(2**127 + 11) not in page


@pytest.mark.parametrize("seed", [0, 7, 2**53 - 1, 2**53, 2**128 - 1])
def test_a_seed_of_any_size_is_kept_exactly(tmp_path: Path, seed: int) -> None:
    file = tmp_path / "a.form.json"
    form = a_form(seed=seed, salt=SALT)
    file.write_text(form.written(), encoding="utf-8")
    assert read_form(file) == form
    read_as_javascript_does = json.loads(file.read_text(encoding="utf-8"), parse_int=float)
    assert int(read_as_javascript_does["seed"]) == seed


def test_what_is_drawn_by_lot_has_128_bits(tmp_path: Path) -> None:
    bank = lay_bank(tmp_path / "bank")
    drawn = []
    for name in ("one", "two"):
        out = tmp_path / name
        arguments = [
            "--quizzes",
            str(bank),
            "--content",
            str(ROOT / "content"),
            "--out",
            str(out),
            "--on",
            "2026-11-25",
        ]
        result = CliRunner().invoke(main, ["exam", "make", "small", *arguments])
        assert result.exit_code == 0, result.output
        told = re.search(r"--seed (\d+) --salt ([0-9a-f]{32})$", result.output, re.MULTILINE)
        assert told is not None
        form = read_form(out / "small-A.form.json")
        assert (str(form.seed), form.salt) == told.groups()
        drawn.append(form)
    assert drawn[0].salt != drawn[1].salt
    assert max(form.seed for form in drawn) > 2**100


def test_no_document_shows_a_seed_that_somebody_might_copy() -> None:
    for name in (
        "README.md",
        "DEVELOPERS.md",
        "generator/tinwright/cli/exam.py",
        "generator/tinwright/cli/exam_make.py",
    ):
        assert not re.search(r"exam make[^\n]*--seed \d", (ROOT / name).read_text(encoding="utf-8")), name


def test_a_drawing_says_nothing_of_what_it_shows(kb: KnowledgeBase) -> None:
    item = FormItem("x", "one-answer", "What is it?", ("A", "B", "C"))
    for defect in kb.defects.values():
        shown = FormItem(**{**vars(item), "drawing": defect.id})
        picture = picture_of(shown, 1, kb)
        assert picture is not None
        assert picture.description == "Ask the examiner to describe it to you."
        said = re.sub(r"[\s_-]+", " ", str(picture.svg)).casefold()
        feature = next(
            (
                str(spec.feature)
                for spec in (defect.figure.section, defect.figure.outside, defect.figure.hook)
                if spec and spec.feature
            ),
            "",
        )
        for words in (defect.title, *defect.also, defect.figure.caption, defect.id, feature):
            if len(words) > 4:
                assert words.replace("-", " ").casefold() not in said, (defect.id, words)
