"""Hostile text in any field, address, stored state or file never runs in the browser, and stands there as text."""

from __future__ import annotations

import itertools
import json
import re
from typing import TYPE_CHECKING
from urllib.parse import quote

import pytest
from playwright.sync_api import expect

from attack.hostile import CORPUS, GROUPS, write_hostile_programme
from demo_site import PATIENCE_MS, ROOT, mkdocs, served
from settings import settings_for_one_layer
from tinwright.advice.advice import advise_on_sheet
from tinwright.advice.readings_file import read_sheet
from tinwright.advice.report import report_html

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from playwright.sync_api import BrowserContext, Dialog, Page, Request

    from tinwright.knowledge import KnowledgeBase

pytestmark = pytest.mark.browser

WHAT_MIGHT_RUN = """() => {
  const found = window.__hit === undefined && Object.prototype.__hit === undefined ? [] : ["it ran"];
  for (const element of document.querySelectorAll("*")) {
    for (const { name, value } of element.attributes) {
      if (name.startsWith("on") || name === "style" && value.includes("invalid")) found.push(`${element.tagName} ${name}=${value}`);
      if (/^(href|src|action|formaction|data|srcdoc|xlink:href)$/.test(name) && /^\\s*(javascript|vbscript|data):|hit\\.invalid/i.test(value.replace(/[\\t\\r\\n]/g, "")))
        found.push(`${element.tagName} ${name}=${value}`);
    }
    if (/^(BASE|OBJECT|IFRAME|EMBED)$/.test(element.tagName) || element.tagName === "SCRIPT" && element.textContent.includes("__hit") && !/^application\\/(ld\\+)?json$/.test(element.type))
      found.push(element.outerHTML.slice(0, 100));
  }
  return found;
}"""


@pytest.fixture
def ran(context: BrowserContext) -> Iterator[list[str]]:
    """What ran or was asked for that should not have been; none at the end of each test."""
    found: list[str] = []

    def note(request: Request) -> None:
        if "hit.invalid" in request.url.split("?")[0]:  # a name that no network resolves (RFC 2606)
            found.append(f"asked for {request.url}")

    def dismiss(dialog: Dialog) -> None:
        found.append(f"dialog: {dialog.message}")
        dialog.dismiss()

    context.on("request", note)
    context.on("dialog", dismiss)
    yield found
    assert found == []


@pytest.fixture
def context(new_context: type[BrowserContext]) -> BrowserContext:
    context = new_context()
    context.set_default_timeout(PATIENCE_MS)
    return context


def nothing_ran(page: Page) -> None:
    assert page.evaluate(WHAT_MIGHT_RUN) == [], page.url


def squeezed(text: str) -> str:
    """The letters that show, without the marks that show nothing."""
    return "".join(re.sub("[\u00ad\u200b\u202e]", "", text).split()).casefold()


@pytest.fixture(scope="module")
def hostile_site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("hostile")
    write_hostile_programme(folder / "content")
    (folder / "content" / "pages").mkdir()
    (folder / "mkdocs.yml").write_text(settings_for_one_layer(), encoding="utf-8")
    result = mkdocs("build", "--strict", "--quiet", folder=folder)
    assert result.returncode == 0, result.stderr[-2000:]
    return folder / "site"


@pytest.fixture
def hostile(hostile_site: Path) -> Iterator[str]:
    with served(hostile_site) as address:
        yield address


@pytest.mark.slow
def test_no_field_of_any_record_runs_on_any_page_and_all_is_shown(
    page: Page, hostile: str, hostile_site: Path, ran: list[str]
) -> None:
    words: dict[str, str] = {}
    for file in sorted(hostile_site.rglob("*.html")):
        name = file.relative_to(hostile_site).as_posix()
        page.goto(hostile + name)
        if file.name.startswith("before-"):  # an old address: it leads on to a page that has its own turn
            page.wait_for_url(lambda address: "before-" not in address)
            continue
        nothing_ran(page)
        words[name] = squeezed(page.evaluate("document.body.textContent + ' ' + document.title"))
    assert ran == []
    for folder, kind in (("defects", "defect"), ("causes", "cause"), ("sealers", "sealer"), ("terms", "term")):
        for number, group in enumerate(GROUPS):
            shown = words[f"{folder}/{kind}-{number}.html"]
            assert [text for text in group if squeezed(text) not in shown] == [], kind


@pytest.mark.usefixtures("ran")
def test_the_bench_pages_show_hostile_records_as_text(page: Page, hostile: str) -> None:
    page.goto(f"{hostile}seam-check.html")
    for box in ("#sc-spec", "#sc-sealer"):
        for value in page.locator(f"{box} option").evaluate_all("options => options.map(o => o.value)"):
            page.select_option(box, value)
            page.fill("#sc-0-countersink", ".2")
            nothing_ran(page)
    page.goto(f"{hostile}find-the-cause.html")
    for tick in page.locator("tw-find-cause input[type=checkbox]").all():
        tick.check(force=True)
        nothing_ran(page)
    for _ in range(5):
        answers = page.locator("tw-find-cause .tw-ask button")
        if not answers.count():
            break
        answers.first.click()
        nothing_ran(page)
    page.wait_for_timeout(300)
    nothing_ran(page)


@pytest.mark.usefixtures("ran")
def test_the_search_shows_hostile_pages_as_text(page: Page, hostile: str) -> None:
    page.goto(hostile)
    box = page.get_by_role("textbox", name="Search")
    box.click()
    for word in ("hit", "script", "onerror", "window", "javascript", "img"):
        box.fill(word[:-1])
        box.press_sequentially(word[-1])
        page.locator(".md-search-result__item").first.wait_for()
        page.wait_for_timeout(400)
        for more in page.locator(".md-search-result__more summary").all()[:5]:
            more.click()
        nothing_ran(page)
    with page.expect_navigation():
        page.locator(".md-search-result__link").first.click()
    nothing_ran(page)


@pytest.mark.slow
def test_no_address_runs_whatever_stands_behind_its_mark(page: Page, over_http: str, ran: list[str]) -> None:
    pages = ("index.html", "defects/droop.html", "seam-check.html", "on-this-device.html")
    quoted = [quote(text, safe="") for text in CORPUS]
    tails = [f"?q={said}&h={said}#{said}" for said in quoted]
    tails += [
        f"?embed={a}&{b}={c}#__tabbed_{d}"
        for a, b, c, d in zip(*(quoted[start::4] for start in range(4)), strict=False)
    ]
    for number, tail in enumerate(tails):
        page.goto("about:blank")
        page.goto(f"{over_http}{pages[number % len(pages)]}{tail}")
        nothing_ran(page)
    assert ran == []


def planted(value: object, texts: Iterator[str]) -> object:
    """A stored state with every text in it replaced by the next hostile one, and another as a key."""
    if isinstance(value, dict):
        return {**{key: planted(part, texts) for key, part in value.items()}, next(texts): next(texts)}
    if isinstance(value, list):
        return [planted(part, texts) for part in value] or [next(texts)]
    return next(texts)


def states(kept: dict[str, str]) -> Iterator[dict[str, str]]:
    """For each key of the site, what it may be replaced by: states full of hostile text, and hostile text itself."""
    for group in GROUPS:
        texts = itertools.cycle(group)
        yield {key: json.dumps(planted(json.loads(value), texts)) for key, value in kept.items()}
    for first, second, third in zip(CORPUS[::3], CORPUS[1::3], CORPUS[2::3], strict=False):
        palette = json.dumps({"index": 0, "color": {"scheme": first, "primary": second}})
        yield {"tinwright.seam-check": first, "tinwright.find-cause": second, "tinwright.palette": palette} | {
            f"tinwright.practice.{text}": text for text in (first, second, third)
        }
    yield {"tinwright.palette": CORPUS[0], "tinwright.seam-check": CORPUS[-1]}


@pytest.mark.slow
def test_no_stored_state_runs_whatever_it_holds(page: Page, over_http: str, ran: list[str]) -> None:
    page.goto(f"{over_http}seam-check.html")
    page.fill("#sc-0-body-hook", ".078")
    page.goto(f"{over_http}find-the-cause.html")
    page.locator("tw-find-cause input[type=checkbox]").first.check(force=True)
    page.locator("label[for=__palette_1]").click()
    kept = dict(page.evaluate("Object.entries(localStorage)"))
    assert sorted(kept) == ["tinwright.find-cause", "tinwright.palette", "tinwright.seam-check"]
    for state in states(kept):
        page.evaluate(
            "state => { localStorage.clear(); for (const [key, value] of Object.entries(state)) localStorage.setItem(key, value); }",
            state,
        )
        for name in ("seam-check.html", "find-the-cause.html", "on-this-device.html"):
            page.goto(over_http + name)
            nothing_ran(page)
        listed = page.locator("tw-on-this-device")
        expect(listed.locator("summary")).to_have_count(len(state))
        shown = squeezed(str(listed.text_content()))
        for key, value in state.items():
            assert squeezed(f"{key}={value}") in shown
    assert ran == []


@pytest.mark.usefixtures("ran")
def test_no_file_of_readings_runs_in_its_report(page: Page, kb: KnowledgeBase, tmp_path: Path) -> None:
    example = (ROOT / "docs" / "readings-example.csv").read_text(encoding="utf-8")
    for text in CORPUS:
        cell = '"' + text.replace('"', '""').replace("\n", " ") + '"'
        file = tmp_path / "readings.csv"
        file.write_text(
            example.replace("2026-11-A", cell).replace("2026-11-20", cell).replace(",.062,", f",{cell},", 1),
            encoding="utf-8",
        )
        sheet = read_sheet(file, kb)
        report = tmp_path / "report.html"
        report.write_text(report_html(kb, advise_on_sheet(kb, sheet), sheet.settings), encoding="utf-8")
        page.goto(report.as_uri())
        nothing_ran(page)
        assert squeezed(text) in squeezed(page.evaluate("document.body.textContent"))


def test_the_canary_sings_when_something_runs(page: Page, over_http: str) -> None:
    """The test of the tests: what they look for is seen when it is there."""
    page.goto(over_http)
    page.evaluate(
        "document.querySelector('article').innerHTML = '<img src=x onerror=window.__hit=1><a href=javascript:1>x</a>'"
    )
    page.wait_for_function("window.__hit === 1")
    assert len(page.evaluate(WHAT_MIGHT_RUN)) == 3
