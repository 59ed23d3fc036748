"""Drawings made from numbers, as SVG text to put into a page: seams, cans, parts, set-ups and trees.

    from tinwright.figures import GOOD_SEAM, section_svg

    svg = section_svg(GOOD_SEAM, title="A good seam", description="Five layers, hooks locked.", id_prefix="good")

A drawing names and describes itself, takes the width it is given, and is the same for the same numbers. Colors come
from `assets/figures.css`; without it the drawing falls back to its own.
"""

from tinwright.figures.assembly import DRIVES, assembly_parts, assembly_svg
from tinwright.figures.closeup import hook_closeup_svg, outside_closeup_svg, section_closeup_svg
from tinwright.figures.control_chart import (
    ChartNote,
    PlottedCan,
    PlottedLimits,
    PlottedStretch,
    SpecificationLines,
    control_chart_svg,
)
from tinwright.figures.dimensions import GOOD_SEAM, SectionDimensions
from tinwright.figures.forming import FRAMES, forming_svg
from tinwright.figures.hook import HOOK_FEATURES, hook_svg, wrinkle_svg
from tinwright.figures.moving import MOVES, moving_svg
from tinwright.figures.operation import OPERATIONS, operation_svg, rollers_svg
from tinwright.figures.outside import EXTENTS, OUTSIDE_FEATURES, good_beside, outside_svg
from tinwright.figures.part import PART_FIGURES, part_svg
from tinwright.figures.pass_curve import CurveMark, CurvePoint, pass_curve_svg
from tinwright.figures.picture_file import StandaloneDrawing, standalone
from tinwright.figures.plots import (
    BarOfOption,
    ItemPoint,
    item_plot_svg,
    option_bars_svg,
    scores_svg,
)
from tinwright.figures.pointing import POINTING_FIGURES, places_of, pointing_svg
from tinwright.figures.section import SECTION_FEATURES, section_svg
from tinwright.figures.stack import stack_svg
from tinwright.figures.tree import TreeNode, tree_svg

__all__ = [
    "DRIVES",
    "EXTENTS",
    "FRAMES",
    "GOOD_SEAM",
    "HOOK_FEATURES",
    "MOVES",
    "OPERATIONS",
    "OUTSIDE_FEATURES",
    "PART_FIGURES",
    "POINTING_FIGURES",
    "SECTION_FEATURES",
    "BarOfOption",
    "ChartNote",
    "CurveMark",
    "CurvePoint",
    "ItemPoint",
    "PlottedCan",
    "PlottedLimits",
    "PlottedStretch",
    "SectionDimensions",
    "SpecificationLines",
    "StandaloneDrawing",
    "TreeNode",
    "assembly_parts",
    "assembly_svg",
    "control_chart_svg",
    "forming_svg",
    "good_beside",
    "hook_closeup_svg",
    "hook_svg",
    "item_plot_svg",
    "moving_svg",
    "operation_svg",
    "option_bars_svg",
    "outside_closeup_svg",
    "outside_svg",
    "part_svg",
    "pass_curve_svg",
    "places_of",
    "pointing_svg",
    "rollers_svg",
    "scores_svg",
    "section_closeup_svg",
    "section_svg",
    "stack_svg",
    "standalone",
    "tree_svg",
    "wrinkle_svg",
]
