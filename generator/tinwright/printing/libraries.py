"""The libraries of the extra `paper`, imported when they are first needed."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from tinwright.errors import MissingExtraError

__all__ = ["Libraries", "libraries"]


@dataclass(frozen=True)
class Libraries:
    """What printing needs."""

    pikepdf: Any
    """Mends PDF files and puts files into them."""
    segno: Any
    """Draws QR codes."""
    weasyprint: Any
    """Turns HTML into PDF."""


def libraries() -> Libraries:
    """Import the libraries; called by itself, it tells before long work whether there can be any printing.

    Raises:
        MissingExtraError: when one of them, or what it needs of the system, is not installed.
    """
    try:
        import pikepdf  # noqa: PLC0415 an optional extra, and slow to import
        import segno  # noqa: PLC0415 as above
        import weasyprint  # noqa: PLC0415 as above
        import weasyprint.urls  # noqa: PLC0415 as above
    except (ImportError, OSError) as error:  # OSError: the library is there, the system's Pango is not
        raise MissingExtraError(
            f'printing needs more libraries, install them with: pip install "tinwright[paper]" ({error})'
        ) from error
    return Libraries(pikepdf, segno, weasyprint)
