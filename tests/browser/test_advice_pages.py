"""Check a seam and Find the cause, as a volunteer uses them beside the machine."""

from __future__ import annotations

import json
import random
import re
from typing import TYPE_CHECKING, Any

import pytest
from playwright.sync_api import expect

from tinwright.advice.advice import advise_on_signs, signs_from
from tinwright.advice.profiles import instrument_uncertainties, seam_limits
from tinwright.advice.spoken import spoken_causes
from tinwright.browser import needed_scripts
from tinwright.seaming import Reading, SeamReadings, judge

if TYPE_CHECKING:
    from playwright.sync_api import BrowserContext, Page

    from tinwright.knowledge import KnowledgeBase

pytestmark = pytest.mark.browser

FIELDS = ("countersink", "seam-width", "seam-thickness", "body-hook", "cover-hook")
LOOSE_FIRST_ROLLER = [
    (".125", ".119", ".056", ".088", ".062"),
    (".126", ".118", "57 thou", ".089", ".063"),
    (".125", ".119", ".056", ".088", "1.55 mm"),
]


STRICT_POLICY = (
    "default-src 'none'; script-src 'self'; img-src 'self'; style-src 'self'; base-uri 'none'; form-action 'none'"
)
SCRIPTS = {"seam-check": "seam-check.js", "find-the-cause": "find-cause.js"}


def open_bare(page: Page, address: str, name: str) -> None:
    """Open the browser part alone, without the theme around it, under a policy that allows files of the site only."""
    needed = ("bench-data.js", *needed_scripts(SCRIPTS[name]))
    scripts = "".join(f'<script src="assets/{script}" defer></script>' for script in needed)
    styles = "".join(f'<link rel="stylesheet" href="assets/{sheet}.css">' for sheet in ("tinwright", "bench"))
    tag = {"seam-check": "tw-seam-check", "find-the-cause": "tw-find-cause"}[name]
    body = (
        '<!doctype html><html lang="en"><meta charset="utf-8"><meta name="viewport" content="width=device-width">'
        f'<title>Alone</title>{styles}<div class="tw-bench"><{tag}></{tag}></div>{scripts}'
    )
    page.route(
        f"{address}alone.html",
        lambda route: route.fulfill(
            body=body, content_type="text/html", headers={"Content-Security-Policy": STRICT_POLICY}
        ),
    )
    page.goto(f"{address}alone.html")


def fill(page: Page, rows: list[tuple[str, ...]]) -> None:
    for point, row in enumerate(rows):
        for name, text in zip(FIELDS, row, strict=True):
            page.fill(f"#sc-{point}-{name}", text)


def open_phone(page: Page, address: str, name: str) -> None:
    page.set_viewport_size({"width": 360, "height": 780})
    page.goto(f"{address}{name}.html")


@pytest.mark.parametrize("where", ["over_http", "from_disk"])
def test_readings_typed_on_a_phone_give_verdict_picture_and_correction(
    page: Page, where: str, request: pytest.FixtureRequest
) -> None:
    open_phone(page, request.getfixturevalue(where), "seam-check")
    page.select_option("#sc-spec", "demo-307")
    page.select_option("#sc-sealer", "bench-crank-sealer")
    fill(page, LOOSE_FIRST_ROLLER)
    result = page.locator(".tw-bench__result")
    assert result.locator(".tw-verdict__word").inner_text() == "Reject"
    assert "Hold every can sealed since the last good check that could have found this" in result.text_content()
    drawn = result.locator("figure").first
    assert drawn.locator("svg title").text_content() == "This seam, to scale, from its worst readings"
    assert drawn.locator("svg tspan", has_text=re.compile("^OUT$")).count() >= 2
    expect(result.locator(".tw-causes li").first).to_contain_text("First roller set too loose")
    text = result.text_content()
    assert "Tighten the first roller." in text
    assert "Move it 1/8 turn, no more." in text
    assert "The second operation cannot fix the first" in text
    assert "seal an empty can" in text
    assert page.evaluate("document.documentElement.scrollWidth <= window.innerWidth")


def test_a_bare_number_gets_a_question_that_one_tap_answers(page: Page, over_http: str) -> None:
    open_phone(page, over_http, "seam-check")
    page.fill("#sc-0-body-hook", "78")
    ask = page.locator("#sc-0-body-hook-ask")
    assert "Is this 78 thousandths of an inch (.078)?" in ask.inner_text()
    ask.get_by_role("button").click()
    assert page.input_value("#sc-0-body-hook") == "0.078 in"
    assert page.locator("#sc-0-body-hook-ask").inner_text() == ""


def test_without_a_specification_there_is_no_verdict_and_it_says_why(page: Page, over_http: str) -> None:
    open_phone(page, over_http, "seam-check")
    fill(page, LOOSE_FIRST_ROLLER)
    assert "No seam specification was chosen" in page.locator(".tw-verdict").inner_text()


def test_what_is_typed_stays_on_the_device_until_it_is_cleared(page: Page, over_http: str) -> None:
    open_phone(page, over_http, "seam-check")
    page.fill("#sc-0-body-hook", ".078")
    page.reload()
    assert page.input_value("#sc-0-body-hook") == ".078"
    page.get_by_role("button", name="Clear and start again").click()
    assert page.input_value("#sc-0-body-hook") == ""
    page.reload()
    assert page.input_value("#sc-0-body-hook") == ""


def test_a_hostile_state_on_the_device_runs_nothing_and_breaks_nothing(page: Page, over_http: str) -> None:
    open_phone(page, over_http, "seam-check")
    hostile = "<img src=x onerror=window.hit=1>"
    state = {"points": [{"body-hook": hostile}, 7, None], "seen": [hostile, 3], "specification": hostile, "unit": {}}
    page.evaluate("state => localStorage.setItem('tinwright.seam-check', state)", json.dumps(state))
    page.evaluate(
        "state => localStorage.setItem('tinwright.find-cause', state)",
        json.dumps({"seen": hostile, "directions": 4, "extent": hostile}),
    )
    for name in ("seam-check", "find-the-cause"):
        page.goto(f"{over_http}{name}.html")
        assert page.locator(".tw-bench__form").is_visible()
        assert page.evaluate("window.hit") is None
    inherited = json.dumps({"seen": ["constructor", "__proto__", "droop", "droop"]})
    for name in ("seam-check", "find-the-cause"):
        key = "tinwright.find-cause" if name == "find-the-cause" else f"tinwright.{name}"
        page.evaluate("([key, state]) => localStorage.setItem(key, state)", [key, inherited])
        page.goto(f"{over_http}{name}.html")
        assert page.locator(".tw-bench__result a", has_text="Droop, what to do with the can").count() == 1
    page.evaluate("localStorage.setItem('tinwright.seam-check', '[broken')")
    page.goto(f"{over_http}seam-check.html")
    assert page.locator(".tw-bench__form").is_visible()


def test_every_number_opens_its_formula_with_the_numbers_put_in(page: Page, over_http: str) -> None:
    open_phone(page, over_http, "seam-check")
    page.select_option("#sc-spec", "demo-307")
    fill(page, [(".125", ".118", ".055", ".078", ".076")] * 3)
    overlap = page.locator(".tw-parts li", has_text="Overlap").first
    overlap.locator("summary").click()
    expect(overlap).to_contain_text("O = 0.076 + 0.078 + 0.010 − 0.118 (variant A)")
    expect(overlap).to_contain_text("21 CFR 113.60(a)(1)(iii)")
    expect(overlap.locator("math")).to_have_count(1)


def test_the_page_judges_generated_seams_as_python_does(page: Page, over_http: str, kb: KnowledgeBase) -> None:
    page.goto(f"{over_http}seam-check.html")
    specification = kb.seam_specifications["demo-307"]
    chance = random.Random(20261125)  # noqa: S311 a fixed list of seams, no secret
    for _ in range(20):
        rows = [
            tuple(round(chance.gauss(aim, 0.004), 4) for aim in (0.125, 0.118, 0.055, 0.078, 0.076)) for _ in range(3)
        ]
        readings = tuple(
            Reading(name, str(point), value)
            for point, row in enumerate(rows, 1)
            for name, value in zip(FIELDS, row, strict=True)
        )
        seam = SeamReadings("micrometer", readings, 0.010, 0.010)
        expected = judge(seam, seam_limits(specification), instrument_uncertainties(kb))
        found: dict[str, Any] = page.evaluate(
            """readings => {
                const spec = tinwrightData.specifications.find((each) => each.id === "demo-307");
                const seam = { method: "micrometer", readings, endPlateIn: spec.endPlate, bodyPlateIn: spec.bodyPlate };
                return tinwrightSeaming.judge(seam, spec.limits, tinwrightData.uncertainties, [], "A");
            }""",
            [{"dimension": r.dimension, "point": r.point, "value": r.value} for r in readings],
        )
        assert found["outcome"] == expected.outcome
        assert found["reasons"] == list(expected.reasons)
        assert [part["least"] for part in found["parts"]] == [part.least for part in expected.parts]


def test_find_the_cause_asks_only_what_can_change_the_advice_and_takes_the_answer(page: Page, over_http: str) -> None:
    open_phone(page, over_http, "find-the-cause")
    page.get_by_label("Broken-chuck mark").check()
    result = page.locator(".tw-bench__result")
    expect(result.locator(".tw-causes li").first).to_contain_text("Piece broken out of the chuck lip")
    assert "hold every can" in result.text_content()
    page.get_by_label("Broken-chuck mark").uncheck()
    page.get_by_label("Droop", exact=False).first.check()
    question = result.locator(".tw-ask")
    assert question.count() == 1
    before = question.text_content()
    question.get_by_role("button").first.click()
    assert result.locator(".tw-ask").count() == 0 or result.locator(".tw-ask").text_content() != before


def test_the_page_says_of_generated_signs_what_the_command_says(page: Page, over_http: str, kb: KnowledgeBase) -> None:
    page.goto(f"{over_http}find-the-cause.html")
    chance = random.Random(20261130)  # noqa: S311 a fixed list of signs, no secret
    sealer = next(iter(kb.sealers))
    others = 0
    for _ in range(40):
        seen = chance.sample(sorted(kb.defects), chance.randint(0, 2))
        directions = {name: chance.choice(("larger", "smaller", "normal")) for name in chance.sample(FIELDS, 2)}
        change = chance.choice((None, "chuck", "nothing", "roller"))
        signs = signs_from(kb, seen, directions, last_change=change)
        advice = advise_on_signs(kb, signs, kb.sealers[sealer])
        found: dict[str, Any] = page.evaluate(SAID, [seen[::-1], directions, change, sealer])
        assert (found["first"], found["order"]) == (advice.first, list(advice.order))
        assert found["shown"] == [[each.cause, each.word] for each in advice.shown]
        if advice.first is None:
            continue
        assert kb.causes[advice.first].correction.say in found["parts"]
        others += advice.order[0] != advice.first
        for block in spoken_causes(kb, advice):
            if block.heading.startswith(("Check first", "Then, for")):
                assert block.heading in found["parts"]
                assert {line for line, _ in block.lines} <= set(found["parts"])
    assert others > 3


SAID = """([seen, directions, lastChange, id]) => {
    const { adviseOnSigns, data, sayAdvice, signsFrom } = tinwrightBench;
    const sealer = data.sealers.find((each) => each.id === id);
    const told = adviseOnSigns({ ...signsFrom(seen, directions), lastChange }, sealer);
    const box = document.createElement("div");
    box.append(...sayAdvice(told, sealer));
    const parts = [...box.querySelectorAll("h3, p, li")].map((each) => each.textContent.trim());
    return { first: told.first, order: told.order, shown: told.shown.map((each) => [each.cause, each.word]), parts };
}"""


def test_none_of_these_ends_in_a_safe_place(page: Page, over_http: str) -> None:
    open_phone(page, over_http, "find-the-cause")
    page.get_by_role("button", name="None of these").click()
    text = page.locator(".tw-bench__result").text_content()
    assert "Stop. Seal no more. Hold every can" in text
    assert "throw the cans away" in text


@pytest.mark.parametrize("name", ["seam-check", "find-the-cause"])
def test_without_script_the_page_still_gives_its_facts(new_context: Any, over_http: str, name: str) -> None:
    context: BrowserContext = new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(f"{over_http}{name}.html")
    text = page.locator("article").inner_text()
    assert "works things out with a script" in text
    if name == "seam-check":
        assert "0.046 in" in text
        assert "52.3%" in text
        assert page.get_by_role("link", name="A form to print").is_visible()
    context.close()


def test_the_printed_slip_holds_readings_and_verdict_and_nothing_else(page: Page, over_http: str) -> None:
    page.goto(f"{over_http}seam-check.html")
    page.select_option("#sc-spec", "demo-307")
    page.select_option("#sc-sealer", "bench-crank-sealer")
    fill(page, LOOSE_FIRST_ROLLER)
    assert not page.locator(".tw-slip").is_visible()
    page.emulate_media(media="print")
    assert not page.locator(".tw-bench__form").is_visible()
    assert not page.locator("#formulas").is_visible()
    assert not page.locator("#example").is_visible()
    assert page.locator(".tw-verdict").is_visible()
    slip = page.locator(".tw-slip")
    assert slip.is_visible()
    assert "Invented demonstration sheet for 307 cans" in slip.inner_text()
    assert "Bench crank sealer" in slip.inner_text()
    assert slip.locator("tbody tr").nth(1).locator("td").all_inner_texts() == list(LOOSE_FIRST_ROLLER[1])


def test_without_a_result_the_page_prints_its_formulas(page: Page, over_http: str) -> None:
    page.goto(f"{over_http}seam-check.html")
    page.emulate_media(media="print")
    assert page.locator("#formulas").is_visible()


def test_the_keyboard_stays_where_it_was(page: Page, over_http: str) -> None:
    page.goto(f"{over_http}seam-check.html")
    for id_, option in (("sc-spec", "demo-307"), ("sc-unit", "mm")):
        page.focus(f"#{id_}")
        page.select_option(f"#{id_}", option)
        assert page.evaluate("document.activeElement.id") == id_
    page.get_by_role("button", name="Add a point").press("Enter")
    assert page.evaluate("document.activeElement.id") == "sc-3-countersink"
    page.fill("#sc-0-body-hook", "78")
    page.locator("#sc-0-body-hook-ask").get_by_role("button").press("Enter")
    assert page.evaluate("document.activeElement.id") == "sc-0-body-hook"
    page.get_by_role("button", name="Clear and start again").press("Enter")
    assert page.evaluate("document.activeElement.id") == "sc-spec"


@pytest.mark.parametrize(("typed", "meant"), [("1.40 in", "0.0551 in"), (".78", "0.078 in"), (".0056", "0.056 in")])
def test_a_slip_that_can_be_read_gets_a_question_that_one_tap_answers(
    page: Page, over_http: str, typed: str, meant: str
) -> None:
    open_phone(page, over_http, "seam-check")
    page.fill("#sc-1-seam-thickness", typed)
    page.locator(".tw-bench__result .tw-ask").get_by_role("button", name=f"Yes: {meant}").click()
    assert page.input_value("#sc-1-seam-thickness") == meant
    assert page.locator(".tw-bench__result .tw-ask").get_by_role("button").count() == 0


def test_the_adjuster_is_made_safe_before_it_is_turned(page: Page, over_http: str) -> None:
    open_phone(page, over_http, "seam-check")
    page.select_option("#sc-spec", "demo-307")
    page.select_option("#sc-sealer", "bench-crank-sealer")
    fill(page, LOOSE_FIRST_ROLLER)
    steps = page.locator(".tw-bench__advice h3", has_text="Correction").locator("+ ol > li")
    assert steps.nth(0).text_content() == "Tighten the first roller."
    assert str(steps.nth(1).text_content()).startswith("Stop the sealer before you adjust it")
    page.select_option("#sc-sealer", "")
    page.locator(".tw-bench__advice li", has_text="Free the lock nut.").wait_for()
    assert "Move it 1/8 turn" not in str(page.locator(".tw-bench__advice").text_content())


def test_each_value_stands_beside_its_limits_and_what_judged_it(page: Page, over_http: str) -> None:
    open_phone(page, over_http, "seam-check")
    page.select_option("#sc-spec", "demo-307")
    fill(page, LOOSE_FIRST_ROLLER)
    hook = page.locator(".tw-parts li", has_text="Body hook").first
    assert "limits 0.070 to 0.086 in" in str(hook.text_content())
    assert (
        page.locator(".tw-verdict").get_by_role("link", name="Invented demonstration sheet for 307 cans").count() == 1
    )


@pytest.mark.parametrize("name", ["seam-check", "find-the-cause"])
def test_the_page_works_where_nothing_can_be_stored(page: Page, over_http: str, name: str) -> None:
    page.add_init_script(
        "Object.defineProperty(window, 'localStorage', { get() { throw new DOMException('no', 'SecurityError'); } })"
    )
    open_bare(page, over_http, name)
    assert page.locator(".tw-bench__form").is_visible()
    page.get_by_role("button", name="Clear and start again").click()
    assert page.locator(".tw-bench__form").is_visible()


@pytest.mark.parametrize("name", ["seam-check", "find-the-cause"])
def test_a_strict_policy_and_the_narrowest_screen_break_nothing(page: Page, over_http: str, name: str) -> None:
    page.set_viewport_size({"width": 320, "height": 640})
    open_bare(page, over_http, name)
    if name == "seam-check":
        page.select_option("#sc-spec", "demo-307")
        fill(page, LOOSE_FIRST_ROLLER)
    else:
        page.locator("label", has_text="Droop").first.click()
    assert page.locator(".tw-causes li").first.is_visible()
    assert page.evaluate("document.documentElement.scrollWidth <= window.innerWidth")


GOOD = [(".125", ".118", ".056", ".078", ".076")] * 3


def outcome(page: Page) -> str:
    return page.locator(".tw-bench__result .tw-verdict__word").first.inner_text()


@pytest.mark.parametrize(("field", "plate"), [("end", ".022"), ("end", ".040"), ("body", ".0085")])
def test_nothing_is_accepted_while_a_plate_is_asked_about(page: Page, over_http: str, field: str, plate: str) -> None:
    open_phone(page, over_http, "seam-check")
    page.select_option("#sc-spec", "demo-307")
    fill(page, GOOD)
    page.fill("#sc-tight", "100")
    assert outcome(page) == "Accept"
    page.fill(f"#sc-{field}", plate)
    assert outcome(page) == "Measure again"
    assert f"The {field} plate is given as 0.0" in page.locator(".tw-bench__result .tw-ask").first.inner_text()
    assert "A question about these readings is open." in page.locator(".tw-verdict").inner_text()


def test_inch_numbers_under_millimeters_are_one_question_that_one_tap_answers(page: Page, over_http: str) -> None:
    open_phone(page, over_http, "seam-check")
    page.select_option("#sc-spec", "demo-307")
    page.select_option("#sc-unit", "mm")
    fill(page, LOOSE_FIRST_ROLLER[:1] + GOOD[:2])
    asked = page.locator(".tw-bench__judged .tw-ask")
    assert asked.count() == 1
    assert "15 readings are hardly anything in millimeters" in asked.inner_text()
    expect(page.locator(".tw-causes")).to_have_count(0)
    asked.get_by_role("button", name="Yes: inches").click()
    assert page.input_value("#sc-unit") == "in"
    assert page.evaluate("document.activeElement.id") in {"sc-unit", ""}
    assert "Were they read in" not in page.locator(".tw-bench__judged").inner_text()


def test_the_answer_is_in_the_unit_that_was_typed(page: Page, over_http: str) -> None:
    open_phone(page, over_http, "seam-check")
    page.select_option("#sc-spec", "demo-307")
    page.select_option("#sc-unit", "mm")
    fill(page, [("3.18", "3.02", "1.42", "2.24", "1.57")] * 3)
    hook = page.locator(".tw-parts li", has_text="Body hook").first
    assert "2.24 mm" in str(hook.text_content())
    assert "limits 1.778 to 2.184 mm" in str(hook.text_content())
    assert "Body hook 2.24 mm is above the most allowed, 2.184 mm." in page.locator(".tw-verdict").inner_text()
    drawn = page.locator(".tw-bench__result figure svg")
    for at in (0, 1):
        rows = drawn.nth(at).locator("tspan").all_text_contents()
        assert not [row for row in rows if row.endswith(" in")]
    assert "2.24 mm" in drawn.nth(0).locator("tspan").all_text_contents()


def test_a_short_overlap_alone_is_named_and_gets_a_correction(page: Page, over_http: str) -> None:
    open_phone(page, over_http, "seam-check")
    page.select_option("#sc-spec", "demo-307")
    fill(page, [(".125", ".1225", ".056", ".0725", ".0705")] * 3)
    assert outcome(page) == "Reject"
    assert page.locator(".tw-bench__judged").get_by_role("link", name="Short overlap", exact=True).count() == 1
    expect(page.locator(".tw-bench__advice h3", has_text="Correction")).to_have_count(1)
    expect(page.locator(".tw-causes li").first).to_contain_text("overlap shorter")


def test_a_value_too_near_its_limit_brings_no_correction(page: Page, over_http: str) -> None:
    open_phone(page, over_http, "seam-check")
    page.select_option("#sc-spec", "demo-307")
    fill(page, [(".125", ".118", ".056", ".0865", ".076")] * 3)
    assert outcome(page) == "Measure again"
    page.evaluate("new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)))")
    assert page.locator(".tw-bench__advice").inner_text() == ""
