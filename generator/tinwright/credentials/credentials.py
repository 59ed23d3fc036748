"""A certificate as a signed Open Badges 3.0 credential.

The holder's name stands in it in clear, and nothing else of the holder: no address, no number but the certificate's
own. A hash in its place would hide nothing, since a name can be guessed and the paper shows it; and whoever checks a
file must see at once whose it is. There is no score in it: it says what was passed, not how well.
"""

from __future__ import annotations

import json
import re
import unicodedata
from dataclasses import dataclass
from datetime import UTC, date, datetime
from typing import TYPE_CHECKING, Any
from uuid import NAMESPACE_URL, UUID, uuid5

from tinwright.credentials.certificate_text import ACHIEVEMENT, TITLE, exam_words, practical_words
from tinwright.credentials.issuer import CONTEXT, instant_text
from tinwright.credentials.proof import sign_document, sign_token
from tinwright.credentials.revocation import status_entry
from tinwright.errors import CertificateError

if TYPE_CHECKING:
    from tinwright.credentials.issuer import Issuer
    from tinwright.credentials.keys import SigningKey

__all__ = ["CertificateFacts", "SignedCertificate", "credential", "issue", "shown_file_name"]

_LONGEST = 200
_TEXTS = ("name", "exam", "form", "office", "programme")
_LONG_TEXTS = ("criteria", "limits")
_TURNING = frozenset("\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")
"""Marks that turn the direction of writing, and could make one name look like another."""


@dataclass(frozen=True)
class CertificateFacts:
    """What a certificate says, and all it says."""

    id: str
    """Its number: a random UUID (version 4), in lower case."""
    name: str
    """The holder's name."""
    drives: tuple[str, ...]
    """Sealer drives on which the holder was observed, such as `crank-cam`."""
    exam: str
    """The written examination that was passed."""
    form: str
    """Which form of it."""
    issued_on: date
    """First day on which it is valid."""
    valid_until: date
    """Last day on which it is valid."""
    office: str
    """The Extension office that issues it."""
    programme: str
    """Name of the office's programme."""
    criteria: str
    """What had to be done for it."""
    limits: str
    """What it is not."""

    def __post_init__(self) -> None:
        try:
            fits = str(UUID(self.id)) == self.id and UUID(self.id).version == 4
        except ValueError:
            fits = False
        if not fits:
            raise CertificateError(f"id: expected a random UUID in lower case, got {self.id!r}")
        for field in (*_TEXTS, *_LONG_TEXTS):
            _check_text(field, getattr(self, field), long=field in _LONG_TEXTS)
        if not self.drives or not all(re.fullmatch(r"[a-z]+(-[a-z]+)*", drive) for drive in self.drives):
            raise CertificateError(
                f"drives: expected one or more such as crank-cam, got {', '.join(self.drives) or 'none'}"
            )
        if self.valid_until < self.issued_on:
            raise CertificateError(f"valid until {self.valid_until}: expected {self.issued_on} or later")

    @property
    def urn(self) -> str:
        """Its number as an address."""
        return f"urn:uuid:{self.id}"


def _check_text(field: str, text: str, *, long: bool) -> None:
    if not text.strip():
        raise CertificateError(f"{field}: expected some text, got none")
    if any(unicodedata.category(char) in {"Cc", "Cs"} or char in _TURNING for char in text):
        raise CertificateError(f"{field}: expected one line of text without control characters, got {text!r}")
    if not long and len(text) > _LONGEST:
        raise CertificateError(f"{field}: expected at most {_LONGEST} characters, got {len(text)}")


@dataclass(frozen=True)
class SignedCertificate:
    """One certificate, signed in both ways."""

    document: str
    """JSON with the proof in it."""
    token: str
    """The same as a token."""


def credential(facts: CertificateFacts, issuer: Issuer) -> dict[str, Any]:
    """Return the credential, not yet signed (Open Badges 3.0, on Verifiable Credentials Data Model 2.0)."""
    profile: dict[str, Any] = {"id": issuer.current.did, "type": ["Profile"], "name": facts.office}
    if issuer.site:
        profile["url"] = issuer.site
    shown = [exam_words(facts.exam, facts.form), *(practical_words(drive) for drive in facts.drives)]
    results = [f"{facts.urn}#result-{number}" for number in range(1, len(shown) + 1)]
    status = status_entry(facts.urn, issuer)
    kind = f"{facts.office}\n{facts.programme}\n{facts.criteria}\n{facts.limits}"
    return {
        "@context": list(CONTEXT),
        "id": facts.urn,
        "type": ["VerifiableCredential", "OpenBadgeCredential"],
        "name": TITLE,
        "description": facts.limits,
        "issuer": profile,
        # A day is a day everywhere: it begins in the easternmost time zone and ends in the westernmost.
        "validFrom": f"{facts.issued_on}T00:00:00+14:00",
        "validUntil": f"{facts.valid_until}T23:59:59-12:00",
        "credentialSubject": {
            "id": f"{facts.urn}#holder",
            "type": ["AchievementSubject"],
            "identifier": [
                {"type": "IdentityObject", "hashed": False, "identityHash": facts.name, "identityType": "name"}
            ],
            "achievement": {
                "id": f"urn:uuid:{uuid5(NAMESPACE_URL, kind)}",
                "type": ["Achievement"],
                "achievementType": "CertificateOfCompletion",
                "name": ACHIEVEMENT,
                "description": facts.programme,
                "criteria": {"narrative": facts.criteria},
                "tag": list(facts.drives),
                "resultDescription": [
                    {"id": id_, "type": ["ResultDescription"], "name": words, "resultType": "Status"}
                    for id_, words in zip(results, shown, strict=True)
                ],
            },
            "result": [{"type": ["Result"], "resultDescription": id_, "status": "Completed"} for id_ in results],
        },
    } | ({"credentialStatus": status} if status else {})


def issue(facts: CertificateFacts, key: SigningKey, now: datetime) -> SignedCertificate:
    """Sign a certificate in both ways.

    Args:
        facts: what it says.
        key: the office's key.
        now: the moment of signing; the key is judged by it, not by the day of issue, so that a copy may be signed anew.
    """
    if facts.office != key.issuer.name:
        raise CertificateError(
            f"the key is that of {key.issuer.name!r}, and the office is {facts.office!r}: "
            "make a new key with: tinwright certificate key rotate"
        )
    claims = credential(facts, key.issuer)
    return SignedCertificate(
        json.dumps(sign_document(claims, key, now), indent=2, ensure_ascii=False) + "\n",
        sign_token(claims | _registered_claims(claims, now), key),
    )


def _registered_claims(claims: dict[str, Any], now: datetime) -> dict[str, Any]:
    """Return the token's own claims, which say the same as the credential (RFC 7519, section 4.1)."""
    return {
        "iss": claims["issuer"]["id"],
        "sub": claims["credentialSubject"]["id"],
        "jti": claims["id"],
        "nbf": _seconds(claims["validFrom"]),
        "exp": _seconds(claims["validUntil"]),
        "iat": int(datetime.fromisoformat(instant_text(now)).astimezone(UTC).timestamp()),
    }


def _seconds(text: str) -> int:
    return int(datetime.fromisoformat(text).timestamp())


def shown_file_name(facts: CertificateFacts) -> str:
    """Return a name for the certificate's files, without ending: who, and from when.

    >>> days = date(2026, 11, 25), date(2028, 11, 24)
    >>> id_, name = "9b2d5b0e-8f0c-4c9e-9d53-0f8f3f1f6a11", "Zoë O’Neil-Example"
    >>> texts = "Office", "Programme", "Did all.", "It is no license."
    >>> shown_file_name(CertificateFacts(id_, name, ("motor",), "Exam", "A", *days, *texts))
    'zoe-o-neil-example-2026-11-25-9b2d5b0e'
    """
    letters = "".join(c for c in unicodedata.normalize("NFKD", facts.name) if not unicodedata.combining(c))
    stem = re.sub(r"[^a-z0-9]+", "-", letters.lower()).strip("-")
    return f"{stem[:60].strip('-') or 'certificate'}-{facts.issued_on}-{facts.id[:8]}"
