"""The analysis of an examination, told: lines for the screen, one HTML page with plots, and CSV."""

from __future__ import annotations

import csv
import io
from typing import TYPE_CHECKING, Any

from markupsafe import Markup

from tinwright.examining.pass_curve import drawn_curve
from tinwright.figures import BarOfOption, ItemPoint, item_plot_svg, option_bars_svg, scores_svg
from tinwright.quizzes.questions import letter_of
from tinwright.quizzes.shrinkage import RATING_COUNTS_FOR
from tinwright.quizzes.statistic import too_few
from tinwright.templates import asset_of, template_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tinwright.examining.analysis import ExamAnalysis, FormAnalysis, ItemFinding
    from tinwright.examining.results import Names
    from tinwright.quizzes.statistic import Statistic

__all__ = ["analysis_csv", "analysis_html", "analysis_lines", "early_lines"]


def analysis_lines(found: ExamAnalysis) -> Iterator[str]:
    """Tell the analysis in lines: the forms, and the items to look at with the reasons."""
    again = f"; {found.again} further sittings of the same people are left out" if found.again else ""
    yield f"{found.exam}: {found.people} people{again}"
    for form in found.forms:
        yield f"form {form.code}: {form.people} people, {form.passed} passed"
        yield from (f"  the rule: {line}" for line in form.claims)
        yield from (f"  {name}: {value}" for name, value in _form_rows(form))
    if found.reason:
        yield f"items: {found.reason}"
        yield from early_lines(found)
        return
    for item in found.to_look_at:
        yield f"look at {item.id} ({', '.join(item.forms)}):"
        yield from (f"  {reason.words}" for reason in item.reasons)
    for item in found.minor:
        yield f"minor, {item.id} ({', '.join(item.forms)}): {' '.join(reason.words for reason in item.reasons)}"
    yield f"{len(found.to_look_at)} of {len(found.items)} items to look at"


def early_lines(found: ExamAnalysis) -> Iterator[str]:
    """Tell what few people say about items already, pooled over all forms."""
    early = [item for item in found.items if item.early is not None]
    if not early:
        return
    yield (
        f"so far, with few people: shares right of {len(early)} items are drawn toward the judges' ratings, which "
        f"count for {RATING_COUNTS_FOR:.0f} people (our judgment)"
    )
    for item in early:
        if item.harder_already and item.early and item.question:
            yield (
                f"look at {item.id} ({', '.join(item.forms)}): {item.early.share:.0%} right "
                f"({item.early.low:.0%} to {item.early.high:.0%}, {item.early.people} people), "
                f"{item.question.difficulty:.0%} expected"
            )


def analysis_csv(found: ExamAnalysis) -> str:
    """Return the numbers of each item as CSV; a number that there is none of is left empty."""
    out = io.StringIO()
    table = csv.writer(out, lineterminator="\n")
    table.writerow(
        ["item", "forms", "people", "difficulty", "discrimination", "corrected", "upper_lower", "dropped", "reasons",
         "early_share", "early_low", "early_high"]
    )  # fmt: skip
    for item in found.items:
        numbers = item.statistics
        table.writerow(
            [
                item.id,
                "; ".join(item.forms),
                item.people,
                *(
                    "" if value is None or value.value is None else f"{value.value:.6f}"
                    for value in (
                        (numbers.difficulty, numbers.discrimination, numbers.corrected, numbers.upper_lower)
                        if numbers
                        else (None,) * 4
                    )
                ),
                "yes" if item.dropped else "no",
                " ".join(reason.name for reason in item.reasons),
                *(
                    [f"{number:.3f}" for number in (item.early.share, item.early.low, item.early.high)]
                    if item.early
                    else [""] * 3
                ),
            ]
        )
    return out.getvalue()


def analysis_html(found: ExamAnalysis, names: Names) -> str:
    """Return one HTML page about an examination, whole in itself: no script, nothing from elsewhere."""
    return template_of("examining", "analysis.html.j2").render(
        found=found,
        early=list(early_lines(found)) if found.reason else [],
        names=names,
        forms=[
            (form, _form_rows(form), _scores(number, form), _curve(number, form))
            for number, form in enumerate(found.forms, 1)
        ],
        plot=_plot(found),
        looked=[_shown(item, names) for item in found.to_look_at],
        rows=[(item, _row(item)) for item in found.items],
        figure_styles=asset_of("figures", "figures.css"),
    )


def _form_rows(form: FormAnalysis) -> list[tuple[str, str]]:
    """Return what is said of a form, each with its name."""
    rows = []
    if form.outdated:
        rows.append(
            ("attention", f"{form.outdated} of them are graded with another key than the last one: grade them again")
        )
    reason = too_few(form.people, form.reliability.people_needed)
    if reason:
        return [*rows, ("numbers", f"none: {reason}")]
    trust = form.reliability
    rows.append(("mean and standard deviation", f"{_number(trust.mean, 2)} and {_number(trust.deviation, 2)} points"))
    rows.append(("KR-20", _number(trust.kr20, 2)))
    interval = f" (95 % interval {trust.interval.low:.2f} to {trust.interval.high:.2f})" if trust.interval else ""
    rows.append(("alpha", f"{_number(trust.alpha, 2)}{interval}"))
    rows.append(("standard error of measurement", f"{_number(trust.standard_error, 2)} points"))
    decisions = form.decisions
    if decisions is None:
        rows.append(("decisions", "not known: name the folder with the forms and keys"))
        return rows
    if decisions.normal is None or decisions.beta_binomial is None:
        rows.append((f"decisions at the cut of {form.cut}", f"none: {decisions.reason}"))
        return rows
    wrong, twice = decisions.beta_binomial, decisions.beta_binomial.consistency
    kappa = _number(twice.kappa, 2)
    rows += [
        (
            f"same decision twice at the cut of {form.cut}",
            f"{twice.agreement:.0%} (beta-binomial; kappa {kappa}), {decisions.normal.agreement:.0%} (normal)",
        ),
        (
            "decided wrongly by the score",
            f"{wrong.false_pass:.1%} wrongly passed, {wrong.false_fail:.1%} wrongly failed (beta-binomial)",
        ),
        ("Livingston's index at the cut", _number(decisions.livingston, 2)),
        ("Brennan and Kane's index at the cut", _number(decisions.dependability, 2)),
    ]
    return rows


def _number(statistic: Statistic, places: int) -> str:
    if statistic.value is None:
        return f"none ({statistic.reason})"
    return f"{statistic.value:.{places}f}".replace("-", "\N{MINUS SIGN}")


def _scores(number: int, form: FormAnalysis) -> Markup | None:
    if not form.totals:
        return None
    drawn = scores_svg(
        form.totals, items=form.items, cut=form.cut, title=f"Points on form {form.code}", id_prefix=f"form{number}"
    )
    return Markup(drawn)  # noqa: S704 figures escapes every text in it


def _curve(number: int, form: FormAnalysis) -> Markup | None:
    if form.key is None or form.key.second_try_of:
        return None
    return Markup(drawn_curve(form.key, id_prefix=f"curve{number}"))  # noqa: S704 figures escapes every text in it


def _plot(found: ExamAnalysis) -> Markup | None:
    points = [
        ItemPoint(item.id, numbers.difficulty.value, numbers.corrected.value, _is_grave(item))
        for item in found.items
        if (numbers := item.statistics) is not None
        and numbers.difficulty.value is not None
        and numbers.corrected.value is not None
        and not item.dropped
    ]
    if not points:
        return None
    # figures escapes the names of items
    return Markup(item_plot_svg(points, title="Items", id_prefix="items"))  # noqa: S704


def _is_grave(item: ItemFinding) -> bool:
    """Tell whether the item itself may be wrong, and not only easy, hard or with an idle distractor."""
    return any(reason.rank < 3 for reason in item.reasons)


def _shown(item: ItemFinding, names: Names) -> dict[str, Any]:
    bars = None
    if item.options is not None and item.options.options and item.question is not None:
        shown = [
            BarOfOption(f"{letter_of(place)} {choice.text}", option.share, option.keyed)
            for place, (choice, option) in enumerate(zip(item.question.choices, item.options.options, strict=True))
        ]
        drawn = option_bars_svg(shown, title=f"Options of {item.id}", id_prefix=f"options-{item.id}")
        bars = Markup(drawn)  # noqa: S704 figures escapes every text in it
    return {
        "item": item,
        "topic": names.topic(item.question.topic) if item.question else "",
        "bars": bars,
        "blank": item.options.blank if item.options and item.options.options else 0,
    }


def _row(item: ItemFinding) -> tuple[str, str, str, str]:
    numbers = item.statistics
    if numbers is None:
        return ("", "", "", "")
    if numbers.difficulty.value is None:
        return (numbers.difficulty.reason, "", "", "")
    return (
        f"{numbers.difficulty.value:.0%}",
        _number(numbers.corrected, 2),
        _number(numbers.upper_lower, 2),
        "; ".join(reason.name.replace("-", " ") for reason in item.reasons),
    )
