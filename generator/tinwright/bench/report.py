"""The report on a sheet of seam readings: plain text for the terminal, one HTML page to print or keep."""

from __future__ import annotations

from dataclasses import replace
from importlib.resources import files
from typing import TYPE_CHECKING, Any

from jinja2 import Environment, PackageLoader, StrictUndefined
from markupsafe import Markup

from tinwright.bench.advice import can_action, plain_text, sign_text, what_to_ask
from tinwright.figures import GOOD_SEAM, section_svg
from tinwright.seaming import FORMULAS, LABELS, SIDE_SEAM_NOTE, inches_text, percent_text, span_text
from tinwright.seaming.wording import is_percent

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from tinwright.bench.advice import CauseAdvice, SeamAdvice
    from tinwright.figures import SectionDimensions
    from tinwright.knowledge import KnowledgeBase
    from tinwright.seaming import DimensionVerdict

__all__ = ["OUTCOMES", "cause_lines", "report_html", "seam_lines", "worst_seam"]

OUTCOMES = {
    "accept": "accept",
    "measure-again": "measure again",
    "reject": "reject",
    "no-limit": "no limit to judge by",
    "not-measured": "not measured",
}
"""Words of the verdict."""


def _value(part: DimensionVerdict) -> str:
    if part.least is None or part.greatest is None:
        return "–"
    return span_text(part.dimension, part.least, part.greatest)


def _limits(part: DimensionVerdict) -> str:
    def shown(value: float) -> str:
        return percent_text(value) if is_percent(part.dimension) else inches_text(value)

    if part.low is not None and part.high is not None:
        return f"{shown(part.low)} to {shown(part.high)}"
    if part.low is not None:
        return f"at least {shown(part.low)}"
    return f"at most {shown(part.high)}" if part.high is not None else "none given"


def _formula(part: DimensionVerdict) -> dict[str, Any] | None:
    """Return the formula of a computed value, with the numbers put in."""
    if not part.formula:
        return None
    formula = FORMULAS[part.formula]
    numbers = {symbol: inches_text(value).removesuffix(" in") for symbol, value in part.inputs}
    return {
        "mathml": Markup(formula.mathml),  # noqa: S704 made of the formula's own symbols
        "numbers": f"{formula.symbol} = {formula.plain(numbers)}",
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
    for name in ("body_hook", "cover_hook", "seam_width", "seam_thickness", "countersink"):
        extremes = seam.extremes(name.replace("_", "-"))
        if extremes is not None:
            shortest = name.endswith("hook") and name.replace("_", "-") not in too_long
            found[name] = extremes.least if shortest else extremes.greatest
    plates = {"end_plate": seam.end_plate_in, "body_plate": seam.body_plate_in}
    return replace(GOOD_SEAM, **found, **{name: value for name, value in plates.items() if value is not None})


def cause_lines(kb: KnowledgeBase, advice: CauseAdvice) -> Iterator[str]:
    """Yield what is said about causes, check and correction, line by line."""
    if advice.first is None:
        yield "None of the known causes explains this. Stop, seal no more, and ask. When nobody can tell, discard."
        if advice.question is not None:
            yield f"What would help: {what_to_ask(kb, advice.question)}"
        return
    yield "Causes:"
    for ranked in advice.shown:
        yield f"  {ranked.word}: {kb.causes[ranked.cause].title}"
        for stance, word in (("supports", "for"), ("contradicts", "against")):
            signs = [sign_text(kb, sign) for sign in advice.reasons(ranked, stance)]
            if signs:
                yield f"    {word}: {'; '.join(signs)}"
    yield f"Check first: {plain_text(kb, kb.causes[advice.order[0]].confirm[0].do)}"
    if advice.question is not None:
        yield f"What would help: {what_to_ask(kb, advice.question)}"
    if advice.correction is not None:
        yield f"Correction, if it is {kb.causes[advice.first].title}: {advice.correction.headline}"
        for text in (
            advice.correction.how,
            advice.correction.amount,
            *advice.correction.notes,
            advice.correction.retest,
        ):
            if text:
                yield f"  {text}"


def seam_lines(kb: KnowledgeBase, advice: SeamAdvice) -> Iterator[str]:
    """Yield what is said about one can, line by line, the can itself first."""
    yield f"Can {advice.can}: {OUTCOMES[advice.verdict.outcome].upper()}. {can_action(advice)}"
    for reason in advice.verdict.reasons:
        yield f"  {reason}"
    for question in advice.questions:
        yield f"  Question: {question.text}"
    for part in advice.verdict.parts:
        yield f"  {LABELS[part.dimension]}: {_value(part)}; limits {_limits(part)}: {OUTCOMES[part.outcome]}"
    if advice.causes is not None:
        yield from (f"  {line}" for line in cause_lines(kb, advice.causes))


def report_html(kb: KnowledgeBase, advices: Sequence[SeamAdvice], settings: dict[str, str]) -> str:
    """Return one HTML page about the cans of a sheet, whole in itself: no script, nothing from elsewhere."""
    env = Environment(
        loader=PackageLoader("tinwright.bench"), autoescape=True, undefined=StrictUndefined, trim_blocks=True
    )
    styles = files("tinwright.site").joinpath("assets", "figures.css").read_text(encoding="utf-8")
    return env.get_template("report.html.j2").render(
        kb=kb,
        settings=settings,
        cans=[_can(kb, number, advice) for number, advice in enumerate(advices, 1)],
        labels=LABELS,
        outcomes=OUTCOMES,
        side_seam=SIDE_SEAM_NOTE,
        figure_styles=Markup(styles),  # noqa: S704 the package's own style sheet
    )


def _can(kb: KnowledgeBase, number: int, advice: SeamAdvice) -> dict[str, Any]:
    out = frozenset(p.dimension for p in advice.verdict.parts if p.outcome == "reject")
    drawn = section_svg(
        worst_seam(advice),
        title=f"Can {advice.can}: the seam as measured",
        description="Cross-section to scale from the worst readings; dimensions not read are those of a good seam.",
        id_prefix=f"can{number}",
        out=out & {"body-hook", "cover-hook", "overlap", "seam-width", "seam-thickness", "countersink"},
    )
    good = section_svg(GOOD_SEAM, title="A good seam", description="Cross-section to scale.", id_prefix=f"good{number}")
    return {
        "advice": advice,
        "action": can_action(advice),
        "rows": [(part, _value(part), _limits(part), _formula(part)) for part in advice.verdict.parts],
        "drawn": Markup(drawn),  # noqa: S704 built as an element tree by figures
        "good": Markup(good),  # noqa: S704
        "causes": list(cause_lines(kb, advice.causes)) if advice.causes else [],
    }
