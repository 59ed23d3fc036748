"""Photographs of the programme's own."""

from __future__ import annotations

import io
from typing import TYPE_CHECKING

import pytest
from PIL import Image

from filled_programme import PICTURE, filled_programme
from tinwright.knowledge.photographs import LONGEST_SIDE, resized
from tinwright.site import build_site
from tinwright.site.photos import photo_assets

if TYPE_CHECKING:
    from pathlib import Path


def a_picture(path: Path, size: tuple[int, int], *, turned: bool = False) -> Path:
    """A picture whose left half is red, with the maker, the place and (turned) the way up in its metadata."""
    picture = Image.new("RGB", size, "blue")
    picture.paste("red", (0, 0, size[0] // 2, size[1]))
    exif = Image.Exif()
    exif[0x010F] = "A camera"
    exif[0x8825] = {2: (45.0, 0.0, 0.0)}
    if turned:
        exif[0x0112] = 6
    path.parent.mkdir(parents=True, exist_ok=True)
    picture.save(path, exif=exif)
    return path


def test_a_large_picture_is_made_small_and_keeps_its_shape(tmp_path: Path) -> None:
    with Image.open(io.BytesIO(resized(a_picture(tmp_path / "a.jpg", (3000, 1500))))) as small:
        assert small.format == "JPEG"
        assert small.size == (LONGEST_SIDE, LONGEST_SIDE // 2)


def test_a_small_picture_is_not_blown_up(tmp_path: Path) -> None:
    with Image.open(io.BytesIO(resized(a_picture(tmp_path / "a.jpg", (300, 200))))) as small:
        assert small.size == (300, 200)


@pytest.mark.parametrize("name", ["a.jpg", "a.png", "a.webp"])
def test_metadata_is_dropped(tmp_path: Path, name: str) -> None:
    content = resized(a_picture(tmp_path / name, (400, 300)))
    assert b"A camera" not in content
    with Image.open(io.BytesIO(content)) as small:
        assert dict(small.getexif()) == {}
        assert not {"exif", "comment", "xmp"} & set(small.info)


def test_a_picture_taken_sideways_is_set_upright(tmp_path: Path) -> None:
    with Image.open(io.BytesIO(resized(a_picture(tmp_path / "a.jpg", (400, 200), turned=True)))) as small:
        assert small.size == (200, 400)
        red, _, blue = small.getpixel((100, 50))
        assert red > 200 > 50 > blue


@pytest.mark.parametrize("mode", ["L", "P", "RGBA", "CMYK", "1"])
def test_any_kind_of_picture_becomes_a_jpeg(tmp_path: Path, mode: str) -> None:
    file = tmp_path / ("a.jpg" if mode == "CMYK" else "a.png")
    Image.new(mode, (40, 30)).save(file)
    with Image.open(io.BytesIO(resized(file))) as small:
        assert (small.format, small.mode) == ("JPEG", "RGB")


def test_alternative_text_and_credit_stand_with_the_picture_on_its_page(tmp_path: Path) -> None:
    a_picture(tmp_path / "photos" / PICTURE, (2400, 1600))
    site = build_site(filled_programme(tmp_path, lambda path: f"words of {path}"))
    pages = {page.uri: page.text for page in site.pages}
    for uri, path in {
        "defects/defect.md": "defect.photos",
        "parts/part.md": "part.photos",
        "sealers/sealer.md": "sealer.photos",
        "procedures/procedure.md": "procedure.steps.photo",
    }.items():
        assert f'<img src="../photos/the-seam.jpg" alt="words of {path}.alt"' in pages[uri]
        assert f"Photograph: words of {path}.credit" in pages[uri]
    assert "photos/the-seam.jpg" in {asset.uri for asset in site.assets}


def test_a_picture_named_by_several_records_is_published_once(tmp_path: Path) -> None:
    kb = filled_programme(tmp_path, lambda path: f"words of {path}")
    assert [asset.uri for asset in photo_assets(kb)] == ["photos/the-seam.jpg"]
