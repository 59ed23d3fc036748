"""Signatures: a Data Integrity proof inside a JSON document, or a JSON Web Token around it.

Both are Ed25519 (RFC 8032). The proof is of the suite `eddsa-jcs-2022` (W3C, Data Integrity EdDSA Cryptosuites v1.0,
section 3.3): the document and the proof's own options are each put in one canonical form (RFC 8785) and hashed.
The token is a JWS in compact form (RFC 7515, RFC 8037) of type `vc+jwt` (W3C, Securing Verifiable Credentials using
JOSE and COSE).
"""

from __future__ import annotations

import hashlib
from typing import TYPE_CHECKING, Any

import base58
import rfc8785
from cryptography.exceptions import InvalidSignature

from tinwright.credentials.encoding import base64url, decode_text, from_base64url, from_multibase, parse_json
from tinwright.credentials.issuer import instant_text
from tinwright.errors import CertificateError

if TYPE_CHECKING:
    from datetime import datetime

    from tinwright.credentials.issuer import PublishedKey
    from tinwright.credentials.keys import SigningKey

__all__ = ["proof_holds", "read_token", "sign_document", "sign_token", "token_holds"]

_OPTIONS = {"type": "DataIntegrityProof", "cryptosuite": "eddsa-jcs-2022", "proofPurpose": "assertionMethod"}
_PROOF_MEMBERS = {*_OPTIONS, "created", "verificationMethod", "proofValue", "@context"}
_SIGNATURE_BYTES = 64
_ALGORITHMS = ("EdDSA", "Ed25519")
"""Names of the one algorithm: that of RFC 8037, which every verifier knows, and that of RFC 9864."""


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
    if options["verificationMethod"] != key.method:
        return False
    try:
        if rfc8785.dumps(options["@context"]) != rfc8785.dumps(document.get("@context")):
            return False
        return _holds(key, from_multibase(proof["proofValue"]), _digests(document, options))
    except (rfc8785.CanonicalizationError, RecursionError):
        return False


def _digests(document: dict[str, Any], options: dict[str, Any]) -> bytes:
    return b"".join(hashlib.sha256(rfc8785.dumps(part)).digest() for part in (options, document))


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
    message = ".".join(base64url(rfc8785.dumps(part)) for part in (header, claims))
    return f"{message}.{base64url(key.sign(message.encode('ascii')))}"


def read_token(token: str) -> tuple[dict[str, Any], dict[str, Any]]:
    """Return the header and the claims of a token, not yet checked.

    Raises:
        CertificateError: when it is no token of the kind that is issued here.
    """
    parts = token.split(".")
    if len(parts) != 3:
        raise CertificateError(f"expected a token of three parts with dots between, got {len(parts)}")
    header, claims = (parse_json(decode_text(from_base64url(part))) for part in parts[:2])
    if not isinstance(header, dict) or not isinstance(claims, dict):
        raise CertificateError("expected a token that holds a header and claims")
    algorithm = header.get("alg")
    if algorithm not in _ALGORITHMS or header.get("typ") != "vc+jwt" or "crit" in header:
        shown = f"{header.get('typ')!r} by {algorithm!r}"
        raise CertificateError(f"expected a vc+jwt signed by EdDSA, got {shown[:80]}")
    return header, claims


def token_holds(token: str, key: PublishedKey) -> bool:
    """Tell whether a token is what this key signed."""
    message, _, signature = token.rpartition(".")
    try:
        header, _ = read_token(token)
        return header.get("kid") == key.method and _holds(key, from_base64url(signature), message.encode("ascii"))
    except (CertificateError, UnicodeEncodeError):
        return False
