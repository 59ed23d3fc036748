"""Generated questions with choices: spacer stacks, drawn defects, rollers and ways, steps of procedures."""

from __future__ import annotations

import random
import re
from fractions import Fraction
from itertools import groupby
from typing import TYPE_CHECKING

from tinwright.advice.profiles import sealer_setup
from tinwright.knowledge.linking import plain_text
from tinwright.knowledge.plain_words import say, say_direction
from tinwright.measures import parse_can_code
from tinwright.quizzes.questions import Choice, Question
from tinwright.seaming.setup import Stack, reachable_stacks, set_up

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from tinwright.knowledge import KnowledgeBase
    from tinwright.knowledge.models import Cause, Defect, Procedure, Sealer
    from tinwright.knowledge.models.procedure import Step
    from tinwright.seaming.setup import SetUp, Spacer

__all__ = ["drawn_questions", "lot_for", "roller_questions", "stack_questions", "step_questions"]

_OPTIONS = 4
"""Choices of a question."""
_ROLLERS = ("first-roller", "second-roller")
_WAYS = {"tighten": "nearer the chuck", "loosen": "away from the chuck"}
_TURN = re.compile(r"(?P<way>(?:counter)?clockwise)(?:, seen from (?P<view>[a-z ]+))?")
_NO_STEP = re.compile(r"(?:Never|Do not|Where|When|Watch|Leave|Keep|Check at once)\b|[^.]*(?:\bif\b|\?)", re.IGNORECASE)
"""A step that stands where it does for no reason of order: a warning, a case, or a look at any time."""
_IN_ANY_ORDER = frozenset(
    {
        "inspect-cans-and-lids",
        "inspect-parts",
        "look-and-feel",
        "mid-session-recheck",
        "store-cans-and-lids",
        "zero-the-gauges",
    }
)
"""Procedures that are a list of things to look at: nothing is lost when they are done in another order."""
_SET_UP = frozenset(
    {"base-height", "base-pressure", "chuck", "roller-height", "change-can-size", "clamp-and-assemble", "fit-chuck"}
)
"""Adjusters and procedures of the set-up."""
_FEWEST_STEPS, _MOST_STEPS = 4, 6
"""How many steps to put in order, where the procedure has as many."""
_LONGEST_TITLE = 40
"""Characters; a longer title would stand out among the others."""


def lot_for(seed: int, id_: str) -> random.Random:
    """Return the lot of one question: the same for the same seed and name, whatever other questions there are."""
    return random.Random(f"{seed} {id_}")  # noqa: S311 - a quiz is no secret


def stack_questions(kb: KnowledgeBase, seed: int) -> Iterator[Question]:
    """Ask which spacers a can needs on a sealer, for each pair that fits and needs some."""
    for sealer in kb.sealers.values():
        setup = sealer_setup(sealer)
        if setup.seat_height_in is None:
            continue
        for can in kb.cans.values():
            code = parse_can_code(can.code)
            found = set_up(code, setup) if code.is_round else None
            if found is None or not found.fits or found.stack.exact is None or not found.stack.exact.count:
                continue
            right = found.stack.exact
            wrong = _wrong_stacks(found, setup.spacers)
            if len(wrong) < 2:
                continue
            id_ = f"g-stack-{sealer.id}-{can.id}-1"
            height = _mixed(code.height_in)
            why = f"{_mixed(setup.seat_height_in)} in less {height} in leaves {_mixed(found.needed_in)} in to fill."
            text = (
                f"On the {_named(sealer)}, a can {_mixed(setup.seat_height_in)} in high needs no spacer. "
                f"The sealer has {_spacers(setup.spacers)}. Which spacers does a {can.code} can need?"
            )
            options = [(_stack(right), why), *((_stack(stack), said) for stack, said in wrong[: _OPTIONS - 1])]
            yield _one_answer(
                id_, seed, "set-up", text, options, 0.6, why, ("procedure/set-base-height", f"sealer/{sealer.id}"), kb
            )


def _wrong_stacks(found: SetUp, spacers: Sequence[Spacer]) -> list[tuple[Stack, str]]:
    """Return stacks of another height than the one needed, each with the slip that leads to it."""
    stacks = reachable_stacks(spacers)
    right = found.stack.exact
    if right is None:
        return []
    wrong: list[tuple[Stack, str]] = []
    inches = int(found.can.height_in)
    sixteenths = Fraction(found.can.sizes[-1][-2:]) if "." not in found.can.sizes[-1] else Fraction(0)
    read = found.needed_in + found.can.height_in - (inches + sixteenths / 100)
    wrong.append(
        (
            min(stacks.values(), key=lambda stack: (abs(stack.height_in - read), stack.count)),
            "You read the last two digits of the can's height as hundredths. They are sixteenths of an inch.",
        )
    )
    greedy = _thickest_first(found.needed_in, spacers)
    wrong.append((greedy, "You took the thickest first as long as they fit. That stack ends too low."))
    used = {kind.name: count for kind, count in right.pieces}
    ordered = sorted(spacers, key=lambda spacer: spacer.size_in)
    for spacer in ordered:
        if spacer.count > used.get(spacer.name, 0):
            more = _of(spacers, {**used, spacer.name: used.get(spacer.name, 0) + 1})
            wrong.append((more, f"One piece too many: the can would stand {_mixed(spacer.size_in)} in too high."))
            break
    for spacer in ordered:
        if used.get(spacer.name):
            fewer = _of(spacers, {**used, spacer.name: used[spacer.name] - 1})
            wrong.append((fewer, f"One piece too few: the can would stand {_mixed(spacer.size_in)} in too low."))
            break
    for near in sorted(stacks.values(), key=lambda stack: (abs(stack.height_in - found.needed_in), stack.height_in)):
        side = "low" if near.height_in < found.needed_in else "high"
        gap = _mixed(abs(near.height_in - found.needed_in))
        wrong.append((near, f"It is near, but {gap} in too {side}."))
    kept: dict[Fraction, tuple[Stack, str]] = {}
    for stack, why in wrong:
        if stack.height_in != found.needed_in and stack.count:
            kept.setdefault(stack.height_in, (stack, why))
    return list(kept.values())


def _thickest_first(needed: Fraction, spacers: Sequence[Spacer]) -> Stack:
    left, taken = needed, {}
    for spacer in sorted(spacers, key=lambda spacer: -spacer.size_in):
        taken[spacer.name] = min(spacer.count, int(left / spacer.size_in))
        left -= taken[spacer.name] * spacer.size_in
    return _of(spacers, taken)


def _of(spacers: Sequence[Spacer], counts: Mapping[str, int]) -> Stack:
    thickest = sorted(spacers, key=lambda spacer: (-spacer.size_in, spacer.name))
    pieces = tuple((spacer, counts[spacer.name]) for spacer in thickest if counts.get(spacer.name))
    return Stack(pieces, sum((spacer.size_in * count for spacer, count in pieces), Fraction(0)))


def _stack(stack: Stack) -> str:
    return " and ".join(f"{count} {spacer.name}{'s' * (count > 1)}" for spacer, count in stack.pieces)


def _spacers(spacers: Sequence[Spacer]) -> str:
    return ", ".join(
        f"{spacer.count} {spacer.name}{'s' * (spacer.count > 1)} of {_mixed(spacer.size_in)} in" for spacer in spacers
    )


def _mixed(inches: Fraction) -> str:
    whole, part = divmod(inches, 1)
    return " ".join(str(piece) for piece in (whole, part) if piece) or "0"


def drawn_questions(kb: KnowledgeBase, seed: int) -> Iterator[Question]:
    """Ask which defect is drawn, for each defect that differs in its drawing from three others like it."""
    for defect in kb.defects.values():
        wrong = _taken_for(kb, defect)[: _OPTIONS - 1]
        if len(wrong) < 2 or len(defect.title) > _LONGEST_TITLE:
            continue
        options = [(defect.title, plain_text(kb, defect.summary)), *wrong]
        yield _one_answer(
            f"g-drawn-{defect.id}-1",
            seed,
            "defects",
            "Which defect is drawn?",
            options,
            0.7,
            plain_text(kb, f"{defect.figure.caption} {defect.summary}"),
            (f"defect/{defect.id}",),
            kb,
            drawing=defect.id,
        )


def _taken_for(kb: KnowledgeBase, defect: Defect) -> list[tuple[str, str]]:
    """Return titles of the defects it is taken for, its look-alikes first, each with how to tell them apart."""
    told = {look.defect: look.difference for look in defect.look_alikes}
    others = [
        other
        for other in kb.defects.values()
        if other.id != defect.id and len(other.title) <= _LONGEST_TITLE and _shows(other) != _shows(defect)
    ]

    def likeness(other: Defect) -> tuple[int, int, int, str]:
        return (
            list(told).index(other.id) if other.id in told else len(told),
            -len(set(other.places) & set(defect.places)),
            -len(set(other.found_by) & set(defect.found_by)),
            other.id,
        )

    return [
        (other.title, plain_text(kb, told.get(other.id, f"{other.title} looks otherwise. {other.summary}")))
        for other in sorted(others, key=likeness)
    ]


def _shows(defect: Defect) -> object:
    """Return what is drawn, without the words: defects drawn alike cannot be told apart by the drawing."""
    return defect.figure.section, defect.figure.outside, defect.figure.hook


def roller_questions(kb: KnowledgeBase, seed: int) -> Iterator[Question]:
    """Ask which roller to move and which way, and on each sealer which screw to turn and which way."""
    for cause in kb.causes.values():
        if cause.adjuster not in _ROLLERS or cause.correction.direction not in _WAYS:
            continue
        signs = [
            f"{say(effect.dimension)} {say_direction(effect.dimension, effect.direction)}"
            for effect in cause.effects
            if effect.direction in {"larger", "smaller"}
        ]
        finding = plain_text(kb, cause.confirm[0].if_so)
        case = f"You check: {plain_text(kb, cause.confirm[0].do)} You find: {finding} "
        if signs:
            case += f"The readings say: {', '.join(signs)}. "
        options = [
            (f"Bring the {say(adjuster)} {way}".replace("the the ", "the "), _roller_why(kb, cause, adjuster, turn))
            for adjuster, turn, way in _four_ways(cause)
        ]
        teaches = (f"cause/{cause.id}", f"procedure/{cause.correction.procedure}")
        why = plain_text(kb, cause.what.text)
        text = case + "Which roller do you move, and which way?"
        yield _one_answer(f"g-roller-{cause.id}-1", seed, "causes", text, options, 0.65, why, teaches, kb)
        yield from _screw_questions(kb, cause, seed, why)


def _screw_questions(kb: KnowledgeBase, cause: Cause, seed: int, why: str) -> Iterator[Question]:
    for sealer in kb.sealers.values():
        turns = {
            (str(screw.adjuster), turn): match
            for screw in sealer.adjusters
            for turn, how in (("tighten", screw.tighten), ("loosen", screw.loosen))
            if screw.adjuster in _ROLLERS and (match := _TURN.search(how))
        }
        if len(turns) < _OPTIONS or any(
            turns[adjuster, "tighten"]["way"] == turns[adjuster, "loosen"]["way"] for adjuster in _ROLLERS
        ):
            continue
        options = [
            (_turned(adjuster, turns[adjuster, turn]), _roller_why(kb, cause, adjuster, turn))
            for adjuster, turn, _ in _four_ways(cause)
        ]
        told = f"{why} {_turned(cause.adjuster, turns[cause.adjuster, cause.correction.direction])}."
        yield _one_answer(
            f"g-roller-{cause.id}-{sealer.id}-1",
            seed,
            "causes",
            f"You have found the cause on the {_named(sealer)}: {_lower_first(cause.title)}. Which screw do you turn, "
            "and which way?",
            options,
            0.6,
            told,
            (f"sealer/{sealer.id}", f"cause/{cause.id}", f"procedure/{cause.correction.procedure}"),
            kb,
        )


def _four_ways(cause: Cause) -> list[tuple[str, str, str]]:
    """Return both rollers and both ways, the right one first."""
    ways = [(adjuster, turn, way) for adjuster in _ROLLERS for turn, way in _WAYS.items()]
    return sorted(ways, key=lambda way: way[:2] != (cause.adjuster, cause.correction.direction))


def _roller_why(kb: KnowledgeBase, cause: Cause, adjuster: str, turn: str) -> str:
    roller, way = adjuster.replace("-", " "), cause.correction.direction
    if (adjuster, turn) == (cause.adjuster, way):
        return plain_text(kb, cause.what.text)
    if adjuster == cause.adjuster:
        return f"The right roller, but the wrong way: it makes the fault worse. {cause.title}."
    if turn == way:
        return f"The right way, but the wrong roller: the {roller} does not cause this. {cause.title}."
    return f"The wrong roller and the wrong way: you would have two faults then. {cause.title}."


def _turned(adjuster: str, match: re.Match[str]) -> str:
    seen = f", seen from {match['view']}" if match["view"] else ""
    return f"{adjuster.replace('-', ' ').capitalize()} screw, {match['way']}{seen}"


def step_questions(kb: KnowledgeBase, seed: int) -> Iterator[Question]:
    """Ask for the order of some steps of each procedure that has one, for each drive that has steps of its own."""
    for procedure in kb.procedures.values():
        if procedure.id in _IN_ANY_ORDER:
            continue
        own = {drive for step in procedure.steps for drive in step.drives}
        sealers = [sealer for sealer in kb.sealers.values() if not procedure.drives or sealer.drive in procedure.drives]
        shown: dict[str | None, Sealer | None] = {None: None}
        if own:
            shown = {sealer.drive: sealer for sealer in reversed(sealers)}
        for drive, sealer in shown.items():
            on = f"-{sealer.id}" if sealer else ""
            id_ = f"g-steps-{procedure.id}{on}-1"
            lot = lot_for(seed, id_)
            run = _run(kb, procedure, drive, lot)
            if len(run) < 3:
                continue
            where = f"On the {sealer.title.lower()}: {_lower_first(procedure.title)}" if sealer else procedure.title
            yield _in_lot(
                Question(
                    id_,
                    _topic(procedure),
                    "order",
                    f"{where}. Put these steps in order.",
                    tuple(Choice(do, why) for do, why in run),
                    tuple(range(len(run))),
                    difficulty=0.6,
                    why=f"So the steps stand in the procedure. Done when: {plain_text(kb, procedure.done_when)}",
                    teaches=(f"procedure/{procedure.id}", *((f"sealer/{sealer.id}",) if sealer else ())),
                ),
                lot,
            )


def _run(kb: KnowledgeBase, procedure: Procedure, drive: str | None, lot: random.Random) -> list[tuple[str, str]]:
    """Draw some steps that stand one after the other on a drive, none of them in its place for no reason."""
    steps = [step for step in procedure.steps if not step.drives or drive in step.drives]
    runs = [list(run) for fits, run in groupby(steps, lambda step: not _NO_STEP.match(step.do)) if fits]
    # The first run that is long enough: what comes first in a procedure matters most.
    found = next((run for run in runs if len(run) >= _FEWEST_STEPS), max(runs, key=len, default=[]))
    start = lot.randint(0, max(0, len(found) - _MOST_STEPS))
    taken = found[start : start + _MOST_STEPS]
    texts = {_first_sentence(plain_text(kb, step.do)): _step_why(kb, step) for step in taken}
    return list(texts.items()) if len(texts) == len(taken) else []


def _step_why(kb: KnowledgeBase, step: Step) -> str:
    return plain_text(kb, step.why or step.see or "")


def _first_sentence(text: str) -> str:
    return re.split(r"(?<=[.!])\s", text, maxsplit=1)[0]


def _topic(procedure: Procedure) -> str:
    rollers = [adjuster for adjuster in _ROLLERS if adjuster in procedure.sets]
    if len(rollers) == 1:
        return rollers[0]
    if rollers or _SET_UP & {*procedure.sets, procedure.id}:
        return "set-up"
    return {"tear-down-and-measure": "measuring", "make-test-can": "test-can", "water-bubble-test": "test-can"}.get(
        procedure.id, "running"
    )


def _one_answer(
    id_: str,
    seed: int,
    topic: str,
    text: str,
    options: Sequence[tuple[str, str]],
    difficulty: float,
    why: str,
    teaches: tuple[str, ...],
    kb: KnowledgeBase,
    drawing: str | None = None,
) -> Question:
    """Make a question of options, the right one first, and put them in an order drawn by lot."""
    question = Question(
        id_,
        topic,
        "one-answer",
        text,
        tuple(Choice(*option) for option in options),
        (0,),
        drawing=drawing,
        difficulty=difficulty,
        why=why,
        teaches=tuple(reference for reference in teaches if tuple(reference.split("/", 1)) in kb.records),
    )
    return _in_lot(question, lot_for(seed, id_))


def _in_lot(question: Question, lot: random.Random) -> Question:
    order = list(range(len(question.choices)))
    lot.shuffle(order)
    if question.asks == "order" and order == sorted(order):
        order.reverse()
    return question.rearranged(tuple(order))


def _named(sealer: Sealer) -> str:
    """Name a sealer, and say so where its figures are invented."""
    invented = " (its figures are invented as an example)" if sealer.evidence.grade == "invented" else ""
    return f"{sealer.title.lower()}{invented}"


def _lower_first(text: str) -> str:
    return text[:1].lower() + text[1:]
