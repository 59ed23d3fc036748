"""Check a seam and Find the cause: the pages beside the machine, and the data their scripts need."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tinwright.knowledge import KnowledgeBase
    from tinwright.site.page import Asset, Page
    from tinwright.site.rendering import Renderer

__all__ = ["bench_assets", "bench_pages"]


def bench_pages(kb: KnowledgeBase, renderer: Renderer) -> Iterator[Page]:
    yield from ()


def bench_assets(kb: KnowledgeBase) -> Iterator[Asset]:
    yield from ()
