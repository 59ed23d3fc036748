"""Print: what was printed for the site is offered and linked, and nothing else in its folder is."""

from __future__ import annotations

import datetime as dt
import json
import shutil
from typing import TYPE_CHECKING

import pytest
from bs4 import BeautifulSoup
from click.testing import CliRunner
from pypdf import PdfReader

from demo_site import ROOT
from tinwright.cli import main
from tinwright.knowledge import find_problems, load
from tinwright.knowledge.layers import own_folder
from tinwright.knowledge.printed import FOLDER, LIST, Paper, digest, list_text, read_printed, records_digest
from tinwright.site import build_site

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from bs4 import Tag

    from tinwright.site.building import SiteContent

TERM = "title: Hook\ndefinition: {text: A bent edge., evidence: practice}\nreviewed: 2026-11-20\n"
COMMAND = "`tinwright paper --out content/print`"


@pytest.fixture(scope="module")
def printed_for(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demonstration content with some papers, printed by the command in two goes."""
    root = tmp_path_factory.mktemp("printed") / "content"
    shutil.copytree(ROOT / "content", root)
    for arguments in (
        ["set-up", "--can", "307x409", "--sealer", "bench-crank-sealer"],
        ["adjustment", "--sealer", "motor-sealer"],
    ):
        out = ["--content", str(root), "--out", str(own_folder(root) / FOLDER)]
        result = CliRunner().invoke(main, ["paper", *arguments, *out], catch_exceptions=False)
        assert result.exit_code == 0, result.output
        assert "for the page Print of the site" in result.output
    return root


@pytest.fixture(scope="module")
def site(printed_for: Path) -> SiteContent:
    return build_site(load(printed_for))


def soup_of(site: SiteContent, uri: str) -> Tag:
    return BeautifulSoup(next(page.text for page in site.pages if page.uri == uri), "html.parser")


def test_the_page_offers_each_paper_with_its_pages_and_its_size(site: SiteContent, printed_for: Path) -> None:
    links = soup_of(site, "print.md").select('a[href$=".pdf"]')
    assert [link["href"] for link in links] == [
        "print/set-up-bench-crank-sealer-307x409.pdf",
        "print/adjustment-motor-sealer.pdf",
    ]
    for link in links:
        file = own_folder(printed_for) / str(link["href"])
        pages = len(PdfReader(file).pages)
        said = f"(PDF, {pages} page{'s' if pages > 1 else ''}, {file.stat().st_size / 1000:.0f} kB)"
        assert link.parent is not None
        assert said in link.parent.get_text()


def test_the_papers_are_published_as_they_are(site: SiteContent, printed_for: Path) -> None:
    published = {asset.uri: asset.content for asset in site.assets if asset.uri.startswith(f"{FOLDER}/")}
    assert published == {f"{FOLDER}/{file.name}": file.read_bytes() for file in printed_for.glob(f"*/{FOLDER}/*.pdf")}
    assert len(published) == 2


@pytest.mark.parametrize(
    ("uri", "card", "says"),
    [
        (
            "set-up/bench-crank-sealer-307x409.md",
            "../print/set-up-bench-crank-sealer-307x409.pdf",
            "Bench crank sealer",
        ),
        ("procedures/set-base-height.md", "../print/adjustment-motor-sealer.pdf#page=1", "Raise the base height"),
        ("procedures/set-first-roller.md", "../print/adjustment-motor-sealer.pdf#page=2", "Tighten the first roller"),
        ("procedures/set-second-roller.md", "../print/adjustment-motor-sealer.pdf#page=3", "Tighten the second roller"),
    ],
)
def test_a_page_links_its_card_and_the_link_opens_the_sheet_that_is_about_it(
    site: SiteContent, printed_for: Path, uri: str, card: str, says: str
) -> None:
    (link,) = soup_of(site, uri).select('a[href*=".pdf"]')
    assert link["href"] == card
    file, _, sheet = card.removeprefix("../").partition("#page=")
    text = " ".join(PdfReader(own_folder(printed_for) / file).pages[int(sheet or 1) - 1].extract_text().split())
    assert says.casefold() in text.casefold()


def test_a_page_without_a_card_links_none(site: SiteContent) -> None:
    for page in ("set-up/bench-crank-sealer-603x700.md", "defects/droop.md", "procedures/make-test-can.md"):
        assert soup_of(site, page).select('a[href*=".pdf"]') == []


def test_papers_older_than_the_records_are_said_to_be(site: SiteContent, printed_for: Path, tmp_path: Path) -> None:
    assert "Older than this site" not in soup_of(site, "print.md").get_text()
    root = tmp_path / "content"
    shutil.copytree(printed_for, root)
    term = own_folder(root) / "terms" / "hook.yml"
    term.parent.mkdir(exist_ok=True)
    term.write_text(TERM, encoding="utf-8")
    newest = max(record.reviewed for record in load(printed_for).records.values())
    note = soup_of(build_site(load(root)), "print.md").select_one(".tw-note")
    assert note is not None
    assert f"Older than this site. The records have changed since these files were printed (as of {newest:%B}" in (
        note.get_text()
    )


def test_without_papers_the_page_tells_how_to_print_any(content: Callable[..., Path]) -> None:
    page = soup_of(build_site(load(content({"terms/hook.yml": TERM}))), "print.md").get_text()
    assert "press Ctrl and P together" in page
    assert "PDF," not in page


def paper(content: bytes = b"%PDF-1.7 a card", **values: object) -> Paper:
    known = {"title": "A card", "kind": "cautions", "pages": 1, "size": 9, "edition": dt.date(2026, 11, 2)}
    return Paper(file="card.pdf", records="0", sha256=digest(content), **(known | values))  # type: ignore[arg-type]


def laid(content: Callable[..., Path], *, name: str = "card.pdf", listed: bool = True) -> Path:
    root = content({"terms/hook.yml": TERM, f"{FOLDER}/{name}": "%PDF-1.7 a card"})
    if listed:
        (root / FOLDER / LIST).write_bytes(list_text([paper()], root))
    return root


def test_what_the_command_printed_is_no_problem(content: Callable[..., Path]) -> None:
    root = laid(content)
    assert find_problems(root) == []
    assert read_printed(root) == (paper(),)


def test_a_file_that_was_not_printed_for_the_site_is_refused_and_never_published(content: Callable[..., Path]) -> None:
    """An answer key that was laid into the folder, say."""
    root = laid(content)
    (root / FOLDER / "answer-key.pdf").write_bytes(b"%PDF-1.7 the key")
    message = f"expected only what {COMMAND} prints: what lies here is published, keep all else out"
    assert [(p.file, p.message) for p in find_problems(root)] == [("content/print/answer-key.pdf", message)]
    assert [p.file for p in read_printed(root)] == ["card.pdf"]


def test_a_file_put_in_the_place_of_a_printed_one_is_refused_and_never_published(content: Callable[..., Path]) -> None:
    root = laid(content)
    (root / FOLDER / "card.pdf").write_bytes(b"%PDF-1.7 the key")
    assert [p.message for p in find_problems(root)] == [
        f"the file is not the one that was printed: print it again with {COMMAND}"
    ]
    assert read_printed(root) == ()


@pytest.mark.parametrize(
    "text",
    [
        "[",
        "{}",
        json.dumps([{**paper().model_dump(mode="json"), "file": "../../secret.pdf"}]),
        json.dumps([{**paper().model_dump(mode="json"), "extra": 1}]),
    ],
)
def test_a_broken_list_is_refused_in_one_line(content: Callable[..., Path], text: str) -> None:
    root = laid(content)
    (root / FOLDER / LIST).write_text(text, encoding="utf-8")
    assert [str(p) for p in find_problems(root)] == [
        f"content/print/printed.json:1:1: expected what {COMMAND} writes: print it again"
    ]
    assert read_printed(root) == ()


def test_a_paper_that_was_deleted_leaves_the_list_with_the_next_printing(content: Callable[..., Path]) -> None:
    root = laid(content)
    (root / FOLDER / "card.pdf").unlink()
    assert find_problems(root) == []
    assert json.loads(list_text([], root)) == []


def test_any_word_of_a_record_changes_the_digest_of_the_records(content: Callable[..., Path]) -> None:
    before = records_digest(load(content({"terms/hook.yml": TERM})))
    assert records_digest(load(content({"terms/hook.yml": TERM}))) == before
    assert records_digest(load(content({"terms/hook.yml": TERM.replace("bent", "curled")}))) != before
