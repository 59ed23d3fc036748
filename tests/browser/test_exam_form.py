"""A volunteer sits an examination on the page of a form, opened from a memory stick; nothing can be reached."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

import pytest
from playwright.sync_api import expect

from browser.judging import barriers
from demo_site import PATIENCE_MS
from examining.exam_banks import lay_bank, made_from
from tinwright.examining.digested import digest_of, parse_file
from tinwright.examining.exam_page import exam_page
from tinwright.examining.form import questions_of
from tinwright.figures import places_of
from tinwright.quizzes.questions import letter_of
from tinwright.quizzes.scoring import read_answer, score, write_answer

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

    from playwright.sync_api import BrowserContext, Page

    from tinwright.examining.making import MadeForm
    from tinwright.knowledge import KnowledgeBase
    from tinwright.quizzes.questions import Question

pytestmark = pytest.mark.browser


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory, kb: KnowledgeBase) -> MadeForm:
    return made_from(lay_bank(tmp_path_factory.mktemp("exam")), kb, seed=15)[1]  # a form with every way of asking


@pytest.fixture(scope="module")
def asked(made: MadeForm) -> tuple[Question, ...]:
    return questions_of(made.form, made.key)


@pytest.fixture(scope="module")
def address(tmp_path_factory: pytest.TempPathFactory, made: MadeForm, kb: KnowledgeBase) -> str:
    file: Path = tmp_path_factory.mktemp("stick") / "form.html"
    file.write_text(exam_page(made.form, kb), encoding="utf-8")
    return file.as_uri()


@pytest.fixture
def context(new_context: Callable[..., BrowserContext]) -> Iterator[BrowserContext]:
    """A telephone without a network; fails at the end when the page complained or asked for anything."""
    complaints: list[str] = []
    context = new_context(viewport={"width": 360, "height": 740}, offline=True, accept_downloads=True)
    context.on("request", lambda r: None if r.url.startswith(("file:", "blob:")) else complaints.append(r.url))
    context.on("console", lambda m: complaints.append(m.text) if m.type in {"error", "warning"} else None)
    context.on("weberror", lambda error: complaints.append(str(error.error)))
    context.set_default_timeout(PATIENCE_MS)
    yield context
    assert complaints == []


@pytest.fixture
def form(page: Page, address: str) -> Page:
    """The page, open."""
    page.goto(address)
    return page


def answer(form: Page, number: int, question: Question, text: str) -> None:
    """Enter an answer as it would be typed on paper."""
    part = form.locator(f"#q{number}")
    if question.asks == "number":
        part.get_by_role("textbox").fill(text)
    elif question.asks in {"order", "match"}:
        for select, letter in zip(part.get_by_role("combobox").all(), text.split(), strict=True):
            select.select_option(letter)
    else:
        for letter in text.split():
            part.locator(f"input[value={letter}]").check()


def right(question: Question) -> str:
    """The right answer, as typed."""
    return write_answer(question.answer if question.asks == "number" else question.key)


def saved(form: Page) -> dict[str, Any]:
    """Save, and return what is in the file."""
    form.get_by_role("button", name="Look over and save").click()
    with form.expect_download() as download:
        form.locator("#save").click()
    file = download.value
    assert file.suggested_filename.endswith("-V0001.responses.json")
    text = file.path().read_text(encoding="utf-8")
    assert form.locator("#saved-text").input_value() == text
    return parse_file(text, kind="responses", name=file.suggested_filename)


def test_all_right_answers_are_saved_as_a_file_that_scores_them_all(
    form: Page, made: MadeForm, asked: tuple[Question, ...]
) -> None:
    form.get_by_label("Your number in the register").fill(" V0001 ")
    form.get_by_label("Date of the examination").fill("2026-11-25")
    for number, question in enumerate(asked, 1):
        answer(form, number, question, right(question))
    expect(form.locator("#progress")).to_have_text("10 of 10 answered")
    file = saved(form)
    assert form.locator("#review").is_hidden()
    assert list(file) == ["tinwright", "exam", "form", "form_digest", "person", "taken_on", "answers", "digest"]
    assert (file["exam"], file["form"], file["form_digest"]) == (made.form.exam, made.form.form, made.form.digest)
    assert (file["person"], file["taken_on"]) == ("V0001", "2026-11-25")
    points = [
        score(question, read_answer(question, file["answers"][str(number)])) for number, question in enumerate(asked, 1)
    ]
    assert points == [1] * len(asked)


def test_what_is_open_is_listed_before_saving_and_left_out_of_the_file(form: Page, asked: tuple[Question, ...]) -> None:
    one = next(number for number, question in enumerate(asked, 1) if question.asks == "one-answer")
    order = next(number for number, question in enumerate(asked, 1) if question.asks == "order")
    value = next(number for number, question in enumerate(asked, 1) if question.asks == "number")
    form.get_by_role("button", name="Look over and save").click()
    review = form.get_by_role("region", name="Before you save")
    expect(review).to_be_focused()
    expect(review).to_contain_text("Your number in the register")
    expect(form.locator("#save")).to_be_hidden()
    form.get_by_label("Your number in the register").fill("V0001")
    answer(form, one, asked[one - 1], "B")
    answer(form, order, asked[order - 1], "A A B C")
    answer(form, value, asked[value - 1], "0,046")
    form.get_by_role("button", name="Look over and save").click()
    expect(review).to_contain_text("9 of 10 questions are open")
    expect(review.get_by_role("link", name=f"Question {order}: one step is chosen twice")).to_be_visible()
    review.get_by_role("link", name=f"Question {value}: expected a number such as 0.046").click()
    expect(form.locator(f"#q{value}")).to_be_focused()
    assert saved(form)["answers"] == {str(one): "B"}


def test_a_pair_left_out_is_a_dash_in_its_place(form: Page, asked: tuple[Question, ...]) -> None:
    number = next(number for number, question in enumerate(asked, 1) if question.asks == "match")
    form.get_by_label("Your number in the register").fill("V0001")
    form.locator(f"#q{number}").get_by_role("combobox").nth(1).select_option("C")
    text = saved(form)["answers"][str(number)]
    assert text == "- C -"
    assert read_answer(asked[number - 1], text) == (-1, 2, -1)


def test_answers_outlast_a_reload_and_are_gone_when_erased(form: Page, asked: tuple[Question, ...]) -> None:
    form.get_by_label("Your number in the register").fill("V0001")
    for number, question in enumerate(asked, 1):
        answer(form, number, question, right(question))
    form.reload()
    expect(form.get_by_role("region", name="Answers are kept on this device")).to_contain_text("entered by V0001")
    form.get_by_role("button", name="They are mine: go on").click()
    assert len(saved(form)["answers"]) == len(asked)
    form.get_by_role("button", name="erase my answers from this device").click()
    expect(form.locator("#progress")).to_have_text("0 of 10 answered")
    form.reload()
    expect(form.locator("#kept")).to_be_hidden()
    expect(form.get_by_label("Your number in the register")).to_have_value("")
    expect(form.locator("#progress")).to_have_text("0 of 10 answered")


def test_stored_nonsense_does_not_break_the_page(form: Page, made: MadeForm) -> None:
    for text in ("{", "[]", '{"person": 1}', '{"person": "V1", "takenOn": "x", "entered": [1, [true, {}]]}'):
        form.evaluate("([key, text]) => localStorage.setItem(key, text)", [f"tinwright-exam-{made.form.digest}", text])
        form.reload()
        expect(form.locator("#progress")).to_contain_text("of 10 answered")


def test_it_goes_by_the_keyboard_alone(form: Page, asked: tuple[Question, ...]) -> None:
    number = next(number for number, question in enumerate(asked, 1) if question.asks == "one-answer")
    form.keyboard.press("Tab")
    expect(form.get_by_role("link", name="Go to the first question")).to_be_focused()
    form.locator(f"#q{number} input").first.focus()
    form.keyboard.press("Space")
    form.keyboard.press("ArrowDown")
    expect(form.locator(f"#q{number} input[value=B]")).to_be_checked()
    form.get_by_role("button", name=f"Clear my answer to question {number}").press("Enter")
    expect(form.locator("#progress")).to_have_text("0 of 10 answered")


def test_the_digest_is_right_for_any_text(form: Page) -> None:
    """Against hashlib and rfc8785: names of other scripts, quotes and control signs, and every length about a block."""
    for person in ("Zoë \u2028 \U0001f96b", 'a"\\\t', *("x" * size for size in (1, 17, 18, 19, 20, 40))):
        form.get_by_label("Your number in the register").fill(person)
        form.get_by_role("button", name="Look over and save").click()
        form.locator("#save").click()
        file = json.loads(form.locator("#saved-text").input_value())
        digest = file.pop("digest")
        assert file["person"] == form.get_by_label("Your number in the register").input_value().strip()
        assert digest == digest_of(file)


def test_places_are_described_and_named_by_their_letters_alone(form: Page, asked: tuple[Question, ...]) -> None:
    number, question = next((n, q) for n, q in enumerate(asked, 1) if q.asks == "point")
    radios = form.locator(f"#q{number}").get_by_role("radio")
    assert radios.count() == len(question.choices)
    lies = places_of(question.figure or "")[question.key[0]].lies
    expect(
        form.locator(f"#q{number}").get_by_role("radio", name=f"{letter_of(question.key[0])} {lies}")
    ).to_be_visible()


def test_nothing_is_wider_than_a_small_telephone_and_axe_finds_nothing(form: Page, axe: str) -> None:
    form.get_by_role("button", name="Look over and save").click()
    assert form.evaluate("document.documentElement.scrollWidth") <= 360
    assert barriers(form, axe) == []
