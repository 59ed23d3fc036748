"""QR codes that lead from paper to the page of a card."""

from __future__ import annotations

from markupsafe import Markup

from tinwright.errors import MissingExtraError

__all__ = ["qr_svg"]


def qr_svg(address: str) -> Markup:
    """Draw the QR code of an address (ISO/IEC 18004, error correction M, quiet zone of four modules).

    Raises:
        MissingExtraError: when the libraries of the extra `paper` are not installed.
    """
    try:
        import segno  # noqa: PLC0415 an optional extra
    except ImportError as error:
        raise MissingExtraError(
            f'paper needs more libraries, install them with: pip install "tinwright[paper]" ({error})'
        ) from error
    code = segno.make(address, error="m", micro=False, boost_error=False)
    drawn = code.svg_inline(border=4, omitsize=True, svgclass="qr", lineclass=None, title=f"QR code: {address}")
    return Markup(drawn)  # noqa: S704 segno escapes the title
