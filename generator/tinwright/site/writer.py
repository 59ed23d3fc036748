"""The site's Markdown and assets on disk, for any static-site tool."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tinwright.errors import WriteError
from tinwright.site.pages_and_assets import Asset, Page

if TYPE_CHECKING:
    from pathlib import Path

    from tinwright.site.building import SiteContent

__all__ = ["write_site"]

_MARK = ".tinwright"


def write_site(site: SiteContent, folder: Path) -> tuple[int, int]:
    """Write pages and assets below a folder of their own; unchanged files are not touched.

    Files of an earlier run that are no longer made are removed.

    Args:
        site: what to write.
        folder: a new or empty folder, or one written before.

    Returns:
        How many files were written, and how many earlier ones removed.

    Raises:
        WriteError: when the folder holds files that are not from an earlier run.
    """
    mark = folder / _MARK
    if folder.exists() and not folder.is_dir():
        raise WriteError(f"expected a folder, got the file {folder}")
    if folder.is_dir() and any(folder.iterdir()) and not mark.is_file():
        raise WriteError(f"the folder {folder} holds other files: name a new or empty one")
    folder.mkdir(parents=True, exist_ok=True)
    before = set(mark.read_text(encoding="utf-8").split("\n")) - {""} if mark.is_file() else set()
    items: list[Page | Asset] = [*site.pages, *site.assets]
    now = {item.uri for item in items}
    mark.write_text("\n".join(sorted(before | now)) + "\n", encoding="utf-8")
    written = sum(_write(item, folder) for item in items)
    gone = before - now
    for uri in gone:
        if (folder / uri).resolve().is_relative_to(folder.resolve()):
            (folder / uri).unlink(missing_ok=True)
    mark.write_text("\n".join(sorted(now)) + "\n", encoding="utf-8")
    return written, len(gone)


def _write(item: Page | Asset, folder: Path) -> bool:
    target = folder / item.uri
    content = item.content if isinstance(item, Asset) else item.text.encode()
    if target.is_file() and target.read_bytes() == content:
        return False
    target.parent.mkdir(parents=True, exist_ok=True)
    target.write_bytes(content)
    return True
