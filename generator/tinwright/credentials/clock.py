"""A clock that runs behind: what it signs would be dated before the key was made, or before what was done already."""

from __future__ import annotations

from datetime import datetime, timedelta
from typing import TYPE_CHECKING

from tinwright.credentials.issuer import instant_text
from tinwright.errors import CertificateError

if TYPE_CHECKING:
    from tinwright.credentials.issuer import Issuer

__all__ = ["check_clock"]

_APART = timedelta(minutes=5)
"""How far the clocks of two computers that share a register may be apart (common practice, no source)."""


def check_clock(
    now: datetime, issuer: Issuer, *, last_change: datetime | None = None, last_list: datetime | None = None
) -> None:
    """Stop where this computer's clock is behind what has happened.

    Args:
        now: what the clock says.
        issuer: the office; nothing counts that is signed before its key was made.
        last_change: moment of the newest line of the register's change record.
        last_list: moment at which the list of revoked certificates was signed last.

    Raises:
        CertificateError: with the reason.
    """
    for moment, apart, what in (
        (issuer.current.since, timedelta(), "the office's key was made"),
        (last_change, _APART, "the register was last changed"),
        (last_list, timedelta(), "the list of revoked certificates was last signed"),
    ):
        if moment is not None and now + apart < moment:
            raise CertificateError(
                f"this computer's clock is behind: it says {instant_text(now)}, but {what} at {instant_text(moment)}; "
                "set the clock, then try again"
            )
