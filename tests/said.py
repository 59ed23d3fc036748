"""The words that no reader meets: what is not said in US English, or not said aloud, with what is said instead.

The list is ours, from reading pages aloud. Spellings are those of common US dictionaries; from memory, no one source.
"""

from __future__ import annotations

import re

__all__ = ["not_said"]

_NOT_SAID = {
    r"mend(s|ed|ing)?": "fix",
    r"(brings?|brought) about": "cause",
    r"anew": "again",
    r"(memory|USB) sticks?|on(to)? (a|the) stick": "USB drive",
    r"vouch(es|ed)? for": "answer for, or say that it is right",
    r"programmes?": "program",
    r"licence[sd]?": "license",
    r"reckon(s|ed|ing)?": "calculate",
    r"easily taken for": "looks like",
    r"tells? the first two apart": "shows which of the two it is",
    r"as far as": "through, until or as much as",
    r"told": "said, shown or reported",
    r"tak(e|es|en|ing) (it |them |this |both )?in": "import, or include",
    r"(all|way|halfway|once|go|goes|going|look|far|turns?|turned|swing) round": "around",
    r"round (the|a|an|each|every|its?|them|your|this|that) ": "around",
    r"afterwards|towards": "without s",
    r"(dis)?colour(s|ed|ing)?|greys?|centres?|(milli|centi)?metres?": "US spelling",
    r"(organ|recogn|analy|real|general|final)(is|ys)(e|es|ed|ing)": "US spelling",
    r"behaviours?|neighbours?|judgements?|mould(s|ed|y)?|aluminium|sulphur|whilst|amongst": "US spelling",
}
_ANY = re.compile("|".join(rf"(?P<w{n}>\b(?:{words})\b)" for n, words in enumerate(_NOT_SAID)), re.IGNORECASE)
_NAMES = re.compile(r"Food Standards Programme")
"""Names of others, which keep their spelling."""


def not_said(text: str) -> list[str]:
    """Return each word in a text that is not said, with some words around it and what is said instead."""
    text = _NAMES.sub("", " ".join(text.split()))
    found = []
    for match in _ANY.finditer(text):
        instead = list(_NOT_SAID.values())[int(str(match.lastgroup)[1:])]
        found.append(f"…{text[max(0, match.start() - 40) : match.end() + 30]}…: say {instead}")
    return found
