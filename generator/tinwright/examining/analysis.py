"""What all sittings of an examination say about its questions, its forms and its decisions.

Each person counts once, with the first sitting of the examination, since whoever sits it again has seen or studied
more. A form or an item that too few people sat gets no number, and the number of people that it takes.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING

import numpy as np

from tinwright.errors import ExamError, QuizError
from tinwright.examining.claims import claims_lines, claims_of_key
from tinwright.examining.reasons import Reason, reasons_for
from tinwright.knowledge.wording import nearest
from tinwright.quizzes.decision_estimate import DecisionEstimate, estimate_decisions
from tinwright.quizzes.item_statistics import ItemStatistics, analyse_items, rest_scores
from tinwright.quizzes.option_statistics import NO_ANSWER, OptionAnalysis, analyse_options, analyse_ticks
from tinwright.quizzes.reliability import Reliability, estimate_reliability
from tinwright.quizzes.scoring import read_answer
from tinwright.quizzes.shrinkage import Shrunk, shrunk_share
from tinwright.quizzes.statistic import MIN_PEOPLE, too_few
from tinwright.register.sittings import standing as standing_of

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    import numpy.typing as npt

    from tinwright.examining.form import ExamKey
    from tinwright.examining.sat_forms import SatForm
    from tinwright.quizzes.questions import Question
    from tinwright.register.entries import ItemResponse, Sitting

    Floats = npt.NDArray[np.float64]

__all__ = ["ExamAnalysis", "FormAnalysis", "ItemFinding", "analyse_sittings"]

_LARGEST_PART = 1000
"""Points are shares of at most this many parts, so that 0.333333 in the register is a third again."""


@dataclass(frozen=True)
class ItemFinding:
    """What is found of one item."""

    id: str
    """Name of the item."""
    forms: tuple[str, ...]
    """Codes of the forms it stands on, each with its number there, such as `A-3f9c2e 7`."""
    people: int
    """How many saw it."""
    statistics: ItemStatistics | None
    """Its numbers; None when too few people sat the examination."""
    question: Question | None
    """The question with its answer, where the form is at hand."""
    lettered: str
    """Code of the form whose letters the options have; empty where the form is not at hand."""
    options: OptionAnalysis | None
    """How its options did; None where it has none, or the form is not at hand."""
    dropped: bool
    """True when a correction counts it as right for everybody."""
    reasons: tuple[Reason, ...]
    """Why to look at it, the gravest first; empty for no reason."""
    early: Shrunk | None = None
    """While people are few, the share right drawn toward the judges' rating; None later, or without the form."""

    @property
    def harder_already(self) -> bool:
        """Whether even few people show it to be harder than the judges expected."""
        return self.early is not None and self.question is not None and self.early.high < self.question.difficulty


@dataclass(frozen=True)
class FormAnalysis:
    """What is found of one form."""

    code: str
    """Code of the form."""
    people: int
    """How many sat it."""
    totals: tuple[float, ...]
    """Their points; empty when they are too few."""
    items: int
    """How many items it has."""
    cut: int | None
    """Fewest points that pass; None when the key is not at hand."""
    passed: int
    """How many passed."""
    reliability: Reliability
    """Reliability with its interval, and the standard error of measurement."""
    decisions: DecisionEstimate | None
    """How far the decisions at the cut can be trusted; None when the key is not at hand."""
    outdated: int
    """How many are graded with another key than the last one at hand."""
    key: ExamKey | None
    """Its key; None when it is not at hand."""

    @property
    def claims(self) -> tuple[str, ...]:
        """What its whole pass rule does, in words; nothing when the key is not at hand."""
        if self.key is None or self.key.second_try_of:
            return ()
        return tuple(claims_lines(claims_of_key(self.key)))


@dataclass(frozen=True)
class ExamAnalysis:
    """What is found of an examination."""

    exam: str
    """Id of the examination."""
    people: int
    """How many people sat it, each counted once."""
    again: int
    """How many further sittings of the same people are left out."""
    people_needed: int
    """How many it takes to say anything about an item or a form."""
    reason: str
    """Why nothing is said about any item; empty when something is."""
    forms: tuple[FormAnalysis, ...]
    """The forms by code."""
    items: tuple[ItemFinding, ...]
    """The items, in the order of the forms."""

    @property
    def to_look_at(self) -> tuple[ItemFinding, ...]:
        """Items that there is more than a minor reason to look at, the gravest first."""
        found = [item for item in self.items if item.reasons and not item.reasons[0].minor]
        return tuple(sorted(found, key=lambda item: (item.reasons[0].rank, -len(item.reasons))))

    @property
    def minor(self) -> tuple[ItemFinding, ...]:
        """Items with nothing but minor reasons to look at them, in the order of the forms."""
        return tuple(item for item in self.items if item.reasons and item.reasons[0].minor)


def analyse_sittings(
    exam: str,
    sittings: Sequence[Sitting],
    responses: Iterable[ItemResponse],
    known: Mapping[str, SatForm],
    *,
    people_needed: int = MIN_PEOPLE,
) -> ExamAnalysis:
    """Analyse an examination.

    Args:
        exam: its id.
        sittings: all sittings of the register, superseded ones among them.
        responses: what was answered in those that still count.
        known: forms at hand by code; without them there are no options, cuts and texts.
        people_needed: fewest people who say anything about an item or a form.

    Raises:
        ExamError: when nobody sat it.
    """
    first, again = _first_sittings(exam, sittings)
    answered: dict[str, dict[str, ItemResponse]] = defaultdict(dict)
    for response in responses:
        answered[response.sitting_id][response.item_id] = response
    sat = [row for row in first if answered[row.id]]
    if not sat:
        exams = sorted({row.exam for row in sittings})
        raise ExamError(f"nobody sat the examination {exam!r}{nearest(exam, exams)}")
    by_form: dict[str, list[Sitting]] = defaultdict(list)
    for row in sat:
        by_form[row.form].append(row)
    codes = sorted(by_form)
    order = {code: _order(code, by_form[code], answered, known) for code in codes}
    columns = list(dict.fromkeys(item for code in codes for item in order[code]))
    table = np.array([[_points(answered[row.id].get(item)) for item in columns] for row in sat])
    analysis = analyse_items(table, people_needed=people_needed)
    rest = rest_scores(table)
    findings = []
    for place, item in enumerate(columns):
        places = {code: order[code].index(item) + 1 for code in codes if item in order[code]}
        options, lettered = _options(item, places, sat, answered, rest[:, place], known, people_needed)
        question = known[lettered].questions[item] if lettered else None
        statistics = analysis.items[place] if analysis.items else None
        dropped = any(code in known and item in known[code].dropped for code in places)
        findings.append(
            ItemFinding(
                item,
                tuple(f"{code} {number}" for code, number in places.items()),
                int(np.count_nonzero(~np.isnan(table[:, place]))),
                statistics,
                question,
                lettered,
                options,
                dropped,
                reasons_for(statistics, options, question, dropped=dropped),
                _early(table[:, place], question) if statistics is None and not dropped else None,
            )
        )
    forms = tuple(_form(code, by_form[code], order[code], answered, known.get(code), people_needed) for code in codes)
    return ExamAnalysis(exam, len(sat), again, people_needed, analysis.reason, forms, tuple(findings))


def _early(points: Floats, question: Question | None) -> Shrunk | None:
    if question is None:
        return None
    seen = points[~np.isnan(points)]
    return shrunk_share(float(seen.sum()), len(seen), question.difficulty)


def _first_sittings(exam: str, sittings: Sequence[Sitting]) -> tuple[list[Sitting], int]:
    standing = [row for row in standing_of(sittings) if row.exam == exam and row.second_of is None]
    first: dict[str, Sitting] = {}
    for row in sorted(standing, key=lambda row: row.taken_on):
        # Whoever was erased has no id any more; each of their sittings is taken for a person.
        first.setdefault(row.volunteer_id or row.id, row)
    return list(first.values()), len(standing) - len(first)


def _points(response: ItemResponse | None) -> float:
    if response is None:
        return float("nan")
    return float(Fraction(response.score).limit_denominator(_LARGEST_PART))


def _order(
    code: str, sat: Sequence[Sitting], answered: Mapping[str, Mapping[str, ItemResponse]], known: Mapping[str, SatForm]
) -> list[str]:
    """Return the items of a form: as it asks them where it is at hand, else by name."""
    seen = {item for row in sat for item in answered[row.id]}
    if code not in known:
        return sorted(seen)
    asked = [item.id for item in known[code].form.items]
    if seen != set(asked):
        raise ExamError(f"form {code}: the register has answers to other items than the form")
    return asked


def _form(
    code: str,
    sat: Sequence[Sitting],
    order: Sequence[str],
    answered: Mapping[str, Mapping[str, ItemResponse]],
    known: SatForm | None,
    people_needed: int,
) -> FormAnalysis:
    table = np.array([[_points(answered[row.id].get(item)) for item in order] for row in sat])
    cut = known.key.cut if known else None
    enough = not too_few(len(sat), people_needed)
    return FormAnalysis(
        code,
        len(sat),
        tuple(np.round(table.sum(axis=1), 9).tolist()) if enough else (),
        len(order),
        cut,
        sum(row.passed for row in sat),
        estimate_reliability(table, people_needed=people_needed),
        estimate_decisions(table, cut, people_needed=people_needed) if cut else None,
        sum(row.graded_with != known.key.digest for row in sat) if known else 0,
        known.key if known else None,
    )


def _options(
    item: str,
    places: Mapping[str, int],
    sat: Sequence[Sitting],
    answered: Mapping[str, Mapping[str, ItemResponse]],
    rest: Floats,
    known: Mapping[str, SatForm],
    people_needed: int,
) -> tuple[OptionAnalysis | None, str]:
    """Analyse the options over all forms that show the same ones, and return the form whose order and letters hold."""
    on_form = Counter(row.form for row in sat if row.form in places and row.form in known)
    if not on_form:
        return None, ""
    lettered = on_form.most_common(1)[0][0]
    question = known[lettered].questions[item]
    if question.asks not in {"one-answer", "point", "several-answers"}:
        return None, lettered
    texts = [choice.text for choice in question.choices]
    if len(set(texts)) < len(texts):
        return None, lettered
    where = {}
    for code in on_form:
        shown = [choice.text for choice in known[code].questions[item].choices]
        if sorted(shown) == sorted(texts):
            where[code] = [texts.index(text) for text in shown]
    picks, scores = [], []
    for row, score in zip(sat, rest.tolist(), strict=True):
        response = answered[row.id].get(item)
        # Answers of people who were erased are gone, and look like blanks.
        if row.form in where and response is not None and row.volunteer_id:
            picks.append(_picked(known[row.form].questions[item], response.response, where[row.form]))
            scores.append(score)
    if question.asks == "several-answers":
        ticks = np.array([[place in picked for place in range(len(texts))] for picked in picks]).reshape(-1, len(texts))
        return analyse_ticks(ticks, scores, keys=question.key, people_needed=people_needed), lettered
    chosen = [picked[0] if picked else NO_ANSWER for picked in picks]
    return (
        analyse_options(chosen, scores, key=question.key[0], options=len(texts), people_needed=people_needed),
        lettered,
    )


def _picked(question: Question, response: str | None, where: Sequence[int]) -> tuple[int, ...]:
    try:
        answer = read_answer(question, response or "")
    except QuizError as error:
        raise ExamError(f"the register holds an answer that does not fit the form: {error}") from error
    return tuple(where[place] for place in answer) if isinstance(answer, tuple) else ()
