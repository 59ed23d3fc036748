"""The programme's own photographs, as the site publishes them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tinwright.knowledge.loading import photos_in
from tinwright.knowledge.photographs import photo_name, photo_path, resized
from tinwright.site.pages_and_assets import Asset

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tinwright.knowledge import KnowledgeBase

__all__ = ["photo_assets"]


def photo_assets(kb: KnowledgeBase) -> Iterator[Asset]:
    """Yield each photograph a record names, resized, once."""
    for file in sorted({photo.file for record in kb.records.values() for _, photo in photos_in(record)}):
        yield Asset(f"photos/{photo_name(file)}", resized(photo_path(kb.folders, file)))
