"""The form as one page that works from a memory stick: it asks, keeps and saves, and knows no answer."""

from __future__ import annotations

import base64
import hashlib
import json
from typing import TYPE_CHECKING

from markupsafe import Markup

from tinwright.browser import script_text
from tinwright.examining.instructions import HOW_TO, unit_words
from tinwright.examining.pictures import picture_of
from tinwright.examining.print import templates
from tinwright.figures import places_of
from tinwright.quizzes.scoring import RULES
from tinwright.templates import asset_of

if TYPE_CHECKING:
    from tinwright.examining.form import ExamForm
    from tinwright.knowledge import KnowledgeBase

__all__ = ["exam_page"]


def exam_page(form: ExamForm, kb: KnowledgeBase) -> str:
    """Return the page of a form: one file of HTML that asks for nothing else.

    It holds no names of items, of places to point at or of the defects that are drawn: they would tell the answer.

    Args:
        form: the form.
        kb: the knowledge base with the defects that are drawn.
    """
    style = asset_of("examining", "exam-form.css")
    script = Markup(script_text("examination", "exam-form.js"))  # noqa: S704 our own
    known = {"exam": form.exam, "form": form.form, "code": form.code, "digest": form.digest}
    kinds = {item.asks for item in form.items}
    return templates().get_template("exam-form.html.j2").render(
        form=form,
        programme=kb.programme,
        asked=[
            (number, item, picture_of(item, number, kb), places_of(item.figure) if item.figure else ())
            for number, item in enumerate(form.items, 1)
        ],
        how_to=HOW_TO,
        rules=[(HOW_TO[asks], RULES[asks]) for asks in HOW_TO if asks in kinds],
        unit_words=unit_words,
        style=style,
        script=script,
        # What is read as data ends with the first "</script", whatever stands before it.
        known=Markup(json.dumps(known).replace("<", "\\u003c")),  # noqa: S704 no "<" is left
        policy=f"default-src 'none'; script-src {_hash(script)}; style-src {_hash(style)}; base-uri 'none'; "
        "form-action 'none'",
    )  # fmt: skip


def _hash(text: str) -> str:
    """Return how a content security policy names an inline script or style (CSP Level 3, section 2.3.1)."""
    return f"'sha256-{base64.b64encode(hashlib.sha256(text.encode()).digest()).decode('ascii')}'"
