"""What stands round every page: nothing inline, our own mark, the ways at the foot, and the educator's own changes."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from bs4 import BeautifulSoup
from mkdocs.config import load_config
from PIL import Image

from demo_site import mkdocs
from filled_programme import write_filled_programme
from settings import settings_for_one_layer
from tinwright.site.icons import PICTURES, draw_icons
from tinwright.site.plugin import TinwrightPlugin

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path


@pytest.fixture
def programme(tmp_path: Path) -> Path:
    """A folder with a small programme and the demonstration's settings."""
    write_filled_programme(tmp_path / "content")
    (tmp_path / "content" / "pages").mkdir()
    (tmp_path / "mkdocs.yml").write_text(settings_for_one_layer(), encoding="utf-8")
    return tmp_path


def read(file: Path) -> BeautifulSoup:
    return BeautifulSoup(file.read_text(encoding="utf-8"), "html.parser")


def test_nothing_on_any_page_is_inline(pages: Mapping[str, BeautifulSoup], site_folder: Path) -> None:
    for here, page in [*pages.items(), ("404.html", read(site_folder / "404.html"))]:
        for script in page.find_all("script"):
            assert script.has_attr("src") or script.get("type") in {"application/json", "application/ld+json"}, here
        assert page.find_all("style") == [], here
        for element in page.find_all(True):
            assert [name for name in element.attrs if name == "style" or name.startswith("on")] == [], here
            assert not str(element.get("href", "")).startswith("javascript:"), here


def test_no_drawing_or_picture_of_the_site_carries_a_style(site_folder: Path) -> None:
    for file in site_folder.rglob("*.svg"):
        svg = read(file)
        assert svg.find_all(["style", "script"]) == [], file.name
        assert svg.find_all(style=True) == [], file.name


def test_every_page_leads_to_what_is_kept_and_to_taking_it_along(pages: Mapping[str, BeautifulSoup]) -> None:
    for here, page in pages.items():
        up = "../" * here.count("/")
        foot = [str(a["href"]) for a in page.select("footer .tw-foot a")]
        assert foot[:2] == [f"{up}take-along.html", f"{up}on-this-device.html"], here


def test_the_mark_is_ours(pages: Mapping[str, BeautifulSoup], site_folder: Path) -> None:
    home = pages["index.html"]
    assert home.find("link", rel="icon")["href"] == "assets/icon.svg"  # type: ignore[index]
    assert not (site_folder / "assets" / "images" / "favicon.png").exists()


def test_the_icons_are_drawn_fresh(site_folder: Path, tmp_path: Path) -> None:
    draw_icons(tmp_path)
    for name, (side, _) in PICTURES.items():
        with Image.open(tmp_path / name) as drawn, Image.open(site_folder / "assets" / name) as published:
            assert published.size == (side, side)
            assert published.tobytes() == drawn.tobytes(), "run: python -m tinwright.site.icons"
    assert (site_folder / "assets" / "icon.svg").read_bytes() == (tmp_path / "icon.svg").read_bytes()


def test_the_part_of_an_icon_that_a_device_may_cut_off_holds_nothing_of_the_mark(site_folder: Path) -> None:
    """A maskable icon keeps its mark in the circle of 40 percent of its width (W3C Web App Manifest, safe zone)."""
    with Image.open(site_folder / "assets" / "icon-whole.png") as icon:
        ground = icon.getpixel((0, 0))
        outside = [
            (x, y)
            for x in range(0, 512, 4)
            for y in range(0, 512, 4)
            if (x - 256) ** 2 + (y - 256) ** 2 > (0.4 * 512) ** 2 and icon.getpixel((x, y)) != ground
        ]
    assert outside == []


def test_the_page_that_is_not_there_needs_nothing_beside_it(site_folder: Path) -> None:
    page = read(site_folder / "404.html")
    assert page.find_all(["script", "link", "img"]) == []
    assert page.find_all(href=True) == []


def test_with_an_address_of_the_site_the_page_that_is_not_there_leads_home(programme: Path) -> None:
    options = programme / "mkdocs.yml"
    options.write_text(f"site_url: https://example.org/a/b/\n{options.read_text(encoding='utf-8')}", encoding="utf-8")
    assert mkdocs("build", "--quiet", folder=programme).returncode == 0
    assert read(programme / "site" / "404.html").find("a")["href"] == "https://example.org/a/b/"  # type: ignore[index]


def test_an_educators_own_changes_to_the_theme_go_first(programme: Path) -> None:
    own = programme / "own" / "partials"
    own.mkdir(parents=True)
    (own / "copyright.html").write_text("<p>Our own foot</p>", encoding="utf-8")
    options = programme / "mkdocs.yml"
    text = options.read_text(encoding="utf-8").replace("  name: material\n", "  name: material\n  custom_dir: own\n")
    options.write_text(text, encoding="utf-8")
    assert mkdocs("build", "--strict", "--quiet", folder=programme).returncode == 0
    home = read(programme / "site" / "index.html")
    assert "Our own foot" in home.footer.get_text()  # type: ignore[union-attr]
    assert home.find("link", rel="manifest") is not None


def test_while_it_is_edited_nothing_is_kept_and_what_was_kept_is_given_up(programme: Path) -> None:
    from mkdocs.commands.build import build

    config = load_config(str(programme / "mkdocs.yml"), site_dir=str(programme / "served"))
    plugin = config.plugins["tinwright"]
    assert isinstance(plugin, TinwrightPlugin)
    config.plugins.on_startup(command="serve", dirty=False)
    build(config)
    served = programme / "served"
    assert "unregister" in (served / "sw.js").read_text(encoding="utf-8")
    assert not list(served.glob("*.zip"))
    assert read(served / "index.html").find("link", rel="manifest") is None


def test_the_same_content_gives_the_same_site(programme: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1764028800")
    for name in ("first", "second"):
        result = mkdocs(
            "build", "--quiet", "--site-dir", str(programme.parent / f"{programme.name}-{name}"), folder=programme
        )
        assert result.returncode == 0
    first, second = (programme.parent / f"{programme.name}-{name}" for name in ("first", "second"))
    files = sorted(file.relative_to(first) for file in first.rglob("*") if file.is_file())
    assert [file for file in files if (first / file).read_bytes() != (second / file).read_bytes()] == []


def test_only_one_script_is_waited_for(pages: Mapping[str, BeautifulSoup], site_folder: Path) -> None:
    for here, page in pages.items():
        waited = [str(script["src"]) for script in page.select("script[src]:not([defer], [async])")]
        assert [src.rpartition("/")[2] for src in waited] in ([], ["page-start.js"]), here
        assert page.select("body link[rel=stylesheet]") == [], here
    assert not any("defer src=" in f.read_text(encoding="utf-8") for f in site_folder.rglob("*.html")), "twice"
