"""The page of a form as text: everything of the form is in it, and nothing of the key."""

from __future__ import annotations

import dataclasses
import re
from html import unescape
from typing import TYPE_CHECKING

import pytest

from examining.exam_banks import lay_bank, made_from
from tinwright.examining.exam_page import exam_page

if TYPE_CHECKING:
    from tinwright.examining.making import MadeForm
    from tinwright.knowledge import KnowledgeBase


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory, kb: KnowledgeBase) -> tuple[MadeForm, ...]:
    return made_from(lay_bank(tmp_path_factory.mktemp("page")), kb)


def test_the_page_shows_every_question_and_every_choice(made: tuple[MadeForm, ...], kb: KnowledgeBase) -> None:
    for one in made:
        text = unescape(exam_page(one.form, kb))
        for item in one.form.items:
            assert item.text in text
            if item.asks != "point":
                assert all(choice in text for choice in (*item.choices, *item.lefts))
        assert one.form.digest in text
        assert "Demonstration bank" in text


def test_readings_stand_under_their_question_as_a_table(made: tuple[MadeForm, ...], kb: KnowledgeBase) -> None:
    form = made[0].form
    table = (("In inches", "Point 1"), ("Body hook", "0.0777"))
    shown = dataclasses.replace(form, items=(dataclasses.replace(form.items[0], table=table), *form.items[1:]))
    page = exam_page(shown, kb)
    assert '<tr><th scope="row">Body hook</th><td>0.0777</td></tr>' in page
    assert page.count('class="readings"') == 1


def test_the_page_holds_no_answer_no_reason_and_no_name_that_tells(
    made: tuple[MadeForm, ...], kb: KnowledgeBase
) -> None:
    for one in made:
        text = unescape(exam_page(one.form, kb)).casefold()
        assert one.key.digest not in text
        for question in one.questions:
            told = [question.id, question.why, *(choice.why for choice in question.choices)]
            told += [why for _, why in question.wrong_numbers] + list(question.teaches)
            for words in filter(None, told):
                assert words.casefold() not in text
            if question.asks == "point":
                assert question.choices[question.key[0]].text.casefold() not in text
        for words in ("no second operation", "no-second-operation", "not pressed", "0.0432", "0.0433", "critical"):
            assert words not in text


def test_what_is_right_is_marked_by_nothing(made: tuple[MadeForm, ...], kb: KnowledgeBase) -> None:
    """Take the words away: every choice of a question is then written just like every other."""
    for one in made:
        text = exam_page(one.form, kb)
        for name in {f"a{number}" for number, item in enumerate(one.form.items, 1) if item.asks == "one-answer"}:
            rows = re.findall(rf'<p class="choice">.*name="{name}".*</p>', text)
            assert len(rows) == 4
            bare = {re.sub(r'value="[A-Z]"|<b>[A-Z]</b>[^<]*', "", row) for row in rows}
            assert len(bare) == 1


def test_the_page_asks_for_nothing_outside_itself(made: tuple[MadeForm, ...], kb: KnowledgeBase) -> None:
    text = exam_page(made[1].form, kb)
    assert set(re.findall(r'(?:src|href)="([^"#]*)', text)) <= {""}
    addresses = set(re.findall(r"[a-z]+://[^\s\"'<)]+", text))
    assert addresses <= {"http://www.w3.org/2000/svg"}
    assert "default-src 'none'" in unescape(text)


def test_words_in_a_question_cannot_become_markup(made: tuple[MadeForm, ...], kb: KnowledgeBase) -> None:
    bad = "</script><script>alert(1)</script>"
    form = dataclasses.replace(made[0].form, exam=bad, items=(dataclasses.replace(made[0].form.items[0], text=bad),))
    assert exam_page(form, kb).count("</script>") == 2
