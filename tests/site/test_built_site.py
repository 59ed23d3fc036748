"""The demonstration site as a browser gets it: links, headings, drawings, and what must stand first."""

from __future__ import annotations

import itertools
import posixpath
import re
from collections import Counter
from typing import TYPE_CHECKING
from urllib.parse import unquote, urlsplit

import pytest

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping
    from pathlib import Path

    from bs4 import BeautifulSoup, Tag

    from tinwright.knowledge import KnowledgeBase

    Pages = Mapping[str, BeautifulSoup]
    Words = Callable[[str], str]

ADDRESSES = {("a", "href"), ("link", "href"), ("img", "src"), ("script", "src"), ("iframe", "src"), ("source", "src")}
_LINK = re.compile(r"\[\[([a-z-]+)/([a-z0-9.-]+)(?:\|([^\]]+))?\]\]")


def addresses(page: BeautifulSoup) -> list[tuple[Tag, str]]:
    found = [(e, str(e[attr])) for tag, attr in ADDRESSES for e in page.find_all(tag) if e.has_attr(attr)]
    return found + [(e, str(e["href"])) for e in page.select("svg a, svg use, svg image") if e.has_attr("href")]


def resolve(address: str, here: str) -> tuple[str, str]:
    parts = urlsplit(address)
    path = posixpath.normpath(posixpath.join(posixpath.dirname(here), unquote(parts.path))) if parts.path else here
    return path, unquote(parts.fragment)


def links_of(pages: Pages, here: str, within: str = "article") -> set[str]:
    """Where the links of a page's own part lead, as `page#anchor` or `page`."""
    found = set()
    for a in pages[here].select(f"{within} a[href]"):
        if not urlsplit(str(a["href"])).scheme:
            path, anchor = resolve(str(a["href"]), here)
            found |= {path, f"{path}#{anchor}"} if anchor else {path}
    return found


def spoken(text: str, kb: KnowledgeBase) -> str:
    """A text of a record as its page says it."""

    def label(match: re.Match[str]) -> str:
        record = kb.records[match[1], match[2]]
        return match[3] or getattr(record, "short", None) or record.name

    return "".join(_LINK.sub(label, text).split())


def test_every_kind_of_page_was_built(pages: Pages, kb: KnowledgeBase) -> None:
    expected = {f"{r.folder}/{r.id}.html" for (kind, _), r in kb.records.items() if kind != "programme"}
    expected |= {f"trees/{id_}.html" for id_ in kb.defects} | {"index.html", "reference.html", "trees/index.html"}
    assert expected <= set(pages)


def test_every_link_and_anchor_inside_the_site_resolves(pages: Pages, site_folder: Path) -> None:
    ids = {here: {str(e["id"]) for e in page.find_all(id=True)} for here, page in pages.items()}
    broken = []
    for here, page in pages.items():
        for element, address in addresses(page):
            if urlsplit(address).scheme:
                continue
            target, anchor = resolve(address, here)
            if target in pages:
                if anchor and anchor not in ids[target] and not anchor.startswith("__"):
                    broken.append(f"{here}: {address}: no such anchor")
            elif not (site_folder / target).is_file():
                broken.append(f"{here}: {element.name} {address}")
    assert broken == []


def test_nothing_is_asked_of_another_host(pages: Pages, site_folder: Path) -> None:
    for here, page in pages.items():
        outside = [(e.name, a) for e, a in addresses(page) if urlsplit(a).scheme or a.startswith("//")]
        assert {name for name, _ in outside} <= {"a"}, here
        assert all(urlsplit(address).scheme in {"http", "https"} for _, address in outside), here
    for sheet in (site_folder / "assets").rglob("*.css"):
        assert not re.search(r"(@import|url\()\s*['\"]?(https?:)?//", sheet.read_text(encoding="utf-8")), sheet.name


def test_links_that_leave_the_site_stand_only_on_the_pages_of_sources(pages: Pages) -> None:
    leaving = {
        here for here, page in pages.items() for a in page.select("article a[href]") if urlsplit(str(a["href"])).scheme
    }
    assert {here for here in leaving if not here.startswith("sources/")} == set()


def test_our_pages_hold_no_script_style_or_event_handler(pages: Pages) -> None:
    for here, page in pages.items():
        inline = [
            s
            for s in page.select("article script")
            if not s.has_attr("src") and s.get("type") not in {"application/json", "application/ld+json"}
        ]
        assert inline == [], here
        assert [e.name for e in page.select("article style, article iframe, article object")] == [], here
        assert [name for e in page.find_all(True) for name in e.attrs if name.startswith("on")] == [], here


def test_every_page_says_its_language_and_has_one_heading_and_a_title_of_its_own(pages: Pages) -> None:
    titles = Counter()
    for here, page in pages.items():
        assert page.html is not None
        assert page.html["lang"] == "en", here
        assert len(page.find_all("h1")) == 1, here
        levels = [int(h.name[1]) for h in page.select("article :is(h1, h2, h3, h4, h5, h6)")]
        assert levels[0] == 1, here
        assert all(after - before <= 1 for before, after in itertools.pairwise(levels)), here
        assert page.title is not None
        titles[page.title.get_text()] += 1
    doubled = [title for title, number in titles.items() if number > 1]
    # a term and a part, or a part and an adjuster, may be called the same; not more than two pages are
    assert [title for title in doubled if titles[title] > 2] == []


def test_the_title_of_a_records_page_is_its_name(pages: Pages, kb: KnowledgeBase) -> None:
    for (kind, _), record in kb.records.items():
        if kind not in {"programme", "source"}:
            title = pages[f"{record.folder}/{record.id}.html"].title
            assert title is not None
            assert title.get_text().startswith(f"{record.name} - ")


def test_every_drawing_is_named_and_described_once(pages: Pages) -> None:
    for here, page in pages.items():
        ids = [str(element["id"]) for element in page.find_all(id=True)]
        assert [id_ for id_, number in Counter(ids).items() if number > 1] == [], here
        for svg in page.select("article svg"):
            if svg.get("aria-hidden") == "true":
                continue
            assert svg.get("role") == ("group" if svg.select("a[href]") else "img"), here
            named = str(svg["aria-labelledby"]).split()
            assert {element.name for id_ in named for element in svg.find_all(id=id_)} == {"title", "desc"}, here
            assert all(element.get_text(strip=True) for id_ in named for element in svg.find_all(id=id_)), here


def test_every_drawing_with_ids_uses_them_only_inside_itself(pages: Pages) -> None:
    for here, page in pages.items():
        for svg in page.select("article svg"):
            own = {str(e["id"]) for e in svg.find_all(id=True)}
            used = set(re.findall(r"url\(#([^)]+)\)", str(svg)))
            assert used <= own, here


def test_every_picture_has_alternative_text_and_every_table_has_heads(pages: Pages) -> None:
    for here, page in pages.items():
        assert [img for img in page.find_all("img") if not img.get("alt")] == [], here
        for table in page.find_all("table"):
            assert table.select("thead th"), here
            assert all(th.get("scope") for th in table.select(".tw-table th")), here
        for nav in page.find_all("nav"):
            assert nav.get("aria-label"), here


def test_every_control_in_a_page_has_a_name(pages: Pages) -> None:
    for here, page in pages.items():
        for control in page.select("article :is(input, select, textarea)"):
            labelled = control.find_parent("label") or control.get("aria-label") or control.get("aria-labelledby")
            assert labelled or page.select(f"label[for='{control.get('id')}']"), f"{here}: {control}"


def test_what_to_do_with_the_can_stands_before_anything_else(pages: Pages, kb: KnowledgeBase) -> None:
    for id_, defect in kb.defects.items():
        article = pages[f"defects/{id_}.html"].article
        assert article is not None
        headings = [h["id"] for h in article.find_all("h2")]
        assert headings[0] == "can", id_
        before = article.find("h2").find_all_previous(["ol", "ul", "figure", "table", "aside", "svg"])
        assert [e for e in before if article in e.parents] == [], id_
        said = article.select_one(".tw-red summary .tw-red__can")
        assert said is not None
        assert said.get_text(strip=True), id_
        steps = article.select_one(".tw-red__steps")
        assert steps is not None
        assert "".join(steps.get_text().split()).find(spoken(defect.can_action.steps[0].text, kb)) > 0, id_


def test_a_tree_says_what_to_do_with_the_can_before_its_first_check(pages: Pages, kb: KnowledgeBase) -> None:
    for id_ in kb.defects:
        tree = pages[f"trees/{id_}.html"]
        first = tree.select_one("#check-1")
        assert first is not None
        assert first.find_previous(class_="tw-action") is not None, id_


@pytest.mark.parametrize("kind", ["defect", "cause"])
def test_conflicts_are_shown_with_both_sides_and_the_safe_way(
    pages: Pages, text_of: Words, kb: KnowledgeBase, kind: str
) -> None:
    with_conflicts = [record for record in kb.of_kind(kind).values() if record.conflicts]
    assert with_conflicts
    for record in with_conflicts:
        here = f"{record.folder}/{record.id}.html"
        assert pages[here].find(id="disagree") is not None
        words = "".join(text_of(here).split())
        for conflict in record.conflicts:
            assert f"Thesafeway:{spoken(conflict.safe, kb)}" in words, here
            for text in (conflict.about, *(side.text for side in conflict.sides)):
                assert spoken(text, kb) in words, here


def test_defects_and_causes_are_linked_both_ways(pages: Pages, kb: KnowledgeBase) -> None:
    for id_, defect in kb.defects.items():
        here = f"defects/{id_}.html"
        for link in defect.causes:
            there = f"causes/{link.cause}.html"
            assert {there, f"{there}#correction"} <= links_of(pages, here)
            assert here in links_of(pages, there)


def test_a_record_that_names_another_is_linked_from_it(pages: Pages, kb: KnowledgeBase) -> None:
    for kind, id_ in kb.records:
        if kind in {"programme", "can"}:
            continue
        for other in kb.named_by(kind, id_):
            if other.kind in {"programme", "can", "seam-specification"} or (kind, other.kind) == ("part", "cause"):
                continue
            there = f"{kb.records[kind, id_].folder}/{id_}.html"
            assert f"{other.folder}/{other.id}.html" in links_of(pages, there), f"{there} does not name {other.id}"


def test_the_correction_of_every_cause_is_three_clicks_from_home(pages: Pages, kb: KnowledgeBase) -> None:
    home = links_of(pages, "index.html", within="body")
    assert {"defects/index.html", "trees/index.html"} <= home
    gallery, trees = links_of(pages, "defects/index.html"), links_of(pages, "trees/index.html")
    for id_, defect in kb.defects.items():
        assert f"defects/{id_}.html" in gallery
        assert f"trees/{id_}.html" in trees
        for link in defect.causes:
            assert f"causes/{link.cause}.html#correction" in links_of(pages, f"defects/{id_}.html")
            procedure = f"procedures/{kb.causes[link.cause].correction.procedure}.html"
            assert procedure in links_of(pages, f"trees/{id_}.html")
            assert procedure in links_of(pages, f"causes/{link.cause}.html")


def test_every_page_about_a_cause_says_its_own_order(text_of: Words, kb: KnowledgeBase) -> None:
    for id_, defect in kb.defects.items():
        for link in defect.causes:
            order = kb.causes[link.cause].correction.say
            assert order in text_of(f"defects/{id_}.html")
            assert order in text_of(f"trees/{id_}.html")
    for id_, cause in kb.causes.items():
        text = text_of(f"causes/{id_}.html")
        assert text.count(cause.correction.say) >= 2
        assert "change of nothing" not in text


def test_every_page_is_reached_from_home(pages: Pages) -> None:
    reached, new = {"index.html"}, {"index.html"}
    while new:
        new = {target for here in new for target in links_of(pages, here, within="body") if target in pages} - reached
        reached |= new
    assert set(pages) - reached == set()


def test_pages_that_show_figures_of_a_machine_say_that_they_are_invented(
    pages: Pages, text_of: Words, kb: KnowledgeBase
) -> None:
    showing = [f"sealers/{id_}.html" for id_ in kb.sealers]
    showing += [f"seam-specifications/{id_}.html" for id_ in kb.of_kind("seam-specification")]
    showing += [here for here in pages if here.startswith("set-up/") and here != "set-up/index.html"]
    showing += [here for here in pages if here.startswith("causes/") and "on each sealer" in text_of(here)]
    assert len(showing) > 80
    assert [here for here in showing if "invented as an example" not in text_of(here).lower()] == []
    assert "are invented" in text_of("index.html")


def test_no_page_publishes_limits_of_a_seam_but_the_specifications_marked_invented(
    text_of: Words, kb: KnowledgeBase
) -> None:
    for id_ in kb.of_kind("seam-specification"):
        words = text_of(f"seam-specifications/{id_}.html")
        assert "Do not judge a can by it." in words
        assert "own can supplier" in words
    for id_ in kb.cans:
        assert "Ask the can supplier for the sheet" in text_of(f"cans/{id_}.html")


def test_the_page_of_held_cans_has_the_steps_for_both_sorts_of_cans_with_their_evidence(
    pages: Pages, kb: KnowledgeBase
) -> None:
    page = pages["cans-to-hold.html"]
    for state in ("not-heated", "heated"):
        (heading,) = page.select(f"h2#{state}")
        items = [item for item in heading.find_all_next("li") if item.find_previous("h2") == heading]
        steps = [step for step in kb.procedures["when-a-check-fails"].steps if state in step.held]
        assert len(items) == len(steps) >= 3
        for item, step in zip(items, steps, strict=True):
            assert spoken(step.do, kb) in "".join(item.get_text("").split())
            assert len(item.select(":scope > .tw-evidence")) == 1
    assert "cans-to-hold.html" in links_of(pages, "procedures/when-a-check-fails.html")
    assert "procedures/when-a-check-fails.html" in links_of(pages, "cans-to-hold.html")
