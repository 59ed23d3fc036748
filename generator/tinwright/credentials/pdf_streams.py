"""What is packed in a PDF file: unpacked to a limit, and put together again (ISO 32000-1, 7.4.4)."""

from __future__ import annotations

import zlib
from typing import TYPE_CHECKING

from tinwright.credentials.pdf_syntax import damaged
from tinwright.errors import CertificateError

if TYPE_CHECKING:
    from tinwright.credentials.pdf_syntax import PdfValue

__all__ = ["inflated", "too_large", "unpredicted", "whole_numbers"]


def too_large() -> CertificateError:
    """Return the refusal of what is larger than a certificate can be."""
    return CertificateError("what is attached to this PDF is far too large for a certificate")


def whole_numbers(value: PdfValue) -> list[int]:
    """Return a list of whole numbers that are not negative."""
    if not isinstance(value, list):
        raise damaged()
    found: list[int] = []
    for each in value:
        if not isinstance(each, int) or isinstance(each, bool):
            raise damaged()
        found.append(each)
    return found


def inflated(raw: str, limit: int) -> str:
    """Unpack what zlib packed, and no more than the limit."""
    unpacking = zlib.decompressobj()
    try:
        found = unpacking.decompress(raw.encode("latin-1"), limit + 1)
    except zlib.error as error:
        raise damaged() from error
    if len(found) > limit:
        raise too_large()
    if not unpacking.eof or unpacking.unused_data:
        raise damaged()
    return found.decode("latin-1")


def unpredicted(content: str, parameters: PdfValue) -> str:
    """Undo the prediction of a packed table: each row as it is, or as differences from the one above (PNG, Up)."""
    if isinstance(parameters, list) and len(parameters) == 1:
        (parameters,) = parameters
    if parameters is None:
        return content
    if not isinstance(parameters, dict):
        raise damaged()
    predictor, columns = whole_numbers([parameters.get("/Predictor", 1), parameters.get("/Columns", 1)])
    if predictor == 1:
        return content
    row = columns + 1
    if predictor < 10 or not 0 < columns <= 64 or len(content) % row or "/Colors" in parameters:
        raise damaged()
    above, found = bytes(columns), bytearray()
    for at in range(0, len(content), row):
        here = content[at + 1 : at + row].encode("latin-1")
        if content[at] not in "\0\x02":
            raise damaged()
        above = here if content[at] == "\0" else bytes((one + two) % 256 for one, two in zip(here, above, strict=True))
        found += above
    return found.decode("latin-1")
