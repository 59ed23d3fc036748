"""The whole site as a zip: complete, the same each time, and honest about what it is."""

from __future__ import annotations

import datetime as dt
import json
import re
import shutil
import zipfile
from typing import TYPE_CHECKING

import pytest

from tinwright.site.saved_copy import copy_name, dated, size_text, write_copy
from tinwright.site.web_app import to_keep, write_worker

if TYPE_CHECKING:
    from pathlib import Path

    from tinwright.knowledge import KnowledgeBase

NAME = "sorrel-county-can-sealing"
DAY = dt.datetime(2026, 11, 18, tzinfo=dt.UTC)


@pytest.fixture(scope="module")
def archive(site_folder: Path) -> zipfile.ZipFile:
    return zipfile.ZipFile(site_folder / f"{NAME}.zip")


def a_site(folder: Path) -> Path:
    """A folder as a build leaves it, with one page that offers the copy."""
    (folder / "deep").mkdir(parents=True)
    (folder / "index.html").write_text("<p>Home</p>", encoding="utf-8")
    offer = "<!--saved-copy--><p>Ask for it</p><!--/saved-copy-->"
    (folder / "deep" / "take.html").write_text(f"<main>{offer}</main>", encoding="utf-8")
    (folder / "sw.js").write_text("worker", encoding="utf-8")
    return folder


def test_the_copy_holds_every_page_and_everything_they_need(site_folder: Path, archive: zipfile.ZipFile) -> None:
    inside = {name.removeprefix(f"{NAME}/") for name in archive.namelist()}
    needed = {file.relative_to(site_folder).as_posix() for file in to_keep(site_folder)}
    assert needed - inside == {"manifest.webmanifest", "404.html"}
    assert inside - needed == {"start-here.html"}
    pages = {f.relative_to(site_folder).as_posix() for f in site_folder.rglob("*.html")} - {"404.html"}
    assert pages <= inside
    assert "sw.js" not in inside
    assert not [name for name in inside if name.endswith(".zip")]


def test_the_names_are_sorted_and_every_date_is_the_same(kb: KnowledgeBase, archive: zipfile.ZipFile) -> None:
    names = archive.namelist()[:-1]  # the way in comes last
    assert names == sorted(names)
    assert {entry.date_time for entry in archive.infolist()} == {dated(kb).timetuple()[:6]}


def test_the_page_says_the_size_and_the_copy_says_that_it_is_one(site_folder: Path, archive: zipfile.ZipFile) -> None:
    page = (site_folder / "take-along.html").read_text(encoding="utf-8")
    size = (site_folder / f"{NAME}.zip").stat().st_size
    assert f'<a href="{NAME}.zip" download>Save the whole site ({size / 1e6:.1f} MB)</a>' in page
    copied = archive.read(f"{NAME}/take-along.html").decode()
    assert f"{NAME}.zip" not in copied
    assert re.search(r"You are reading a saved copy, as the site stood on [A-Z][a-z]+ \d+, 20\d\d\.", copied)


def test_the_same_site_gives_the_same_bytes_whenever_it_is_written(tmp_path: Path) -> None:
    first, second = a_site(tmp_path / "first"), a_site(tmp_path / "second")
    shutil.copystat(tmp_path, second / "index.html")
    for site in (first, second):
        write_copy(site, "copy", "A site", DAY)
    assert (first / "copy.zip").read_bytes() == (second / "copy.zip").read_bytes()


def test_a_copy_written_before_is_no_part_of_the_next(tmp_path: Path) -> None:
    site = a_site(tmp_path / "site")
    size = write_copy(site, "copy", "A site", DAY)
    (site / "older-name.zip").write_bytes(b"PK")
    assert write_copy(site, "copy", "A site", DAY) <= size


def test_a_page_in_a_folder_links_up_to_the_copy(tmp_path: Path) -> None:
    site = a_site(tmp_path / "site")
    write_copy(site, "copy", "A site", DAY)
    assert '<a href="../copy.zip" download>' in (site / "deep" / "take.html").read_text(encoding="utf-8")


def test_the_title_is_text_in_the_page_to_start_with(tmp_path: Path) -> None:
    site = a_site(tmp_path / "site")
    write_copy(site, "copy", "<img src=x onerror=alert(1)>", DAY)
    with zipfile.ZipFile(site / "copy.zip") as archive:
        assert "<img" not in archive.read("start-here.html").decode()


def test_the_date_is_the_builds_when_one_is_set_and_else_the_newest_review(
    kb: KnowledgeBase, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.delenv("SOURCE_DATE_EPOCH", raising=False)
    assert dated(kb).date() == max(record.reviewed for record in kb.records.values())
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1764028800")
    assert dated(kb) == dt.datetime(2025, 11, 25, tzinfo=dt.UTC)
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "0")
    assert dated(kb).year == 1980


def test_the_name_is_made_of_plain_letters(kb: KnowledgeBase) -> None:
    assert copy_name(kb) == NAME


@pytest.mark.parametrize(
    ("size", "said"), [(1, "1 kB"), (999_499, "999 kB"), (1_000_000, "1.0 MB"), (35_210_000, "35.2 MB")]
)
def test_sizes_are_said_as_people_do(size: int, said: str) -> None:
    assert size_text(size) == said


def test_the_worker_lists_neither_itself_nor_the_copy(site_folder: Path) -> None:
    worker = (site_folder / "sw.js").read_text(encoding="utf-8").split("\n", 1)[0]
    assert '"index.html"' in worker
    assert '"search/search_index.json"' in worker
    assert '"opened":{}' in worker
    assert ".zip" not in worker
    assert '"sw.js"' not in worker


def test_the_version_changes_with_any_byte_and_with_nothing_else(tmp_path: Path) -> None:
    site = a_site(tmp_path / "site")
    version = write_worker(site)
    assert write_worker(site) == version
    assert f'"version":"{version}"' in (site / "sw.js").read_text(encoding="utf-8")
    (site / "index.html").write_text("<p>Home.</p>", encoding="utf-8")
    assert write_worker(site) != version


def test_the_worker_lists_printed_files_apart_and_the_copy_holds_them(tmp_path: Path) -> None:
    site = a_site(tmp_path / "site")
    (site / "print").mkdir()
    card = site / "print" / "card.pdf"
    card.write_bytes(b"%PDF-1.7 a card")
    version = write_worker(site)
    listed = json.loads((site / "sw.js").read_text(encoding="utf-8").split("\n", 1)[0].split(" = ")[1].rstrip(";"))
    assert list(listed["opened"]) == ["print/card.pdf"]
    assert set(listed["files"]) == {"index.html", "deep/take.html"}
    write_copy(site, "copy", "A site", DAY)
    with zipfile.ZipFile(site / "copy.zip") as archive:
        assert "copy/print/card.pdf" in archive.namelist()
    card.write_bytes(b"%PDF-1.7 another card")
    assert write_worker(site) != version


def test_other_languages_keep_the_words_of_the_search(tmp_path: Path) -> None:
    site = a_site(tmp_path / "site")
    words = site / "assets" / "javascripts" / "lunr" / "es.js"
    words.parent.mkdir(parents=True)
    words.write_text("", encoding="utf-8")
    assert words not in to_keep(site)
    assert words in to_keep(site, language="es")
