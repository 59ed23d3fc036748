"""While the site is served for editing, what is used again is what would be built anew, byte for byte."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest
from mkdocs.commands.build import build
from mkdocs.config import load_config
from mkdocs.structure.files import Files

from demo_site import ROOT
from settings import settings_for_one_layer
from small_kitchen import lay_down
from tinwright.site.kept_pages import KeptPages, UnchangedPage
from tinwright.site.served_theme import environment_of

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path


@pytest.fixture
def programme(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The starter programme, with the demonstration's settings; the working folder is there."""
    folder = tmp_path / "programme"
    lay_down(folder)
    (folder / "mkdocs.yml").write_text(settings_for_one_layer(), encoding="utf-8")
    monkeypatch.chdir(folder)
    monkeypatch.setenv("NO_MKDOCS_2_WARNING", "1")
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1700000000")
    return folder


@pytest.fixture
def serve(programme: Path, monkeypatch: pytest.MonkeyPatch) -> Callable[..., tuple[dict[str, bytes], int]]:
    """Build as `mkdocs serve` does; returns every file, and how many pages were used again.

    One plugin lives through all builds of a server; `fresh` starts another server.
    """
    used: list[int] = []
    use = KeptPages.use

    def counted(kept: KeptPages, pages: object, menu: object, files: object, config: object) -> None:
        use(kept, pages, menu, files, config)  # type: ignore[arg-type]
        used.append(sum(isinstance(file.page, UnchangedPage) for file in files))  # type: ignore[attr-defined]

    monkeypatch.setattr(KeptPages, "use", counted)
    keeper: dict[str, object] = {}

    def once(*, fresh: bool = False) -> tuple[dict[str, bytes], int]:
        config = load_config(str(programme / "mkdocs.yml"), site_dir=str(programme / "served"))
        plugin = config.plugins["tinwright"]
        plugin.on_startup(command="serve", dirty=False)
        if fresh or not keeper:
            keeper["kept"] = KeptPages()
        plugin._kept = keeper["kept"]
        build(config, serve_url="http://127.0.0.1/")
        site = programme / "served"
        return {f.relative_to(site).as_posix(): f.read_bytes() for f in site.rglob("*") if f.is_file()}, used[-1]

    return once


def edit(file: Path, old: str, new: str) -> None:
    text = file.read_text(encoding="utf-8")
    assert old in text
    file.write_text(text.replace(old, new, 1), encoding="utf-8")


def first(folder: Path) -> Path:
    return sorted(folder.glob("*.yml"))[0]


def test_an_edit_gives_what_a_new_build_gives_and_most_pages_are_used_again(
    programme: Path, serve: Callable[..., tuple[dict[str, bytes], int]]
) -> None:
    before, used = serve()
    assert used == 0
    pages = sum(name.endswith(".html") for name in before)
    edit(first(programme / "content" / "defects"), "title: ", "title: Zebra ")
    after, used = serve()
    assert pages / 2 < used < pages
    assert after == serve(fresh=True)[0]
    assert {name for name in before if before[name] != after[name]} >= {
        "defects/index.html",
        "search/search_index.json",
    }
    assert serve()[1] >= used


@pytest.mark.parametrize("what", ["settings", "another page"])
def test_a_change_around_the_pages_builds_them_all_anew(
    programme: Path, serve: Callable[..., tuple[dict[str, bytes], int]], what: str
) -> None:
    serve()
    if what == "settings":
        edit(programme / "mkdocs.yml", "site_name: ", "site_name: Zebra ")
    else:
        (programme / "content" / "pages").mkdir(exist_ok=True)
        (programme / "content" / "pages" / "zebra.md").write_text("# Zebra\n\nStripes.\n", encoding="utf-8")
    after, used = serve()
    assert used == 0
    assert after == serve(fresh=True)[0]


def test_the_theme_has_the_same_templates_and_files_while_it_is_served() -> None:
    config = load_config(str(ROOT / "mkdocs.yml"))
    theirs, ours = config.theme.get_env(), environment_of(config.theme)
    assert ours.list_templates() == [name for name in theirs.list_templates() if not re.search(r"(^|/)\.", name)]
    kept = []
    for environment in (theirs, ours):
        files = Files([])
        files.add_files_from_theme(environment, config)
        kept.append([(file.src_uri, file.abs_src_path) for file in files])
    assert kept[0] == kept[1] != []
    assert ours.filters.keys() == theirs.filters.keys()
