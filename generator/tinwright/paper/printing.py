"""From a page of HTML to a tagged PDF file: PDF/UA-1, the same bytes for the same input, nothing fetched."""

from __future__ import annotations

import datetime as dt
import io
import os
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from tinwright.errors import MissingExtraError, PaperError

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Sequence

__all__ = ["SCALES", "AttachedFile", "fitted", "html_to_pdf", "lay_out", "to_pdf"]

SCALES = (1.3, 1.24, 1.18, 1.12, 1.06, 1.0, 0.97, 0.94, 0.91, 0.88, 0.85, 0.82, 0.79, 0.76, 0.73, 0.7)
"""How large the type of cards is set: the first at which each card fits its page."""

_VARIANT = "pdf/ua-1"
_PRINTED = 4
"""The flag of an annotation that is there on paper, too (ISO 32000-1, table 165, bit 3)."""


@dataclass(frozen=True)
class AttachedFile:
    """A file that travels inside the PDF."""

    name: str
    """Its name, such as `certificate.json`."""
    content: bytes
    """What is in it."""
    description: str
    """What it is, for the reader."""
    relationship: str = "Data"
    """What it is to the document: `Source`, `Data`, `Alternative`, `Supplement` or `Unspecified`."""


def html_to_pdf(
    html: str,
    *,
    title: str,
    language: str = "en",
    attachments: Iterable[AttachedFile] = (),
    dated: dt.date | None = None,
) -> bytes:
    """Print a page of HTML to a PDF file.

    Links and pictures with any other address than `data:` are left out: nothing is read from disk or network. The
    day in the file is that of `SOURCE_DATE_EPOCH`, else `dated`; without both there is none.

    Args:
        html: the whole page, its style sheet in it.
        title: title of the document, for the reader's window.
        language: its language, as in HTML.
        attachments: files that travel inside it.
        dated: day of the content.

    Raises:
        MissingExtraError: when the libraries of the extra `paper` are not installed.
    """
    return to_pdf(lay_out(html), title=title, language=language, attachments=attachments, dated=dated)


def lay_out(html: str) -> Any:
    """Lay a page of HTML out on sheets, for `to_pdf`."""
    weasyprint = _libraries().weasyprint
    fetcher = weasyprint.urls.URLFetcher(allowed_protocols=("data",))
    return weasyprint.HTML(string=html, base_url=None, url_fetcher=fetcher).render(pdf_variant=_VARIANT)


def to_pdf(
    document: Any,
    *,
    title: str,
    language: str = "en",
    attachments: Iterable[AttachedFile] = (),
    dated: dt.date | None = None,
) -> bytes:
    """Print what was laid out; as `html_to_pdf`."""
    libraries = _libraries()
    day = _day(dated)
    meta = document.metadata
    meta.title, meta.lang, meta.created, meta.modified = title, language, day, day
    meta.attachments = [*meta.attachments, *(_attachment(libraries, file, day) for file in attachments)]
    raw = document.write_pdf(pdf_variant=_VARIANT, pdf_identifier=b"tinwright")
    with libraries.pikepdf.open(io.BytesIO(raw)) as pdf:
        for element in list(pdf.objects):
            if isinstance(element, libraries.pikepdf.Dictionary):
                _mend(element, pdf, libraries.pikepdf)
        out = io.BytesIO()
        pdf.save(out, deterministic_id=True, object_stream_mode=libraries.pikepdf.ObjectStreamMode.generate)
    return out.getvalue()


def fitted(cards: Sequence[str], html_at: Callable[[Sequence[str], float], str]) -> Any:
    """Lay some cards out, in the largest type in which each fits on one page, for `to_pdf`.

    Args:
        cards: ids of the cards, in order, at least one; each is the id of an element that begins a page.
        html_at: gives the HTML of some of the cards at a size; 1 is the full size.

    Raises:
        PaperError: when a card does not fit one page at the smallest size.
        MissingExtraError: as `html_to_pdf`.
    """
    fullest = max(cards, key=lambda card: len(html_at([card], SCALES[0])))
    too_long: list[str] = []
    for size in SCALES:
        # The fullest card alone tells fast which sizes will not do; the others are laid out only when it fits.
        too_long = _too_long([fullest], lay_out(html_at([fullest], size)))
        if too_long:
            continue
        document = lay_out(html_at(cards, size))
        too_long = _too_long(cards, document)
        if not too_long:
            return document
    raise PaperError(f"{', '.join(too_long)}: expected one page, got more even in small type; shorten the texts")


def _too_long(cards: Sequence[str], document: Any) -> list[str]:
    """Return the cards that take more than one page."""
    pages = document.pages
    # An element that goes on is anchored on each of its pages: the first counts.
    begins = {name: number for number, page in reversed(list(enumerate(pages))) for name in page.anchors}
    ends = [*(begins[card] for card in cards[1:]), len(pages)]
    return [card for card, end in zip(cards, ends, strict=True) if end - begins[card] > 1]


@dataclass(frozen=True)
class _Libraries:
    """The libraries of the extra `paper`, imported when they are first needed."""

    weasyprint: Any
    pikepdf: Any


def _libraries() -> _Libraries:
    try:
        import pikepdf  # noqa: PLC0415 an optional extra, and slow to import
        import weasyprint  # noqa: PLC0415 as above
        import weasyprint.urls  # noqa: PLC0415 as above
    except (ImportError, OSError) as error:  # OSError: the library is there, the system's Pango is not
        raise MissingExtraError(
            f'paper needs more libraries, install them with: pip install "tinwright[paper]" ({error})'
        ) from error
    return _Libraries(weasyprint, pikepdf)


def _day(dated: dt.date | None) -> str | None:
    """Return the day of the document; fixed, so that a second printing is the same."""
    epoch = os.environ.get("SOURCE_DATE_EPOCH", "")
    if epoch:
        try:
            return dt.datetime.fromtimestamp(int(epoch), tz=dt.UTC).strftime("%Y-%m-%dT%H:%M:%SZ")
        except (ValueError, OverflowError, OSError):
            raise PaperError(f"expected SOURCE_DATE_EPOCH to be a number of seconds, got {epoch!r}") from None
    return None if dated is None else dated.isoformat()


def _attachment(libraries: _Libraries, file: AttachedFile, day: str | None) -> Any:
    moment = dt.datetime.fromisoformat(day or "2000-01-01").replace(tzinfo=dt.UTC)
    return libraries.weasyprint.Attachment(
        file_obj=io.BytesIO(file.content),
        name=file.name,
        description=file.description,
        relationship=file.relationship,
        created=moment,
        modified=moment,
    )


def _mend(element: Any, pdf: Any, pikepdf: Any) -> None:
    """Give heading cells of tables their scope, list items their body, and links the flag that they are printed."""
    if element.get("/Type") == "/StructElem" and element.get("/S") == "/TH":
        given = element.get("/A")
        attributes = given if isinstance(given, pikepdf.Dictionary) else pikepdf.Dictionary(O=pikepdf.Name.Table)
        attributes["/Scope"] = pikepdf.Name("/Row") if _heads_row(element) else pikepdf.Name("/Column")
        element["/A"] = attributes
    elif element.get("/Type") == "/StructElem" and element.get("/S") == "/LI":
        _wrap_body(element, pdf, pikepdf)
    elif element.get("/Subtype") == "/Link" and "/Rect" in element:
        element["/F"] = int(element.get("/F", 0)) | _PRINTED


def _wrap_body(item: Any, pdf: Any, pikepdf: Any) -> None:
    """Put what stands in a list item beside its label into one body (ISO 32000-1, table 336)."""
    kids = list(item.get("/K", []))
    loose = [kid for kid in kids if not (hasattr(kid, "get") and kid.get("/S") in {"/Lbl", "/LBody"})]
    if not loose:
        return
    body = pdf.make_indirect(
        pikepdf.Dictionary(Type=pikepdf.Name.StructElem, S=pikepdf.Name.LBody, P=item, K=pikepdf.Array(loose))
    )
    if "/Pg" in item:
        body["/Pg"] = item["/Pg"]
    for kid in loose:
        if hasattr(kid, "get") and kid.get("/Type") == "/StructElem":
            kid["/P"] = body
    item["/K"] = pikepdf.Array([*(kid for kid in kids if kid not in loose), body])


def _heads_row(cell: Any) -> bool:
    """Tell a heading of a row, which has cells of data beside it, from one of a column."""
    row = cell.get("/P")
    kids = row.get("/K") if row is not None else None
    return kids is not None and any(kid.get("/S") == "/TD" for kid in kids if hasattr(kid, "get"))
