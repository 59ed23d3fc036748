"""Hand-written pages on paper: Markdown with pointers to pages, raw HTML shown as it was typed."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import markdown  # type: ignore[import-untyped]
from markdown.treeprocessors import Treeprocessor  # type: ignore[import-untyped]
from markupsafe import Markup, escape

from tinwright.advice.drawings import named_drawing
from tinwright.knowledge.evidence_table import with_evidence_table
from tinwright.knowledge.linking import INLINE

if TYPE_CHECKING:
    import xml.etree.ElementTree as ET
    from collections.abc import Callable

    from tinwright.knowledge.handwritten import HandwrittenPage
    from tinwright.paper.press import Press

__all__ = ["handwritten_html"]

_FIGURE = re.compile(r"\{\{\s*figure:([a-z-]+)\s*\}\}")
_OPEN, _SHUT = "\ue000", "\ue001"
"""Private characters round the number of something that is put in when Markdown is done."""


def handwritten_html(press: Press, page: HandwrittenPage) -> Markup:
    """Turn a hand-written page into HTML for paper, its first heading of the third level."""
    pieces: list[Markup] = []

    def keep(make: Callable[[re.Match[str]], Markup]) -> Callable[[re.Match[str]], str]:
        def replace(match: re.Match[str]) -> str:
            pieces.append(make(match))
            return f"{_OPEN}{len(pieces) - 1}{_SHUT}"

        return replace

    text = with_evidence_table(press.kb, re.sub(f"[{_OPEN}{_SHUT}]", "", page.text))
    text = _FIGURE.sub(keep(lambda match: _figure(press, match[1])), text)
    text = INLINE.sub(keep(press.pointer), text)
    html = _markdown().convert(text)
    html = re.sub(rf"<p>\s*{_OPEN}(\d+){_SHUT}\s*</p>", lambda m: str(pieces[int(m[1])]), html)
    html = re.sub(f"{_OPEN}(\\d+){_SHUT}", lambda m: str(pieces[int(m[1])]), html)
    return Markup(html)  # noqa: S704 Markdown with raw HTML switched off, and pieces escaped by the press


def _figure(press: Press, name: str) -> Markup:
    drawing = named_drawing(name)
    if drawing is None:
        return Markup()
    caption = escape(drawing.caption)
    return Markup('<div class="figures figures--one"><figure>{}<figcaption>{}</figcaption></figure></div>').format(
        press.ink(str(drawing.svg)), caption
    )


def _markdown() -> markdown.Markdown:
    md = markdown.Markdown(extensions=["tables", "sane_lists"])
    md.preprocessors.deregister("html_block")
    md.inlinePatterns.deregister("html")
    md.treeprocessors.register(_ForPaper(md), "for-paper", 1)
    return md


class _ForPaper(Treeprocessor):  # type: ignore[misc]
    """Sets headings below those of the chapter, and keeps of links and pictures what paper can carry."""

    def run(self, root: ET.Element) -> None:
        """Change the tree in place."""
        for element in root.iter():
            tag = str(element.tag)
            if re.fullmatch("h[1-6]", tag):
                element.tag = f"h{min(int(tag[1]) + 2, 6)}"
            elif tag == "a" and not re.match(r"https?://", element.get("href", "")):
                _plain_text(element, "")
            elif tag == "img":
                _plain_text(element, element.get("alt", ""))


def _plain_text(element: ET.Element, text: str) -> None:
    element.tag = "span"
    element.attrib.clear()
    element.text = (element.text or "") + text
