"""What is said about a can, its seam and the causes, block by block; terminal and report say the same."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tinwright.advice.advice import can_steps, nowhere_text, sign_text, what_to_ask
from tinwright.advice.seen_here import say_times
from tinwright.knowledge.linking import plain_text
from tinwright.knowledge.plain_words import say, say_direction
from tinwright.seaming import LABELS, span_text
from tinwright.seaming.correction import LOCK
from tinwright.seaming.sentences import sentence
from tinwright.seaming.signs import is_fault
from tinwright.seaming.wording import value_text as one_value_text

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from tinwright.advice.advice import CauseAdvice, SeamAdvice
    from tinwright.knowledge import KnowledgeBase
    from tinwright.knowledge.models import Cause
    from tinwright.seaming import DimensionVerdict, Distinction

__all__ = [
    "OUTCOMES",
    "Block",
    "cause_lines",
    "judged_by",
    "limits_text",
    "seam_lines",
    "spoken_causes",
    "spoken_names",
    "spoken_steps",
    "value_text",
]

OUTCOMES = {
    outcome: sentence(f"outcome-{outcome}")
    for outcome in ("accept", "measure-again", "reject", "no-limit", "not-measured")
}
"""Words of the verdict."""

_MOST_NAMED = 6
"""No more causes are named than a person looks into."""


@dataclass(frozen=True)
class Block:
    """A heading and what is said under it."""

    heading: str
    """In a few words."""
    lines: tuple[tuple[str, tuple[str, ...]], ...]
    """Each line, with what belongs under it."""


def value_text(part: DimensionVerdict) -> str:
    """Write the least and greatest value of a dimension, or a dash when there is none."""
    if part.least is None or part.greatest is None:
        return "–"
    return span_text(part.dimension, part.least, part.greatest, part.unit)


def limits_text(part: DimensionVerdict) -> str:
    """Write the limits of a dimension."""

    def shown(value: float) -> str:
        return one_value_text(part.dimension, value, part.unit)

    if part.low is not None and part.high is not None:
        return span_text(part.dimension, part.low, part.high, part.unit)
    if part.low is not None:
        return f"at least {shown(part.low)}"
    return f"at most {shown(part.high)}" if part.high is not None else "none given"


def spoken_steps(kb: KnowledgeBase, defects: Sequence[str]) -> Iterator[Block]:
    """Yield what to do with the can for each defect seen."""
    for title, steps in can_steps(kb, defects):
        yield Block(sentence("what-to-do-with-the-can", title=title), tuple((step, ()) for step in steps))


def spoken_causes(kb: KnowledgeBase, advice: CauseAdvice) -> Iterator[Block]:
    """Yield what is said about causes, check, question and correction."""
    if advice.first is None:
        safe = (
            sentence("stop"),
            sentence("ask-the-office", office=kb.programme.office),
        )
        told = any(is_fault(reason.sign) for ranked in advice.ranking.causes[:1] for reason in ranked.reasons)
        if told:
            yield Block("None of the known causes explains this", _flat(safe))
        else:
            yield Block(sentence("not-told"), _flat((sentence("tell"), *safe)))
    else:
        yield Block(sentence("causes"), tuple(_named(kb, advice)))
        if advice.experience and kb.seen_here and kb.seen_here.invented:
            yield Block("Counts", _flat((sentence("counts-invented"),)))
        if advice.ranking.apart:
            yield Block(sentence("apart"), _flat((_apart(kb, advice.ranking.apart[0]),)))
        yield from _checks(kb, advice.order, advice.first)
    if advice.question is not None:
        yield Block(sentence("help"), _flat((what_to_ask(kb, advice.question),)))
    if advice.first is not None:
        yield Block(sentence("correction", title=kb.causes[advice.first].title), _flat(_correction(kb, advice)))


def _checks(kb: KnowledgeBase, order: Sequence[str], likeliest: str) -> Iterator[Block]:
    """Yield the check to begin with and, where that is another one, the check of the likeliest cause."""
    check, first = kb.causes[order[0]], kb.causes[likeliest]
    if check is first:
        yield Block(sentence("check-first") + check.title, _flat(_asked(kb, check)))
        return
    quick = check.minutes <= first.minutes
    why = sentence("quick-first" if quick else "set-first", title=first.title)
    after = [kb.causes[id_].title for id_ in order[1 : order.index(likeliest) + 1]]
    then = sentence("then-check-in-order" if len(after) > 1 else "then-check", titles="; ".join(after))
    do, yes, no = _asked(kb, check)
    lines = (why, do, f"{yes} {check.correction.say}", f"{no} {then}")
    yield Block(sentence("check-first") + check.title, _flat(lines))
    yield Block(sentence("check-then") + first.title, _flat(_asked(kb, first)))


def _asked(kb: KnowledgeBase, cause: Cause) -> tuple[str, str, str]:
    check = cause.confirm[0]
    do, yes, no = (plain_text(kb, text) for text in (check.do, check.if_so, check.if_not))
    return do, f"Yes: {yes}", f"No: {no}"


def _flat(lines: Iterator[str] | Sequence[str]) -> tuple[tuple[str, tuple[str, ...]], ...]:
    return tuple((line, ()) for line in lines)


def _named(kb: KnowledgeBase, advice: CauseAdvice) -> Iterator[tuple[str, tuple[str, ...]]]:
    for ranked in advice.shown[:_MOST_NAMED]:
        reasons = []
        for stance, word in (("supports", "for"), ("contradicts", "against")):
            signs = [sign_text(kb, reason.sign) for reason in ranked.reasons if reason.stance == stance]
            if signs:
                reasons.append(f"{word}: {'; '.join(signs)}")
        times = say_times(advice.experience, ranked.cause)
        yield f"{ranked.word}: {kb.causes[ranked.cause].title}", (*reasons, *([times] if times else []))


def _apart(kb: KnowledgeBase, apart: Distinction) -> str:
    if apart.kind == "defect":
        title = kb.defects[apart.key].title
        return sentence("apart-defect", title=title, first=_seen(apart.first), second=_seen(apart.second))
    if apart.kind == "direction":
        first, second = (_either(apart.key, words) for words in (apart.first, apart.second))
        return sentence("apart-direction", dimension=say(apart.key), first=first, second=second)
    first, second = (" or ".join(say(word) for word in words) for words in (apart.first, apart.second))
    return sentence("apart-place", first=first, second=second)


def _either(dimension: str, words: Sequence[str]) -> str:
    return " or ".join(say_direction(dimension, word) for word in words)


def _seen(words: Sequence[str]) -> str:
    return sentence(f"with-{words[0]}")


def _correction(kb: KnowledgeBase, advice: CauseAdvice) -> Iterator[str]:
    said = advice.correction
    if said is None or advice.first is None:
        return
    cause = kb.causes[advice.first]
    yield cause.correction.say
    if LOCK in said.notes:
        yield LOCK
    if said.how is None:
        yield from (plain_text(kb, step.text) for step in cause.correction.do)
    else:
        sealer = kb.sealers[advice.sealer] if advice.sealer else None
        yield sentence("on-the-sealer", sealer=sealer.title.lower() if sealer else "sealer", how=said.how)
    if said.amount:
        yield said.amount
    if said.how is not None and advice.sealer and kb.sealers[advice.sealer].evidence.grade == "invented":
        yield sentence("figures-invented")
    yield from (note for note in said.notes if note != LOCK)
    yield f"{said.retest} The steps: {kb.procedures[cause.retest].title}."


def cause_lines(kb: KnowledgeBase, advice: CauseAdvice, defects: Sequence[str] = ()) -> Iterator[str]:
    """Yield what is said about signs, line by line, the cans first."""
    yield sentence("cans-first")
    yield from _lines(spoken_steps(kb, defects))
    yield from _lines(spoken_causes(kb, advice))


def seam_lines(kb: KnowledgeBase, advice: SeamAdvice) -> Iterator[str]:
    """Yield what is said about one can, line by line, the can itself first."""
    yield f"Can {advice.can}: {OUTCOMES[advice.verdict.outcome].upper()}. {advice.action}"
    yield from _indented(_lines(spoken_steps(kb, advice.readings.defects)))
    yield from _indented(advice.verdict.reasons)
    yield from _indented(f"Question: {question.text}" for question in advice.questions)
    if advice.specification is not None:
        yield f"  Judged by: {judged_by(advice)}"
    for part in advice.verdict.parts:
        yield f"  {LABELS[part.dimension]}: {value_text(part)}; limits {limits_text(part)}: {OUTCOMES[part.outcome]}"
    yield from _indented(spoken_names(kb, advice))
    if advice.causes is not None:
        if advice.questions:
            yield "  " + sentence("questions-first")
        yield from _indented(_lines(spoken_causes(kb, advice.causes)))


def spoken_names(kb: KnowledgeBase, advice: SeamAdvice) -> Iterator[str]:
    """Yield what the values out of their limits are called, and which of them nobody can say anything about."""
    if advice.named:
        yield f"What is out is called: {', '.join(kb.defects[id_].title for id_ in advice.named)}."
    yield from (nowhere_text(kb, value, direction) for value, direction in advice.nowhere)


def judged_by(advice: SeamAdvice) -> str:
    """Name the seam specification, and say so when it is invented."""
    if advice.specification is None:
        return "no seam specification"
    invented = advice.specification.evidence.grade == "invented"
    title = advice.specification.title
    return f"{title}. It is invented: never judge a real can by it." if invented else f"{title}."


def _lines(blocks: Iterator[Block]) -> Iterator[str]:
    for block in blocks:
        yield f"{block.heading}:"
        for line, under in block.lines:
            yield f"  {line}"
            yield from (f"    {each}" for each in under)


def _indented(lines: Iterator[str] | Sequence[str]) -> Iterator[str]:
    return (f"  {line}" for line in lines)
