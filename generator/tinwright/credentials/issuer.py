"""Who signs certificates: the public half, published with the site so that anybody can check one."""

from __future__ import annotations

import json
import re
from dataclasses import dataclass
from datetime import UTC, date, datetime
from typing import TYPE_CHECKING, Any

import base58
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PublicKey

from tinwright.credentials.encoding import from_multibase
from tinwright.errors import CertificateError, RecordError
from tinwright.given_file import read_given

if TYPE_CHECKING:
    from pathlib import Path

__all__ = [
    "CONTEXT",
    "PAGE",
    "Issuer",
    "PublishedKey",
    "day",
    "instant",
    "instant_text",
    "parse_issuer",
    "read_issuer",
]

CONTEXT = (
    "https://www.w3.org/ns/credentials/v2",
    "https://purl.imsglobal.org/spec/ob/v3p0/context-3.0.3.json",
)
"""Contexts of Verifiable Credentials 2.0 and Open Badges 3.0, in the order both ask for."""

PAGE = "verify-a-certificate"
"""The site's page that checks certificates, without its ending."""

_ED25519_PREFIX = b"\xed\x01"
"""Multicodec of an Ed25519 public key, as an unsigned varint (did:key, section 'Ed25519')."""
_LARGEST = 1_000_000
_DAY = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")
_INSTANT = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2}:[0-9]{2}Z")


def instant_text(moment: datetime) -> str:
    """Write a moment as a time stamp of whole seconds in UTC.

    >>> instant_text(datetime(2026, 11, 25, 9, 30, tzinfo=UTC))
    '2026-11-25T09:30:00Z'
    """
    return moment.astimezone(UTC).strftime("%Y-%m-%dT%H:%M:%SZ")


def instant(text: object) -> datetime:
    """Read such a time stamp.

    Raises:
        CertificateError: when it is none.
    """
    if isinstance(text, str) and _INSTANT.fullmatch(text):
        try:
            return datetime.strptime(text, "%Y-%m-%dT%H:%M:%SZ").replace(tzinfo=UTC)
        except ValueError:
            pass
    raise CertificateError(f"expected a time such as 2026-11-25T09:30:00Z, got {text!r}")


def day(text: object) -> date:
    """Read a day of the calendar, written as the browser reads one.

    Raises:
        CertificateError: when it is none.
    """
    if isinstance(text, str) and _DAY.fullmatch(text):
        try:
            return date.fromisoformat(text)
        except ValueError:
            pass
    raise CertificateError(f"expected a day such as 2026-11-25, got {text!r}")


@dataclass(frozen=True)
class PublishedKey:
    """A public key, and the time in which it signs."""

    multibase: str
    """The key as multibase text that begins with `z6Mk`."""
    since: datetime
    """From when on it signs."""
    until: datetime | None = None
    """When another took its place; what it signed before stays good."""
    leaked: datetime | None = None
    """When it was given up because somebody else may hold it; nothing it signed is to be trusted any more."""

    @classmethod
    def of(cls, key: Ed25519PublicKey, since: datetime) -> PublishedKey:
        """Return the published form of a key."""
        raw = key.public_bytes_raw()
        return cls("z" + base58.b58encode(_ED25519_PREFIX + raw).decode("ascii"), since.replace(microsecond=0))

    @property
    def did(self) -> str:
        """The issuer this key stands for, as a `did:key`."""
        return f"did:key:{self.multibase}"

    @property
    def method(self) -> str:
        """The key's own address, as a proof names it."""
        return f"{self.did}#{self.multibase}"

    @property
    def public(self) -> Ed25519PublicKey:
        """The key itself.

        Raises:
            CertificateError: when the text is no Ed25519 key.
        """
        raw = from_multibase(self.multibase)
        if len(raw) != 34 or not raw.startswith(_ED25519_PREFIX):
            raise CertificateError(f"expected an Ed25519 key that begins with z6Mk, got {self.multibase!r}")
        return Ed25519PublicKey.from_public_bytes(raw[2:])

    def signs_at(self, moment: datetime) -> bool:
        """Tell whether the key was in use at a moment."""
        return self.since <= moment and (self.until is None or moment <= self.until)


@dataclass(frozen=True)
class Issuer:
    """The office, with every key it signs or signed with."""

    name: str
    """Name of the office."""
    keys: tuple[PublishedKey, ...]
    """Its keys, the oldest first; the last one signs now."""
    site: str | None = None
    """Address of the published site's first page, with a slash at the end."""
    page: str | None = None
    """Address of the site's page that checks certificates."""

    @property
    def current(self) -> PublishedKey:
        """The key that signs now."""
        return self.keys[-1]

    def key_of(self, did: object) -> PublishedKey | None:
        """Return the key that an issuer's id stands for; None when it is not one of the office's."""
        return next((key for key in self.keys if key.did == did), None)

    def as_json(self) -> dict[str, Any]:
        """Return the public profile: that of Open Badges, with each key as a Multikey and the time it signs in."""
        profile: dict[str, Any] = {
            "@context": list(CONTEXT),
            "id": self.current.did,
            "type": ["Profile"],
            "name": self.name,
        }
        if self.site and self.page:
            profile |= {"url": self.site, "verifyPage": self.page}
        return profile | {"verificationMethod": [_key_json(key) for key in self.keys]}

    def text(self) -> str:
        """Return the public profile as the text of its file."""
        return json.dumps(self.as_json(), indent=2, ensure_ascii=False) + "\n"


def _key_json(key: PublishedKey) -> dict[str, str]:
    shown = {
        "id": key.method,
        "type": "Multikey",
        "controller": key.did,
        "publicKeyMultibase": key.multibase,
        "from": instant_text(key.since),
    }
    if key.until is not None:
        shown["until"] = instant_text(key.until)
    if key.leaked is not None:
        shown["revoked"] = instant_text(key.leaked)
    return shown


def read_issuer(file: Path) -> Issuer:
    """Read a public profile.

    Raises:
        CertificateError: when the file is missing or is no such profile.
    """
    try:
        return parse_issuer(json.loads(read_given(file, _LARGEST).decode("utf-8")))
    except RecordError as error:
        raise CertificateError(f"{file}: {error}") from error
    except (ValueError, RecursionError) as error:
        # A CertificateError is a ValueError and tells more; of broken JSON only that it is broken.
        told = error if isinstance(error, CertificateError) else "expected a public profile (issuer.json), got no JSON"
        raise CertificateError(f"{file}: {told}") from error


def parse_issuer(profile: object) -> Issuer:
    """Read a public profile from what its JSON holds.

    Raises:
        CertificateError: when something is missing or does not fit.
    """
    if not isinstance(profile, dict) or not isinstance(profile.get("name"), str):
        raise CertificateError("expected a public profile with a name and keys")
    methods = profile.get("verificationMethod")
    if not isinstance(methods, list) or not methods:
        raise CertificateError("verificationMethod: expected a list of keys, got none")
    keys = tuple(_parse_key(method) for method in methods)
    if profile.get("id") != keys[-1].did:
        raise CertificateError(f"id: expected that of the last key, {keys[-1].did}, got {profile.get('id')!r}")
    site, page = profile.get("url"), profile.get("verifyPage")
    return Issuer(profile["name"], keys, *(each if isinstance(each, str) else None for each in (site, page)))


def _parse_key(method: object) -> PublishedKey:
    if not isinstance(method, dict) or not isinstance(method.get("publicKeyMultibase"), str):
        raise CertificateError("verificationMethod: expected keys with publicKeyMultibase")
    times = {name: instant(method[name]) if name in method else None for name in ("until", "revoked")}
    key = PublishedKey(method["publicKeyMultibase"], instant(method.get("from")), times["until"], times["revoked"])
    if method.get("id") != key.method or not key.public:
        raise CertificateError(f"verificationMethod: expected the id {key.method}, got {method.get('id')!r}")
    return key
