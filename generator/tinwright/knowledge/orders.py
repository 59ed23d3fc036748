"""The rule for orders: short enough to be said as they stand wherever there is room for no more."""

from __future__ import annotations

import re

__all__ = ["MOST_WORDS", "wrong_with_order"]

MOST_WORDS = 8
"""Longest order: what a glance takes in."""


def wrong_with_order(text: str) -> str:
    """Say what is wrong with an order; nothing when it is one short sentence in plain words.

    >>> wrong_with_order("Throw away bent lids."), wrong_with_order("Wipe the [[part/chuck]].")
    ('', 'expected plain words without a link')
    """
    if "[[" in text:
        return "expected plain words without a link"
    if (words := len(text.split())) > MOST_WORDS:
        return f"expected a short order of at most {MOST_WORDS} words, got {words}"
    if not text[0].isupper() or not text.endswith(".") or re.search(r"[.!?;:]\s", text):
        return f"expected one order with a capital letter and a period, such as 'Throw away bent lids.', got {text!r}"
    return ""
