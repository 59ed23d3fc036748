"""What is said of signs, causes and corrections: one sentence once, for the terminal, the report and the phone.

`python -m tinwright.codegen` prints the table for the browser, `browser/seaming/seaming-sentences.js`.
"""

from __future__ import annotations

from types import MappingProxyType
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping

__all__ = ["SENTENCES", "sentence"]

SENTENCES: Mapping[str, str] = MappingProxyType(
    {
        "outcome-accept": "accept",
        "outcome-measure-again": "measure again",
        "outcome-reject": "reject",
        "outcome-no-limit": "no limit to judge by",
        "outcome-not-measured": "not measured",
        "action-accept": "This seam passes. It says nothing about the other cans: keep looking at every seam.",
        "action-measure-again": ("Set this can aside. Measure again before you decide; fill no more cans until then."),
        "action-reject": (
            "Do not use this can, and do not taste it. Stop. "
            "Hold every can sealed since the last good check that could have found this."
        ),
        "action-no-limit": (
            "No verdict: there is no seam specification to judge by. Set the can aside until there is one."
        ),
        "questions-first": "Answer the questions first: a slip changes all that follows.",
        "nowhere": (
            "{label} {direction}: nobody has published what causes this or how to correct it. "
            "Turn nothing on the sealer for this alone. Ask {office} and the can supplier."
        ),
        "what-to-do-with-the-can": "{title}, what to do with the can",
        "cans-first": (
            "The cans first: stop, and hold every can sealed since the last good check that could have found this. "
            "Do not taste."
        ),
        "sign-measured": "measured: {title}",
        "sign-seen": "seen: {title}",
        "sign-not-seen": "not seen: {title}",
        "sign-changed-last": "changed last: {change}",
        "help": "What would help",
        "ask-defect": "Look for this: {title}. {summary} Is it there?",
        "ask-direction": "Measure the {dimension}.",
        "ask-repeats": (
            "Look at the last few cans: is it on every can, at the same place, here and there, or on one only?"
        ),
        "ask-extent": (
            "Look how far around the can it goes: all the way, part of the way, one place, or at the side seam?"
        ),
        "ask-last-change": "What was changed last at this sealer?",
        "causes": "Likely causes",
        "times": "seen here {times} of {total} times",
        "times-here": "{here}, on this sealer {times} of {total}",
        "counts-invented": "The counts are invented as an example.",
        "apart": "What shows which of the first two it is",
        "apart-defect": "Look for this: {title}. It is {first} with the first, {second} with the second.",
        "apart-direction": "The {dimension}: {first} with the first, {second} with the second.",
        "apart-place": "Where it shows: {first} with the first, {second} with the second.",
        "with-not-seen": "not known",
        "with-common": "common",
        "with-occasional": "seen now and then",
        "with-rare": "rare",
        "check-first": "Check first: ",
        "check-then": "Then, for the likeliest cause: ",
        "quick-first": "This check is quick. It rules this out before the likeliest cause: {title}.",
        "set-first": "This is set before, so rule it out before the likeliest cause: {title}.",
        "then-check": "Then check: {titles}.",
        "then-check-in-order": "Then check, in this order: {titles}.",
        "not-told": "The fault itself is not named yet",
        "tell": (
            "Say what you see, feel or measure. Where, how often and what was changed name no cause by themselves."
        ),
        "stop": (
            "Stop. Seal no more. Hold every can sealed since the last good check that could have found this. "
            "If you cannot name the fault, go back to the last can torn down and good."
        ),
        "ask-the-office": "Ask {office}. When nobody can tell, throw the cans away.",
        "correction": "Correction, if it is: {title}",
        "on-the-sealer": "On the {sealer}: {how}",
        "figures-invented": "The figures of this sealer are invented as an example.",
        "move-least": "Move it as little as you can.",
        "move-at-most": "Move it no more than {turns}.",
        "move-less": "Move it a little, less than {turns}.",
        "move": "Move it {turns}, no more.",
        "lock": "Stop the sealer before you adjust it, and lock the adjuster before the test can.",
        "second-cannot-mend": "The second operation cannot fix the first: set the first roller first.",
        "check-after-first": "Check a seam after the first operation only, before the second roller comes in.",
        "all-after": "This moves everything after it: check the first operation, then the second, again.",
        "retest": "Then seal an empty can and judge its seam before any can is filled.",
    }
)
"""Every sentence by name; what is put in stands in braces."""


def sentence(name: str, **values: object) -> str:
    """Say a sentence with what belongs in it.

    >>> sentence("move", turns="1/8 turn")
    'Move it 1/8 turn, no more.'
    """
    return SENTENCES[name].format(**values)
