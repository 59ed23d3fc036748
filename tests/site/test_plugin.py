"""MkDocs with the plugin: builds, says what is wrong in one line, and serves through a broken file."""

from __future__ import annotations

import re
import socket
import subprocess
import sys
import time
import urllib.error
import urllib.request
from typing import TYPE_CHECKING

import pytest
from bs4 import BeautifulSoup

from demo_site import mkdocs, surroundings
from filled_programme import write_filled_programme
from settings import settings_for_one_layer

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

HOSTILE = (
    "q</title></script><script>alert(1)</script>\"' onload='alert(1)' {{ 7 * 7 }} [a](javascript:alert(1)) & <b>x</b>q"
)


@pytest.fixture
def programme(tmp_path: Path) -> Path:
    """A folder with a small programme of one record of each kind, and the demonstration's settings."""
    write_filled_programme(tmp_path / "content")
    (tmp_path / "content" / "pages").mkdir()
    (tmp_path / "mkdocs.yml").write_text(settings_for_one_layer(), encoding="utf-8")
    return tmp_path


def edit(programme: Path, record: str, old: str, new: str) -> None:
    file = programme / "content" / record
    text = file.read_text(encoding="utf-8")
    assert old in text
    file.write_text(text.replace(old, new), encoding="utf-8")


def dangerous(page: Path) -> list[tuple[str, str]]:
    """Scripts, frames and event handlers of a built page, those of the theme included."""
    soup = BeautifulSoup(page.read_text(encoding="utf-8"), "html.parser")
    found = [(e.name, e.get_text()[:40]) for e in soup.find_all(["script", "iframe", "object", "embed", "base"])]
    for element in soup.find_all(True):
        found += [(element.name, name) for name in element.attrs if name.startswith("on")]
        found += [(element.name, "javascript:") for value in element.attrs.values() if "javascript:" in str(value)[:20]]
    return sorted(found)


def test_a_small_programme_builds_strictly(programme: Path) -> None:
    result = mkdocs("build", "--strict", folder=programme)
    assert result.returncode == 0, result.stderr
    assert "WARNING" not in result.stderr
    page = BeautifulSoup((programme / "site/defects/defect.html").read_text(encoding="utf-8"), "html.parser")
    assert page.find("h1").get_text().startswith("words of defect.title")
    assert (programme / "site/assets/tinwright.css").is_file()
    assert not list((programme / "content").rglob("*.html"))


def test_it_builds_as_folders_too(programme: Path) -> None:
    options = programme / "mkdocs.yml"
    text = options.read_text(encoding="utf-8").replace("use_directory_urls: false", "use_directory_urls: true")
    options.write_text(text.replace("  - offline\n", ""), encoding="utf-8")
    result = mkdocs("build", "--strict", folder=programme)
    assert result.returncode == 0, result.stderr
    assert 'href="../../causes/cause/#correction"' in (programme / "site/defects/defect/index.html").read_text("utf-8")


def test_hostile_titles_stay_text_in_the_frame_of_the_page(programme: Path, tmp_path: Path) -> None:
    harmless, hostile = tmp_path / "harmless", tmp_path / "hostile"
    assert mkdocs("build", "--strict", "--quiet", "--site-dir", str(harmless), folder=programme).returncode == 0
    write_filled_programme(programme / "content", lambda path: f"{HOSTILE} {path}")
    result = mkdocs("build", "--strict", "--quiet", "--site-dir", str(hostile), folder=programme)
    assert result.returncode == 0, result.stderr
    names = {file.relative_to(harmless) for file in harmless.rglob("*.html")}
    assert names == {file.relative_to(hostile) for file in hostile.rglob("*.html")}
    for name in sorted(names):
        assert dangerous(hostile / name) == dangerous(harmless / name), name
    title = BeautifulSoup((hostile / "defects/defect.html").read_text(encoding="utf-8"), "html.parser").title
    assert title.get_text().strip().startswith(f"{HOSTILE} defect.title")


@pytest.mark.parametrize(
    ("old", "new", "expected"),
    [
        ('"definition"', '"defnition"', r"content/terms/term\.yml:\d+:\d+: term: unknown key 'defnition'"),
        ('"reviewed": "2026-11-02"', '"reviewed": "soon"', r"content/terms/term\.yml:2:\d+: .*expected a date"),
        ("{", "{ [", r"content/terms/term\.yml:\d+:\d+: "),
        ('"source": "source"', '"source": "sourse"', r"content/terms/term\.yml:\d+:\d+: .*did you mean 'source'"),
        (
            "words of term.title",
            "[[defect/defekt]]",
            r"content/terms/term\.yml:\d+:\d+: .*no defect is called 'defekt'",
        ),
    ],
)
def test_a_mistake_stops_the_build_with_its_place_and_no_traceback(
    programme: Path, old: str, new: str, expected: str
) -> None:
    edit(programme, "terms/term.yml", old, new)
    result = mkdocs("build", "--strict", folder=programme)
    said = result.stdout + result.stderr
    assert result.returncode == 1
    assert re.search(expected, said), said
    assert "Traceback" not in said
    assert len(said.splitlines()) < 15
    assert not (programme / "site/index.html").exists()


def fetch(address: str) -> str:
    try:
        with urllib.request.urlopen(address, timeout=5) as answer:  # noqa: S310 our own server on this machine
            return str(answer.read().decode("utf-8"))
    except (urllib.error.URLError, ConnectionError, TimeoutError):
        return ""


def until(address: str, words: str, *, seconds: float = 120) -> bool:
    """Ask again and again until the page holds the words."""
    end = time.monotonic() + seconds
    while time.monotonic() < end:
        if words in fetch(address):
            return True
        time.sleep(0.3)
    return False


@pytest.fixture
def server(programme: Path) -> Iterator[tuple[str, Path]]:
    """A running `mkdocs serve`: its address, and the file that holds what it says."""
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    log = programme / "serve.log"
    with log.open("wb") as out:
        process = subprocess.Popen(
            [sys.executable, "-m", "mkdocs", "serve", "--dev-addr", f"127.0.0.1:{port}"],
            cwd=programme,
            env=surroundings(),
            stdout=out,
            stderr=subprocess.STDOUT,
        )
        yield f"http://127.0.0.1:{port}/", log
        process.terminate()
        try:
            process.wait(timeout=10)
        except subprocess.TimeoutExpired:
            process.kill()
            process.wait()


@pytest.mark.slow
def test_serve_shows_an_edit_survives_a_broken_file_and_recovers(programme: Path, server: tuple[str, Path]) -> None:
    address, log = server
    page = f"{address}terms/term.html"
    assert until(page, "words of term.title"), log.read_text(encoding="utf-8")

    edit(programme, "terms/term.yml", "words of term.title", "A second title")
    assert until(page, "A second title"), log.read_text(encoding="utf-8")

    edit(programme, "terms/term.yml", '"definition"', '"defnition"')
    end = time.monotonic() + 120
    while "unknown key 'defnition'" not in log.read_text(encoding="utf-8") and time.monotonic() < end:
        time.sleep(0.3)
    said = log.read_text(encoding="utf-8")
    assert re.search(r"content/terms/term\.yml:\d+:\d+: term: unknown key 'defnition'", said), said
    assert "Traceback" not in said

    edit(programme, "terms/term.yml", '"defnition"', '"definition"')
    edit(programme, "terms/term.yml", "A second title", "A third title")
    assert until(page, "A third title"), log.read_text(encoding="utf-8")
