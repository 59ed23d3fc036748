"""The accessibility statement: what is aimed at, how it is tested, what is known to be lacking, and whom to tell."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tinwright import __version__
from tinwright.site.pages_and_assets import Page

if TYPE_CHECKING:
    from tinwright.site.rendering import Renderer

__all__ = ["ACCESSIBILITY_PAGE", "accessibility_page"]

ACCESSIBILITY_PAGE = "accessibility.md"
"""The page's place; the foot of every page leads to it."""


def accessibility_page(renderer: Renderer) -> Page:
    """Make the statement from the programme's record and from what the tests of this version do."""
    text = renderer.render("accessibility.md.j2", ACCESSIBILITY_PAGE, version=__version__)
    return Page(ACCESSIBILITY_PAGE, text)
