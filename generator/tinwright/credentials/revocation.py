"""The list of revoked certificates: numbers and days, no names, signed and published with the site.

Beside the plain list the same is given as a Bitstring Status List (W3C, Bitstring Status List v1.0), for verifiers that
know no list of ours. A certificate's place in it is worked out from its number, so that nothing more need be kept. Two
numbers may fall on one place: in a list this long, about once in 3,000 programs that issue 500 certificates and revoke
ten. The plain list, which our own checks go by, has no such chance.
"""

from __future__ import annotations

import gzip
import hashlib
import json
import re
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any
from urllib.parse import urljoin

from tinwright.credentials.encoding import base64url, from_base64url, parse_json
from tinwright.credentials.issuer import CONTEXT, Issuer, day, instant, instant_text
from tinwright.credentials.proof import proof_holds, sign_document
from tinwright.errors import CertificateError, RecordError
from tinwright.given_file import read_given

if TYPE_CHECKING:
    from collections.abc import Iterable
    from datetime import date, datetime
    from pathlib import Path

    from tinwright.credentials.keys import SigningKey

__all__ = [
    "LIST_LENGTH",
    "PLAIN_LIST",
    "STATUS_LIST",
    "RevocationList",
    "check_lists",
    "place_in_list",
    "read_list",
    "read_revocations",
    "signed_at",
    "signed_revocations",
    "signed_status_list",
    "status_entry",
]

PLAIN_LIST = "revoked.json"
"""Name of the published list."""
STATUS_LIST = "status-list.json"
"""Name of the published Bitstring Status List."""

LIST_LENGTH = 2**24
"""Places in the Bitstring Status List: two million bytes, a few thousand when packed."""

_LARGEST = 10_000_000
"""Bytes; a hundred thousand revoked certificates."""
_TYPE = "RevokedCertificates"
_URN = re.compile(r"urn:uuid:[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}")


@dataclass(frozen=True)
class RevocationList:
    """Which certificates were revoked, as known at one moment."""

    made: datetime
    """When the list was signed."""
    revoked: dict[str, date]
    """Number of a certificate, as an address, and the day it was revoked."""


def signed_revocations(revoked: Iterable[tuple[str, date]], key: SigningKey, now: datetime) -> str:
    """Return the signed list as the text of its file.

    Args:
        revoked: number and day of each revoked certificate.
        key: the office's key.
        now: the moment of signing.
    """
    document = {
        "@context": list(CONTEXT),
        "type": [_TYPE],
        "issuer": key.issuer.current.did,
        "revoked": [{"id": f"urn:uuid:{id_}", "on": str(on)} for id_, on in sorted(set(revoked))],
    }
    return json.dumps(sign_document(document, key, now), indent=2) + "\n"


def read_list(file: Path) -> str:
    """Return the text of a published list.

    Raises:
        CertificateError: when it cannot be read.
    """
    try:
        return read_given(file, _LARGEST).decode("utf-8")
    except RecordError as error:
        raise CertificateError(f"{file}: {error}") from error
    except UnicodeDecodeError as error:
        raise CertificateError(f"{file}: expected text in UTF-8, got something else") from error


def signed_at(file: Path) -> datetime | None:
    """Return when a published list says that it was signed; None when there is no list, or it does not say."""
    try:
        return instant(parse_json(read_list(file))["proof"]["created"])
    except (ValueError, KeyError, TypeError):
        return None


def check_lists(revoked: Iterable[tuple[str, date]], texts: Iterable[str | None], key: SigningKey) -> None:
    """Read both signed lists as a stranger would, before they are published.

    Args:
        revoked: number and day of each revoked certificate.
        texts: the plain list, and the Bitstring Status List if there is one.
        key: the key they were signed with.

    Raises:
        CertificateError: when one does not say what was signed.
    """
    plain, status = texts
    expected = {f"urn:uuid:{id_}": on for id_, on in revoked}
    if plain is None or read_revocations(plain, key.issuer).revoked != expected:
        raise CertificateError("the signed list of revoked certificates does not say what was signed: not published")
    if status is None:
        return
    found = parse_json(status)
    packed = found["credentialSubject"]["encodedList"].removeprefix("u")
    bits = gzip.decompress(from_base64url(packed))
    if not proof_holds(found, key.issuer.current) or bits != _bits(expected):
        raise CertificateError("the signed status list does not say what was signed: not published")


def read_revocations(text: str, issuer: Issuer) -> RevocationList:
    """Read a list, when the office signed it.

    Raises:
        CertificateError: when it is no list, or was not signed by a key of the office that is still trusted.
    """
    found = parse_json(text)
    if not isinstance(found, dict) or found.get("type") != [_TYPE] or not isinstance(found.get("revoked"), list):
        raise CertificateError("expected a list of revoked certificates, got something else")
    key = issuer.key_of(found.get("issuer"))
    if key is None or not proof_holds(found, key):
        raise CertificateError("the list of revoked certificates was not signed by this office, or was altered")
    made = instant(found["proof"]["created"])
    if key.leaked is not None or not key.signs_at(made):
        raise CertificateError("the list of revoked certificates was signed with a key out of use: publish it again")
    return RevocationList(made, dict(_entry(entry) for entry in found["revoked"]))


def _entry(entry: object) -> tuple[str, date]:
    if isinstance(entry, dict) and isinstance(entry.get("id"), str) and _URN.fullmatch(entry["id"]):
        try:
            return entry["id"], day(entry.get("on"))
        except CertificateError:
            pass
    raise CertificateError(f"revoked: expected a number and a day, got {entry!r}")


def place_in_list(urn: str) -> int:
    """Return a certificate's place in the Bitstring Status List.

    >>> 0 <= place_in_list("urn:uuid:9b2d5b0e-8f0c-4c9e-9d53-0f8f3f1f6a11") < LIST_LENGTH
    True
    """
    return int.from_bytes(hashlib.sha256(urn.encode()).digest()[:8]) % LIST_LENGTH


def status_entry(urn: str, issuer: Issuer) -> dict[str, str] | None:
    """Return what a credential says of the Bitstring Status List; None when the office has no site."""
    if not issuer.site:
        return None
    address = urljoin(issuer.site, f"certificates/{STATUS_LIST}")
    return {
        "id": f"{address}#{place_in_list(urn)}",
        "type": "BitstringStatusListEntry",
        "statusPurpose": "revocation",
        "statusListIndex": str(place_in_list(urn)),
        "statusListCredential": address,
    }


def _bits(urns: Iterable[str]) -> bytes:
    bits = bytearray(LIST_LENGTH // 8)
    for urn in urns:
        place = place_in_list(urn)
        bits[place // 8] |= 0x80 >> place % 8  # the first place is the highest bit
    return bytes(bits)


def signed_status_list(revoked: Iterable[str], key: SigningKey, now: datetime) -> str | None:
    """Return the Bitstring Status List as the text of its file; None when the office has no site.

    Args:
        revoked: numbers of the revoked certificates.
        key: the office's key.
        now: the moment of signing.
    """
    if not key.issuer.site:
        return None
    bits = _bits(f"urn:uuid:{id_}" for id_ in revoked)
    packed = base64url(gzip.compress(bits, mtime=0))
    address = urljoin(key.issuer.site, f"certificates/{STATUS_LIST}")
    document: dict[str, Any] = {
        "@context": [CONTEXT[0]],
        "id": address,
        "type": ["VerifiableCredential", "BitstringStatusListCredential"],
        "issuer": key.issuer.current.did,
        "validFrom": instant_text(now),
        "credentialSubject": {
            "id": f"{address}#list",
            "type": "BitstringStatusList",
            "statusPurpose": "revocation",
            "encodedList": f"u{packed}",
        },
    }
    return json.dumps(sign_document(document, key, now), indent=2) + "\n"
