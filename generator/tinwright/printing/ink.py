"""Drawings as a printing press wants them: grays in place of screen colors, halos and names that the printer knows."""

from __future__ import annotations

import copy
import re
import xml.etree.ElementTree as ET

from markupsafe import Markup

__all__ = ["GRAYS", "inked"]

GRAYS = {
    "ink": "#000000",
    "paper": "#ffffff",
    "lid": "#f3f3f3",
    "body": "#d6d6d6",
    "tool": "#e6e6e6",
    "dark": "#8f8f8f",
    "fault": "#000000",
}
"""Gray of each color name of the drawings; every shape differs by outline or hatch as well."""

_VARIABLE = re.compile(r"var\(--tw-svg-([a-z]+),\s*(#[0-9a-fA-F]+)\)")


def inked(svg: str, prefix: str) -> Markup:
    """Return a drawing of `figures` ready for a printed page.

    Args:
        svg: the drawing.
        prefix: start of the ids in it; different for every drawing of a document.
    """
    root = ET.fromstring(svg)  # noqa: S314 made by figures, never read from outside
    _name(root)
    for parent in list(root.iter()):
        for child in list(parent):
            if _tag(child) == "text" and child.get("paint-order"):
                _halo(parent, child)
    for element in root.iter():
        element.tag = _tag(element)  # an HTML reader knows the names without a prefix only
        for key, value in element.attrib.items():
            gray = _VARIABLE.sub(lambda m: GRAYS.get(m[1], m[2]), value).replace("url(#", f"url(#{prefix}-")
            element.set(key, f"{prefix}-{value}" if key == "id" else gray)
    root.attrib.pop("aria-labelledby", None)
    root.set("xmlns", "http://www.w3.org/2000/svg")
    root.set("font-family", "Liberation Sans, Arial, Helvetica, sans-serif")
    return Markup(ET.tostring(root, encoding="unicode"))  # noqa: S704 an element tree


def _tag(element: ET.Element) -> str:
    return str(element.tag).rpartition("}")[2]


def _name(root: ET.Element) -> None:
    """Put the description to the title, which alone becomes the words for those who do not see the drawing."""
    found = {_tag(child): child for child in root if _tag(child) in {"title", "desc"}}
    title, description = found.get("title"), found.get("desc")
    if title is not None and description is not None and (description.text or "") not in {"", title.text}:
        title.text = f"{title.text}. {description.text}"


def _halo(parent: ET.Element, text: ET.Element) -> None:
    """Write letters over a copy of themselves in paper color: the printer does not know `paint-order`."""
    halo = copy.deepcopy(text)
    halo.set("fill", halo.get("stroke", "#ffffff"))
    for element in (halo, text):
        element.attrib.pop("paint-order", None)
    text.set("stroke", "none")
    text.attrib.pop("stroke-width", None)
    parent.insert(list(parent).index(text), halo)
