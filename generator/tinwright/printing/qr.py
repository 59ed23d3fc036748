"""QR codes that lead from paper to a page of the site."""

from __future__ import annotations

from markupsafe import Markup

from tinwright.printing.libraries import libraries

__all__ = ["qr_svg"]


def qr_svg(address: str, *, quiet_zone: int = 4) -> Markup:
    """Draw the QR code of an address (ISO/IEC 18004, error correction M).

    Args:
        address: where it leads.
        quiet_zone: modules of white around it; 4 unless the page leaves as much.

    Raises:
        MissingExtraError: when the libraries of the extra `paper` are not installed.
    """
    code = libraries().segno.make(address, error="m", micro=False, boost_error=False)
    drawn = code.svg_inline(
        border=quiet_zone, omitsize=True, svgclass="qr", lineclass=None, title=f"QR code: {address}"
    )
    return Markup(drawn)  # noqa: S704 segno escapes the title
