"""Take it along, and On this device: the site without a signal, and what it keeps where it is read."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tinwright.browser import needed_scripts
from tinwright.site.pages_and_assets import Page

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tinwright.site.rendering import Renderer

__all__ = ["KEPT", "carry_pages"]

KEPT: tuple[tuple[str, str, str], ...] = (
    ("tinwright.seam-check", "Seam check", "The readings you typed last, so that a dropped phone does not lose them."),
    ("tinwright.find-cause", "Find the cause", "The answers you gave last."),
    ("tinwright.sealer", "Your sealer", "The sealer you named, so that you get the steps for that one."),
    (
        "tinwright.bench-log.",
        "Bench log",
        "What you wrote of each sealing day. It is nowhere else until you save its file: erase it only after that.",
    ),
    ("tinwright.practice-bench", "Practice bench", "Which sealers you set right, and your points."),
    ("tinwright.practice.", "Practice quizzes", "Your answers and what to practice next. Nobody else sees them."),
    ("tinwright.palette", "Light or dark", "Your choice of light or dark pages, once you have made one."),
    ("tinwright.no-copy", "No copy of the site", "Your wish that this device keeps no copy of the site."),
    (
        "indexeddb:tinwright",
        "Bench log, second copy",
        "Each line of the bench log once more, written to the disk at once in case the battery dies.",
    ),
    (
        "cache:",
        "Copy of the site",
        "All pages, and printed files that you have opened, for reading without a signal. It holds nothing you typed.",
    ),
)
"""Beginning of a key, what it is called, and what it is for; `cache:` and `indexeddb:` are no keys."""


def carry_pages(renderer: Renderer) -> Iterator[Page]:
    """Yield the page of ways to take the site along, and the page that shows and erases what it keeps."""
    here = "take-along.md"
    yield Page(here, renderer.render("take-along.md.j2", here))
    here = "on-this-device.md"
    yield Page(
        here, renderer.render("on-this-device.md.j2", here, purposes=KEPT, scripts=needed_scripts("on-this-device.js"))
    )
