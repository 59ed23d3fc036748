"""Sheets of an examination as tagged PDF, and the templates of examinations."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from tinwright.printing import html_to_pdf
from tinwright.quizzes.questions import letter_of
from tinwright.templates import asset_of, templates_of

if TYPE_CHECKING:
    from jinja2 import Environment

__all__ = ["sheet_pdf", "templates"]


def sheet_pdf(template: str, *, title: str, large: bool = False, **values: Any) -> bytes:
    """Print a sheet to PDF/UA-1 (ISO 14289-1), in the style of all sheets.

    Args:
        template: name of the template.
        title: title of the document.
        large: whether to print all of it in 18 points, in one column.
        **values: what the template needs.

    Raises:
        MissingExtraError: when the libraries of the extra `paper` are not installed.
        PaperError: when no font on the computer has some of the letters.
    """
    style = asset_of("examining", "sheets.css")
    if large:
        style += asset_of("examining", "large.css")
    return html_to_pdf(templates().get_template(template).render(title=title, style=style, **values))


def templates() -> Environment:
    """Return the templates of examinations."""
    env = templates_of("examining")
    env.globals.update(letter=letter_of)
    return env
