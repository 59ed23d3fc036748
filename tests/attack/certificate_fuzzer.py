"""Certificates changed by chance, judged by both checkers.

Half are bytes changed in files that were signed; they must be refused, or say what was signed. Half are documents changed
and then signed, as a thief of the key might; both checkers must say the same of them.
"""

from __future__ import annotations

import json
import random
from copy import deepcopy
from typing import TYPE_CHECKING, Any

from attack.certificate_cases import TODAY, a_key_of
from attack.changes import changed
from attack.forged_pdfs import Pdf, repacked
from attack.two_checkers import STANDINGS, asked
from credentials.certificates import NOW, some_facts
from tinwright.credentials.credentials import credential, issue
from tinwright.credentials.proof import sign_document, sign_token
from tinwright.credentials.revocation import signed_revocations

if TYPE_CHECKING:
    from tinwright.credentials.keys import SigningKey

__all__ = ["fuzz"]

MOST_SECONDS = 2
WORDS = (
    b"endobj", b"stream\n", b"endstream", b"xref\n", b"trailer", b"startxref\n", b"/Prev 0", b"/Encrypt 1 0 R", b"<<", b">>",
    b"[", b"]", b"(", b")", b"\\", b"%", b"0 R", b"/Length 0", b"/Filter /FlateDecode", b"/Kids [3 0 R]", b"null", b"true",
    b"-1", b"99999999", b"1.5", b'"', b"{", b"}", b"\\ud800", b"\\u0000", b":", b",", b"\x00", b"\xff", b"\xef\xbb\xbf", b".", b"=",
)  # fmt: skip
VALUES: tuple[Any, ...] = (
    None, True, False, 0, 1, -1, 10**14, "", "x", "Example Volunteer", [], {}, [[]], [{}], ["x"], {"0": "x", "length": 1}, "\u0662", "\U0001f600",
    "2026-02-30T00:00:00Z", "2026-11-25T15:30:00Z", "2028-11-24T23:59:59-12:00", "__proto__", "constructor", "\ufeff", "\x00",
)  # fmt: skip


def fuzz(*, seed: int, files: int) -> list[str]:
    """Judge some files; returns what went wrong, one line each.

    Args:
        seed: the same seed makes the same files.
        files: how many.
    """
    chance = random.Random(seed)  # noqa: S311 - nothing secret
    key = a_key_of(1)
    signed = issue(some_facts(), key, NOW)
    whole = Pdf(signed.document.encode()).text()
    sound = (
        signed.document.encode(),
        signed.token.encode(),
        whole,
        repacked(whole, compress_streams=True, object_stream_mode=2),
        repacked(whole, linearize=True),
    )
    made: list[tuple[bytes, bool]] = []
    for _ in range(files):
        if chance.random() < 0.5:
            made.append((changed(chance.choice(sound), chance, WORDS), False))
        else:
            made.append((_signed_odd(key, chance), True))
    revoked = json.loads(signed_revocations([], key, NOW))
    wrong = []
    answers = asked([content for content, _ in made], key.issuer.as_json(), revoked, TODAY)
    for (content, by_thief), found in zip(made, answers, strict=True):
        one, other = (answer.partition(":")[0] for answer in (found.python, found.browser))
        alike = found.whole_alike and (one == other or not {one, other} & STANDINGS)
        fooled = not by_thief and one in STANDINGS and found.python != "genuine: Example Volunteer"
        if not alike or fooled or found.seconds > MOST_SECONDS:
            wrong.append(f"seed {seed}: {found} of {content[:3000]!r}")
    return wrong


def _signed_odd(key: SigningKey, chance: random.Random) -> bytes:
    claims = credential(some_facts(), key.issuer)
    for _ in range(chance.choice((1, 1, 2, 3))):
        _spoil(claims, chance)
    if "@context" not in claims or chance.random() < 0.4:
        return sign_token(claims | {"iat": chance.choice((int(NOW.timestamp()), *VALUES))}, key).encode()
    return json.dumps(sign_document(claims, key, NOW), ensure_ascii=chance.random() < 0.5).encode()


def _spoil(value: Any, chance: random.Random) -> None:
    """Change one value somewhere within."""
    while True:
        steps = list(value) if isinstance(value, dict) else list(range(len(value)))
        if not steps:
            return
        step = chance.choice(steps)
        if not isinstance(value[step], dict | list) or chance.random() < 0.3:
            break
        value = value[step]
    match chance.randrange(3):
        case 0:
            del value[step]
        case 1:
            value[step] = [value[step]]
        case 2:
            value[step] = deepcopy(chance.choice(VALUES))  # what is put in may be spoiled next
