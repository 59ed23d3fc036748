"""Practice quizzes on the built site: what is there, what works without a script, and what must never be there."""

from __future__ import annotations

import html
import json
import re
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from tinwright.advice import drawings
from tinwright.advice.generated_questions import generate
from tinwright.advice.item_questions import question_of
from tinwright.knowledge.bank import load_bank
from tinwright.quizzes.scoring import RULES
from tinwright.site import build_site
from tinwright.site.quiz_pages import practice_of

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping

    from bs4 import BeautifulSoup

    from tinwright.knowledge import KnowledgeBase
    from tinwright.knowledge.bank import Bank
    from tinwright.knowledge.models.item import Item

ROOT = Path(__file__).parents[2]


def plain(text: str) -> str:
    """A text without tags, entities, escapes, links and double spaces, so that none of them can hide it."""
    text = re.sub(r"\\u([0-9a-f]{4})", lambda match: chr(int(match[1], 16)), text)
    text = html.unescape(re.sub(r"<[^>]*>", " ", text))
    text = re.sub(r"\[\[[^\]|]+\|([^\]]+)\]\]", r"\1", text)
    return " ".join(re.sub(r"\W+", " ", text).lower().split())


def texts_of(item: Item) -> Iterator[str]:
    """Yield every text of an item that a reader could recognize: the question, its choices, its reasons."""
    question = question_of(item)
    yield question.text
    yield question.why
    if question.asks != "point":
        yield from (choice.text for choice in question.choices)
    yield from (choice.why for choice in question.choices)
    yield from question.lefts
    yield from (why for _, why in question.wrong_numbers)
    yield from (why for each in getattr(item, "mistakes", ()) for why in [getattr(each, "why", "")])
    yield from (pair.why for pair in getattr(item, "pairs", ()))


@pytest.fixture(scope="module")
def published(site_folder: Path) -> str:
    """Every text file of the built site, as one plain text."""
    kinds = {".html", ".js", ".json", ".xml", ".txt", ".css", ".csv", ".svg", ".map"}
    files = [file for file in sorted(site_folder.rglob("*")) if file.suffix in kinds]
    return "\n".join(plain(file.read_text(encoding="utf-8")) for file in files)


def test_every_practice_question_is_on_the_site(published: str, bank: Bank) -> None:
    assert len(bank.practice) > 100
    assert [item.id for item in bank.practice.values() if plain(item.question) not in published] == []


def test_no_examination_item_is_on_the_site(published: str, site_folder: Path, bank: Bank, kb: KnowledgeBase) -> None:
    raw = "\n".join(
        file.read_text(encoding="utf-8", errors="replace")
        for file in sorted(site_folder.rglob("*"))
        if file.suffix in {".html", ".js", ".json", ".xml", ".txt"}
    )
    in_practice = "\n".join(plain(text) for item in bank.practice.values() for text in texts_of(item))
    site = build_site(kb)
    elsewhere = plain("\n".join([*(page.text for page in site.pages), *map(str, (a.content for a in site.assets))]))
    assert len(bank.examination) >= 60
    found = []
    for item in bank.examination.values():
        if item.id in raw:
            found.append(item.id)
        found += [
            f"{item.id}: {text}"
            for text in map(plain, texts_of(item))
            if len(text.split()) >= 5 and text not in in_practice and text not in elsewhere and text in published
        ]
    assert found == []


def test_the_site_is_made_without_reading_the_examination(tmp_path: Path, kb: KnowledgeBase) -> None:
    for part in ("topics.yml", "practice/parts.yml"):
        target = tmp_path / "quizzes" / part
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_bytes((ROOT / "quizzes" / part).read_bytes())
    (tmp_path / "quizzes" / "examination").mkdir()
    (tmp_path / "quizzes" / "examination" / "broken.yml").write_text("- {", encoding="utf-8")
    site = build_site(kb, bank=load_bank(tmp_path / "quizzes", kb))
    made = {page.uri for page in site.pages if page.uri.startswith("quizzes/")}
    from_records = {f"quizzes/{question.topic}.md" for question in generate(kb)}
    assert made == {"quizzes/index.md", "quizzes/parts.md", "quizzes/mixed.md"} | from_records


def test_without_a_bank_there_is_no_quiz_and_no_door_to_one(kb: KnowledgeBase) -> None:
    pages = {page.uri: page.text for page in build_site(kb).pages}
    assert [uri for uri in pages if uri.startswith("quizzes")] == []
    assert "Take a quiz" not in pages["index.md"]


def test_home_and_menu_lead_to_the_quizzes(pages: Mapping[str, BeautifulSoup]) -> None:
    assert pages["index.html"].select_one('article a.tw-door[href="quizzes/index.html"]') is not None
    assert pages["index.html"].select_one('nav a[href="quizzes/index.html"]') is not None


def test_without_a_script_each_question_has_its_answer_folded_under_it(
    pages: Mapping[str, BeautifulSoup], bank: Bank
) -> None:
    for item in bank.practice.values():
        place = pages[f"quizzes/{item.topic}.html"].select_one(f"#q-{item.id}")
        assert place is not None
        folded = place.select_one("details:not([open])")
        assert folded is not None
        told = plain(folded.decode_contents())
        folded.extract()
        assert plain(item.why) in told
        assert plain(item.question) in plain(str(place))
        assert plain(item.why) not in plain(str(place))


def test_steps_and_pairs_are_not_listed_in_their_right_order(bank: Bank, kb: KnowledgeBase) -> None:
    mixed = [each.question for each in practice_of(bank, kb) if each.question.asks in {"order", "match"}]
    assert len(mixed) > 10
    for question in mixed:
        assert question.key != tuple(range(len(question.choices)))
        item = bank.practice.get(question.id)
        if item is None:
            continue  # made from the records
        right = [question.choices[place].text for place in question.key]
        assert right == (list(item.steps) if question.asks == "order" else [pair.right for pair in item.pairs])  # type: ignore[attr-defined]


def test_a_page_that_is_taught_says_how_many_questions_there_are_and_leads_to_the_first(
    pages: Mapping[str, BeautifulSoup], bank: Bank, kb: KnowledgeBase
) -> None:
    name = "procedure/inspect-cans-and-lids"
    teaching = [name in each.teaches for each in (*bank.practice.values(), *generate(kb))].count(True)
    link = pages["procedures/inspect-cans-and-lids.html"].select_one(".tw-practice a")
    assert link is not None
    assert link.get_text() == f"{teaching} questions on this page"
    id_ = str(link["href"]).partition("#q-")[2]
    assert bank.practice[id_].teaches[0] == name
    assert str(link["href"]) == f"../quizzes/{bank.practice[id_].topic}.html#q-{id_}"


def test_a_drawing_to_be_named_does_not_give_its_name_away(kb: KnowledgeBase) -> None:
    for defect in kb.defects.values():
        svg = drawings.unnamed(defect, "x")
        assert "What is drawn here?" in svg
        for name in (defect.title, *defect.also, defect.id):
            assert re.search(rf"\b{re.escape(name.lower())}\b", svg.lower()) is None


def test_a_drawing_to_be_named_can_be_described_when_every_text_names_it(kb: KnowledgeBase) -> None:
    droop = kb.defects["droop"]
    everywhere = droop.model_copy(update={"also": ("seam",), "summary": "A seam with a droop."})
    svg = drawings.unnamed(everywhere, "x")
    assert "<desc" in svg
    assert "droop" not in svg.lower()


def test_the_rules_of_scoring_are_told(text_of: Callable[[str], str]) -> None:
    told = text_of("quizzes/index.html")
    assert [rule for rule in RULES.values() if rule not in told] == []
    assert "80 percent of the points passes" in told
    assert "proves nothing" in told


def test_the_data_holds_the_topic_alone(site_folder: Path, bank: Bank, kb: KnowledgeBase) -> None:
    made = generate(kb)
    for topic in bank.topics:
        wanted = [item.id for item in bank.practice.values() if item.topic == topic]
        wanted += [question.id for question in made if question.topic == topic]
        file = site_folder / "assets" / f"quiz-{topic}.js"
        if not wanted:
            assert not file.exists()
            continue
        data = json.loads(file.read_text(encoding="utf-8").partition(".push(")[2].rstrip().removesuffix(");"))
        assert [item["id"] for item in data["items"]] == wanted
