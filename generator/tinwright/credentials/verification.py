"""Is this certificate genuine? Answered without asking anybody, from what the office published."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import UTC, date, datetime
from enum import StrEnum
from typing import TYPE_CHECKING, Any

from tinwright.credentials.certificate_text import exam_words, practical_words
from tinwright.credentials.encoding import decode_text, parse_json
from tinwright.credentials.issuer import CONTEXT, day, instant, instant_text
from tinwright.credentials.pdf_attachment import LARGEST_ATTACHED, attached_certificate
from tinwright.credentials.proof import proof_holds, read_token, token_holds
from tinwright.errors import CertificateError

if TYPE_CHECKING:
    from collections.abc import Mapping

    from tinwright.credentials.credentials import CertificateFacts
    from tinwright.credentials.issuer import Issuer, PublishedKey
    from tinwright.credentials.revocation import RevocationList

__all__ = ["LARGEST", "Outcome", "ShownCertificate", "Verdict", "shown_by", "verify"]

LARGEST = 5_000_000
"""Bytes; what is larger is no certificate."""

_YEAR_10000 = 253_402_300_800
"""In seconds since 1970: what is later has no four digits."""
_DAY = re.compile(r"(\d{4}-\d\d-\d\d)T\d\d:\d\d:\d\d([+-]\d\d:\d\d|Z)", re.ASCII)


class Outcome(StrEnum):
    """What came out."""

    GENUINE = "genuine"
    """Signed by the office, in force, not revoked."""
    NOT_CHECKED_FOR_REVOCATION = "revocation-not-checked"
    """Signed by the office and in force; there is no list to tell whether it was revoked."""
    EXPIRED = "expired"
    """Signed by the office, and past its last day."""
    NOT_YET = "not-yet"
    """Signed by the office, for a time that has not begun."""
    REVOKED = "revoked"
    """Signed by the office, which took it back."""
    KEY_OUT_OF_USE = "key-out-of-use"
    """Signed with a key of the office that was given up, or not in use when it signed."""
    ALTERED = "altered"
    """It names a key of the office, but is not what that key signed."""
    NOT_OURS = "not-ours"
    """It names no key of the office."""
    UNREADABLE = "unreadable"
    """No certificate can be found in it."""


@dataclass(frozen=True)
class ShownCertificate:
    """What a certificate says, once its signature holds."""

    id: str
    name: str
    shown: tuple[str, ...]
    issued_on: date
    valid_until: date
    office: str
    limits: str


def shown_by(facts: CertificateFacts) -> ShownCertificate:
    """Return what a reader must be shown of a certificate that says these facts."""
    shown = (exam_words(facts.exam, facts.form), *map(practical_words, facts.drives))
    return ShownCertificate(
        facts.urn, facts.name, shown, facts.issued_on, facts.valid_until, facts.office, facts.limits
    )


@dataclass(frozen=True)
class Verdict:
    """The answer, and why."""

    outcome: Outcome
    """In one word."""
    reason: str
    """In one line."""
    certificate: ShownCertificate | None = None
    """What the certificate says; None unless its signature holds."""


def verify(content: bytes, issuer: Issuer, revocations: RevocationList | None, today: date) -> Verdict:
    """Judge a certificate: a JSON file, a token, or a PDF with the JSON attached.

    Args:
        content: what is in the file.
        issuer: the office, as it publishes itself.
        revocations: its list of revoked certificates; None when there is none at hand.
        today: the day to judge by, where the reader is.
    """
    try:
        return _judge(_Signed.read(content), issuer, revocations, today)
    except CertificateError as error:
        return Verdict(Outcome.UNREADABLE, str(error))


@dataclass(frozen=True)
class _Signed:
    """A credential out of a file, not yet believed."""

    credential: Mapping[str, Any]
    signed_on: object
    token: str | None

    @classmethod
    def read(cls, content: bytes) -> _Signed:
        if len(content) > LARGEST:
            raise CertificateError(f"expected a certificate of at most {LARGEST:,} bytes, got {len(content):,}")
        is_pdf = content.startswith(b"%PDF")
        if is_pdf:
            content = attached_certificate(content)
        if len(content) > LARGEST_ATTACHED:
            raise CertificateError(
                f"expected a certificate of at most {LARGEST_ATTACHED:,} bytes, got {len(content):,}"
            )
        text = decode_text(content)
        if text.startswith("{"):
            found = parse_json(text)
            proof = found.get("proof")
            return cls(found, proof.get("created") if isinstance(proof, dict) else None, None)
        if not is_pdf and re.fullmatch(r"[\w-]+\.[\w-]+\.[\w-]+", text, re.ASCII):
            claims = read_token(text)[1]
            return cls(claims, claims.get("iat"), text)
        raise CertificateError("expected a certificate as .json, .jwt or .pdf, got some other text")

    def holds(self, key: PublishedKey) -> bool:
        return proof_holds(dict(self.credential), key) if self.token is None else token_holds(self.token, key)

    def in_use(self, key: PublishedKey) -> bool:
        """Tell whether the key was in use when it signed."""
        on = self.signed_on
        if isinstance(on, int) and not isinstance(on, bool) and 0 <= on < _YEAR_10000:
            on = instant_text(datetime.fromtimestamp(on, tz=UTC))
        try:
            signed_on = instant(on)
        except CertificateError:
            return False
        return key.signs_at(signed_on)


def _judge(signed: _Signed, issuer: Issuer, revocations: RevocationList | None, today: date) -> Verdict:
    named = signed.credential.get("issuer")
    key = issuer.key_of(named.get("id") if isinstance(named, dict) else None)
    if key is None:
        return Verdict(Outcome.NOT_OURS, f"It was not signed with any key that {issuer.name} has published.")
    if not signed.holds(key):
        return Verdict(Outcome.ALTERED, "It is not what was signed: something in it was changed, or it is damaged.")
    certificate = _shown(signed.credential)
    if key.leaked is not None or not signed.in_use(key):
        reason = f"It was signed with a key that {issuer.name} has given up. Ask for a new copy."
        return Verdict(Outcome.KEY_OUT_OF_USE, reason, certificate)
    outcome, reason = _standing(certificate, revocations, today)
    return Verdict(outcome, reason, certificate)


def _standing(certificate: ShownCertificate, revocations: RevocationList | None, today: date) -> tuple[Outcome, str]:
    on = None if revocations is None else revocations.revoked.get(certificate.id)
    if on is not None:
        return Outcome.REVOKED, f"{certificate.office} revoked it on {on}."
    if today < certificate.issued_on:
        return Outcome.NOT_YET, f"It is valid from {certificate.issued_on} on."
    if today > certificate.valid_until:
        return Outcome.EXPIRED, f"It was valid until {certificate.valid_until}."
    if revocations is None:
        return Outcome.NOT_CHECKED_FOR_REVOCATION, "Its signature holds, but there is no list of revoked certificates."
    listed = instant_text(revocations.made)[:10]
    return (
        Outcome.GENUINE,
        f"Signed by {certificate.office}, valid until {certificate.valid_until}, not revoked as of {listed}.",
    )


def _shown(credential: Mapping[str, Any]) -> ShownCertificate:
    """Return what a credential says, when it is one of the kind issued here."""
    try:
        types, subject = credential["type"], credential["credentialSubject"]
        identities, described = subject["identifier"], subject["achievement"]["resultDescription"]
        if credential["@context"] != list(CONTEXT) or not all(
            isinstance(s, list) for s in (types, identities, described)
        ):
            raise TypeError
        if "OpenBadgeCredential" not in types:
            raise ValueError(types)
        (identity,) = identities
        texts = [
            credential["id"],
            identity["identityHash"],
            credential["issuer"]["name"],
            credential["description"],
            *(each["name"] for each in described),
        ]
        if not all(isinstance(text, str) for text in texts):
            raise TypeError
        id_, name, office, limits, *shown = texts
        days = (_day(credential["validFrom"]), _day(credential["validUntil"]))
    except (KeyError, TypeError, ValueError) as error:
        raise CertificateError("signed by the office, but not a certificate of the kind issued here") from error
    return ShownCertificate(id_, name, tuple(shown), *days, office, limits)


def _day(text: str) -> date:
    found = _DAY.fullmatch(text)
    if found is None:
        raise ValueError(text)
    return day(found[1])
