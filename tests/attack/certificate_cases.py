"""Certificates to fool a checker with: genuine, out of use, altered, forged and costly ones, with the answer to each.

`python -m attack.certificate_cases FILE`, in `tests`, writes them as one file of JSON that any checker can read: `today`,
and for each of some offices what it published and its `files`, each a name, its content as base64, and an answer. An answer
is an outcome, with the holder's name after a colon where one is to be shown, or `refused`: any but a name and its standing.
"""

from __future__ import annotations

import base64
import json
import sys
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path
from typing import TYPE_CHECKING, Any

from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey

from attack.forged_pdfs import forged_pdfs
from credentials.certificates import (
    ID,
    NOW,
    OFFICE,
    SITE,
    signed_for_something_else,
    some_facts,
    tampered_documents,
    tampered_tokens,
)
from tinwright.credentials.credentials import credential, issue
from tinwright.credentials.encoding import base64url
from tinwright.credentials.issuer import Issuer, PublishedKey
from tinwright.credentials.keys import SigningKey
from tinwright.credentials.proof import sign_document, sign_token
from tinwright.credentials.revocation import signed_revocations, signed_status_list

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tinwright.credentials.credentials import CertificateFacts

__all__ = ["OTHER", "TODAY", "a_key_of", "cases"]

TODAY = date(2026, 12, 24)
OTHER = "11111111-1111-4111-8111-111111111111"
_File = tuple[str, bytes, str]


def a_key_of(seed: int, *, office: str = OFFICE, **times: Any) -> SigningKey:
    """A key that is the same each time; of no use to anybody, since everybody can make it."""
    private = Ed25519PrivateKey.from_private_bytes(bytes([seed]) * 32)
    key = PublishedKey.of(private.public_key(), NOW - timedelta(days=30))
    page = f"{SITE}verify-a-certificate.html"
    return SigningKey(Issuer(office, (replace(key, **times),), SITE, page), private)


def cases() -> dict[str, Any]:
    """Return them all."""
    key = a_key_of(1)
    listed = signed_revocations([(OTHER, date(2026, 12, 1))], key, NOW)
    offices = {"an office": _office(key, listed, [*_standing(key), *_texts(key), *_odd(key), *_pdfs(key)])}
    first = a_key_of(2, until=NOW + timedelta(days=20))
    rotated = a_key_of(3, since=NOW + timedelta(days=20))
    both = replace(rotated, issuer=replace(rotated.issuer, keys=(*first.issuer.keys, *rotated.issuer.keys)))
    offices["one that replaced its key"] = _office(
        both, signed_revocations([], both, NOW + timedelta(days=21)), [*_rotated(first, both)]
    )
    leaked = replace(first.issuer.current, leaked=NOW + timedelta(days=20))
    after = replace(both, issuer=replace(both.issuer, keys=(leaked, both.issuer.current)))
    offices["one whose key leaked"] = _office(
        after, signed_revocations([], after, NOW + timedelta(days=21)), [*_leaked(first, after)]
    )
    for name, text in {
        "one with no list": None,
        "one whose list another signed": signed_revocations([], a_key_of(9), NOW),
        "one whose list was altered": listed.replace(OTHER, ID),
        "one whose list is odd": json.dumps(
            sign_document({**_list(key), "revoked": [{"id": ID, "on": "2026-12-01"}]}, key, NOW)
        ),
    }.items():
        genuine = issue(some_facts(), key, NOW).document.encode()
        offices[name] = _office(
            key, text, [("genuine but for that", genuine, "revocation-not-checked: Example Volunteer")]
        )
    return {"today": str(TODAY), "offices": offices}


def _office(key: SigningKey, revoked: str | None, files: list[_File]) -> dict[str, Any]:
    return {
        "issuer": key.issuer.as_json(),
        "revoked": None if revoked is None else json.loads(revoked),
        "files": [
            {"name": name, "content": base64.b64encode(content).decode(), "answer": answer}
            for name, content, answer in files
        ],
    }


def _list(key: SigningKey) -> dict[str, Any]:
    found: dict[str, Any] = json.loads(signed_revocations([], key, NOW))
    del found["proof"]
    return found


def _both(name: str, facts: CertificateFacts, key: SigningKey, answer: str, days: int = 0) -> Iterator[_File]:
    signed = issue(facts, key, NOW + timedelta(days=days))
    yield name, signed.document.encode(), answer
    yield f"{name}, as token", signed.token.encode(), answer


def _standing(key: SigningKey) -> Iterator[_File]:
    yield from _both("genuine", some_facts(), key, "genuine: Example Volunteer")
    name = "Zoë O’Neil-Example, 例 \U0001f600"
    yield from _both("strange letters", some_facts(name=name), key, f"genuine: {name}")
    yield from _both("revoked", some_facts(id=OTHER), key, "revoked: Example Volunteer")
    early = {"issued_on": date(2024, 1, 1), "valid_until": date(2026, 12, 23)}
    yield from _both("expired", some_facts(**early), key, "expired: Example Volunteer")
    yield from _both("last day", some_facts(valid_until=TODAY), key, "genuine: Example Volunteer")
    yield from _both("first day", some_facts(issued_on=TODAY), key, "genuine: Example Volunteer")
    yield from _both("not yet", some_facts(issued_on=date(2026, 12, 25)), key, "not-yet: Example Volunteer")
    yield from _both("signed before the key", some_facts(), key, "key-out-of-use: Example Volunteer", days=-31)
    yield from _both("of another office", some_facts(), a_key_of(9), "not-ours")
    forged = issue(some_facts(), a_key_of(9), NOW).document
    swapped = forged.replace(a_key_of(9).issuer.current.multibase, key.issuer.current.multibase)
    yield "of another office with our key's name", swapped.encode(), "altered"


def _rotated(first: SigningKey, second: SigningKey) -> Iterator[_File]:
    yield from _both("signed before", some_facts(), first, "genuine: Example Volunteer", days=10)
    yield from _both("signed by the old key after", some_facts(), first, "key-out-of-use: Example Volunteer", days=21)
    yield from _both("signed by the new key", some_facts(), second, "genuine: Example Volunteer", days=25)
    yield from _both("signed by the new key before", some_facts(), second, "key-out-of-use: Example Volunteer", days=10)


def _leaked(first: SigningKey, second: SigningKey) -> Iterator[_File]:
    yield from _both("signed before it leaked", some_facts(), first, "key-out-of-use: Example Volunteer", days=10)
    yield from _both("signed by the new key", some_facts(), second, "genuine: Example Volunteer", days=25)
    yield "list of the leaked key", signed_revocations([], first, NOW).encode(), "refused"
    yield from _odd(first)


def _odd(key: SigningKey) -> Iterator[_File]:
    """What only the holder of the key can make, and no honest program makes."""
    for name, content in signed_for_something_else(key).items():
        yield name, content, "refused"
    yield "list", signed_revocations([], key, NOW).encode(), "refused"
    yield "status list", (signed_status_list([], key, NOW) or "").encode(), "refused"
    claims = credential(some_facts(), key.issuer)
    subject = claims["credentialSubject"]
    identity = subject["identifier"][0]
    for name, change in {
        "type a text": {"type": "OpenBadgeCredential"},
        "no type": {"type": []},
        "two names": {"credentialSubject": {**subject, "identifier": [identity, identity]}},
        "no holder": {"credentialSubject": {**subject, "identifier": []}},
        "holder a dictionary": {"credentialSubject": {**subject, "identifier": {"0": identity, "length": 1}}},
        "name a number": {"credentialSubject": {**subject, "identifier": [{**identity, "identityHash": 5}]}},
        "nothing shown, a dictionary": _shown_by(subject, {}),
        "nothing shown, a text": _shown_by(subject, ""),
        "shown a text": _shown_by(subject, ["x"]),
        "day that never was": {"validUntil": "2027-02-30T23:59:59-12:00"},
        "year nought": {"validFrom": "0000-01-01T00:00:00+14:00"},
        "day in a list": {"validUntil": ["2028-11-24T23:59:59-12:00"]},
        "day in other digits": {"validUntil": "٢٠٢٨-11-24T23:59:59-12:00"},
        "day with a line": {"validUntil": "2028-11-24T23:59:59-12:00\n"},
        "subject a list": {"credentialSubject": [subject]},
        "subject nothing": {"credentialSubject": None},
        "issuer a text": {"issuer": key.issuer.current.did},
        "contexts in other order": {"@context": claims["@context"][::-1]},
        "context true": {"@context": [True]},
    }.items():
        yield name, json.dumps(sign_document(claims | change, key, NOW)).encode(), "refused"
        yield f"{name}, as token", sign_token(claims | change | {"iat": int(NOW.timestamp())}, key).encode(), "refused"
    out_of_use = "key-out-of-use: Example Volunteer"
    for iat in (True, "2026-11-25T15:30:00Z ", None, [], -(10**14), 10**14, 0):
        yield f"token signed at {iat!r}", sign_token(claims | {"iat": iat}, key).encode(), out_of_use
    yield "token signed at no time", sign_token(claims, key).encode(), out_of_use


def _shown_by(subject: dict[str, Any], described: Any) -> dict[str, Any]:
    return {"credentialSubject": {**subject, "achievement": {**subject["achievement"], "resultDescription": described}}}


def _texts(key: SigningKey) -> Iterator[_File]:
    signed = issue(some_facts(), key, NOW)
    document, token = signed.document, signed.token
    for name, copy in tampered_documents(document):
        yield name, json.dumps(copy).encode(), "refused"
    for name, text in tampered_tokens(token):
        yield f"token, {name}", text.encode(), "refused"
    for name, old, new in (
        ("member twice", '"hashed"', '"hashed": false, "hashed"'),
        ("member twice, once as an escape", '"hashed"', '"h\\u0061shed": false, "hashed"'),
        ("prototype", '"hashed"', '"__proto__": {"name": "x"}, "hashed"'),
        ("constructor", '"hashed"', '"constructor": "x", "hashed"'),
        ("half a letter", "Example Volunteer", "Example \\ud800 Volunteer"),
        ("half a letter in a member", '"hashed"', '"\\udc00": 1, "hashed"'),
        ("fraction", '"hashed": false', '"hashed": 1.0'),
        ("number in other words", '"hashed": false', '"hashed": 1e0'),
        ("number no reader has exactly", '"hashed": false', '"hashed": 9007199254740993'),
        ("number without end", '"hashed": false', '"hashed": 1e999'),
        ("no number", '"hashed": false', '"hashed": NaN'),
        ("less than nothing", '"hashed": false', '"hashed": -0'),
        ("four thousand digits", '"hashed": false', '"hashed": ' + "9" * 5000),
        ("proof with a blank", '"proofValue": "', '"proofValue": " '),
        ("proof with a blank after", '"\n  }\n}', ' "\n  }\n}'),
        ("proof with a line after", '"\n  }\n}', '\\n"\n  }\n}'),
        ("long proof", '"proofValue": "z', '"proofValue": "z' + "2" * 90_000),
        ("proof of nothings", '"proofValue": "z', '"proofValue": "z' + "1" * 90_000),
    ):
        yield name, document.replace(old, new).encode(), "refused"
    genuine = "genuine: Example Volunteer"
    for name, content, answer in (
        ("blanks around", f"\n {document}\t\r\n".encode(), genuine),
        ("mark before", b"\xef\xbb\xbf" + document.encode(), genuine),
        ("two marks before", b"\xef\xbb\xbf" * 2 + document.encode(), "refused"),
        ("odd blanks", b"\xc2\xa0" + document.encode(), "refused"),
        ("odd blanks after", document.encode() + b"\x1c\x85", "refused"),
        ("in two bytes a letter", document.encode("utf-16"), "refused"),
        ("written by escapes", json.dumps(json.loads(document)).encode(), genuine),
        ("name by escapes", document.replace("Example V", "\\u0045xample \\u0056").encode(), genuine),
        ("token with a line", f"{token}\n".encode(), genuine),
        ("token with blanks within", token.replace(".", ". ").encode(), "refused"),
        ("token with padding", token.replace(".", "=."  ).encode(), "refused"),
        ("token in four parts", f"{token}.x".encode(), "refused"),
        ("half a token", token.rpartition(".")[0].encode(), "refused"),
    ):  # fmt: skip
        yield name, content, answer
    _, claims, end = token.split(".")
    for algorithm in ([], {}, None, 5, "none", "HS256"):
        header = json.dumps({"alg": algorithm, "typ": "vc+jwt", "kid": key.issuer.current.method}).encode()
        yield f"token by {algorithm!r}", f"{base64url(header)}.{claims}.{end}".encode(), "refused"
    header = json.dumps({"alg": "EdDSA", "typ": "vc+jwt", "kid": key.issuer.current.method}).encode("utf-16")
    yield "token's head in two bytes a letter", f"{base64url(header)}.{claims}.{end}".encode(), "refused"
    for name, content in {
        "nothing": b"", "empty": b"{}", "null": b"null", "open": b"{", "no text": b"\xff\xfe", "dots": b"...", "abc": b"a.b.c",
        "lists": b"[" * 99_000, "members": b'{"a":' * 16_000, "quoted": b'{"a": "' + b'\\"' * 42_000 + b'"}',
        "quoted, open": b'{"a": "' + b'\\"' * 42_000, "marks": b'{"":' + b'"' * 90_000, "blanks": b"{" + b" " * 4_999_000,
        "backslashes": b'{"a":"' + b"\\" * 90_000 + b'"}', "dashes": b"-" * 90_000, "too long": b"{" + b" " * 5_000_000,
        "many members": json.dumps({str(n): n for n in range(7_000)}).encode(), "dots and letters": b"a." * 45_000,
        "long token": b"a" * 30_000 + b"." + b"a" * 30_000 + b"." + b"a" * 30_000,
    }.items():  # fmt: skip
        yield name, content, "refused"


def _pdfs(key: SigningKey) -> Iterator[_File]:
    genuine, other = issue(some_facts(), key, NOW), issue(some_facts(name="Another Volunteer"), key, NOW)
    altered = genuine.document.replace("Example", "Altered").encode()
    names = {"genuine": "genuine: Example Volunteer", "other": "genuine: Another Volunteer", "refused": "refused"}
    for name, content, answer in forged_pdfs(genuine.document.encode(), other.document.encode(), altered):
        yield f"pdf, {name}", content, names[answer]
    for name, content, answer in forged_pdfs(genuine.token.encode(), other.token.encode(), altered):
        if name == "plain":
            yield "pdf with a token", content, answer.replace("genuine", "refused")


if __name__ == "__main__":
    Path(sys.argv[1]).write_text(json.dumps(cases(), indent=1), encoding="utf-8")
