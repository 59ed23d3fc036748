"""The small kitchen that tests stand on says what the demonstration says; a folder is filled whole or not at all."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

import pytest
from bs4 import BeautifulSoup
from pydantic import BaseModel

from demo_site import mkdocs
from settings import settings_for_one_layer
from small_kitchen import KITCHEN, lay_down
from tinwright.errors import WriteError
from tinwright.knowledge import KnowledgeBase, find_problems, load
from tinwright.knowledge.models.base import Evidence
from tinwright.site import build_site

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

Key = TypeVar("Key")
Value = TypeVar("Value")


@pytest.fixture
def laid(tmp_path: Path) -> Path:
    """The starter programme in a folder of its own."""
    folder = tmp_path / "our-kitchen"
    lay_down(folder)
    return folder


def tree(folder: Path) -> dict[str, bytes]:
    """Every file below a folder, and what is in it."""
    return {p.relative_to(folder).as_posix(): p.read_bytes() for p in sorted(folder.rglob("*")) if p.is_file()}


def evidence_in(value: Any) -> Iterator[Evidence]:
    """Every evidence of a record, however deep."""
    if isinstance(value, Evidence):
        yield value
    elif isinstance(value, BaseModel):
        for name in type(value).model_fields:
            yield from evidence_in(getattr(value, name))
    elif isinstance(value, tuple):
        for entry in value:
            yield from evidence_in(entry)


def in_both(ours: Mapping[Key, Value], theirs: Mapping[Key, Value]) -> list[tuple[Value, Value]]:
    """The records of the starter beside those of the demonstration, where an educator has not renamed or removed them."""
    found = [(ours[key], theirs[key]) for key in ours if key in theirs]
    assert found
    return found


def test_the_starter_has_no_problems(laid: Path) -> None:
    assert find_problems(laid / "content") == []


def test_the_starter_has_one_sealer_two_cans_and_three_defects(laid: Path) -> None:
    kb = load(laid / "content")
    assert list(kb.sealers) == ["our-sealer"]
    assert sorted(kb.cans) == ["307x409", "401x411"]
    assert sorted(kb.defects) == ["droop", "loose-seam", "sharp-seam"]


def test_each_defect_has_the_causes_common_behind_it(laid: Path, kb: KnowledgeBase) -> None:
    for defect, twin in in_both(load(laid / "content").defects, kb.defects):
        common = {link.cause for link in twin.causes if link.likelihood == "common"}
        assert common
        assert common <= {link.cause for link in defect.causes}


def test_the_starter_makes_pages(laid: Path) -> None:
    addresses = {page.uri for page in build_site(load(laid / "content")).pages}
    assert {"defects/droop.md", "trees/sharp-seam.md", "set-up/our-sealer-401x411.md"} <= addresses


def test_the_starter_is_the_educators_own_and_says_that_its_figures_are_invented(laid: Path) -> None:
    kb = load(laid / "content")
    assert not kb.programme.demonstration
    assert kb.sealers["our-sealer"].evidence.grade == "invented"
    words = b"".join(tree(laid).values()).lower()
    assert [name for name in (b"sorrel", b"mill street", b"fairground") if name in words] == []


def test_what_is_invented_in_a_programme_of_ones_own_is_no_demonstration(laid: Path) -> None:
    site = build_site(load(laid / "content"))
    texts = {page.uri: page.text for page in site.pages} | {
        asset.uri: asset.content.decode() for asset in site.assets if asset.uri.endswith(".js")
    }
    assert "invented as an example" in texts["sealers/our-sealer.md"]
    assert "Set no real sealer by them" in texts["set-up/our-sealer-401x411.md"]
    assert [uri for uri, text in texts.items() if "for the demonstration" in text] == []


def test_the_starter_claims_nothing_that_the_content_does_not(laid: Path, kb: KnowledgeBase) -> None:
    ours = {key: record for key, record in load(laid / "content").records.items() if key[0] != "programme"}
    for record, twin in in_both(ours, kb.records):
        assert set(evidence_in(record)) <= set(evidence_in(twin)), f"{record.kind} {record.id}"


def test_the_starter_corrects_a_cause_as_the_content_does(laid: Path, kb: KnowledgeBase) -> None:
    for cause, twin in in_both(load(laid / "content").causes, kb.causes):
        assert cause.correction == twin.correction
        assert cause.effects == twin.effects


def test_the_starter_is_built_with_the_settings_of_the_demonstration(laid: Path) -> None:
    ours = (laid / "mkdocs.yml").read_text(encoding="utf-8")
    assert ours == settings_for_one_layer().replace("Sorrel County can sealing", "Our can sealing")


@pytest.mark.slow
def test_the_starter_builds_strictly(laid: Path) -> None:
    result = mkdocs("build", "--strict", folder=laid)
    assert result.returncode == 0, result.stderr
    assert "WARNING" not in result.stderr
    page = BeautifulSoup(
        (laid / "site" / "set-up" / "our-sealer-307x409.html").read_text(encoding="utf-8"), "html.parser"
    )
    assert page.article is not None
    assert "figures are invented" in page.article.get_text(" ")


def test_laying_down_copies_every_file_and_counts_them(tmp_path: Path) -> None:
    count = lay_down(tmp_path / "deep" / "our-kitchen")
    laid = tree(tmp_path / "deep" / "our-kitchen")
    assert tree(KITCHEN).items() <= laid.items()
    assert count == len(laid) == len(tree(KITCHEN)) + 1
    assert [path.name for path in (tmp_path / "deep").iterdir()] == ["our-kitchen"]


def test_an_empty_folder_is_filled_even_when_one_stands_in_it(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    lay_down(Path())
    assert tree(KITCHEN).items() <= tree(Path.cwd()).items()


def test_a_folder_that_holds_something_is_refused_and_left_untouched(tmp_path: Path) -> None:
    (tmp_path / ".hidden").write_text("mine", encoding="utf-8")
    with pytest.raises(WriteError, match=r"^\S+: expected a new or an empty folder, .+$"):
        lay_down(tmp_path)
    assert tree(tmp_path) == {".hidden": b"mine"}


def test_a_file_of_that_name_is_refused_and_left_untouched(tmp_path: Path) -> None:
    file = tmp_path / "our-kitchen"
    file.write_text("mine", encoding="utf-8")
    with pytest.raises(WriteError):
        lay_down(file)
    assert tree(tmp_path) == {"our-kitchen": b"mine"}


def test_a_folder_that_cannot_be_made_is_told_in_one_line(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("mine", encoding="utf-8")
    with pytest.raises(WriteError, match=r"^\S+: cannot be written: [^\n]+$"):
        lay_down(tmp_path / "file" / "our-kitchen")


@pytest.mark.parametrize("exists", [True, False])
def test_nothing_is_left_half_written_when_the_disk_is_full(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, exists: bool
) -> None:
    folder = tmp_path / "our-kitchen"
    if exists:
        folder.mkdir()
    written: list[Path] = []

    def write_bytes(path: Path, content: bytes) -> int:
        if len(written) == 5:
            raise OSError(28, "No space left on device")
        written.append(path)
        with path.open("wb") as file:
            return file.write(content)

    monkeypatch.setattr(Path, "write_bytes", write_bytes)
    with pytest.raises(WriteError, match="No space left on device"):
        lay_down(folder)
    assert len(written) == 5
    assert list(tmp_path.rglob("*")) == ([folder] if exists else [])
