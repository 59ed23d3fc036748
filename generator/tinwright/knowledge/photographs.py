"""The programme's own photographs, made small enough for a phone and for paper."""

from __future__ import annotations

import io
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pathlib import Path

__all__ = ["LONGEST_SIDE", "resized"]

LONGEST_SIDE = 1200
"""Longest side of a published photograph, in pixels."""


def resized(path: Path) -> bytes:
    """Return a photograph as JPEG, upright, without its metadata, no side longer than `LONGEST_SIDE`."""
    from PIL import Image, ImageOps  # noqa: PLC0415 - slow to load, and many programmes have no photograph

    with Image.open(path) as picture:
        upright = ImageOps.exif_transpose(picture).convert("RGB")
        upright.thumbnail((LONGEST_SIDE, LONGEST_SIDE))
        out = io.BytesIO()
        upright.save(out, "JPEG", quality=82, optimize=True)
    return out.getvalue()
