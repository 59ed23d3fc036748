"""Hand-written pages: Markdown below `content/pages`, with links to records and figures by name."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pathlib import Path

__all__ = ["HandwrittenPage", "read_handwritten"]


@dataclass(frozen=True)
class HandwrittenPage:
    """One hand-written page."""

    name: str
    """Its file's name without `.md`."""
    title: str
    """Its first heading."""
    text: str
    """Its Markdown, with `[[kind/id]]`, `{{ figure:NAME }}` and `{{ table:evidence }}` still in it."""


def read_handwritten(root: Path) -> tuple[HandwrittenPage, ...]:
    """Read the hand-written pages of a content folder, sorted by name; none is fine."""
    folder = root / "pages"
    if not folder.is_dir():
        return ()
    pages = []
    for file in sorted(folder.glob("*.md")):
        text = file.read_text(encoding="utf-8-sig")
        heading = next((line[2:].strip() for line in text.splitlines() if line.startswith("# ")), file.stem)
        pages.append(HandwrittenPage(file.stem, heading, text))
    return tuple(pages)
