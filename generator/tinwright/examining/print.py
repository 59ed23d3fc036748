"""Sheets of an examination as tagged PDF."""

from __future__ import annotations

from importlib.resources import files
from typing import Any

from jinja2 import Environment, PackageLoader, StrictUndefined
from markupsafe import Markup

from tinwright.quizzes.questions import letter_of
from tinwright.records.certificate_pdf import html_to_pdf as _tagged_pdf

__all__ = ["asset", "html_to_pdf", "sheet_html", "templates"]


def html_to_pdf(html: str, *, title: str, language: str = "en") -> bytes:
    """Print a whole page of HTML to PDF/UA-1 (ISO 14289-1).

    Args:
        html: the page, with its style sheet and images in it.
        title: title of the document; the page names the same one.
        language: its language; the page names the same one.

    Raises:
        CertificateError: when no font on the computer has some of the letters.
        ValueError: when the page names another title or language.
    """
    if f"<title>{Markup.escape(title)}</title>" not in html or f'lang="{language}' not in html:
        raise ValueError("expected a page with the title and the language of the document")
    return _tagged_pdf(html)


def sheet_html(template: str, *, title: str, **values: Any) -> str:
    """Fill the template of a sheet, with the style of all sheets.

    Args:
        template: name of the template.
        title: title of the document.
        **values: what the template needs.
    """
    return templates().get_template(template).render(title=title, style=Markup(asset("sheets.css")), **values)  # noqa: S704


def templates() -> Environment:
    """Return the templates of examinations."""
    env = Environment(
        loader=PackageLoader("tinwright.examining"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    env.globals.update(letter=letter_of)
    return env


def asset(name: str) -> str:
    """Return a file of the package's own, as text."""
    return files("tinwright.examining").joinpath("assets", name).read_text(encoding="utf-8")
