"""The report on a sheet of seam readings: one HTML page to print or keep, a printed page for each can."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

from markupsafe import Markup

from tinwright.advice.spoken import (
    OUTCOMES,
    judged_by,
    limits_text,
    spoken_causes,
    spoken_names,
    spoken_steps,
    value_text,
)
from tinwright.figures import GOOD_SEAM, section_svg
from tinwright.seaming import FORMULAS, LABELS, SIDE_SEAM_NOTE, length_text
from tinwright.seaming.sentences import sentence
from tinwright.templates import asset_of, template_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tinwright.advice.advice import SeamAdvice
    from tinwright.errors import Problem
    from tinwright.figures import SectionDimensions
    from tinwright.knowledge import KnowledgeBase
    from tinwright.seaming import DimensionVerdict

__all__ = ["report_html", "worst_seam"]

_DRAWN = ("body_hook", "cover_hook", "seam_width", "seam_thickness", "countersink")
_MOST_DRAWN_IN = 0.5
"""What is larger than this is a slip, and would make a drawing of yards."""


def report_html(
    kb: KnowledgeBase, advices: Sequence[SeamAdvice], settings: dict[str, str], problems: Sequence[Problem] = ()
) -> str:
    """Return one HTML page about the cans of a sheet, whole in itself: no script, nothing from elsewhere.

    Args:
        kb: the knowledge base.
        advices: what is said about each can.
        settings: what stands at the head of the sheet.
        problems: what could not be read on the sheet.
    """
    return template_of("advice", "report.html.j2").render(
        kb=kb,
        settings=settings,
        problems=problems,
        cans=[_can(kb, number, advice) for number, advice in enumerate(advices, 1)],
        labels=LABELS,
        outcomes=OUTCOMES,
        side_seam=SIDE_SEAM_NOTE,
        questions_first=sentence("questions-first"),
        figure_styles=asset_of("figures", "figures.css"),
    )


def _can(kb: KnowledgeBase, number: int, advice: SeamAdvice) -> dict[str, Any]:
    good = section_svg(
        GOOD_SEAM,
        title="A good seam",
        description="Cross-section to scale.",
        id_prefix=f"good{number}",
        unit=advice.readings.seam.unit,
    )
    return {
        "advice": advice,
        "judged_by": judged_by(advice),
        "steps": list(spoken_steps(kb, advice.readings.defects)),
        "rows": [(part, value_text(part), limits_text(part), _formula(part)) for part in advice.verdict.parts],
        "names": list(spoken_names(kb, advice)),
        "drawn": _drawing(number, advice),
        "overlap_differs": any(
            part.dimension == "overlap"
            and part.least is not None
            and length_text(part.least, part.unit) != length_text(worst_seam(advice).overlap, part.unit)
            for part in advice.verdict.parts
        ),
        "taken": [LABELS[name.replace("_", "-")].lower() for name in _DRAWN if not _is_read(advice, name)],
        "good": Markup(good),  # noqa: S704 figures escapes every text in it
        "causes": list(spoken_causes(kb, advice.causes)) if advice.causes else [],
    }


def _is_read(advice: SeamAdvice, name: str) -> bool:
    return advice.readings.seam.extremes(name.replace("_", "-")) is not None


def _formula(part: DimensionVerdict) -> dict[str, Any] | None:
    """Return the formula of a computed value, with the numbers put in."""
    if not part.formula:
        return None
    formula = FORMULAS[part.formula]
    numbers = {symbol: length_text(value, part.unit).removesuffix(f" {part.unit}") for symbol, value in part.inputs}
    return {
        "mathml": Markup(formula.mathml),  # noqa: S704 made of the formula's own symbols
        "numbers": f"{formula.symbol} = {formula.plain(numbers)}" if numbers else "",
        "variant": formula.variant,
        "known": formula.grade_text,
    }


def worst_seam(advice: SeamAdvice) -> SectionDimensions:
    """Return the seam to draw, from its worst readings.

    Those are the shortest hooks, unless one is too long, and the greatest width, thickness and countersink.
    """
    seam = advice.readings.seam
    too_long = {p.dimension for p in advice.verdict.parts if p.high is not None and (p.greatest or 0.0) > p.high}
    found: dict[str, float] = {}
    for name in _DRAWN:
        extremes = seam.extremes(name.replace("_", "-"))
        if extremes is not None:
            shortest = name.endswith("hook") and name.replace("_", "-") not in too_long
            found[name] = extremes.least if shortest else extremes.greatest
    plates = {"end_plate": seam.end_plate_in, "body_plate": seam.body_plate_in}
    return replace(GOOD_SEAM, **found, **{name: value for name, value in plates.items() if value is not None})


def _drawing(number: int, advice: SeamAdvice) -> Markup | None:
    """Draw the seam; None when nothing was measured or judged, or a reading is far too large for a seam."""
    seam = worst_seam(advice)
    if (
        not (advice.verdict.parts and any(_is_read(advice, name) for name in _DRAWN))
        or max(vars(seam).values()) > _MOST_DRAWN_IN
    ):
        return None
    out = {part.dimension for part in advice.verdict.parts if part.outcome == "reject"}
    drawn = section_svg(
        seam,
        title=f"Can {advice.can}: the seam as measured",
        description="Cross-section to scale from the worst readings.",
        id_prefix=f"can{number}",
        out=out & {"overlap", *(name.replace("_", "-") for name in _DRAWN)},
        unit=advice.readings.seam.unit,
    )
    return Markup(drawn)  # noqa: S704 figures escapes every text in it
