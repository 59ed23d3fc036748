"""From a page of HTML to a tagged PDF file: PDF/UA-1, the same bytes for the same input, nothing fetched."""

from __future__ import annotations

import datetime as dt
import io
import os
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from tinwright.errors import PaperError
from tinwright.printing.letters import every_letter_printed
from tinwright.printing.libraries import libraries
from tinwright.printing.pdf_tags import mend

if TYPE_CHECKING:
    from collections.abc import Sequence

__all__ = ["AttachedFile", "html_to_pdf", "lay_out", "to_pdf"]

_VARIANT = "pdf/ua-1"


@dataclass(frozen=True)
class AttachedFile:
    """A file that travels inside the PDF, as data that belongs to it."""

    name: str
    """Its name, such as `certificate.json`."""
    content: bytes
    """What is in it."""
    description: str
    """What it is, for the reader."""
    media_type: str
    """Its media type, such as `application/json`."""


def html_to_pdf(html: str, *, attachments: Sequence[AttachedFile] = (), dated: dt.date | None = None) -> bytes:
    """Print a page of HTML to a PDF file (ISO 14289-1, PDF/UA-1).

    Title and language of the file are those of the page. Links and pictures with any other address than `data:` are
    left out: nothing is read from disk or network. The day in the file is that of `SOURCE_DATE_EPOCH`, else `dated`;
    without both there is none.

    Args:
        html: the whole page, its style sheet in it.
        attachments: files that travel inside it. They, and the file with them, are left unpacked, so that a plain
            page in a browser can find them.
        dated: day of the content.

    Raises:
        MissingExtraError: when the libraries of the extra `paper` are not installed.
        MissingLettersError: when no font has some of its letters.
        PaperError: when `SOURCE_DATE_EPOCH` is no number.
        ValueError: when the page has no title or no language.
    """
    return to_pdf(lay_out(html), attachments=attachments, dated=dated)


def lay_out(html: str) -> Any:
    """Lay a page of HTML out on sheets, for `to_pdf`."""
    weasyprint = libraries().weasyprint
    fetcher = weasyprint.urls.URLFetcher(allowed_protocols=("data",))
    return weasyprint.HTML(string=html, base_url=None, url_fetcher=fetcher).render(pdf_variant=_VARIANT)


def to_pdf(document: Any, *, attachments: Sequence[AttachedFile] = (), dated: dt.date | None = None) -> bytes:
    """Print what was laid out; as `html_to_pdf`."""
    pikepdf = libraries().pikepdf
    meta = document.metadata
    if not (meta.title and meta.lang):
        raise ValueError("expected a page with a title and a language: a reader is told both")
    meta.created = meta.modified = _day(dated)
    with every_letter_printed(meta.title):
        raw = document.write_pdf(pdf_variant=_VARIANT, pdf_identifier=b"tinwright")
    modes = pikepdf.ObjectStreamMode
    with pikepdf.open(io.BytesIO(raw)) as pdf:
        mend(pdf)
        _attach(attachments, pdf, pikepdf)
        out = io.BytesIO()
        pdf.save(
            out,
            deterministic_id=True,
            compress_streams=not attachments,
            object_stream_mode=modes.disable if attachments else modes.generate,
        )
    return out.getvalue()


def _attach(files: Sequence[AttachedFile], pdf: Any, pikepdf: Any) -> None:
    """Put files into the list of attachments and say that they belong to the document (ISO 32000-2, 14.13)."""
    specs = []
    for file in files:
        spec = pikepdf.AttachedFileSpec(
            pdf,
            file.content,
            filename=file.name,
            description=file.description,
            mime_type=file.media_type,
            relationship=pikepdf.Name.Data,
        )
        pdf.attachments[file.name] = spec
        specs.append(spec.obj)
    if specs:
        pdf.Root.AF = pikepdf.Array(specs)  # newer versions of the library have done it


def _day(dated: dt.date | None) -> str | None:
    """Return the day of the document; fixed, so that a second printing is the same."""
    epoch = os.environ.get("SOURCE_DATE_EPOCH", "")
    if epoch:
        try:
            return dt.datetime.fromtimestamp(int(epoch), tz=dt.UTC).strftime("%Y-%m-%dT%H:%M:%SZ")
        except (ValueError, OverflowError, OSError):
            raise PaperError(f"expected SOURCE_DATE_EPOCH to be a number of seconds, got {epoch!r}") from None
    return None if dated is None else dated.isoformat()
