"""What the tests of drawings share: every kind of drawing, and how to read one."""

from __future__ import annotations

import xml.etree.ElementTree as ET
from functools import partial
from typing import TYPE_CHECKING

from tinwright import figures

if TYPE_CHECKING:
    from collections.abc import Callable

SVG = "{http://www.w3.org/2000/svg}"
TREE = figures.TreeNode(
    "Droop",
    "defect",
    "droop/",
    (
        figures.TreeNode("Is the first roller loose?", "check", None, (figures.TreeNode("Tighten it", "correction"),)),
        figures.TreeNode("Is the flange bent?", "check", "https://example.org/a"),
    ),
)
CAN = figures.PlottedCan("1", 0.0521, 0.0512, 0.0533)


def every_drawing() -> dict[str, Callable[..., str]]:
    """Return one call for every drawing there is, by a name for the test."""
    calls: dict[str, Callable[..., str]] = {
        "section": partial(figures.section_svg, figures.GOOD_SEAM),
        "hook": partial(figures.hook_svg, None),
        "wrinkle": partial(figures.wrinkle_svg, 70),
        "rollers": figures.rollers_svg,
        "stack": partial(figures.stack_svg, [("thin spacer", 0.0625)], can_height_in=4.5625, seat_height_in=4.625),
        "tree": partial(figures.tree_svg, (TREE,)),
        "control-chart": partial(figures.control_chart_svg, [figures.PlottedStretch((CAN,), None)]),
    }
    for feature in figures.SECTION_FEATURES:
        calls[f"section-{feature}"] = partial(figures.section_svg, figures.GOOD_SEAM, feature=feature)
    for feature in figures.OUTSIDE_FEATURES:
        for extent in figures.EXTENTS:
            calls[f"outside-{feature}-{extent}"] = partial(figures.outside_svg, feature, extent=extent)
    for feature in figures.HOOK_FEATURES:
        calls[f"hook-{feature}"] = partial(figures.hook_svg, feature)
    for feature in figures.OUTSIDE_FEATURES:
        for extent in figures.EXTENTS:
            for shown in (feature, figures.good_beside(feature)):
                calls[f"closeup-{feature}-{extent}-{shown}"] = partial(
                    figures.outside_closeup_svg, feature, extent=extent, shown=shown
                )
    for good in (False, True):
        for feature in figures.SECTION_FEATURES:
            name = f"closeup-section-{feature}-{good}"
            calls[name] = partial(figures.section_closeup_svg, figures.GOOD_SEAM, feature=feature, good=good)
        for feature in figures.HOOK_FEATURES:
            calls[f"closeup-hook-{feature}-{good}"] = partial(figures.hook_closeup_svg, feature, good=good)
    for operation in figures.OPERATIONS:
        calls[f"operation-{operation}"] = partial(figures.operation_svg, operation)
    for name in figures.MOVES:
        calls[f"moving-{name}"] = partial(figures.moving_svg, name)
    for name in figures.PART_FIGURES:
        calls[f"part-{name}"] = partial(figures.part_svg, name)
    for drive in figures.DRIVES:
        calls[f"assembly-{drive}"] = partial(figures.assembly_svg, drive)
    return calls


def draw(call: Callable[..., str], *, title: str = "A title", description: str = "Words.", id_prefix: str = "x") -> str:
    """Make a drawing with a title and so on."""
    return call(title=title, description=description, id_prefix=id_prefix)


def read(svg: str) -> ET.Element:
    """Parse a drawing."""
    return ET.fromstring(svg)  # noqa: S314 -- our own text


def points_of(element: ET.Element) -> list[tuple[float, float]]:
    """Return the corners of a polygon."""
    pairs = (pair.split(",") for pair in element.attrib["points"].split())
    return [(float(x), float(y)) for x, y in pairs]


def texts_of(root: ET.Element) -> str:
    """Return all that is written in a drawing."""
    return " ".join(" ".join(text.itertext()) for text in root.iter(f"{SVG}text"))
