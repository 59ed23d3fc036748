"""A learner practices: with mouse, keys and screen reader, on a phone, with any stored state, and without a script."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from playwright.sync_api import expect

from browser.judging import barriers
from browser.test_advice_pages import STRICT_POLICY
from tinwright.browser import needed_scripts

if TYPE_CHECKING:
    from collections.abc import Callable

    from playwright.sync_api import Page

    from tinwright.knowledge.bank import Bank

pytestmark = pytest.mark.browser

KEY = "tinwright.practice.v1"
HOSTILE = (
    "{",
    "null",
    "[]",
    '"x"',
    '{"items": 5, "rounds": {"a": 1}}',
    '{"items": {"__proto__": {"last": "right"}, "constructor": {"last": "missed", "times": -4}, "a<b": {}}}',
    '{"items": {"parts-press-layers": {"last": "missed", "times": 1e99, "right": 7, "day": "<img src=x>"}}}',
    '{"rounds": [null, 4, {"topic": "parts", "percent": 1e9, "day": 5}, {"topic": "<b>"}]}',
)


def open_quiz(
    page: Page, address: str, item: str = "", *, size: str = "", whole: bool = False, end: bool = False
) -> None:
    """Open the quiz of an item's topic, or the mixed one, and start a round that begins with the item."""
    page.goto("about:blank")
    page.goto(f"{address}quizzes/{address_of(item)}")
    if whole:
        page.get_by_label("all on one page").check()
    if end:
        page.get_by_label("at the end").check()
    if size:
        page.get_by_label(size, exact=True).check()
    page.get_by_role("button", name="Start").click()
    expect(page.locator(".tw-quiz__head")).to_be_visible()


def address_of(item: str) -> str:
    return f"mixed.html#q-{item}" if item else "mixed.html"


def first_of(bank: Bank, asks: str) -> Any:
    """The first practice item that asks in this way and is not safety-critical."""
    return next(item for item in bank.practice.values() if item.asks == asks and not item.critical)  # type: ignore[attr-defined]


def said(page: Page) -> str:
    return str(page.locator(".tw-quiz__said").text_content())


def kept(page: Page) -> dict[str, Any]:
    return dict(json.loads(page.evaluate(f"localStorage.getItem('{KEY}')") or "{}"))


def has_focus(page: Page) -> str:
    return str(page.evaluate("document.activeElement.getAttribute('aria-label') || document.activeElement.textContent"))


def steps_shown(page: Page) -> list[str]:
    return page.locator(".tw-quiz__steps > li > span:first-of-type").all_inner_texts()


def put_in_order(page: Page, steps: tuple[str, ...], press: Callable[[str], None]) -> None:
    """Bring each step to its place by moving it up, one place at a time."""
    for goal, step in enumerate(steps):
        for _ in range(steps_shown(page).index(step) - goal):
            press(f"Move up: {step}")


@pytest.mark.parametrize("where", ["over_http", "from_disk"])
def test_a_wrong_answer_is_explained_and_leads_to_the_page_that_teaches_it(
    page: Page, where: str, bank: Bank, request: pytest.FixtureRequest
) -> None:
    page.set_viewport_size({"width": 360, "height": 780})
    item = first_of(bank, "one-answer")
    wrong = next(option for option in item.options if not option.right)
    open_quiz(page, request.getfixturevalue(where), item.id)
    expect(page.get_by_role("group", name=item.question)).to_be_visible()
    page.get_by_label(wrong.text, exact=True).check()
    page.get_by_role("button", name="Check the answer").click()
    told = page.locator(".tw-quiz__feedback")
    expect(told).to_be_focused()
    for text in ("Wrong.", item.why, wrong.why):
        expect(told).to_contain_text(text)
    assert said(page) == "Wrong. 0 of 1 points so far."
    assert kept(page)["items"][item.id]["last"] == "missed"
    told.get_by_role("link").first.click()
    expect(page.locator("h1")).to_be_visible()
    kind, _, id_ = item.teaches[0].partition("/")
    assert page.url.endswith(f"{kind}s/{id_}.html")


def test_a_round_by_keys_alone_ends_in_a_result(page: Page, over_http: str, bank: Bank) -> None:
    item = first_of(bank, "one-answer")
    page.goto(f"{over_http}quizzes/{address_of(item.id)}")
    page.get_by_label("5", exact=True).focus()
    page.keyboard.press("Space")
    page.get_by_role("button", name="Start").focus()
    page.keyboard.press("Enter")
    expect(page.locator(".tw-quiz__head")).to_be_focused()
    assert has_focus(page) == "Question 1 of 5"
    page.keyboard.press("Tab")
    page.keyboard.press("Space")
    page.keyboard.press("Tab")
    assert has_focus(page) == "Check the answer"
    page.keyboard.press("Enter")
    expect(page.locator(".tw-quiz__feedback")).to_be_focused()
    page.get_by_role("button", name="Review and finish").focus()
    page.keyboard.press("Enter")
    assert has_focus(page) == "Review before you finish"
    assert said(page) == "4 of 5 not answered. Each counts nothing."
    page.get_by_role("link", name="Question 3").focus()
    page.keyboard.press("Enter")
    expect(page.locator("legend")).to_contain_text("Question 3 of 5")
    page.get_by_role("button", name="Review and finish").press("Enter")
    page.get_by_role("button", name="Finish with 4 not answered").press("Enter")
    assert has_focus(page) == "Result"
    assert "not passed yet. 80 percent passes." in said(page)
    expect(page.locator(".tw-quiz__result")).to_contain_text("It proves nothing")


@pytest.mark.parametrize("by", ["clicks", "keys"])
def test_steps_are_ordered_by_buttons(page: Page, over_http: str, bank: Bank, by: str) -> None:
    item = first_of(bank, "order")
    open_quiz(page, over_http, item.id)
    assert steps_shown(page) != list(item.steps)

    def press(name: str) -> None:
        key = page.get_by_role("button", name=name, exact=True)
        if by == "clicks":
            key.click()
        else:
            key.focus()
            page.keyboard.press("Enter")
        assert has_focus(page) == name

    put_in_order(page, item.steps, press)
    assert steps_shown(page) == list(item.steps)
    assert f"of {len(item.steps)}." in said(page)
    page.get_by_role("button", name=f"Move up: {item.steps[0]}", exact=True).press("Enter")
    assert said(page) == f"{item.steps[0]} It is already first."
    page.get_by_role("button", name="Check the answer").click()
    expect(page.locator(".tw-quiz__word")).to_have_text("Right.")


def test_steps_are_ordered_by_dragging(page: Page, over_http: str, bank: Bank) -> None:
    item = first_of(bank, "order")
    open_quiz(page, over_http, item.id)
    rows = page.locator(".tw-quiz__steps > li")
    before = steps_shown(page)
    rows.nth(0).drag_to(rows.nth(2))
    assert steps_shown(page)[2] == before[0]


def test_a_place_is_pointed_at_in_the_drawing_or_in_the_list(page: Page, over_http: str, bank: Bank) -> None:
    item = first_of(bank, "point")
    page.set_viewport_size({"width": 320, "height": 700})
    open_quiz(page, over_http, item.id)
    spots = page.locator(".tw-quiz__spot")
    boxes = [box for spot in spots.all() if (box := spot.bounding_box())]
    assert len(boxes) == page.locator("fieldset input[type=radio]").count() > 5
    assert min(min(box["width"], box["height"]) for box in boxes) >= 24
    spots.nth(1).click()
    expect(page.locator("fieldset input").nth(1)).to_be_checked()
    page.locator("fieldset input").nth(2).check()
    expect(spots.nth(2)).to_have_class("tw-quiz__spot tw-quiz__spot--chosen")
    expect(spots.nth(1)).to_have_class("tw-quiz__spot")


IN_WORDS = {"in": "inches", "mm": "millimeters"}


def test_a_number_that_cannot_be_read_is_named_in_words(page: Page, over_http: str, bank: Bank) -> None:
    item = first_of(bank, "number")
    open_quiz(page, over_http, item.id)
    box = page.get_by_label(f"Answer in {IN_WORDS.get(item.unit, item.unit)}")
    assert box.get_attribute("inputmode") == "decimal"
    box.fill("a lot")
    page.get_by_role("button", name="Check the answer").click()
    expect(box).to_be_focused()
    assert box.get_attribute("aria-invalid") == "true"
    expect(page.locator(f"#{box.get_attribute('aria-describedby')}")).to_contain_text(
        "such as 0.046 or 1 3/16, got “a lot”"
    )
    assert f"Answer in {IN_WORDS.get(item.unit, item.unit)}: expected a number" in said(page)
    box.fill(str(item.mistakes[0].number))
    page.get_by_role("button", name="Check the answer").click()
    expect(page.locator(".tw-quiz__feedback")).to_contain_text(item.mistakes[0].why)


def test_pairs_count_in_part(page: Page, over_http: str, bank: Bank) -> None:
    item = first_of(bank, "match")
    open_quiz(page, over_http, item.id)
    page.get_by_label(item.pairs[0].left, exact=True).select_option(label=item.pairs[0].right)
    page.get_by_role("button", name="Check the answer").click()
    expect(page.locator(".tw-quiz__word")).to_have_text(f"Partly right: 1/{len(item.pairs)} of the point.")
    expect(page.locator(".tw-quiz__feedback")).to_contain_text("Each right pair counts.")


def test_what_was_missed_returns_first(page: Page, over_http: str, bank: Bank) -> None:
    ids = [item.id for item in bank.practice.values() if item.topic == "parts"]
    state = {
        "items": {id_: {"last": "right", "times": 1, "right": 1, "day": "2026-11-01"} for id_ in ids[:8]},
        "rounds": [],
    }
    state["items"][ids[7]]["last"] = state["items"][ids[3]]["last"] = "missed"  # type: ignore[call-overload]
    page.goto(f"{over_http}quizzes/parts.html")
    page.evaluate("([key, state]) => localStorage.setItem(key, JSON.stringify(state))", [KEY, state])
    page.reload()
    expect(page.locator(".tw-quiz__count")).to_contain_text("2 missed last time: they come first.")
    page.get_by_label("all on one page").check()
    page.get_by_label("5", exact=True).check()
    page.get_by_role("button", name="Start").click()
    shown = page.locator("fieldset.tw-quiz__question").evaluate_all("all => all.map(each => each.id.slice(2))")
    assert len(shown) == 5
    assert set(shown[:2]) == {ids[3], ids[7]}


def test_the_same_seed_gives_the_same_round(page: Page, over_http: str) -> None:
    def round_of(seed: int) -> str:
        page.goto("about:blank")
        page.goto(f"{over_http}quizzes/cautions.html")
        page.evaluate(f"document.querySelector('tw-quiz').dataset.seed = {seed}")
        page.get_by_label("all on one page").check()
        page.get_by_role("button", name="Start").click()
        return page.locator(".tw-quiz__body").inner_text()

    assert round_of(7) == round_of(7) != round_of(8)


def test_progress_is_saved_to_a_file_erased_and_taken_in_again(page: Page, over_http: str, tmp_path: Path) -> None:
    open_quiz(page, over_http, size="5", end=True)
    page.get_by_role("button", name="Review and finish").click()
    page.locator(".tw-quiz__buttons .tw-button--first").click()
    with page.expect_download() as slip:
        page.get_by_role("button", name="Save this slip").click()
    assert "It proves nothing" in Path(slip.value.path()).read_text(encoding="utf-8")
    before = kept(page)
    assert len(before["items"]) == 5
    assert before["rounds"][0]["topic"] == "mixed"
    page.goto(f"{over_http}quizzes/index.html")
    with page.expect_download() as download:
        page.get_by_role("button", name="Save my progress").click()
    saved = tmp_path / download.value.suggested_filename
    download.value.save_as(saved)
    page.get_by_role("button", name="Erase my progress").click()
    page.get_by_role("button", name="Keep it").click()
    assert kept(page) == before
    page.get_by_role("button", name="Erase my progress").click()
    page.get_by_role("button", name="Erase it").click()
    assert page.evaluate(f"localStorage.getItem('{KEY}')") is None
    expect(page.locator("tw-quiz-record [role=status]")).to_have_text("Your progress on this device is erased.")
    page.get_by_text("Import progress").click()
    page.set_input_files("#quiz-take", saved)
    expect(page.locator("tw-quiz-record [role=status]")).to_have_text("Imported: 5 questions.")
    assert kept(page) == before
    page.get_by_text("Import progress").click()
    page.set_input_files("#quiz-take", {"name": "x.json", "mimeType": "application/json", "buffer": b'{"items": {}}'})
    expect(page.locator("tw-quiz-record [role=status]")).to_contain_text("holds no practice progress")
    assert kept(page) == before


@pytest.mark.parametrize("state", HOSTILE)
def test_any_stored_state_is_survived(page: Page, over_http: str, state: str) -> None:
    page.goto(f"{over_http}quizzes/index.html")
    page.evaluate("([key, state]) => localStorage.setItem(key, state)", [KEY, state])
    page.reload()
    expect(page.locator("tw-quiz-record")).to_contain_text("It is kept on this device only.")
    page.goto(f"{over_http}quizzes/parts.html")
    page.get_by_role("button", name="Start").click()
    page.locator("fieldset.tw-quiz__question").wait_for()
    page.get_by_role("button", name="Review and finish").click()
    page.locator(".tw-quiz__buttons .tw-button--first").click()
    assert len(kept(page)["rounds"]) in {1, 2}


def test_without_storage_the_quiz_works_and_says_that_it_forgets(page: Page, over_http: str) -> None:
    page.add_init_script("Storage.prototype.setItem = () => { throw new DOMException('full', 'QuotaExceededError'); };")
    open_quiz(page, over_http, size="5")
    page.get_by_role("button", name="Review and finish").click()
    page.locator(".tw-quiz__buttons .tw-button--first").click()
    expect(page.locator(".tw-quiz__body")).to_contain_text("This device cannot keep your progress")


@pytest.mark.browser_context_args(java_script_enabled=False)
def test_without_a_script_the_questions_and_folded_answers_are_there(page: Page, over_http: str, bank: Bank) -> None:
    item = next(item for item in bank.practice.values() if item.topic == "parts")
    page.goto(f"{over_http}quizzes/parts.html")
    place = page.locator(f"#q-{item.id}")
    expect(place).to_contain_text(item.question)
    expect(place.get_by_text(item.why)).to_be_hidden()
    place.locator("summary").click()
    expect(place.get_by_text(item.why)).to_be_visible()


def test_it_works_under_a_strict_policy(page: Page, over_http: str) -> None:
    scripts = ("quiz-parts.js", *needed_scripts("quiz.js"))
    body = '<!doctype html><html lang="en"><meta charset="utf-8"><title>Alone</title><tw-quiz data-topic="parts"></tw-quiz>'
    body += "".join(f'<script src="assets/{script}" defer></script>' for script in scripts)
    headers = {"Content-Security-Policy": STRICT_POLICY}
    page.route("**/alone.html", lambda route: route.fulfill(body=body, content_type="text/html", headers=headers))
    page.goto(f"{over_http}alone.html")
    page.get_by_label("all on one page").check()
    page.get_by_role("button", name="Start").click()
    expect(page.locator("fieldset.tw-quiz__question").first).to_be_visible()


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_answered_questions_are_accessible(page: Page, over_http: str, axe: str, scheme: Any, bank: Bank) -> None:
    page.emulate_media(color_scheme=scheme)
    page.set_viewport_size({"width": 360, "height": 780})
    open_quiz(page, over_http, first_of(bank, "point").id, size="10", whole=True)
    for box in page.locator(".tw-quiz__choice:first-of-type input").all():
        box.check()
    for key in page.get_by_role("button", name="Check the answer").all()[::-1]:
        key.click()
    assert barriers(page, axe) == []
    wide = page.evaluate("[document.documentElement.scrollWidth, document.documentElement.clientWidth]")
    assert wide[0] <= wide[1]
    page.get_by_role("button", name="Review your answers").click()
    page.locator(".tw-quiz__buttons .tw-button--first").click()
    assert barriers(page, axe) == []


def test_only_the_slip_is_printed(page: Page, over_http: str) -> None:
    open_quiz(page, over_http, size="5")
    page.get_by_role("button", name="Review and finish").click()
    page.locator(".tw-quiz__buttons .tw-button--first").click()
    page.emulate_media(media="print")
    expect(page.locator(".tw-quiz__slip")).to_be_visible()
    expect(page.locator(".tw-quiz__slip")).to_contain_text("Scored by the learner alone. It proves nothing")
    assert page.locator("fieldset").first.is_hidden()
