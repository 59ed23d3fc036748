"""The journeys in Firefox and in WebKit, under the strict policy and from the disk: word for word what Chromium shows."""

from __future__ import annotations

import functools
import http.server
import json
import shutil
import threading
from contextlib import contextmanager
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import pytest

from browser.engines import ENGINES
from demo_site import ROOT
from examining.exam_banks import lay_bank, made_from
from tinwright.examining.exam_page import exam_page
from tinwright.examining.form import questions_of
from tinwright.quizzes.scoring import write_answer
from tinwright.site.hosting import headers

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

    from playwright.sync_api import BrowserContext, Page

    from browser.engines import Engine
    from tinwright.knowledge import KnowledgeBase

pytestmark = pytest.mark.browser

HELP = """
const until = async (find, what) => {
  for (let times = 0; times < 3000; times++) {
    const found = find();
    if (found) return found;
    await new Promise((go) => setTimeout(go, 20));
  }
  throw new Error(`never there: ${what}`);
};
const one = (css) => until(() => document.querySelector(css), css);
const words = (css) => [...document.querySelectorAll(css)].map((part) => part.textContent.replace(/\\s+/g, " ").trim());
const shown = (css) => until(() => [...document.querySelectorAll(css)].find((part) => part.getClientRects().length), css);
const fill = async (css, text) => {
  const field = await one(css);
  field.value = text;
  for (const name of ["input", "change"]) field.dispatchEvent(new Event(name, { bubbles: true }));
};
const Real = Date, now = Date.parse("2026-11-26T09:00:00");
globalThis.Date = class extends Real {
  constructor(...told) { super(...(told.length ? told : [now])); }
  static now() { return now; }
};
const tap = async (name) => (await until(() =>
  [...document.querySelectorAll("button")].find((key) => key.getClientRects().length && key.textContent.trim() === name), name)).click();
"""

LOOSE = [
    {"countersink": ".125", "seam-width": ".118", "seam-thickness": ".055", "body-hook": ".090", "cover-hook": ".060"}
] * 3


@dataclass(frozen=True)
class Journey:
    """Pages, what is done on each, and words that the last must show."""

    steps: tuple[tuple[str, str], ...]
    ends_with: str


JOURNEYS = {
    "a seam that droops": Journey(
        (
            (
                "defects/droop.html",
                """
                await fill("#your-sealer", "bench-crank-sealer");
                for (let check = 1; !document.body.textContent.includes("never"); check++) {
                  const fix = (await shown(".tw-check")).textContent;
                  if (fix.includes("first roller") && fix.includes("Tighten")) break;
                  (await shown(".tw-check .tw-answer--no a")).click();
                }
                (await shown(".tw-check .tw-answer--yes a")).click();
                return [(await shown(".tw-fix")).textContent.replace(/\\s+/g, " ")];
                """,
            ),
            ("defects/sharp-seam.html", 'return [(await one("#your-sealer")).value];'),
        ),
        "bench-crank-sealer",
    ),
    "readings of a seam": Journey(
        (
            (
                "seam-check.html",
                f"""
                await fill("#sc-spec", "demo-307");
                await fill("#sc-sealer", "bench-crank-sealer");
                for (const [point, row] of {json.dumps(LOOSE)}.entries())
                  for (const [name, text] of Object.entries(row)) await fill(`#sc-${{point}}-${{name}}`, text);
                await one(".tw-causes li");
                return words(".tw-bench__result");
                """,
            ),
        ),
        "Tighten the first roller.",
    ),
    "a sealing day": Journey(
        (
            (
                "bench-log.html",
                """
                await one("#bl-sealer");
                for (const [name, text] of [["sealer", "bench-crank-sealer"], ["can", "307x409"], ["lid_lot", "A1"], ["product", "beans"], ["supervisor", "AE"]])
                  await fill(`#bl-${name}`, text);
                await tap("Begin");
                for (const good of [1, 2]) {
                  await tap("Test can");
                  if (good === 1) (await one("#bl-torn_down")).click();
                  await tap("Good");
                }
                await tap("+6");
                await tap("+6");
                await tap("Look");
                await fill("#bl-defect", "droop");
                await tap("Bad");
                return [(await one(".tw-log__stop h2, .tw-log__stop")).textContent.replace(/\\s+/g, " ")];
                """,
            ),
        ),
        "Hold cans 1 to 12",
    ),
    "a round of questions": Journey(
        (
            (
                "quizzes/cautions.html",
                """
                (await one("tw-quiz")).dataset.seed = 7;
                await tap("Start");
                const said = [];
                for (const question of [1, 2, 3]) {
                  const first = await one(".tw-quiz__body fieldset input, .tw-quiz__body select");
                  if (first.type === "radio" || first.type === "checkbox") first.click();
                  await tap("Check the answer");
                  await one(".tw-quiz__feedback");
                  said.push(...words(".tw-quiz__body"));
                  await tap("Next question");
                }
                return said;
                """,
            ),
        ),
        "Review and finish",
    ),
    "a certificate": Journey(
        (
            (
                "verify-a-certificate.html",
                f"""
                await fill("#vc-text", {json.dumps((ROOT / "docs" / "certificate-example.json").read_text(encoding="utf-8"))});
                document.querySelector("#vc-text").closest("details").open = true;
                await tap("Check this text");
                await one(".tw-verdict__word");
                return words("tw-verify-certificate [role=status]");
                """,
            ),
        ),
        "Genuine",
    ),
}


class _Strict(http.server.SimpleHTTPRequestHandler):
    """Answers as the printed settings for a web server would, strict policy included."""

    def end_headers(self) -> None:
        for name, value in headers().items():
            self.send_header(name, value)
        super().end_headers()

    def log_message(self, format: str, *arguments: object) -> None:  # noqa: A002 the library's name
        """Print nothing."""


@contextmanager
def strictly_served(folder: Path) -> Iterator[tuple[str, http.server.ThreadingHTTPServer]]:
    server = http.server.ThreadingHTTPServer(("127.0.0.1", 0), functools.partial(_Strict, directory=str(folder)))
    thread = threading.Thread(target=server.serve_forever, daemon=True)
    thread.start()
    try:
        yield f"http://127.0.0.1:{server.server_port}/", server
    finally:
        server.shutdown()
        server.server_close()


@pytest.fixture(params=ENGINES)
def engine(request: pytest.FixtureRequest) -> Iterator[Engine]:
    begun, programs = ENGINES[request.param]
    if missing := [program for program in programs if shutil.which(program) is None]:
        pytest.skip(f"not installed: {', '.join(missing)}")
    with begun() as engine:
        yield engine


@pytest.fixture(scope="module")
def strict(site_folder: Path) -> Iterator[str]:
    with strictly_served(site_folder) as (address, _):
        yield address


@pytest.fixture
def chromium(new_context: Callable[[], BrowserContext]) -> _Chromium:
    return _Chromium(new_context().new_page())


class _Chromium:
    def __init__(self, page: Page) -> None:
        self._page = page

    def open(self, address: str) -> None:
        self._page.goto(address)

    def run(self, code: str) -> Any:
        return self._page.evaluate(f"async () => {{{code}}}")


def transcript(engine: Engine, address: str, journey: Journey) -> list[list[str]]:
    said = []
    for page, done in journey.steps:
        engine.open(f"{address}{page}")
        said.append(engine.run(HELP + done))
    return said


@pytest.mark.parametrize("name", JOURNEYS)
@pytest.mark.parametrize("where", ["strict", "from_disk"])
def test_a_journey_reads_the_same_in_every_engine(
    engine: Engine, chromium: _Chromium, where: str, name: str, request: pytest.FixtureRequest
) -> None:
    address, journey = request.getfixturevalue(where), JOURNEYS[name]
    expected = transcript(chromium, address, journey)
    assert journey.ends_with in " ".join(expected[-1])
    assert transcript(engine, address, journey) == expected


def test_an_examination_is_saved_byte_for_byte_the_same(
    engine: Engine, chromium: _Chromium, tmp_path: Path, kb: KnowledgeBase
) -> None:
    made = made_from(lay_bank(tmp_path / "bank"), kb, seed=15)[1]
    file = tmp_path / "form.html"
    file.write_text(exam_page(made.form, kb), encoding="utf-8")
    answers = [
        [f"#q{number}", write_answer(question.answer if question.asks == "number" else question.key).split()]
        for number, question in enumerate(questions_of(made.form, made.key), 1)
    ]
    whole = Journey((("form.html", SAT.replace("ANSWERS", json.dumps(answers))),), "V0001")
    expected = transcript(chromium, f"{tmp_path.as_uri()}/", whole)
    assert whole.ends_with in " ".join(expected[-1])
    assert transcript(engine, f"{tmp_path.as_uri()}/", whole) == expected


SAT = """
await fill("#person", "V0001");
await fill("#taken-on", "2026-11-25");
for (const [part, letters] of ANSWERS) {
  const fields = [...document.querySelectorAll(`${part} select`)];
  const typed = document.querySelector(`${part} input:not([type=radio], [type=checkbox])`);
  if (typed) await fill(`#${typed.id}`, letters.join(" "));
  else if (fields.length) for (const [place, field] of fields.entries()) await fill(`#${field.id}`, letters[place]);
  else for (const letter of letters) document.querySelector(`${part} input[value=${letter}]`).click();
}
await tap("Look over and save");
await tap("Save my answers");
return [(await shown("#saved-text")).value];
"""


def test_the_copy_kept_for_offline_opens_with_the_server_stopped(engine: Engine, site_folder: Path) -> None:
    with strictly_served(site_folder) as (address, _):
        engine.open(f"{address}index.html")
        engine.run(f"{HELP} const kept = await navigator.serviceWorker.ready;"
                   " await until(() => kept.active.state === 'activated', 'the copy'); return true;")  # fmt: skip
    engine.open(f"{address}defects/droop.html")
    assert engine.run('return document.querySelector("h1").firstChild.textContent') == "Droop"
