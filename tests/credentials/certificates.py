"""Builders of keys and certificates, and every small way to tamper with one."""

from __future__ import annotations

import copy
import json
from datetime import UTC, date, datetime
from typing import TYPE_CHECKING, Any

import base58

from tinwright.credentials.certificate_text import criteria_words, limits_words
from tinwright.credentials.credentials import CertificateFacts, credential, issue
from tinwright.credentials.encoding import base64url
from tinwright.credentials.keys import make_key, open_key
from tinwright.credentials.proof import _digests, sign_document, sign_token
from tinwright.credentials.revocation import read_revocations, signed_revocations

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from tinwright.credentials.credentials import SignedCertificate
    from tinwright.credentials.keys import SigningKey
    from tinwright.credentials.revocation import RevocationList

OFFICE = "Sorrel County Extension"
PASSPHRASE = "seven cans on a shelf"  # noqa: S105 - opens keys of tests alone
SITE = "https://extension.example/cans/"
NOW = datetime(2026, 11, 25, 15, 30, tzinfo=UTC)
ID = "9b2d5b0e-8f0c-4c9e-9d53-0f8f3f1f6a11"


def a_key(folder: Path, *, office: str = OFFICE, site: str | None = SITE) -> SigningKey:
    """A new key in a folder of its own."""
    make_key(folder, name=office, passphrase=PASSPHRASE, now=NOW, site=site)
    return open_key(folder, PASSPHRASE)


def some_facts(**changes: Any) -> CertificateFacts:
    """What a certificate of an invented volunteer says."""
    facts: dict[str, Any] = {
        "id": ID,
        "name": "Example Volunteer",
        "drives": ("crank-cam", "hand-lever"),
        "exam": "Seam volunteers",
        "form": "B",
        "issued_on": date(2026, 11, 25),
        "valid_until": date(2028, 11, 24),
        "office": OFFICE,
        "programme": "Sorrel County can sealing",
        "criteria": criteria_words(OFFICE),
        "limits": limits_words(OFFICE),
    }
    return CertificateFacts(**{**facts, **changes})


def a_certificate(key: SigningKey, **changes: Any) -> SignedCertificate:
    """A signed certificate."""
    return issue(some_facts(**changes), key, NOW)


def a_list(key: SigningKey, *revoked: str, now: datetime = NOW) -> RevocationList:
    """A list of revoked certificates, signed and read."""
    return read_revocations(signed_revocations([(id_, date(2026, 12, 1)) for id_ in revoked], key, now), key.issuer)


def signed_for_something_else(key: SigningKey) -> dict[str, bytes]:
    """Documents and tokens that the office's key really signed, but not as a certificate of its own."""
    claims = credential(some_facts(), key.issuer)
    options = {
        "type": "DataIntegrityProof",
        "cryptosuite": "eddsa-jcs-2022",
        "proofPurpose": "assertionMethod",
        "@context": claims["@context"],
        "created": "2026-11-25T15:30:00Z",
        "verificationMethod": key.issuer.current.method,
    }
    changes = {
        "to log in": {"proofPurpose": "authentication"},
        "by another suite": {"cryptosuite": "eddsa-rdfc-2022"},
        "by another type": {"type": "Ed25519Signature2020"},
        "naming another key": {"verificationMethod": "did:key:z6Mk#z6Mk"},
        "for another context": {"@context": claims["@context"][:1]},
    }
    found = {}
    for name, change in changes.items():
        proof = options | change
        value = "z" + base58.b58encode(key.sign(_digests(claims, proof))).decode()
        found[name] = json.dumps(claims | {"proof": proof | {"proofValue": value}}).encode()
    for name, claim in {"no badge": {"type": ["VerifiableCredential"]}, "other context": {"@context": ["x"]}}.items():
        found[name] = json.dumps(sign_document(claims | claim, key, NOW)).encode()
        found[f"{name}, as token"] = sign_token(claims | claim | {"iat": 1795620600}, key).encode()
    for name, header in {
        "token naming another key": {"alg": "EdDSA", "typ": "vc+jwt", "kid": "did:key:z6Mk#z6Mk"},
        "token of another type": {"alg": "EdDSA", "typ": "JWT", "kid": key.issuer.current.method},
        "token of another algorithm": {"alg": "none", "typ": "vc+jwt", "kid": key.issuer.current.method},
        "token with a condition": {"alg": "EdDSA", "typ": "vc+jwt", "kid": key.issuer.current.method, "crit": ["x"]},
    }.items():
        message = ".".join(base64url(json.dumps(part).encode()) for part in (header, claims | {"iat": 1795620600}))
        found[name] = f"{message}.{base64url(key.sign(message.encode()))}".encode()
    return found


def tampered_documents(document: str) -> Iterator[tuple[str, dict[str, Any]]]:
    """Yield a name and a copy for each value of a document changed, and for each member or entry taken out or put in."""
    whole = json.loads(document)
    for path in _paths(whole):
        for what, change in (("changed", _change), ("taken out", _take_out)):
            copied = copy.deepcopy(whole)
            holder = copied
            for step in path[:-1]:
                holder = holder[step]
            change(holder, path[-1])
            yield f"{'.'.join(map(str, path))} {what}", copied
    for added in ({"note": "valid for ever"}, {"evidence": []}):
        yield f"{next(iter(added))} put in", copy.deepcopy(whole) | added
    more = copy.deepcopy(whole)
    more["proof"]["domain"] = "example.org"
    yield "proof.domain put in", more
    yield "proof doubled", whole | {"proof": [whole["proof"], whole["proof"]]}


def _paths(value: Any) -> Iterator[tuple[Any, ...]]:
    steps = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for step, inner in steps:
        yield (step,)
        yield from ((step, *path) for path in _paths(inner))


def _change(holder: Any, step: Any) -> None:
    value = holder[step]
    if isinstance(value, bool):
        holder[step] = not value
    elif isinstance(value, str):
        # the last letter becomes its neighbor, so that a number stays a number and a key a key
        holder[step] = value[:-1] + ("1" if value[-1:] == "2" else "2")
    elif isinstance(value, list):
        holder[step] = [*value, "another"]
    else:
        holder[step] = {**value, "another": "one"}


def _take_out(holder: Any, step: Any) -> None:
    del holder[step]


def tampered_tokens(token: str) -> Iterator[tuple[str, str]]:
    """Yield a name and a copy for one letter changed at many places of each part, and for parts cut short."""
    parts = token.split(".")
    for number, part in enumerate(parts):
        for place in sorted({0, 1, len(part) // 3, len(part) // 2, len(part) - 2, len(part) - 1}):
            letter = "A" if part[place] != "A" else "B"
            changed = [*parts[:number], part[:place] + letter + part[place + 1 :], *parts[number + 1 :]]
            yield f"part {number}, letter {place}", ".".join(changed)
        yield f"part {number} cut short", ".".join([*parts[:number], part[:-4], *parts[number + 1 :]])
    # 64 bytes end in two letters of which the last carries two bits: each other last letter is the same bytes, badly written
    for letter in "BCDEFGHIJKLMNOPQRSTUVWXYZ":
        if letter != token[-1]:
            yield f"last letter {letter}", token[:-1] + letter
