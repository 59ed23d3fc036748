"""What was tapped is kept: through reload, a dead battery, damaged or forbidden storage; and it goes out as a file and comes in."""

from __future__ import annotations

import itertools
import json
import os
import signal
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from playwright.sync_api import Error, expect

from attack.hostile import CORPUS
from browser.test_hostile import nothing_ran, squeezed
from browser.thumb import PHONE, Thumb, events_of
from tinwright.benchlog import problems_of

if TYPE_CHECKING:
    from playwright.sync_api import BrowserType, Page

pytestmark = [
    pytest.mark.browser,
    pytest.mark.browser_context_args(viewport=PHONE, has_touch=True, accept_downloads=True),
]

SESSION_KEY = "Object.keys(localStorage).find(key => /bench-log\\.\\d/.test(key))"


def a_short_day(page: Page, address: str) -> Thumb:
    thumb = Thumb(page, address)
    thumb.begin()
    thumb.test_cans()
    thumb.seal(1)
    return thumb


def count(thumb: Thumb) -> Any:
    return expect(thumb.log.locator(".tw-log__count"))


@pytest.mark.parametrize("where", ["over_http", "from_disk"])
def test_each_tap_outlasts_a_reload_and_a_page_that_is_killed(
    page: Page, where: str, request: pytest.FixtureRequest
) -> None:
    address = request.getfixturevalue(where)
    thumb = a_short_day(page, address)
    page.reload()
    count(thumb).to_contain_text("1 can sealed")
    thumb.tap("+6")
    other = page.context.new_page()
    page.close()  # without asking it
    other.goto(f"{address}bench-log.html")
    expect(other.locator(".tw-log__count")).to_contain_text("7 cans sealed")
    expect(other.locator(".tw-log__event")).to_have_count(2)


def test_what_the_page_calls_kept_is_on_the_disk_when_the_whole_browser_dies(
    browser_type: BrowserType, browser_type_launch_args: dict[str, Any], over_http: str, tmp_path: Path
) -> None:
    def begun() -> Any:
        return browser_type.launch_persistent_context(
            str(tmp_path / "profile"), service_workers="block", **browser_type_launch_args
        )

    context = begun()
    thumb = a_short_day(context.pages[0], over_http)
    expect(thumb.page.locator("tw-bench-log:not([data-on-the-way])")).to_be_visible()
    processes = _processes(tmp_path / "profile")
    assert processes
    for process in processes:
        os.kill(process, signal.SIGKILL)
    with pytest.raises(Error):
        thumb.page.evaluate("1")
    context = begun()
    context.pages[0].clock.install(time="2026-11-14T09:10:00")
    context.pages[0].goto(f"{over_http}bench-log.html")
    expect(context.pages[0].locator(".tw-log__count")).to_contain_text("1 can sealed")
    context.close()


def _processes(profile: Path) -> list[int]:
    """The processes of the browser with this profile: those that this test started."""
    mark = f"--user-data-dir={profile}".encode()
    found = []
    for folder in Path("/proc").iterdir():
        try:
            if folder.name.isdecimal() and mark in (folder / "cmdline").read_bytes():
                found.append(int(folder.name))
        except OSError:
            continue  # it has ended meanwhile
    return found


def test_what_the_first_copy_lost_comes_back_from_the_second(page: Page, over_http: str) -> None:
    thumb = a_short_day(page, over_http)
    page.wait_for_function("async () => (await tinwrightBenchLogCopy.read()).length === 4")
    page.evaluate("localStorage.clear()")
    page.reload()
    count(thumb).to_contain_text("1 can sealed")
    assert page.evaluate(f"localStorage[{SESSION_KEY}].trim().split('\\n').length") == 4


def test_it_comes_back_in_a_browser_that_does_not_list_its_databases(page: Page, over_http: str) -> None:
    page.add_init_script("delete IDBFactory.prototype.databases")
    thumb = Thumb(page, over_http)
    assert page.evaluate("async () => (await tinwrightBenchLogCopy.read()).length") == 0
    thumb.begin()
    thumb.seal(1)
    page.wait_for_function("async () => (await tinwrightBenchLogCopy.read()).length === 2")
    page.evaluate("localStorage.clear()")
    page.reload()
    count(thumb).to_contain_text("1 can sealed")


ANSWERS = """answer => {
  navigator.storage.persisted = async () => false;
  navigator.storage.persist = async () => answer;
}"""


@pytest.mark.parametrize(
    ("answer", "said"),
    [
        ("true", "has promised to keep what you write"),
        ("false", "has not promised to keep what you write. Save the file"),
    ],
)
def test_it_asks_for_lasting_storage_and_says_what_the_answer_was(
    page: Page, over_http: str, answer: str, said: str
) -> None:
    page.add_init_script(f"({ANSWERS})({answer})")
    thumb = Thumb(page, over_http)
    thumb.begin()
    expect(thumb.log.locator(".tw-log__lasting")).to_contain_text(said)


@pytest.mark.parametrize(
    ("more", "way"), [("navigator.standalone = false;", "Add to Home Screen"), ("", "Add to Dock")]
)
def test_where_a_browser_erases_after_seven_days_it_says_how_to_keep_the_log(
    page: Page, over_http: str, more: str, way: str
) -> None:
    page.add_init_script(
        f"Object.defineProperty(navigator, 'vendor', {{ value: 'Apple Computer, Inc.' }}); {more} ({ANSWERS})(true)"
    )
    thumb = Thumb(page, over_http)
    thumb.begin()
    said = thumb.log.locator(".tw-log__lasting")
    expect(said).to_contain_text("not used for 7 days. Save the file today.")
    expect(said).to_contain_text(way)


SLOW_COPY = "indexedDB.databases = () => new Promise((resolve) => { globalThis.answer = resolve; });"


def test_the_form_to_begin_does_not_wait_for_the_second_copy_but_what_it_begins_does(
    page: Page, over_http: str
) -> None:
    page.clock.install(time="2026-11-14T09:00:00")
    page.clock.pause_at("2026-11-14T09:00:01")
    page.add_init_script(SLOW_COPY)
    page.goto(f"{over_http}bench-log.html")
    begin = page.get_by_role("button", name="Begin", exact=True)
    begin.click()
    expect(begin).to_be_visible()
    page.evaluate("answer([])")
    expect(page.get_by_role("button", name="+1 can sealed")).to_be_visible()


def test_a_session_that_is_open_waits_for_the_second_copy(page: Page, over_http: str) -> None:
    a_short_day(page, over_http)
    page.add_init_script(SLOW_COPY)
    page.clock.pause_at("2026-11-14T09:30:00")
    page.reload()
    assert page.evaluate("typeof answer") == "function"
    more = page.get_by_role("button", name="+1 can sealed")
    assert not more.is_visible()
    page.evaluate("answer([])")
    expect(more).to_be_visible()


def test_a_line_that_cannot_be_read_is_kept_and_told(page: Page, over_http: str, tmp_path: Path) -> None:
    thumb = a_short_day(page, over_http)
    page.evaluate(f'localStorage[{SESSION_KEY}] += \'{{"id":"half of a li\'')
    page.reload()
    expect(page.locator(".tw-log__trouble")).to_contain_text("1 line on this phone cannot be read")
    count(thumb).to_contain_text("1 can sealed")
    thumb.seal(1)
    with page.expect_download() as download:
        thumb.tap("Save what cannot be read")
    download.value.save_as(tmp_path / "unread")
    assert (tmp_path / "unread").read_text(encoding="utf-8") == '{"id":"half of a li'
    page.reload()
    count(thumb).to_contain_text("2 cans sealed")
    assert page.evaluate(f"localStorage[{SESSION_KEY}].includes('half of a li')")


def test_a_log_that_is_spoiled_whole_is_kept_and_told_and_another_begins_beside_it(page: Page, over_http: str) -> None:
    thumb = Thumb(page, over_http)
    page.evaluate("localStorage['tinwright.bench-log.2026-11-14.1'] = 'spoiled'")
    page.reload()
    expect(page.locator(".tw-log__trouble")).to_contain_text("1 log on this phone cannot be read")
    thumb.begin()
    thumb.seal(2)
    assert page.evaluate("localStorage['tinwright.bench-log.2026-11-14.1']") == "spoiled"


def test_a_full_phone_is_told_and_the_file_has_what_it_did_not_take(page: Page, over_http: str, tmp_path: Path) -> None:
    thumb = a_short_day(page, over_http)
    page.evaluate(
        """() => {
          window.taken = Storage.prototype.setItem;
          Storage.prototype.setItem = () => { throw new DOMException("full", "QuotaExceededError"); };
        }"""
    )
    thumb.tap("+6")
    told = page.locator(".tw-log__trouble")
    expect(told).to_contain_text("Not kept on this phone")
    expect(told).to_contain_text("There is no room left")
    [session] = thumb.saved(tmp_path)["sessions"]
    assert [event["kind"] for event in session["events"]] == ["test-can", "test-can", "sealed", "sealed"]
    page.evaluate("void (Storage.prototype.setItem = window.taken)")
    thumb.tap("Try again")
    expect(told).to_be_empty()
    page.reload()
    count(thumb).to_contain_text("7 cans sealed")


def test_forbidden_storage_is_told_and_the_file_can_still_be_saved(page: Page, over_http: str, tmp_path: Path) -> None:
    page.add_init_script(
        """Object.defineProperty(window, "localStorage", { get() { throw new DOMException("blocked", "SecurityError"); } });
           Object.defineProperty(window, "indexedDB", { get() { throw new DOMException("blocked", "SecurityError"); } });"""
    )
    thumb = a_short_day(page, over_http)
    expect(page.locator(".tw-log__trouble")).to_contain_text("does not let the site keep anything")
    [session] = thumb.saved(tmp_path)["sessions"]
    assert [problems_of(event) for event in events_of(session)] == [[], [], []]


def test_the_file_of_one_phone_is_imported_by_another_once(page: Page, over_http: str, tmp_path: Path) -> None:
    thumb = a_short_day(page, over_http)
    page.on("dialog", lambda dialog: dialog.accept())
    found = thumb.saved(tmp_path)
    [file] = tmp_path.iterdir()
    events = found["sessions"][0]["events"]
    events[0] |= {"result": "bad"}  # the same revision with another content: two phones differ
    events[1] |= {"revision": 2, "struck": True}
    events.append({"id": "zzzzzz-1", "at": "09:30", "kind": "sealed", "first": 2, "last": 4})
    events.append({"id": "zzzzzz-2", "at": "9:30", "kind": "sealed", "first": 2, "last": 4})
    file.write_text(json.dumps(found), encoding="utf-8")
    page.get_by_text("Import the file of another phone").click()
    page.set_input_files("#bl-file", file)
    expect(thumb.said).to_have_text(
        "Imported: 3 new lines of 1 session. 1 line could not be read. 1 line differ between the phones: the more cautious counts."
    )
    count(thumb).to_contain_text("4 cans sealed")
    expect(thumb.log.locator(".tw-log__event", has_text="Test can · bad")).to_contain_text("two phones differ")
    expect(thumb.stop).to_contain_text("Hold cans 1 to 4")
    page.get_by_text("Import the file of another phone").click()
    page.set_input_files("#bl-file", file)
    expect(thumb.said).to_contain_text("Imported: 0 new lines")
    page.get_by_text("Import the file of another phone").click()
    page.set_input_files("#bl-file", {"name": "x.json", "mimeType": "application/json", "buffer": b"[1]"})
    expect(thumb.said).to_have_text("This is no file of a bench log. Nothing was changed.")


@pytest.mark.parametrize("word", ["constructor", "__proto__", "toString", "hasOwnProperty"])
def test_words_that_every_object_has_never_break_the_list_of_events(
    page: Page, over_http: str, tmp_path: Path, word: str
) -> None:
    thumb = a_short_day(page, over_http)
    page.on("dialog", lambda dialog: dialog.accept())
    found = thumb.saved(tmp_path)
    [file] = tmp_path.iterdir()
    session = found["sessions"][0]
    session["events"] += [
        {"id": "zzzzzz-1", "at": "09:30", "kind": "adjustment", "adjuster": word, "direction": word, "turns": "1/8"},
        {"id": "zzzzzz-2", "at": "09:31", "kind": "defect", "defect": word, "first": 1, "last": 1},
        {"id": "zzzzzz-3", "at": "09:32", "kind": "cause", "defect": word, "cause": word, "by": word, "can": word},
        {"id": "zzzzzz-4", "at": "09:33", "kind": word, "result": word},
        {
            "id": "zzzzzz-5",
            "at": "09:34",
            "kind": "measured-check",
            "result": "accept",
            "can_number": 1,
            "method": word,
            "specification": word,
            "readings": [{"dimension": word, "point": word, "value": 0.05}],
        },
    ]
    file.write_text(json.dumps(found), encoding="utf-8")
    page.get_by_text("Import the file of another phone").click()
    page.set_input_files("#bl-file", file)
    expect(thumb.said).to_contain_text("Imported: ")
    shown = thumb.log.locator(".tw-log__event")
    expect(shown.filter(has_text="09:30")).to_have_count(1)
    count(thumb).to_contain_text("1 can sealed")
    page.reload()
    expect(shown.filter(has_text="09:30")).to_have_count(1)
    expect(shown.filter(has_text="09:31")).to_have_count(1)
    expect(page.locator(".tw-log__trouble")).to_be_empty()


def test_the_log_is_listed_and_erased_with_a_warning(page: Page, over_http: str) -> None:
    a_short_day(page, over_http)
    page.goto(f"{over_http}on-this-device.html")
    listed = page.locator("tw-on-this-device")
    expect(listed.locator("li", has_text="Bench log").first).to_be_visible()
    expect(listed).to_contain_text("Bench log, second copy")
    listed.get_by_role("button", name="Erase what is mine").click()
    expect(listed).to_contain_text("The bench log is on this device: save its file on the page Bench log first")
    listed.get_by_role("button", name="Yes, erase it").click()
    expect(listed.locator("li")).to_have_text(["Nothing."])
    assert page.evaluate("indexedDB.databases()") == []


def test_no_text_in_a_kept_log_or_a_file_runs(page: Page, over_http: str, tmp_path: Path) -> None:
    """The whole corpus, in every entry that holds a text: kept on the phone, shown, corrected, printed; then from a file."""
    thumb = Thumb(page, over_http)
    kinds = page.evaluate("tinwrightBenchLogData.kinds")
    sessions = [_hostile_session(number, kinds) for number in range(4)]
    page.evaluate(
        """sessions => sessions.forEach(({ events, ...session }, number) =>
          localStorage.setItem(`tinwright.bench-log.2026-11-14.${number + 1}`,
            [{ session }, ...events, ...events.map(event => event.note)].map(line => JSON.stringify(line)).join("\\n")))""",
        sessions,
    )
    page.reload()
    _look_at_all(page)
    page.evaluate("localStorage.clear()")
    page.evaluate("async () => { for (const { name } of await indexedDB.databases()) indexedDB.deleteDatabase(name); }")
    page.reload()
    file = tmp_path / "hostile.json"
    file.write_text(
        json.dumps({"format": "tinwright-bench-log", "version": 1, "device": CORPUS[0], "sessions": sessions})
    )
    page.set_input_files("#bl-file", file)
    expect(thumb.log.locator(".tw-log__event").first).to_be_visible()
    _look_at_all(page)


def _look_at_all(page: Page) -> None:
    shown = ""
    for number in range(4):
        page.locator(".tw-log__tab").nth(number).dispatch_event("click")
        page.evaluate("document.querySelector('.tw-log__charts').open = true")
        page.evaluate("document.querySelector('tw-bench-log').showRest()")
        page.evaluate("document.querySelector('tw-bench-log').showPrint()")
        nothing_ran(page)
        shown += str(page.locator("tw-bench-log").text_content())
        for event in page.locator(".tw-log__event").all()[::5]:
            event.dispatch_event("click")
            nothing_ran(page)
            page.get_by_role("button", name="Back").dispatch_event("click")
    assert [text for text in CORPUS if squeezed(text) not in squeezed(shown)] == []


def _hostile_session(number: int, kinds: dict[str, Any]) -> dict[str, Any]:
    texts = itertools.cycle([*CORPUS[number * 16 :], *CORPUS[: number * 16]])
    held = ("by", "can", "lid_lot", "defect", "cause", "adjuster", "direction", "turns", "method", "specification")
    numbers = {"first": 1, "last": 3, "can_number": 3}
    events = []
    for place, (kind, entries) in enumerate(kinds.items(), 1):
        allowed = {*entries["needs"], *entries["may"], "by", "can_number"}
        event: dict[str, Any] = {"id": f"aaaaaa-{number * 100 + place}", "at": "09:00", "kind": kind}
        event |= {entry: next(texts) for entry in (*held, "reason", "note") if entry in {*allowed, "note"}}
        event |= {entry: value for entry, value in numbers.items() if entry in allowed}
        if "result" in allowed:
            event["result"] = "reject" if kind == "measured-check" else "bad"
        if "readings" in allowed:
            event["readings"] = [{"dimension": next(texts), "point": next(texts), "value": 0.05}]
        events.append(event)
    head = {entry: next(texts) for entry in ("kitchen", "sealer", "can", "product", "supervisor")}
    return {**head, "date": "2026-11-14", "events": events}
