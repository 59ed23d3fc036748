"""The programme's own photographs, made small enough for a phone and for paper."""

from __future__ import annotations

import io
import re
import warnings
from typing import TYPE_CHECKING, Any, NamedTuple

from tinwright.remembering import remembered

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence
    from pathlib import Path

__all__ = [
    "LONGEST_SIDE",
    "NamedPhoto",
    "cleaned",
    "fault_of_picture",
    "faults_of_photos",
    "photo_name",
    "photo_path",
    "resized",
]

LONGEST_SIDE = 1200
"""Longest side of a published photograph, in pixels."""

_MOST_BYTES = 60_000_000
_MOST_PIXELS = 250_000_000
"""More than the largest sensor of a phone has, 200 million; what claims more is no photograph."""
_FORMATS = ("JPEG", "MPO", "PNG", "WEBP")
"""What is read; MPO is a JPEG with a second picture in it, as some phones write."""
_EXPECTED = "expected a photograph as JPEG, PNG or WebP"


class NamedPhoto(NamedTuple):
    """A photograph as a record names it."""

    file: str
    """Its path as written."""
    place: Any
    """Whatever tells where it was written; handed back with a fault."""


def photo_name(file: str) -> str:
    """Return the name under which a photograph is published: its path with the picture format of the site."""
    return re.sub(r"[^a-z0-9]+", "-", file.rsplit(".", 1)[0].lower()).strip("-") + ".jpg"


def photo_path(folders: Sequence[Path], file: str) -> Path:
    """Find a photograph in the layers; one on top stands in for one of the same name beneath."""
    found = [place for folder in folders if (place := folder / "photos" / file).is_file()]
    return (found or [folders[-1] / "photos" / file])[-1]


def resized(path: Path) -> bytes:
    """Return a photograph as JPEG, upright, without its metadata, no side longer than `LONGEST_SIDE`."""
    from PIL import Image, ImageOps  # noqa: PLC0415 - slow to load, and many programmes have no photograph

    with Image.open(path) as picture:
        upright = ImageOps.exif_transpose(picture).convert("RGB")
        upright.thumbnail((LONGEST_SIDE, LONGEST_SIDE))
        out = io.BytesIO()
        upright.save(out, "JPEG", quality=82, optimize=True)
    return out.getvalue()


def cleaned(path: Path) -> bytes:
    """Return a picture of a hand-written page in its own format: upright, no metadata, no larger than a photograph."""
    from PIL import Image, ImageOps  # noqa: PLC0415 - as above

    with Image.open(path) as picture:
        format_ = "JPEG" if picture.format == "MPO" else picture.format
        has_holes = format_ != "JPEG" and (picture.mode in {"RGBA", "LA", "PA"} or "transparency" in picture.info)
        upright = ImageOps.exif_transpose(picture).convert("RGBA" if has_holes else "RGB")
        upright.thumbnail((LONGEST_SIDE, LONGEST_SIDE))
        upright.info = {}
        out = io.BytesIO()
        upright.save(out, format_, optimize=True)
    return out.getvalue()


def fault_of_picture(file: Path) -> str | None:
    """Say why a file cannot be published as a picture, or None."""
    state = file.stat()
    return _unreadable(file, state.st_size, state.st_mtime_ns)


def faults_of_photos(folders: Sequence[Path], named: Iterable[NamedPhoto]) -> Iterator[tuple[Any, str]]:
    """Yield what is wrong with the photographs that records name: the place each was named at, and a message.

    Names are compared letter by letter, as a web server does; some computers take `A.JPG` for `a.jpg`.

    Args:
        folders: where the photographs lie, the program's own folder last.
        named: the photographs, in the order of their records.
    """
    listed = list(named)
    if not listed:
        return
    there = {
        file.relative_to(folder).as_posix(): folder
        for folder in folders
        for file in folder.rglob("*")
        if file.is_file()
    }
    published: dict[str, str] = {}
    for photo in listed:
        fault = _not_there(photo.file, there, folders[-1])
        if fault is None:
            fault = fault_of_picture(there[photo.file] / photo.file)
        first = published.setdefault(photo_name(photo.file), photo.file)
        if fault is None and first != photo.file:
            fault = f"{photo.file!r} and {first!r} would both be published as {photo_name(first)!r}: rename one"
        if fault is not None:
            yield photo.place, fault


def _not_there(name: str, there: Mapping[str, Path], own: Path) -> str | None:
    folder = there.get(name, own)
    if name in there and (folder / name).resolve().is_relative_to(folder.resolve()):
        return None
    missing = f"no photograph {name!r} in {folder.parent.name}/{folder.name}"
    if name in there:
        return f"{missing}: a link that leads out of that folder"
    plain = name.replace("\\", "/").removeprefix("./")
    for start in ("content/photos/", "photos/"):
        plain = plain.removeprefix(start)
    for other in sorted(there):
        if other.lower() == plain.lower():
            return f"{missing}: it is called {other!r}; capitals and folders count"
    for other in sorted(there):
        if other.lower().rpartition("/")[2] == plain.lower().rpartition("/")[2]:
            return f"{missing}: it lies there as {other!r}"
    return missing


@remembered
def _unreadable(file: Path, size: int, changed: int) -> str | None:  # noqa: ARG001 another time, another picture
    """Say why a file cannot be published as a photograph, or None; it is read to its end."""
    if size > _MOST_BYTES:
        return f"expected a photograph of at most {_MOST_BYTES:,} bytes, got {size:,}"
    from PIL import Image, ImageFile  # noqa: PLC0415 - as above

    if not photo_name(file.name).removesuffix(".jpg"):
        return f"expected letters or digits in the name of a photograph, got {file.name!r}"
    patient = ImageFile.LOAD_TRUNCATED_IMAGES  # the library that prints sets it for everybody
    ImageFile.LOAD_TRUNCATED_IMAGES = False
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore", Image.DecompressionBombWarning)
            with Image.open(file) as picture:
                if picture.format not in _FORMATS:
                    return f"{_EXPECTED}, got {picture.format}"
                width, height = picture.size
                if width * height > _MOST_PIXELS:
                    return f"expected a photograph of at most {_MOST_PIXELS:,} pixels, got {width} by {height}"
                picture.draft("RGB", (max(1, width // 8), max(1, height // 8)))
                picture.load()
    except Image.DecompressionBombError:
        return f"expected a photograph of at most {_MOST_PIXELS:,} pixels, got more"
    except Exception as error:  # noqa: BLE001 - a broken picture makes the library raise whatever it likes
        return _broken(file, error)
    finally:
        ImageFile.LOAD_TRUNCATED_IMAGES = patient
    return None


def _broken(file: Path, error: Exception) -> str:
    with file.open("rb") as opened:
        head = opened.read(1000)
    if b"<svg" in head:
        return f"{_EXPECTED}, got an SVG drawing"
    if head[4:12] in {b"ftypheic", b"ftypheix", b"ftypmif1", b"ftypavif"}:
        return f"{_EXPECTED}, got a HEIC or AVIF file: have the phone or a computer save it as JPEG"
    if not head:
        return f"{_EXPECTED}, got an empty file"
    if "truncated" in str(error):
        return f"{_EXPECTED}, got only the beginning of one: copy it again"
    return f"{_EXPECTED}, got a file that cannot be read as one"
