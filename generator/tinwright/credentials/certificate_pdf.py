"""The certificate on paper: one page of PDF, with the signed file attached to it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tinwright.credentials.certificate_text import ACHIEVEMENT, TITLE, date_words, exam_words, practical_words
from tinwright.printing import AttachedFile, html_to_pdf, qr_svg
from tinwright.templates import template_of

if TYPE_CHECKING:
    from tinwright.credentials.credentials import CertificateFacts
    from tinwright.credentials.issuer import Issuer

__all__ = ["certificate_pdf", "check_address"]


def check_address(facts: CertificateFacts, issuer: Issuer) -> str | None:
    """Return where a certificate can be checked; None when the office has no site."""
    return f"{issuer.page}#{facts.id}" if issuer.page else None


def certificate_pdf(facts: CertificateFacts, issuer: Issuer, document: str) -> bytes:
    """Return the certificate as PDF/UA-1, with the signed document attached.

    Args:
        facts: what it says.
        issuer: the office.
        document: the signed JSON.

    Raises:
        MissingExtraError: when the libraries of the extra `paper` are not installed.
        PaperError: when no font has some of the letters.
    """
    signed = AttachedFile(
        "certificate.json", document.encode(), "The signed certificate: what a checker reads", "application/vc"
    )
    return html_to_pdf(_html(facts, issuer), attachments=[signed], dated=facts.issued_on)


def _html(facts: CertificateFacts, issuer: Issuer) -> str:
    address = check_address(facts, issuer)
    return template_of("credentials", "certificate.html.j2").render(
        facts=facts,
        title=TITLE,
        achievement=ACHIEVEMENT,
        shown=[exam_words(facts.exam, facts.form), *map(practical_words, facts.drives)],
        issued=date_words(facts.issued_on),
        until=date_words(facts.valid_until),
        address=address,
        page=issuer.page,
        qr=qr_svg(address, quiet_zone=0) if address else "",
    )
