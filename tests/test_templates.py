"""A template is compiled once for all builds, and anew when it changes; a disk that takes nothing stops no build."""

from __future__ import annotations

import shutil
import tempfile
from typing import TYPE_CHECKING

import pytest
from jinja2 import DictLoader, Environment, UndefinedError, pass_context

from tinwright.templates import compiled_templates, template_of, templates_of

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from jinja2 import BytecodeCache


@pytest.fixture
def kept(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[BytecodeCache]:
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path))
    compiled_templates.cache_clear()
    found = compiled_templates()
    assert found is not None
    yield found
    compiled_templates.cache_clear()


def rendered(kept: BytecodeCache, text: str, compiled: list[str]) -> str:
    environment = Environment(loader=DictLoader({"page": text}), bytecode_cache=kept, autoescape=True)
    compile_ = environment.compile

    def noted(source: str, *values: object) -> object:
        compiled.append(source)
        return compile_(source, *values)  # type: ignore[call-overload]

    environment.compile = noted  # type: ignore[method-assign, assignment]
    return environment.get_template("page").render(can="No. 2")


def test_a_template_is_compiled_once_and_anew_when_it_changes(kept: BytecodeCache) -> None:
    compiled: list[str] = []
    seal, close = "Seal {{ can }}", "Close {{ can }}"
    told = [rendered(kept, text, compiled) for text in (seal, seal, close, close)]
    assert told == ["Seal No. 2", "Seal No. 2", "Close No. 2", "Close No. 2"]
    assert compiled == [seal, close]


def test_a_template_is_compiled_anew_when_a_filter_asks_for_the_context(kept: BytecodeCache) -> None:
    def told(filter_: object) -> str:
        environment = Environment(loader=DictLoader({"page": "{{ can|shown }}"}), bytecode_cache=kept, autoescape=True)
        environment.filters["shown"] = filter_
        return environment.get_template("page").render(can="No. 2")

    assert told(lambda can: f"can {can}") == "can No. 2"
    assert told(pass_context(lambda context, can: f"{can}, {len(context.get_all()) > 0}")) == "No. 2, True"


def test_a_folder_that_is_gone_stops_no_build(kept: BytecodeCache, tmp_path: Path) -> None:
    for folder in tmp_path.iterdir():
        shutil.rmtree(folder)
    assert rendered(kept, "Seal {{ can }}", []) == "Seal No. 2"


def test_a_folder_that_belongs_to_somebody_else_is_not_used(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(*_: object) -> None:
        raise PermissionError("no")

    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path))
    monkeypatch.setattr("os.mkdir", refuse)
    compiled_templates.cache_clear()
    assert compiled_templates() is None
    compiled_templates.cache_clear()


@pytest.mark.usefixtures("kept")
def test_every_room_keeps_what_it_compiled(tmp_path: Path) -> None:
    for number, (room, name) in enumerate([("credentials", "certificate.html.j2"), ("advice", "report.html.j2")], 1):
        template_of(room, name)
        assert len(list(tmp_path.rglob("tinwright-*.cache"))) == number


def test_what_a_template_shows_is_escaped_and_what_is_missing_is_an_error() -> None:
    template = templates_of("paper").from_string("{{ name }}")
    assert template.render(name="<b>") == "&lt;b&gt;"
    with pytest.raises(UndefinedError, match="'name' is undefined"):
        template.render()
