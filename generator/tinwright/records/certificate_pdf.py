"""The certificate on paper: one page of PDF, with the signed file attached to it."""

from __future__ import annotations

import io
import logging
import re
from typing import TYPE_CHECKING

import pikepdf
import segno
from jinja2 import Environment, PackageLoader, StrictUndefined
from markupsafe import Markup
from weasyprint import HTML

from tinwright.errors import CertificateError
from tinwright.records.words import ACHIEVEMENT, TITLE, date_words, exam_words, practical_words

if TYPE_CHECKING:
    from tinwright.records.credentials import CertificateFacts
    from tinwright.records.issuer import Issuer

__all__ = ["certificate_pdf", "check_address"]

_ATTACHED = "certificate.json"
_PRINTED = 4
"""Flag of an annotation that is printed with the page (ISO 32000-1, table 165)."""


def check_address(facts: CertificateFacts, issuer: Issuer) -> str | None:
    """Return where a certificate can be checked; None when the office has no site."""
    return f"{issuer.page}#{facts.id}" if issuer.page else None


def certificate_pdf(facts: CertificateFacts, issuer: Issuer, document: str) -> bytes:
    """Return the certificate as PDF/UA-1, with the signed document attached.

    Args:
        facts: what it says.
        issuer: the office.
        document: the signed JSON.
    """
    return _with_attachment(html_to_pdf(_html(facts, issuer)), document)


def html_to_pdf(html: str) -> bytes:
    """Return a page of HTML as tagged PDF (ISO 14289-1, PDF/UA-1).

    Raises:
        CertificateError: when no font has some of its letters.
    """
    watch = _MissingLetters()
    log = logging.getLogger("weasyprint")
    log.addHandler(watch)
    try:
        made: bytes = HTML(string=html).write_pdf(pdf_variant="pdf/ua-1")
    finally:
        log.removeHandler(watch)
    if watch.letters:
        raise CertificateError(f"no font on this computer has the letters {', '.join(watch.letters)}: install one")
    return made


class _MissingLetters(logging.Handler):
    """Notes the letters that would be printed as empty boxes."""

    def __init__(self) -> None:
        super().__init__()
        self.letters: list[str] = []

    def emit(self, record: logging.LogRecord) -> None:
        """Take the letter out of a warning about it."""
        if found := re.search(r"\.notdef glyph .*?(U\+[0-9A-F]+)", record.getMessage()):
            self.letters.append(f"{chr(int(found[1][2:], 16))!r} ({found[1]})")


def _html(facts: CertificateFacts, issuer: Issuer) -> str:
    env = Environment(
        loader=PackageLoader("tinwright.records"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    address = check_address(facts, issuer)
    qr = segno.make(address, error="m", micro=False).svg_data_uri(border=0) if address else ""
    return env.get_template("certificate.html.j2").render(
        facts=facts,
        title=TITLE,
        achievement=ACHIEVEMENT,
        shown=[exam_words(facts.exam, facts.form), *map(practical_words, facts.drives)],
        issued=date_words(facts.issued_on),
        until=date_words(facts.valid_until),
        address=address,
        page=issuer.page,
        qr=Markup(qr),  # noqa: S704 made of the address just encoded
    )


def _with_attachment(pdf: bytes, document: str) -> bytes:
    with pikepdf.open(io.BytesIO(pdf)) as opened:
        spec = pikepdf.AttachedFileSpec(
            opened,
            document.encode(),
            filename=_ATTACHED,
            mime_type="application/vc",
            description="The signed certificate: what a checker reads",
            relationship=pikepdf.Name.Data,
        )
        opened.attachments[_ATTACHED] = spec
        opened.Root.AF = pikepdf.Array([spec.obj])
        for page in opened.pages:
            for annotation in page.get("/Annots", []):
                annotation.F = _PRINTED
        out = io.BytesIO()
        # Left unpacked, so that a plain page in a browser can find the attachment.
        opened.save(out, compress_streams=False, object_stream_mode=pikepdf.ObjectStreamMode.disable)
        return out.getvalue()
