"""Times and turns as people type them, and as spreadsheets turn them round."""

from __future__ import annotations

import re

__all__ = ["in_the_afternoon", "time_typed", "turns_typed"]

_TIME = re.compile(r"(\d{1,2}):(\d\d)(?::(\d\d))?\s*([ap])?\.?(?:m\.?)?", re.IGNORECASE)
_MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
_DAY_OF_MONTH = re.compile(r"(\d{1,2})-([a-z]{3})", re.IGNORECASE)
_MONTH_OF_YEAR = re.compile(r"([a-z]{3})-(\d\d)", re.IGNORECASE)
_NOON = 12


def time_typed(text: str) -> str | None:
    """Return a time of day as `13:05` or `13:05:20`, or None.

    >>> time_typed("9:05 AM"), time_typed("12:30 a.m."), time_typed("1:05:20 PM"), time_typed("13:05 PM")
    ('09:05', '00:30', '13:05:20', None)
    """
    match = _TIME.fullmatch(text.strip())
    if match is None:
        return None
    hours, minutes, seconds = int(match[1]), int(match[2]), match[3]
    if match[4]:
        if not 1 <= hours <= _NOON:
            return None
        hours = hours % _NOON + (_NOON if match[4].lower() == "p" else 0)
    if hours > 23 or minutes > 59 or int(seconds or 0) > 59:
        return None
    return f"{hours:02d}:{minutes:02d}" + (f":{seconds}" if seconds else "")


def in_the_afternoon(text: str, at: str, *, after: str) -> str | None:
    """Return what was probably meant by `1:05` below a line of 11:50, or None when nothing is in doubt.

    >>> in_the_afternoon("1:05", "01:05", after="11:50")
    '13:05'
    >>> in_the_afternoon("9:30", "09:30", after="10:00")  # written down late
    """
    early = "01:00" <= at < "07:00" and not re.search("[ap]", text, re.IGNORECASE)
    later = f"{int(at[:2]) + _NOON}{at[2:]}"
    return later if early and at < after < later else None


def turns_typed(text: str) -> str:
    """Return turns such as `1/8`; spreadsheets in the United States turn them into days such as 8-Jan or Jan-32.

    >>> turns_typed("8-Jan"), turns_typed("Jan-32"), turns_typed("3/16")
    ('1/8', '1/32', '3/16')
    """
    if (day := _DAY_OF_MONTH.fullmatch(text)) and day[2].lower() in _MONTHS:
        return f"{_MONTHS.index(day[2].lower()) + 1}/{int(day[1])}"
    if (year := _MONTH_OF_YEAR.fullmatch(text)) and year[1].lower() in _MONTHS:
        return f"{_MONTHS.index(year[1].lower()) + 1}/{int(year[2])}"
    return text
