"""A sealing day written down by thumb: what is due, what is held, what is charted, and the file it ends with."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import expect

from browser.thumb import ALL_GOOD, DAY, PHONE, Thumb, events_of
from tinwright.advice.held_cans import bench_policy, defect_dispositions, what_to_do_with_held
from tinwright.benchlog import KINDS, counter_went_back, missed_checks, problems_of, still_held
from tinwright.benchlog.ranges import cans_in_words
from tinwright.reporting.wording import missed_in_words

if TYPE_CHECKING:
    from pathlib import Path

    from playwright.sync_api import Page

    from tinwright.knowledge import KnowledgeBase

pytestmark = [
    pytest.mark.browser,
    pytest.mark.browser_context_args(viewport=PHONE, has_touch=True, accept_downloads=True),
]

IN_REACH = """() => [...document.querySelectorAll(".tw-log__pad button")].map(key => {
  const box = key.getBoundingClientRect();
  return [key.textContent, Math.round(box.height), box.top >= innerHeight / 2 && box.bottom <= innerHeight];
})"""


def test_a_day_on_two_sealers_without_a_signal_ends_in_a_file_the_office_can_read(
    page: Page, over_http: str, tmp_path: Path, kb: KnowledgeBase
) -> None:
    thumb = Thumb(page, over_http)
    page.wait_for_load_state("networkidle")  # the icon of the tab is fetched after the page
    page.context.set_offline(True)
    thumb.begin()
    thumb.tap("More", "Set-up done", "Write it down")
    thumb.test_cans()
    thumb.seal(1)
    thumb.look()
    thumb.minutes(5)
    thumb.tap("+6")
    thumb.measure(ALL_GOOD, "accept")
    thumb.tap("In canner", "Write it down", "+6")
    thumb.tap("Another sealer")
    thumb.begin("bench-lever-sealer")
    thumb.test_cans()
    thumb.tap("+6")
    page.get_by_role("button", name="Bench crank sealer").click()
    thumb.tap("More", "Jam")
    thumb.look("Bad", defect="droop")
    expect(thumb.stop).to_contain_text("Hold cans 8 to 13")
    thumb.tap("Adjusted")
    page.select_option("#bl-adjuster", "first-roller")
    page.select_option("#bl-direction", "tighten")
    page.select_option("#bl-turns", "1/8")
    thumb.tap("Write it down")
    expect(page.get_by_text("Tighten the first roller 1/8 turn").first).to_be_attached()
    thumb.tap("More", "Cause confirmed")
    page.select_option("#bl-cause", "first-roller-loose")
    thumb.tap("Write it down", "More", "Pause")
    expect(thumb.due).to_contain_text("Paused")
    thumb.minutes(10)
    thumb.tap("More", "Go on")
    thumb.test_cans()
    thumb.tap("Discard cans", "Write it down", "More", "New lot of lids")
    page.fill("#bl-lid_lot", "B2")
    thumb.tap("Write it down", "More", "Day closed", "Write it down")
    expect(thumb.due).to_contain_text("The day is closed")

    found = thumb.saved(tmp_path)
    assert (found["format"], found["version"]) == ("tinwright-bench-log", 1)
    crank, lever = found["sessions"]
    assert {name: crank[name] for name in crank if name != "events"} == {
        "date": DAY,
        "kitchen": "Mill Street",
        "sealer": "bench-crank-sealer",
        "can": "307x409",
        "lid_lot": "A1",
        "product": "green beans",
        "supervisor": "AE",
    }
    assert lever["sealer"] == "bench-lever-sealer"
    events = events_of(crank)
    assert [problems_of(event) for event in [*events, *events_of(lever)]] == [[]] * (len(events) + 4 - 1)
    assert [event.kind for event in events] == [
        "set-up",
        "test-can",
        "test-can",
        "sealed",
        "visual-check",
        "sealed",
        "measured-check",
        "heated",
        "sealed",
        "jam",
        "visual-check",
        "adjustment",
        "cause",
        "pause",
        "resume",
        "test-can",
        "test-can",
        "discard",
        "lid-lot",
        "close",
    ]
    assert len({event.id for event in [*events, *events_of(lever)]}) == len(events) + 3
    assert (events[6].specification, events[6].method, len(events[6].readings)) == ("demo-307", "micrometer", 15)
    assert (events[-3].first, events[-3].last) == (8, 13)
    assert still_held(events, defect_dispositions(kb)).cans == ()


def test_every_kind_of_event_can_be_written(page: Page, from_disk: str) -> None:
    thumb = Thumb(page, from_disk)
    thumb.begin()
    first = {"Test can", "Visual check", "Measured check", "Cans sealed", "Cans put in the canner", "Adjustment"}
    named = {"Cans sealed": "Type the cans", "Work goes on": "Pause"}
    thumb.tap("More")
    for kind in KINDS.values():
        if kind.label not in first:
            expect(thumb.log.get_by_role("button", name=named.get(kind.label, kind.label), exact=True)).to_be_visible()


def test_the_keys_are_large_and_under_the_thumb(page: Page, over_http: str) -> None:
    thumb = Thumb(page, over_http)
    thumb.begin()
    thumb.tap("+6", "+1 can sealed")
    keys = page.evaluate(IN_REACH)
    assert len(keys) == 11
    assert [key for key in keys if key[0] != "Undo" and key[1] < 56] == []
    assert [key for key in keys if not key[2]] == []


def test_a_failed_check_says_stop_and_lists_the_cans_until_somebody_answers_for_them(
    page: Page, over_http: str, kb: KnowledgeBase
) -> None:
    thumb = Thumb(page, over_http)
    thumb.begin()
    thumb.test_cans()
    thumb.tap("+6")
    thumb.look()
    thumb.tap("+6", "In canner", "Write it down")
    thumb.seal(3)
    expect(thumb.stop).to_have_count(0)
    thumb.look("Bad", defect="droop")
    expect(thumb.stop.locator("h2")).to_have_text("STOP. Seal no more.")
    expect(thumb.stop.locator("h2")).to_be_in_viewport()
    expect(thumb.stop).to_contain_text("Hold cans 7 to 15")
    expect(thumb.stop).to_contain_text("Not heated yet: cans 13 to 15")
    expect(thumb.stop).to_contain_text("In the canner or heated: cans 7 to 12")
    for heated in (False, True):
        for said in what_to_do_with_held(kb, heated=heated):
            expect(thumb.stop).to_contain_text(said.text.split("[[")[0].strip())
    thumb.tap("More", "Type the cans")
    page.fill("#bl-last", "16")
    thumb.tap("Write it down")
    expect(thumb.stop).to_contain_text("Hold cans 7 to 16")
    assert "when-a-check-fails" in str(thumb.stop.get_by_role("link").last.get_attribute("href"))

    thumb.tap("Release cans")
    assert [page.input_value(f"#bl-{entry}") for entry in ("first", "last", "by")] == ["7", "14", ""]
    thumb.tap("Write it down")
    expect(page.locator(".tw-log__missing")).to_have_text("Still needed, or not possible: why, who (initials or id).")
    page.fill("#bl-last", "15")
    page.fill("#bl-reason", "Torn down, all good")
    page.fill("#bl-by", "AE")
    thumb.tap("Write it down")
    expect(page.locator(".tw-log__missing")).to_contain_text("Found bad, never released: can 15.")
    page.fill("#bl-last", "14")
    thumb.tap("Write it down")
    expect(thumb.stop).to_contain_text("Hold cans 15 to 16")
    expect(thumb.stop).to_contain_text("Found bad, never released: can 15.")
    thumb.test_cans()
    expect(thumb.stop.locator("h2")).to_have_text("Cans held")
    thumb.tap("Discard cans", "Write it down")
    expect(thumb.stop).to_have_count(0)
    thumb.tap("Undo")
    expect(thumb.stop).to_contain_text("cans 15 to 16")


def heard(page: Page, what: str) -> None:
    """Note from now on all that is said in a live region of the log."""
    page.evaluate(
        """what => {
          const region = document.querySelector(what);
          window.heard = [];
          new MutationObserver(() => region.textContent && heard.push(region.textContent))
            .observe(region, { childList: true, characterData: true, subtree: true });
        }""",
        what,
    )


def stopped(thumb: Thumb) -> None:
    thumb.begin()
    thumb.test_cans()
    thumb.tap("+6")
    thumb.look("Bad", defect="droop")


def test_while_it_says_stop_no_key_invites_another_can(page: Page, over_http: str) -> None:
    thumb = Thumb(page, over_http)
    stopped(thumb)
    keys = page.locator(".tw-log__grid button")
    expect(keys).to_have_text(["Test can", "Adjusted", "More"])
    thumb.tap("More")
    for name in ("Look", "Measure", "In canner", "Type the cans"):
        expect(thumb.log.get_by_role("button", name=name, exact=True)).to_be_visible()
    thumb.tap("Back")
    thumb.test_cans()
    expect(keys.first).to_have_text("+1 can sealed")


def test_the_keyboard_goes_to_stop_and_enter_seals_no_can(page: Page, over_http: str) -> None:
    thumb = Thumb(page, over_http)
    stopped(thumb)
    head = thumb.stop.locator("h2")
    expect(head).to_be_focused()
    page.keyboard.press("Enter")
    expect(thumb.log.locator(".tw-log__count")).to_contain_text("6 cans sealed")
    thumb.tap("More", "Type the cans", "Write it down")
    expect(thumb.stop).to_contain_text("Hold cans 1 to 12")
    expect(head).to_be_focused()


def test_the_alarm_is_one_short_sentence_once(page: Page, over_http: str) -> None:
    page.add_init_script("window.buzzed = []; navigator.vibrate = (buzz) => Boolean(buzzed.push(buzz));")
    thumb = Thumb(page, over_http)
    title = page.title()
    heard(page, ".tw-log__alarm")
    stopped(thumb)
    assert page.evaluate("heard") == ["STOP. Hold cans 1 to 6."]
    assert page.title() == f"STOP. Hold cans 1 to 6. {title}"
    thumb.minutes(1)
    thumb.tap("More", "Type the cans", "Write it down")
    assert page.title() == f"STOP. Hold cans 1 to 12. {title}"
    assert page.evaluate("heard") == ["STOP. Hold cans 1 to 6."]
    assert page.evaluate("buzzed.length") == 1
    assert page.locator("tw-bench-log [role=alert]:has(.tw-log__stop)").count() == 0
    thumb.test_cans()
    thumb.tap("Discard cans", "Write it down")
    assert "STOP" not in page.title()


def test_the_first_thing_due_is_said_and_the_clock_says_only_what_is_new(page: Page, over_http: str) -> None:
    thumb = Thumb(page, over_http)
    thumb.begin()
    expect(thumb.said).to_contain_text("Due now: Make 2 good test cans in a row")
    thumb.test_cans()
    thumb.seal(1)
    thumb.look()
    thumb.tap("+6")
    expect(thumb.said).to_have_text("Written: Cans 2 to 7 sealed.")
    heard(page, ".tw-log__said")
    thumb.minutes(30)
    assert page.evaluate("heard") == [
        "The next check is due within 5 minutes.",
        "Due now: Look at the last can sealed.",
    ]
    page.reload()
    expect(thumb.said).to_have_text("Due now: Look at the last can sealed.")


def test_a_fault_without_a_name_is_held_back_to_the_last_can_torn_down(page: Page, over_http: str) -> None:
    thumb = Thumb(page, over_http)
    thumb.begin()
    thumb.test_cans()
    thumb.seal(1)
    thumb.look()
    thumb.tap("+6")
    thumb.look("Bad")
    expect(thumb.stop).to_contain_text("Hold cans 1 to 7")
    expect(thumb.stop).to_contain_text("only a can torn down counts as a good check. Name it: tap its line.")
    thumb.test_cans(torn_down=False)
    expect(thumb.stop.locator("h2")).to_have_text("STOP. Seal no more.")
    thumb.log.locator(".tw-log__event", has_text="Visual check, can 7").click()
    page.select_option("#bl-defect", "droop")
    thumb.tap("Bad")
    expect(thumb.stop).to_contain_text("cans 2 to 7")
    expect(thumb.stop.locator("h2")).to_have_text("Cans held")


def test_a_counter_that_was_set_back_begins_a_run_with_a_letter(page: Page, over_http: str, tmp_path: Path) -> None:
    thumb = Thumb(page, over_http)
    thumb.begin()
    thumb.test_cans()
    for _ in range(3):
        thumb.tap("+6")
    thumb.seal(2)
    thumb.look()
    thumb.tap("More", "Type the cans")
    page.fill("#bl-first", "1")
    page.fill("#bl-last", "5")
    thumb.tap("Write it down")
    expect(page.locator(".tw-log__missing")).to_contain_text("The count stands at 20. Was the counter set back?")
    expect(page.locator(".tw-log__missing")).to_contain_text("the cans are B1 and so on")
    thumb.tap("Back", "More", "Counter set back")
    expect(thumb.said).to_contain_text("Counter set back: the next can is B1")
    thumb.seal(3)
    expect(thumb.log.locator(".tw-log__count")).to_contain_text("23 cans sealed · run B, the next can is B4")
    thumb.tap("More", "Type the cans")
    page.fill("#bl-first", "4")
    page.fill("#bl-last", "5")
    thumb.tap("Write it down")
    thumb.look("Bad", defect="droop")
    expect(thumb.stop).to_contain_text("Hold cans B1 to B5")
    expect(thumb.stop).to_contain_text("Found bad, never released: can B5.")
    (session,) = thumb.saved(tmp_path)["sessions"]
    assert cans_in_words(still_held(events_of(session), reaches={"droop": 1}).cans) == "B1 to B5"
    assert counter_went_back(events_of(session)) == []


def test_a_clock_that_was_set_back_is_told_and_orders_nothing(page: Page, over_http: str, tmp_path: Path) -> None:
    thumb = Thumb(page, over_http, at="10:00:00")
    thumb.begin()
    thumb.test_cans()
    thumb.tap("+6")
    thumb.look()
    thumb.tap("+6")
    thumb.set_clock("2026-11-14T09:05:00")
    thumb.seal(1)
    thumb.look("Bad", defect="droop")
    expect(thumb.stop).to_contain_text("Hold cans 7 to 13")
    told = thumb.log.locator("section", has=page.get_by_role("heading", name="The clock went back"))
    expect(told).to_contain_text("09:05 The clock goes back from 10:00. The order of the lines counts, not the time.")
    (session,) = thumb.saved(tmp_path)["sessions"]
    assert [event["at"][:2] for event in session["events"]] == ["10"] * 5 + ["09"] * 2


def test_a_release_made_on_another_day_stands_with_that_day(page: Page, over_http: str, tmp_path: Path) -> None:
    thumb = Thumb(page, over_http)
    thumb.begin()
    thumb.test_cans()
    thumb.tap("+6")
    thumb.look("Bad", defect="droop")
    thumb.test_cans()
    thumb.set_clock("2026-11-15T08:30:00")
    page.reload()
    thumb.tap("Release cans")
    page.fill("#bl-reason", "Opened")
    page.fill("#bl-by", "AE")
    thumb.tap("Write it down")
    (session,) = thumb.saved(tmp_path)["sessions"]
    release = session["events"][-1]
    assert (release["kind"], release["on"], release["at"][:5]) == ("release", "2026-11-15", "08:30")
    assert (release["first"], release["last"]) == (1, 5)


def test_a_teardown_is_due_and_the_day_is_not_closed_without_its_last_check(page: Page, over_http: str) -> None:
    thumb = Thumb(page, over_http)
    thumb.begin()
    thumb.test_cans(torn_down=False)
    expect(thumb.due.locator("h2")).to_have_text("Now: Tear down a test can")
    thumb.test_cans(1)
    expect(thumb.due.locator("h2")).to_have_text("Look at can 1")
    thumb.tap("+6")
    thumb.look()
    end = "Before you close the day, tear down a test can: cans 1 to 6 wait for it."
    expect(thumb.due).to_contain_text(end)
    thumb.tap("More", "Day closed")
    expect(thumb.log.locator(".tw-log__panel")).to_contain_text(end)
    thumb.tap("Back")
    thumb.test_cans(1)
    expect(thumb.due).not_to_contain_text("Before you close")


def test_what_is_due_counts_down_by_cans_and_minutes_and_is_said_seldom(page: Page, over_http: str) -> None:
    thumb = Thumb(page, over_http)
    thumb.begin()
    expect(thumb.due.locator("h2")).to_have_text("Now: Make 2 good test cans in a row")
    thumb.test_cans(1)
    expect(thumb.due.locator("h2")).to_have_text("Now: Make 1 good test can")
    thumb.test_cans(1)
    expect(thumb.due.locator("h2")).to_have_text("Look at can 1")
    thumb.seal(1)
    expect(thumb.due.locator("h2")).to_have_text("Now: Look at can 1")
    thumb.look()
    expect(thumb.due.locator(".tw-log__left")).to_have_text("24 cans or 30 minutes left")
    thumb.tap("+6")
    page.evaluate(
        """() => {
          window.heard = [];
          new MutationObserver(() => heard.push(document.querySelector(".tw-log__said").textContent))
            .observe(document.querySelector(".tw-log__said"), { childList: true, characterData: true, subtree: true });
        }"""
    )
    thumb.minutes(12)
    expect(thumb.due.locator(".tw-log__left")).to_have_text("18 cans or 18 minutes left")
    assert page.evaluate("heard") == []
    thumb.minutes(18)
    expect(thumb.due.locator("h2")).to_have_text("Now: Look at the last can sealed")
    heard = page.evaluate("heard")
    assert len(heard) == 2
    assert "within 5 minutes" in heard[0]
    assert "Due now: Look at the last can sealed" in heard[1]
    thumb.look()
    for _ in range(4):
        thumb.tap("+6")
    expect(thumb.due.locator("h2")).to_have_text("Now: Look at the last can sealed")


def test_checks_that_were_missed_are_told_as_the_office_tells_them(
    page: Page, over_http: str, tmp_path: Path, kb: KnowledgeBase
) -> None:
    thumb = Thumb(page, over_http)
    thumb.begin()
    thumb.test_cans()
    thumb.seal(1)
    thumb.look()
    count = thumb.log.locator(".tw-log__count")
    told = thumb.log.locator("section", has=page.get_by_role("heading", name="Checks missed"))
    for _ in range(4):
        thumb.tap("+6")
    thumb.minutes(10)
    expect(thumb.due.locator("h2")).to_have_text("Now: Look at the last can sealed")
    expect(count).not_to_contain_text("missed")
    expect(told).to_have_count(0)
    thumb.seal(1)
    expect(count).to_contain_text("· 1 check missed")
    expect(told.get_by_role("listitem")).to_have_text(
        ["09:10 Look at a can: limit of cans since the last check reached · cans 2 to 26 · not made"]
    )
    thumb.minutes(2)
    thumb.look()
    thumb.tap("Adjusted")
    page.select_option("#bl-adjuster", "first-roller")
    page.select_option("#bl-direction", "tighten")
    thumb.tap("Write it down")
    thumb.seal(1)
    expect(count).to_contain_text("· 3 checks missed")
    lines = told.get_by_role("listitem")
    expect(lines).to_have_text(
        [
            "09:12 Look at a can: limit of cans since the last check reached · cans 2 to 26 · made at 09:12",
            "09:12 Row of good test cans: after an adjustment · can 27 · not made",
            "09:12 Tear down a can: after an adjustment · can 27 · not made",
        ]
    )
    (session,) = thumb.saved(tmp_path)["sessions"]
    missed = missed_checks(events_of(session), bench_policy(kb))
    said = [f"{one.at[:5]} {missed_in_words(one)}" for one in missed]
    assert [line.split(" · ")[0] for line in lines.all_text_contents()] == said


def test_two_sealers_are_one_tap_apart_and_each_has_its_own_count(page: Page, over_http: str) -> None:
    thumb = Thumb(page, over_http)
    thumb.begin()
    thumb.seal(3)
    thumb.tap("Another sealer")
    thumb.begin("bench-lever-sealer")
    expect(thumb.log.locator(".tw-log__count")).to_contain_text("No can sealed yet")
    thumb.tap("+6")
    page.get_by_role("button", name="Bench crank sealer").click()
    expect(thumb.log.locator(".tw-log__count")).to_contain_text("3 cans sealed")
    expect(page.locator(".tw-log__tab[aria-pressed=true]")).to_contain_text("Bench crank sealer")
    page.get_by_role("button", name="Bench lever sealer").click()
    expect(thumb.log.locator(".tw-log__count")).to_contain_text("6 cans sealed")


def test_a_slip_is_struck_out_or_corrected_and_never_erased(page: Page, over_http: str, tmp_path: Path) -> None:
    thumb = Thumb(page, over_http)
    thumb.begin()
    thumb.tap("+6", "Undo")
    expect(thumb.log.locator(".tw-log__count")).to_contain_text("No can sealed yet")
    thumb.tap("More", "Jam")
    thumb.log.locator(".tw-log__event", has_text="Jam").click()
    page.fill("#bl-at", "08:30")
    page.get_by_text("Who, and a note").click()
    page.fill("#bl-note", "a dented rim")
    thumb.tap("Save")
    expect(thumb.log.locator(".tw-log__event", has_text="a dented rim")).to_contain_text("08:30")
    [session] = thumb.saved(tmp_path)["sessions"]
    sealed, jam = session["events"]
    assert (jam["at"], jam["revision"], jam["note"]) == ("08:30", 2, "a dented rim")
    assert (sealed["struck"], sealed["revision"], sealed["last"]) == (True, 2, 6)
    thumb.log.locator(".tw-log__event", has_text="Cans 1 to 6 sealed").click()
    thumb.tap("Bring it back")
    expect(thumb.log.locator(".tw-log__count")).to_contain_text("6 cans sealed")


def test_readings_get_a_verdict_and_those_of_check_a_seam_are_taken_over(page: Page, over_http: str) -> None:
    page.goto(f"{over_http}seam-check.html")
    page.select_option("#sc-spec", "demo-307")
    for dimension, values in ALL_GOOD.items():
        for point, value in enumerate(values):
            page.fill(f"#sc-{point}-{dimension}", ".064" if dimension == "seam-thickness" else value)
    link = page.get_by_role("link", name="Write it in the bench log")
    assert link.get_attribute("href") == "bench-log.html#measured-check"
    thumb = Thumb(page, over_http)
    thumb.begin()
    thumb.seal(2)
    thumb.test_cans()
    thumb.tap("Measure", "Take the readings from Check a seam")
    expect(page.locator(".tw-log__verdict .tw-verdict__word")).to_have_text("The readings say: reject")
    expect(page.locator(".tw-log__pad .tw-log__key--first")).to_contain_text("Reject")
    page.fill("#bl-0-seam-thickness", "55")
    expect(page.locator("#bl-0-seam-thickness-ask")).to_contain_text("Is this 55 thousandths of an inch")
    page.locator("#bl-0-seam-thickness-ask").get_by_role("button").click()
    assert page.input_value("#bl-0-seam-thickness") == "0.055 in"
    page.locator(".tw-log__key--accept").click()
    row = thumb.log.locator(".tw-log__event", has_text="Measured check")
    expect(row).to_contain_text("seam thickness 0.055 to 0.064 in")
    expect(row).to_contain_text("The readings say reject")


def test_the_chart_has_no_limits_below_ten_cans_and_those_of_the_rules_above(page: Page, over_http: str) -> None:
    thumb = Thumb(page, over_http)
    thumb.begin()
    thumb.test_cans()
    values = [".0550", ".0552", ".0548", ".0551", ".0549", ".0553", ".0550", ".0551", ".0549", ".0552"]
    thumb.seal(1)
    for value in values[:9]:
        thumb.measure({"seam-thickness": (value, value, value)}, "accept")
    page.locator(".tw-log__charts summary").click()
    figure = page.locator(".tw-log__charts figure")
    expect(figure).to_contain_text("No control limits: they need 10 cans")
    expect(figure.locator(".tw-chart__limit")).to_have_count(0)
    expect(figure.locator(".tw-chart__spec")).to_have_count(2)
    thumb.measure({"seam-thickness": (values[9],) * 3}, "accept")
    # mean .05505; mean moving range .0024/9; 3 MR/d2 = .00071 (d2 = 1.128, NIST/SEMATECH e-Handbook 6.3.2.2)
    expect(figure).to_contain_text("Center 0.0551 in, control limits 0.0543 to 0.0558 in")
    expect(figure.locator(".tw-chart__limit")).to_have_count(3)
