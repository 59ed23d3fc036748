"""The site written as Markdown for another tool."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tinwright.errors import WriteError
from tinwright.site.building import SiteContent
from tinwright.site.pages_and_assets import Asset, Page
from tinwright.site.writer import write_site

if TYPE_CHECKING:
    from pathlib import Path


def a_site(*names: str) -> SiteContent:
    pages = tuple(Page(f"{name}.md", f"# {name} é\n") for name in names)
    return SiteContent(pages, (Asset("assets/a.css", b"a {}\n"),))


def files_in(folder: Path) -> dict[str, bytes]:
    return {
        file.relative_to(folder).as_posix(): file.read_bytes()
        for file in folder.rglob("*")
        if file.is_file() and file.name != ".tinwright"
    }


def test_pages_and_assets_are_written_where_their_addresses_say(tmp_path: Path) -> None:
    target = tmp_path / "new" / "pages"
    assert write_site(a_site("index", "defects/droop"), target) == (3, 0)
    assert files_in(target) == {
        "index.md": "# index é\n".encode(),
        "defects/droop.md": "# defects/droop é\n".encode(),
        "assets/a.css": b"a {}\n",
    }


def test_writing_again_touches_nothing(tmp_path: Path) -> None:
    write_site(a_site("index", "x"), tmp_path)
    before = {file: file.stat().st_mtime_ns for file in tmp_path.rglob("*.md")}
    assert write_site(a_site("index", "x"), tmp_path) == (0, 0)
    assert {file: file.stat().st_mtime_ns for file in tmp_path.rglob("*.md")} == before


def test_only_a_changed_page_is_written_and_a_page_no_longer_made_is_removed(tmp_path: Path) -> None:
    write_site(a_site("index", "x", "y"), tmp_path)
    changed = SiteContent((Page("index.md", "# new\n"), *a_site("x").pages), a_site().assets)
    assert write_site(changed, tmp_path) == (1, 1)
    assert sorted(files_in(tmp_path)) == ["assets/a.css", "index.md", "x.md"]


def test_a_file_of_the_educators_own_in_the_folder_is_left_alone(tmp_path: Path) -> None:
    write_site(a_site("index", "x"), tmp_path)
    (tmp_path / "mine.md").write_text("mine", encoding="utf-8")
    write_site(a_site("index"), tmp_path)
    assert sorted(files_in(tmp_path)) == ["assets/a.css", "index.md", "mine.md"]


def test_a_page_removed_by_hand_is_written_again(tmp_path: Path) -> None:
    write_site(a_site("index", "x"), tmp_path)
    (tmp_path / "x.md").unlink()
    assert write_site(a_site("index", "x"), tmp_path) == (1, 0)


def test_a_folder_with_other_files_is_refused_and_not_touched(tmp_path: Path) -> None:
    (tmp_path / "thesis.txt").write_text("mine", encoding="utf-8")
    with pytest.raises(WriteError, match="holds other files"):
        write_site(a_site("index"), tmp_path)
    assert files_in(tmp_path) == {"thesis.txt": b"mine"}


def test_a_file_in_place_of_the_folder_is_refused(tmp_path: Path) -> None:
    (tmp_path / "pages").write_text("mine", encoding="utf-8")
    with pytest.raises(WriteError, match="expected a folder"):
        write_site(a_site("index"), tmp_path / "pages")


def test_a_mark_that_names_files_outside_the_folder_removes_nothing_there(tmp_path: Path) -> None:
    target, outside = tmp_path / "pages", tmp_path / "thesis.txt"
    write_site(a_site("index"), target)
    outside.write_text("mine", encoding="utf-8")
    with (target / ".tinwright").open("a", encoding="utf-8") as mark:
        mark.write("../thesis.txt\n")
    write_site(a_site("index"), target)
    assert outside.is_file()
