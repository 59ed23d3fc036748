"""Cards, chart and blank sheets of the demonstration."""

from __future__ import annotations

import io
import re
from typing import TYPE_CHECKING

import pytest
import yaml
from pypdf import PdfReader

from demo_site import ROOT
from once import value_once
from paper.reading import codes, pdf_ua_faults, picture, second_opinion, texts, type_sizes, words
from small_kitchen import lay_down
from tinwright.advice.readings_file import BLANK_FORM
from tinwright.advice.set_ups import all_sheets
from tinwright.knowledge import load
from tinwright.logbook.sheet_file import BLANK_SHEET
from tinwright.paper import (
    Press,
    Printed,
    adjustment_cards,
    bench_log_sheet,
    caution_card,
    seam_readings_sheet,
    set_up_cards,
    visual_check_sheet,
    wall_chart,
)

if TYPE_CHECKING:
    from pathlib import Path

    from tinwright.knowledge import KnowledgeBase

pytestmark = pytest.mark.slow

SITE = "https://canning.example.org/extension/"
LETTER = (8.5 * 72, 11 * 72)


def address(uri: str) -> str:
    return SITE + uri.replace(".md", ".html")


@pytest.fixture(scope="module")
def press(kb: KnowledgeBase) -> Press:
    return Press(kb, address=address)


@pytest.fixture(scope="module")
def all_cards(press: Press, tmp_path_factory: pytest.TempPathFactory) -> Printed:
    sheets = list(all_sheets(press.kb).values())

    def print_them() -> Printed:
        return set_up_cards(press, sheets, name="set-up.pdf", title="Set-up cards")

    return value_once(tmp_path_factory, "set-up-cards", print_them)


@pytest.fixture(scope="module")
def few(press: Press, tmp_path_factory: pytest.TempPathFactory) -> dict[str, Printed]:
    """Every other card, the second roller's among them, and the blank sheets."""

    def print_them() -> list[Printed]:
        return [
            *(adjustment_cards(press, sealer) for sealer in press.kb.sealers.values()),
            *(wall_chart(press, letter=letter) for letter in (False, True)),
            caution_card(press),
            seam_readings_sheet(press),
            visual_check_sheet(press),
            bench_log_sheet(press),
        ]

    return {printed.name: printed for printed in value_once(tmp_path_factory, "other-cards", print_them)}


def sizes(content: bytes) -> set[tuple[float, float]]:
    return {(float(s.mediabox.width), float(s.mediabox.height)) for s in PdfReader(io.BytesIO(content)).pages}


def test_every_set_up_card_is_one_side_of_one_letter_sheet(all_cards: Printed, kb: KnowledgeBase) -> None:
    pairs = list(all_sheets(kb).values())
    pages = texts(all_cards.content)
    assert pairs
    assert len(pages) == all_cards.pages == len(pairs)
    assert sizes(all_cards.content) == {LETTER}
    for text, sheet in zip(pages, pairs, strict=True):
        assert sheet.can.code in text
        assert sheet.sealer.title in text
        assert ("Do not seal this can on this sealer." in text) == (not sheet.works)


def test_a_set_up_card_says_what_to_fit(all_cards: Printed, kb: KnowledgeBase) -> None:
    """Set-ups themselves are checked against the sealers' files in tests/site/test_set_up_sheets.py."""
    for text, sheet in zip(texts(all_cards.content), all_sheets(kb).values(), strict=True):
        if sheet.works:
            chuck = sheet.can.code.split("x")[0]
            assert f"Chuck {chuck} Roller position {sheet.set_up.slot or 'no change needed'}" in text
            stack = sheet.set_up.stack.exact
            assert stack is not None
            assert all(f"{number} × {spacer.name}," in text for spacer, number in stack.pieces)
            steps = [
                text.index(title) for title in ("Set the base height", "Set the first roller", "Set the second roller")
            ]
            assert steps == sorted(steps)
            assert "invented as an example" in text


def test_a_set_up_card_is_read_from_where_one_stands_at_the_machine(
    press: Press, all_cards: Printed, tmp_path: Path
) -> None:
    """Of the demonstration and of the starter. How small is too small to hang up: our own bounds, no source.

    What only repeats or proves (the lettering of the drawing, how a figure is known) may be smaller.
    """
    lay_down(tmp_path / "ours")
    own = Press(load(tmp_path / "ours" / "content"), address=address)
    starters = set_up_cards(own, list(all_sheets(own.kb).values()), name="set-up.pdf", title="Set-up cards")
    number = 0
    for pieces in [*type_sizes(all_cards.content), *type_sizes(starters.content)]:
        said = [text for _, text in pieces]
        if "Chuck" not in said:
            assert min(size for size, text in pieces if "Do not seal" in text) >= 18
            continue
        number += 1
        foot = next(place for place, text in enumerate(said) if text.startswith("The sealer’s figures"))
        at_work = [piece for piece in pieces[said.index("Chuck") : foot] if "to scale" not in piece[1]]
        assert [piece for piece in at_work if piece[0] < 9] == []
        steps = [size for size, text in at_work if text in {"Fit the chuck", "Set the first roller", "Make a test can"}]
        assert len(steps) == 3
        assert min(steps) >= 10
        assert pieces[said.index("Chuck") + 1][0] >= 24
    assert number == sum(sheet.works for kb in (press.kb, own.kb) for sheet in all_sheets(kb).values()) > 10


def test_a_card_for_each_roller_and_for_the_base_on_a_page_each(few: dict[str, Printed], kb: KnowledgeBase) -> None:
    for sealer in kb.sealers.values():
        base, first, second = texts(few[f"adjustment-{sealer.id}.pdf"].content)
        assert "Base: height and pressure" in base
        assert "RAISE THE BASE HEIGHT" in base.upper()
        assert "LOWER THE BASE PRESSURE" in base.upper()
        for text, roller in ((first, "FIRST"), (second, "SECOND")):
            assert f"TIGHTEN THE {roller} ROLLER" in text.upper()
            assert f"LOOSEN THE {roller} ROLLER" in text.upper()
            assert f"REPLACE THE {roller} ROLLER" in text.upper()
        assert "The second operation cannot fix the first" in first
        assert "The second operation cannot fix the first" in second


@pytest.mark.parametrize(("adjuster", "sheet"), [("first-roller", 1), ("second-roller", 2)])
def test_a_roller_card_gives_the_signs_and_the_way_to_turn_of_the_records(
    few: dict[str, Printed], adjuster: str, sheet: int
) -> None:
    """Against the YAML itself: the way to turn stands under its own heading, with the largest step."""
    for file in (ROOT / "content/sorrel-county/sealers").glob("*.yml"):
        sealer = yaml.safe_load(file.read_text(encoding="utf-8"))
        screw = next(screw for screw in sealer["adjusters"] if screw["adjuster"] == adjuster)
        text = texts(few[f"adjustment-{file.stem}.pdf"].content)[sheet]
        parts = re.split(r"(?i)\b(tighten|loosen|replace) the (?:first|second) roller (?=First|Second)", text)
        said = dict(zip(parts[1::2], parts[2::2], strict=True))
        for way in ("tighten", "loosen"):
            block = next(value for key, value in said.items() if key.lower() == way)
            assert words(screw[way]) in block
            if "safe_step" in screw:
                assert f"At most {screw['safe_step']}." in block


def test_the_chart_shows_every_defect_that_is_seen_from_outside(few: dict[str, Printed]) -> None:
    titles = set()
    for file in (ROOT / "content/shared/defects").glob("*.yml"):
        defect = yaml.safe_load(file.read_text(encoding="utf-8"))
        if "outside" in defect["figure"] and not defect.get("measured"):
            titles.add(defect["title"])
    poster, letter = few["wall-chart-11x17.pdf"], few["wall-chart-letter.pdf"]
    assert len(titles) > 20
    for printed in (poster, letter):
        text = " ".join(texts(printed.content)).replace("- ", "-")
        assert {title for title in titles if title not in text} == set()
        assert text.count("Look first for:") == len(titles)
    assert poster.pages == 1
    assert sizes(poster.content) == {(11 * 72, 17 * 72)}
    assert sizes(letter.content) == {LETTER}


def test_the_caution_card_names_every_hazard_to_people_on_one_page(few: dict[str, Printed], kb: KnowledgeBase) -> None:
    (text,) = texts(few["caution-card.pdf"].content)
    hazards = [caution for caution in kb.cautions.values() if caution.signal != "NOTICE"]
    assert [c.title for c in hazards if c.id != "botulism" and f"{c.title}." not in text] == []
    assert "call 911" in text
    assert text.index("WARNING") < text.index("CAUTION")


def test_the_form_for_readings_has_the_settings_and_columns_of_the_file(few: dict[str, Printed]) -> None:
    (text,) = texts(few["seam-readings.pdf"].content)
    lines = [line for line in BLANK_FORM.splitlines() if line and not line.startswith("#")]
    settings = [line.split(",")[0] for line in lines[: lines.index(next(x for x in lines if x.startswith("can no")))]]
    columns = lines[len(settings)].split(",")
    assert [name for name in (*settings, *columns) if name.capitalize() not in text] == []


def test_the_sheet_of_the_bench_log_is_one_page_with_the_settings_and_columns_of_its_file(
    few: dict[str, Printed], kb: KnowledgeBase
) -> None:
    (text,) = texts(few["bench-log.pdf"].content)
    assert sizes(few["bench-log.pdf"].content) == {LETTER[::-1]}
    lines = [line for line in BLANK_SHEET.splitlines() if not line.startswith("#")]
    settings = [line.split(",")[0] for line in lines[: next(n for n, x in enumerate(lines) if x.startswith("line,"))]]
    columns = lines[len(settings)].split(",")
    assert [name for name in (*settings, *columns) if name.capitalize() not in text] == []
    assert f"every {kb.programme.policy.recheck_minutes} minutes or {kb.programme.policy.recheck_cans} cans" in text
    assert "hold every can sealed on this sealer since the last good check" in text
    places: dict[str, float] = {}
    (sheet,) = PdfReader(io.BytesIO(few["bench-log.pdf"].content)).pages
    sheet.extract_text(visitor_text=lambda word, cm, tm, *_: places.update({word.strip(): tm[4] * cm[0] + cm[4]}))
    assert places["Struck"] < LETTER[1] - 0.5 * 72 - 20, places


def test_the_check_sheet_lists_what_is_seen_or_felt(few: dict[str, Printed], kb: KnowledgeBase) -> None:
    (text,) = texts(few["visual-check.pdf"].content)
    seen = [d for d in kb.defects.values() if not d.measured and {"see", "feel"} & set(d.found_by)]
    assert [defect.title for defect in seen if f"{defect.title}." not in text] == []


def test_all_pass_both_checkers_of_pdf_ua(few: dict[str, Printed], all_cards: Printed, tmp_path: Path) -> None:
    for printed in (*few.values(), all_cards):
        assert pdf_ua_faults(printed.content) == [], printed.name
        assert second_opinion(printed.content, tmp_path) == [], printed.name


def test_the_code_on_a_card_leads_to_its_page(few: dict[str, Printed], all_cards: Printed, tmp_path: Path) -> None:
    """Read back from the picture of the page by a reader of its own (ZXing)."""
    assert codes(picture(all_cards.content, tmp_path)) == [f"{SITE}set-up/bench-crank-sealer-202x214.html"]
    expected = {
        "wall-chart-11x17.pdf": "defects/index.html",
        "caution-card.pdf": "cautions/index.html",
        "seam-readings.pdf": "seam-check.html",
        "visual-check.pdf": "defects/index.html",
        "bench-log.pdf": "bench-log.html",
    }
    found = {name: codes(picture(few[name].content, tmp_path)) for name in expected}
    assert found == {name: [SITE + uri] for name, uri in expected.items()}
    rollers = few["adjustment-motor-sealer.pdf"].content
    assert codes(picture(rollers, tmp_path, sheet=2)) == [f"{SITE}procedures/set-first-roller.html"]


def test_without_a_site_there_is_no_code(kb: KnowledgeBase, tmp_path: Path) -> None:
    content = caution_card(Press(kb)).content
    assert codes(picture(content, tmp_path)) == []
    assert "example.org" not in " ".join(texts(content))


def test_the_same_cards_have_the_same_bytes(press: Press, few: dict[str, Printed]) -> None:
    assert caution_card(press).content == few["caution-card.pdf"].content
    sealer = press.kb.sealers["motor-sealer"]
    assert adjustment_cards(press, sealer).content == few["adjustment-motor-sealer.pdf"].content
