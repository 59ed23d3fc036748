"""The browser's checker gives the answers of the Python one, file by file."""

from __future__ import annotations

import io
import json
from datetime import date, timedelta
from typing import TYPE_CHECKING

import pikepdf
import pytest

from credentials.certificates import (
    ID,
    NOW,
    PASSPHRASE,
    a_certificate,
    a_key,
    signed_for_something_else,
    some_facts,
    tampered_documents,
    tampered_tokens,
)
from credentials.twin import browser_verdicts
from tinwright.credentials.certificate_pdf import certificate_pdf
from tinwright.credentials.credentials import issue
from tinwright.credentials.keys import open_key, rotate_key
from tinwright.credentials.revocation import read_revocations, signed_revocations, signed_status_list
from tinwright.credentials.verification import verify

if TYPE_CHECKING:
    from pathlib import Path

    from tinwright.credentials.keys import SigningKey

TODAY = date(2026, 12, 24)


@pytest.fixture(scope="module")
def key(tmp_path_factory: pytest.TempPathFactory) -> SigningKey:
    return a_key(tmp_path_factory.mktemp("twin") / "keys")


def assert_alike(key: SigningKey, files: dict[str, bytes], *revoked: str, today: date = TODAY) -> dict[str, str]:
    """Judge by both; returns the outcomes by name."""
    listed = signed_revocations([(id_, date(2026, 12, 1)) for id_ in revoked], key, NOW + timedelta(days=21))
    revocations = read_revocations(listed, key.issuer)
    ours = {name: verify(content, key.issuer, revocations, today) for name, content in files.items()}
    theirs = browser_verdicts(list(files.values()), key.issuer, listed, str(today))
    for verdict, (name, expected) in zip(theirs, ours.items(), strict=True):
        assert verdict["outcome"] == expected.outcome, name
        shown = expected.certificate
        assert (verdict["certificate"] is None) == (shown is None), name
        if shown is not None:
            assert verdict["certificate"] == {
                "id": shown.id,
                "name": shown.name,
                "shown": list(shown.shown),
                "issuedOn": str(shown.issued_on),
                "validUntil": str(shown.valid_until),
                "office": shown.office,
                "limits": shown.limits,
            }
    return {name: str(verdict.outcome) for name, verdict in ours.items()}


def test_a_certificate_in_every_form(key: SigningKey) -> None:
    signed = a_certificate(key, name="Zoë O’Neil-Example, 例 \U0001f600")
    pdf = certificate_pdf(some_facts(), key.issuer, signed.document)
    files = {"json": signed.document.encode(), "jwt": signed.token.encode(), "pdf": pdf}
    assert set(assert_alike(key, files).values()) == {"genuine"}
    assert set(assert_alike(key, files, ID).values()) == {"revoked"}
    assert set(assert_alike(key, files, today=date(2028, 11, 25)).values()) == {"expired"}
    assert set(assert_alike(key, files, today=date(2026, 11, 24)).values()) == {"not-yet"}


def test_every_tampered_copy(key: SigningKey) -> None:
    signed = a_certificate(key)
    files = {name: json.dumps(copy).encode() for name, copy in tampered_documents(signed.document)}
    files |= {name: copy.encode() for name, copy in tampered_tokens(signed.token)}
    outcomes = assert_alike(key, files)
    assert len(outcomes) > 200
    assert not {"genuine", "revoked", "expired", "not-yet", "key-out-of-use"} & set(outcomes.values())


def test_what_the_office_signed_for_something_else_is_no_certificate(key: SigningKey) -> None:
    outcomes = assert_alike(key, signed_for_something_else(key))
    assert len(outcomes) == 13
    assert set(outcomes.values()) == {"altered", "unreadable"}


def test_forged_leaked_late_and_wrong_files(key: SigningKey, tmp_path: Path) -> None:
    other = a_key(tmp_path / "keys")
    early = a_certificate(other)
    rotate_key(tmp_path / "keys", passphrase=PASSPHRASE, now=NOW + timedelta(days=20))
    rotated = open_key(tmp_path / "keys", PASSPHRASE)
    late = issue(some_facts(), other, NOW + timedelta(days=21))
    files = {
        "early": early.document.encode(),
        "early token": early.token.encode(),
        "late": late.document.encode(),
        "late token": late.token.encode(),
        "list": signed_revocations([], rotated, NOW).encode(),
        "status list": (signed_status_list([], rotated, NOW) or "").encode(),
        "doubled": early.document.replace('"hashed"', '"hashed": false, "hashed"').encode(),
        "of another": a_certificate(key).document.encode(),
    }
    assert assert_alike(rotated, files) == {
        "early": "genuine",
        "early token": "genuine",
        "late": "key-out-of-use",
        "late token": "key-out-of-use",
        "list": "not-ours",
        "status list": "not-ours",
        "doubled": "unreadable",
        "of another": "not-ours",
    }
    wrong = (b"", b"{}", b"null", b"{", b"\xff\xfe", b"hi", b"a.b.c", b"%PDF-1.7", b"[" * 100_000, b'{"a":' * 100_000)
    assert_alike(key, {repr(content[:8]): content for content in wrong})
    rotate_key(tmp_path / "keys", passphrase=PASSPHRASE, now=NOW + timedelta(days=20), leaked=True)
    after = open_key(tmp_path / "keys", PASSPHRASE)
    again = {"leaked": issue(some_facts(), rotated, NOW + timedelta(days=20)).document.encode()}
    assert assert_alike(after, again) == {"leaked": "key-out-of-use"}


def test_a_pdf_that_another_program_packed_anew_is_still_read(key: SigningKey) -> None:
    pdf = certificate_pdf(some_facts(), key.issuer, a_certificate(key).document)
    packed = io.BytesIO()
    with pikepdf.open(io.BytesIO(pdf)) as opened:
        opened.save(packed, compress_streams=True, object_stream_mode=pikepdf.ObjectStreamMode.generate)
    assert b"did:key" in pdf
    assert b"did:key" not in packed.getvalue()
    assert assert_alike(key, {"packed": packed.getvalue()}) == {"packed": "genuine"}


def test_a_pdf_without_or_with_another_attachment(key: SigningKey) -> None:
    bare, other, altered = io.BytesIO(), io.BytesIO(), io.BytesIO()
    pdf = certificate_pdf(some_facts(), key.issuer, a_certificate(key).document)
    with pikepdf.open(io.BytesIO(pdf)) as opened:
        del opened.attachments["certificate.json"]
        opened.save(bare)
    with pikepdf.open(io.BytesIO(bare.getvalue())) as opened:
        opened.attachments["notes.txt"] = pikepdf.AttachedFileSpec(opened, b"nothing")
        opened.save(other)
    with pikepdf.open(io.BytesIO(bare.getvalue())) as opened:
        changed = a_certificate(key).document.replace("Example Volunteer", "Somebody Else").encode()
        spec = pikepdf.AttachedFileSpec(opened, changed, filename="certificate.json", relationship=pikepdf.Name.Data)
        opened.attachments["certificate.json"] = spec
        opened.Root.AF = pikepdf.Array([spec.obj])
        opened.save(altered)
    files = {"bare": bare.getvalue(), "other": other.getvalue(), "altered": altered.getvalue()}
    assert assert_alike(key, files) == {"bare": "unreadable", "other": "unreadable", "altered": "altered"}


def test_without_a_list_or_with_a_forged_one_it_does_not_say_genuine(key: SigningKey, tmp_path: Path) -> None:
    content = [a_certificate(key).document.encode()]
    forged = signed_revocations([], a_key(tmp_path / "other"), NOW)
    altered = signed_revocations([(ID, date(2026, 12, 1))], key, NOW).replace("9b2d", "9b2e")
    for revoked in (None, forged, altered):
        (found,) = browser_verdicts(content, key.issuer, revoked, str(TODAY))
        assert found["outcome"] == "revocation-not-checked"
