"""Pictures that go with a question, and nothing in them that names the answer."""

from __future__ import annotations

import base64
import xml.etree.ElementTree as ET
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from markupsafe import Markup

from tinwright.figures import GOOD_SEAM, hook_svg, outside_svg, places_of, pointing_svg, section_svg
from tinwright.printing import inked

if TYPE_CHECKING:
    from tinwright.examining.form import FormItem
    from tinwright.knowledge import KnowledgeBase
    from tinwright.knowledge.models import Defect

__all__ = ["Picture", "picture_of"]

_SVG = "http://www.w3.org/2000/svg"
_FAULT_SIZE = "18"
"""Size of the letters that name a fault in the drawings of `figures`."""


@dataclass(frozen=True)
class Picture:
    """A drawing beside a question."""

    svg: Markup
    """The SVG element, for a page."""
    title: str
    """What it is a drawing of."""
    description: str
    """What it shows, for somebody who does not see it."""

    @property
    def printed(self) -> str:
        """The address of an image that holds it, in grays and with letters that a printer can draw."""
        drawn = base64.b64encode(inked(self.svg, "p").encode())
        return f"data:image/svg+xml;base64,{drawn.decode('ascii')}"


def picture_of(item: FormItem, number: int, kb: KnowledgeBase) -> Picture | None:
    """Return the picture of a question, if it has one.

    Args:
        item: the question.
        number: its number in the form; the names inside the drawing are made of it.
        kb: the knowledge base with the defects that are drawn.
    """
    prefix = f"q{number}"
    if item.figure is not None:
        said = "; ".join(place.lies for place in places_of(item.figure))
        svg = pointing_svg(item.figure, title="Drawing with lettered places", id_prefix=prefix)
        return Picture(_plain(svg, keep_all=True), "Drawing with lettered places", said)
    if item.drawing is not None:
        return _of_defect(kb.defects[item.drawing], prefix)
    return None


def _of_defect(defect: Defect, prefix: str) -> Picture:
    spec = defect.figure
    title = "Drawing for this question"
    # any word on what it shows, its caption above all, can be the answer or rule the other choices out
    description = "Ask the examiner to describe it to you."
    if spec.outside is not None:
        svg = outside_svg(
            spec.outside.feature, extent=spec.outside.extent, title=title, description=description, id_prefix=prefix
        )
    elif spec.section is not None:
        given = {
            name: float(value.inches)
            for name in ("body_hook", "cover_hook", "seam_width", "seam_thickness", "countersink")
            if (value := getattr(spec.section, name)) is not None
        }
        svg = section_svg(
            replace(GOOD_SEAM, **given),
            feature=spec.section.feature,
            labels=False,
            title=title,
            description=description,
            id_prefix=prefix,
        )
    else:
        feature = spec.hook.feature if spec.hook else None
        svg = hook_svg(feature, title=title, description=description, id_prefix=prefix)
    return Picture(_plain(svg, keep_all=False), title, description)


def _plain(svg: str, *, keep_all: bool) -> Markup:
    """Return a drawing without the words that say what is wrong in it, unless all are to be kept."""
    root = ET.fromstring(svg)  # noqa: S314 made by figures, never read from outside
    for parent in list(root.iter()):
        for child in list(parent):
            if not keep_all and child.tag == f"{{{_SVG}}}text" and child.get("font-size") == _FAULT_SIZE:
                parent.remove(child)
    for element in root.iter():
        element.attrib.pop("data-part", None)
    ET.register_namespace("", _SVG)
    return Markup(ET.tostring(root, encoding="unicode"))  # noqa: S704 an element tree
