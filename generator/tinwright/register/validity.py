"""How long a certificate is good for, in years of the calendar."""

from __future__ import annotations

import calendar
import datetime as dt

from tinwright.errors import RecordError

__all__ = ["plus_years"]


def plus_years(day: dt.date, years: int) -> dt.date:
    """Return the same day of another year; 29 February becomes 28 February where there is none.

    So a certificate is never good for longer than its years. (common practice, no source)

    >>> plus_years(dt.date(2028, 2, 29), 2)
    datetime.date(2030, 2, 28)
    >>> plus_years(dt.date(2028, 2, 29), 4)
    datetime.date(2032, 2, 29)

    Raises:
        RecordError: when the calendar has no such year.
    """
    year = day.year + years
    if not dt.MINYEAR <= year <= dt.MAXYEAR:
        raise RecordError(
            f"expected a day whose year and {years:+d} years are from {dt.MINYEAR} to {dt.MAXYEAR}, got {day}"
        )
    skips = (day.month, day.day) == (2, 29) and not calendar.isleap(year)
    return day.replace(year=year, day=28 if skips else day.day)
