"""Photographs that cannot be published, or would take another one's place, are told when the records are checked."""

from __future__ import annotations

import io
import struct
import zlib
from typing import TYPE_CHECKING

import pytest
from PIL import Image, ImageFile

from tinwright.knowledge import find_problems

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    Content = Callable[[dict[str, str]], Path]

PROCEDURE = """\
title: Turn it
purpose: {text: It turns., evidence: practice}
when: Now.
minutes: 1
steps:
SHOWN
done_when: It turned.
evidence: practice
reviewed: 2026-11-02
"""


def told(content: Content, photos: dict[str, bytes], *named: str) -> list[str]:
    steps = "\n".join(f"  - {{do: Turn., photo: {{file: '{file}', alt: A, credit: B}}}}" for file in named)
    root = content({"procedures/turn.yml": PROCEDURE.replace("SHOWN", steps)})
    for file, raw in photos.items():
        (root / "photos" / file).parent.mkdir(parents=True, exist_ok=True)
        (root / "photos" / file).write_bytes(raw)
    return [str(problem).removeprefix("content/procedures/turn.yml:") for problem in find_problems(root)]


def picture(format_: str = "JPEG", size: tuple[int, int] = (40, 30)) -> bytes:
    out = io.BytesIO()
    Image.effect_noise(size, 50).save(out, format_)
    return out.getvalue()


def claiming(width: int, height: int) -> bytes:
    """A PNG that says it is so large, with next to nothing in it."""

    def chunk(name: bytes, body: bytes) -> bytes:
        return struct.pack(">I", len(body)) + name + body + struct.pack(">I", zlib.crc32(name + body))

    header = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", header) + chunk(b"IDAT", zlib.compress(b"\0")) + chunk(b"IEND", b"")


@pytest.mark.parametrize(("name", "format_"), [("a.jpg", "JPEG"), ("a.png", "PNG"), ("deep/a.webp", "WEBP")])
def test_a_photograph_is_sound(content: Content, name: str, format_: str) -> None:
    assert told(content, {name: picture(format_)}, name, name) == []


@pytest.mark.parametrize(
    ("lies", "named", "hint"),
    [
        ("Seam.JPG", "seam.jpg", "it is called 'Seam.JPG'; capitals and folders count"),
        ("seam.jpg", "photos/seam.jpg", "it is called 'seam.jpg'; capitals and folders count"),
        ("seam.jpg", "content/photos/Seam.jpg", "it is called 'seam.jpg'; capitals and folders count"),
        ("old/seam.jpg", "old\\seam.jpg", "it is called 'old/seam.jpg'; capitals and folders count"),
        ("old/seam.jpg", "seam.jpg", "it lies there as 'old/seam.jpg'"),
        ("seam.jpg", "new/seam.jpg", "it lies there as 'seam.jpg'"),
    ],
)
def test_a_wrong_case_or_folder_in_a_name_is_told_with_the_right_one(
    content: Content, lies: str, named: str, hint: str
) -> None:
    assert told(content, {lies: picture()}, named) == [
        f"6:31: procedure turn: no photograph {named!r} in content/photos: {hint}"
    ]


def test_two_photographs_that_would_be_published_under_one_name_are_told(content: Content) -> None:
    photos = {"a b.jpg": picture(), "A-B.png": picture("PNG")}
    assert told(content, photos, "a b.jpg", "A-B.png", "a b.jpg") == [
        "7:31: procedure turn: 'A-B.png' and 'a b.jpg' would both be published as 'a-b.jpg': rename one"
    ]


@pytest.mark.parametrize(
    ("raw", "said"),
    [
        (b"", "got an empty file"),
        (b"not a picture", "got a file that cannot be read as one"),
        (picture()[:-400], "got only the beginning of one: copy it again"),
        (picture("PNG")[:-400], "got only the beginning of one: copy it again"),
        (b'<?xml version="1.0"?><svg xmlns="http://www.w3.org/2000/svg"/>', "got an SVG drawing"),
        (
            b"\0\0\0\x18ftypheic\0\0\0\0mif1heic",
            "got a HEIC or AVIF file: have the phone or a computer save it as JPEG",
        ),
        (picture("GIF"), "got GIF"),
    ],
)
def test_what_is_no_photograph_is_told_for_what_it_is(content: Content, raw: bytes, said: str) -> None:
    assert told(content, {"a.jpg": raw}, "a.jpg") == [
        f"6:31: procedure turn: expected a photograph as JPEG, PNG or WebP, {said}"
    ]


def test_half_a_picture_is_told_even_where_a_library_takes_what_there_is(
    content: Content, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(ImageFile, "LOAD_TRUNCATED_IMAGES", True)
    (found,) = told(content, {"a.jpg": picture()[:-400]}, "a.jpg")
    assert "got only the beginning of one" in found
    assert ImageFile.LOAD_TRUNCATED_IMAGES


@pytest.mark.parametrize("size", [(20_000, 20_000), (4_000_000_000, 4_000_000_000)])
def test_a_picture_that_claims_to_be_giant_is_told_before_it_takes_the_memory(
    content: Content, size: tuple[int, int]
) -> None:
    (found,) = told(content, {"a.png": claiming(*size)}, "a.png")
    assert "expected a photograph of at most 250,000,000 pixels" in found or "cannot be read as one" in found


def test_a_name_of_signs_alone_is_told(content: Content) -> None:
    assert told(content, {"---.jpg": picture()}, "---.jpg") == [
        "6:31: procedure turn: expected letters or digits in the name of a photograph, got '---.jpg'"
    ]


def test_a_photograph_that_is_a_link_out_of_the_folder_is_told(content: Content, tmp_path: Path) -> None:
    (tmp_path / "secret.jpg").write_bytes(picture())
    root = content({})
    (root / "photos").mkdir()
    (root / "photos" / "a.jpg").symlink_to(tmp_path / "secret.jpg")
    found = told(content, {}, "a.jpg")
    assert any("a link that leads out of that folder" in line for line in found)
