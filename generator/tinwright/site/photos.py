"""The programme's own photographs, made small enough for a phone."""

from __future__ import annotations

import io
from typing import TYPE_CHECKING

from PIL import Image, ImageOps

from tinwright.knowledge.loading import photos_in
from tinwright.site.page import Asset
from tinwright.site.rendering import photo_name

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from tinwright.knowledge import KnowledgeBase

__all__ = ["LONGEST_SIDE", "photo_assets", "resized"]

LONGEST_SIDE = 1200
"""Longest side of a published photograph, in pixels."""


def photo_assets(kb: KnowledgeBase) -> Iterator[Asset]:
    """Yield each photograph a record names, resized, once."""
    for file in sorted({photo.file for record in kb.records.values() for _, photo in photos_in(record)}):
        yield Asset(f"photos/{photo_name(file)}", resized(kb.root / "photos" / file))


def resized(path: Path) -> bytes:
    """Return a photograph as JPEG, upright, without its metadata, no side longer than `LONGEST_SIDE`."""
    with Image.open(path) as picture:
        upright = ImageOps.exif_transpose(picture).convert("RGB")
        upright.thumbnail((LONGEST_SIDE, LONGEST_SIDE))
        out = io.BytesIO()
        upright.save(out, "JPEG", quality=82, optimize=True)
    return out.getvalue()
