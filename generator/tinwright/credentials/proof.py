"""Signatures: a Data Integrity proof inside a JSON document, or a JSON Web Token around it.

Both are Ed25519 (RFC 8032). The proof is of the suite `eddsa-jcs-2022` (W3C, Data Integrity EdDSA Cryptosuites v1.0,
section 3.3): the document and the proof's own options are each put in one canonical form (RFC 8785) and hashed.
The token is a JWS in compact form (RFC 7515, RFC 8037) of type `vc+jwt` (W3C, Securing Verifiable Credentials using
JOSE and COSE).
"""

from __future__ import annotations

import base64
import binascii
import hashlib
import json
from typing import TYPE_CHECKING, Any

import base58
import rfc8785
from cryptography.exceptions import InvalidSignature

from tinwright.credentials.issuer import instant_text
from tinwright.errors import CertificateError

if TYPE_CHECKING:
    from collections.abc import Iterable
    from datetime import datetime

    from tinwright.credentials.issuer import PublishedKey
    from tinwright.credentials.keys import SigningKey

__all__ = ["parse_json", "proof_holds", "read_token", "sign_document", "sign_token", "token_holds"]

_OPTIONS = {"type": "DataIntegrityProof", "cryptosuite": "eddsa-jcs-2022", "proofPurpose": "assertionMethod"}
_PROOF_MEMBERS = {*_OPTIONS, "created", "verificationMethod", "proofValue", "@context"}
_SIGNATURE_BYTES = 64
_ALGORITHMS = {"EdDSA", "Ed25519"}
"""Names of the one algorithm: that of RFC 8037, which every verifier knows, and that of RFC 9864."""


def parse_json(text: str | bytes) -> Any:
    """Read JSON in which no member stands twice: of two, some readers show the first and some the last.

    Raises:
        CertificateError: when it is no JSON, or a member stands twice.
    """
    try:
        return json.loads(text, object_pairs_hook=_each_once)
    except CertificateError:
        raise
    except (ValueError, RecursionError) as error:
        raise CertificateError("expected JSON, got something else or a damaged file") from error


def _each_once(pairs: Iterable[tuple[str, Any]]) -> dict[str, Any]:
    found: dict[str, Any] = {}
    for key, value in pairs:
        if key in found:
            raise CertificateError(f"the member {key!r} stands twice")
        found[key] = value
    return found


def sign_document(document: dict[str, Any], key: SigningKey, created: datetime) -> dict[str, Any]:
    """Return the document with a proof in it."""
    options = _OPTIONS | {
        "@context": document["@context"],
        "created": instant_text(created),
        "verificationMethod": key.issuer.current.method,
    }
    signature = key.sign(_digests(document, options))
    return document | {"proof": options | {"proofValue": "z" + base58.b58encode(signature).decode("ascii")}}


def proof_holds(secured: dict[str, Any], key: PublishedKey) -> bool:
    """Tell whether a document is, to the letter, what this key signed."""
    document = dict(secured)
    proof = document.pop("proof", None)
    if not isinstance(proof, dict) or set(proof) != _PROOF_MEMBERS:
        return False
    options = {name: value for name, value in proof.items() if name != "proofValue"}
    if any(options[name] != value for name, value in _OPTIONS.items()):
        return False
    if options["verificationMethod"] != key.method or options["@context"] != document.get("@context"):
        return False
    try:
        return _holds(key, _from_multibase(proof["proofValue"]), _digests(document, options))
    except (rfc8785.CanonicalizationError, RecursionError):
        return False


def _digests(document: dict[str, Any], options: dict[str, Any]) -> bytes:
    return b"".join(hashlib.sha256(rfc8785.dumps(part)).digest() for part in (options, document))


def _from_multibase(text: object) -> bytes:
    if not isinstance(text, str) or not text.startswith("z"):
        return b""
    try:
        return base58.b58decode(text[1:])
    except ValueError:
        return b""


def _holds(key: PublishedKey, signature: bytes, message: bytes) -> bool:
    if len(signature) != _SIGNATURE_BYTES:
        return False
    try:
        key.public.verify(signature, message)
    except InvalidSignature:
        return False
    return True


def sign_token(claims: dict[str, Any], key: SigningKey) -> str:
    """Return the claims as a signed token."""
    header = {"alg": "EdDSA", "cty": "vc", "kid": key.issuer.current.method, "typ": "vc+jwt"}
    message = ".".join(_base64url(rfc8785.dumps(part)) for part in (header, claims))
    return f"{message}.{_base64url(key.sign(message.encode('ascii')))}"


def read_token(token: str) -> tuple[dict[str, Any], dict[str, Any]]:
    """Return the header and the claims of a token, not yet checked.

    Raises:
        CertificateError: when it is no token of the kind that is issued here.
    """
    parts = token.strip().split(".")
    if len(parts) != 3:
        raise CertificateError(f"expected a token of three parts with dots between, got {len(parts)}")
    header, claims = (parse_json(_from_base64url(part)) for part in parts[:2])
    if not isinstance(header, dict) or not isinstance(claims, dict):
        raise CertificateError("expected a token that holds a header and claims")
    if header.get("alg") not in _ALGORITHMS or header.get("typ") != "vc+jwt" or "crit" in header:
        raise CertificateError(f"expected a vc+jwt signed by EdDSA, got {header.get('typ')!r} by {header.get('alg')!r}")
    return header, claims


def token_holds(token: str, key: PublishedKey) -> bool:
    """Tell whether a token is what this key signed."""
    message, _, signature = token.strip().rpartition(".")
    try:
        header, _ = read_token(token)
        return header.get("kid") == key.method and _holds(key, _from_base64url(signature), message.encode("ascii"))
    except (CertificateError, UnicodeEncodeError):
        return False


def _base64url(content: bytes) -> str:
    return base64.urlsafe_b64encode(content).rstrip(b"=").decode("ascii")


def _from_base64url(text: str) -> bytes:
    """Decode base64url without padding, written in the one way there is (RFC 7515, appendix C)."""
    try:
        found = base64.b64decode(text + "=" * (-len(text) % 4), altchars=b"-_", validate=True)
    except (ValueError, binascii.Error) as error:
        raise CertificateError("expected base64url text between the dots of the token") from error
    if _base64url(found) != text:
        raise CertificateError("expected base64url text written in the one right way")
    return found
