"""Genuine, altered, not ours, revoked, expired: the answer to a file."""

from __future__ import annotations

import json
from dataclasses import replace
from datetime import date, timedelta
from typing import TYPE_CHECKING

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from credentials.certificates import (
    ID,
    NOW,
    PASSPHRASE,
    a_certificate,
    a_key,
    a_list,
    some_facts,
    tampered_documents,
    tampered_tokens,
)
from tinwright.credentials.credentials import issue
from tinwright.credentials.keys import open_key, rotate_key
from tinwright.credentials.proof import sign_document
from tinwright.credentials.revocation import check_lists, read_revocations, signed_revocations, signed_status_list
from tinwright.credentials.verification import LARGEST, Outcome, verify
from tinwright.errors import CertificateError

if TYPE_CHECKING:
    from pathlib import Path

    from tinwright.credentials.keys import SigningKey

TODAY = date(2026, 12, 24)


@pytest.fixture(scope="module")
def key(tmp_path_factory: pytest.TempPathFactory) -> SigningKey:
    return a_key(tmp_path_factory.mktemp("verification") / "keys")


def outcome(content: str | bytes, key: SigningKey, *revoked: str, today: date = TODAY) -> Outcome:
    raw = content.encode() if isinstance(content, str) else content
    return verify(raw, key.issuer, a_list(key, *revoked), today).outcome


def test_a_certificate_as_issued_is_genuine_in_both_forms(key: SigningKey) -> None:
    signed = a_certificate(key)
    for text in (signed.document, signed.token, f"\n {signed.token}\n", "\ufeff" + signed.document):
        verdict = verify(text.encode(), key.issuer, a_list(key), TODAY)
        assert verdict.outcome == Outcome.GENUINE
        assert verdict.certificate is not None
        assert verdict.certificate.name == "Example Volunteer"
        assert verdict.certificate.valid_until == date(2028, 11, 24)


def test_layout_of_the_json_does_not_matter(key: SigningKey) -> None:
    found = json.loads(a_certificate(key).document)
    assert outcome(json.dumps(found, separators=(",", ":"), sort_keys=True), key) == Outcome.GENUINE


def test_every_change_to_a_document_is_refused(key: SigningKey) -> None:
    passed = []
    for name, copy in tampered_documents(a_certificate(key).document):
        found = verify(json.dumps(copy).encode(), key.issuer, a_list(key), TODAY)
        if found.outcome not in {Outcome.ALTERED, Outcome.NOT_OURS} or found.certificate is not None:
            passed.append((name, found.outcome))
    assert passed == []


def test_every_change_to_a_token_is_refused(key: SigningKey) -> None:
    refused = {Outcome.ALTERED, Outcome.NOT_OURS, Outcome.UNREADABLE}
    passed = [name for name, copy in tampered_tokens(a_certificate(key).token) if outcome(copy, key) not in refused]
    assert passed == []


def test_a_file_cut_short_is_unreadable(key: SigningKey) -> None:
    document = a_certificate(key).document
    for length in (0, 1, len(document) // 2, len(document) - 3):
        assert outcome(document[:length], key) == Outcome.UNREADABLE


def test_a_member_that_stands_twice_is_refused(key: SigningKey) -> None:
    document = a_certificate(key).document
    doubled = document.replace('"hashed": false', '"identityHash": "Somebody Else", "hashed": false')
    assert verify(doubled.encode(), key.issuer, a_list(key), TODAY).reason == "the member 'identityHash' stands twice"


def test_one_signed_by_another_key_is_not_ours_even_with_our_name(key: SigningKey, tmp_path: Path) -> None:
    forger = a_key(tmp_path / "forger")
    signed = a_certificate(forger)
    assert outcome(signed.document, key) == Outcome.NOT_OURS
    assert outcome(signed.token, key) == Outcome.NOT_OURS
    # The forger writes our key where the checker looks for it.
    swapped = signed.document.replace(forger.issuer.current.multibase, key.issuer.current.multibase)
    assert outcome(swapped, key) == Outcome.ALTERED


def test_revoked_comes_before_expired(key: SigningKey) -> None:
    document = a_certificate(key).document
    assert outcome(document, key, ID) == Outcome.REVOKED
    assert outcome(document, key, ID, today=date(2030, 1, 1)) == Outcome.REVOKED
    assert outcome(document, key, "00000000-0000-4000-8000-000000000000") == Outcome.GENUINE


@pytest.mark.parametrize(
    ("today", "expected"),
    [
        (date(2026, 11, 24), Outcome.NOT_YET),
        (date(2026, 11, 25), Outcome.GENUINE),
        (date(2028, 11, 24), Outcome.GENUINE),
        (date(2028, 11, 25), Outcome.EXPIRED),
    ],
)
def test_first_and_last_day_count(key: SigningKey, today: date, expected: Outcome) -> None:
    assert outcome(a_certificate(key).document, key, today=today) == expected


def test_without_a_list_it_does_not_say_genuine(key: SigningKey) -> None:
    found = verify(a_certificate(key).document.encode(), key.issuer, None, TODAY)
    assert found.outcome == Outcome.NOT_CHECKED_FOR_REVOCATION


def test_what_an_old_key_signed_stays_good_after_rotation(tmp_path: Path) -> None:
    old = a_key(tmp_path / "keys")
    before = a_certificate(old)
    rotate_key(tmp_path / "keys", passphrase=PASSPHRASE, now=NOW + timedelta(days=20))
    new = open_key(tmp_path / "keys", PASSPHRASE)
    for text in (before.document, before.token):
        assert (
            verify(text.encode(), new.issuer, a_list(new, now=NOW + timedelta(days=21)), TODAY).outcome
            == Outcome.GENUINE
        )
    # A copy signed anew later is dated by its signature, not by the day of issue.
    again = issue(some_facts(), new, NOW + timedelta(days=25))
    for text in (again.document, again.token):
        assert outcome_by(new, text) == Outcome.GENUINE


def outcome_by(key: SigningKey, text: str) -> Outcome:
    return verify(text.encode(), key.issuer, a_list(key, now=NOW + timedelta(days=21)), TODAY).outcome


def test_a_key_does_not_sign_outside_its_time(tmp_path: Path) -> None:
    old = a_key(tmp_path / "keys")
    rotate_key(tmp_path / "keys", passphrase=PASSPHRASE, now=NOW + timedelta(days=20))
    new = open_key(tmp_path / "keys", PASSPHRASE)
    for late in (issue(some_facts(), old, NOW + timedelta(days=21)), issue(some_facts(), old, NOW - timedelta(days=1))):
        for text in (late.document, late.token):
            assert outcome_by(new, text) == Outcome.KEY_OUT_OF_USE


def test_nothing_a_leaked_key_signed_counts(tmp_path: Path) -> None:
    old = a_key(tmp_path / "keys")
    signed = a_certificate(old)
    rotate_key(tmp_path / "keys", passphrase=PASSPHRASE, now=NOW + timedelta(days=20), leaked=True)
    new = open_key(tmp_path / "keys", PASSPHRASE)
    assert outcome_by(new, signed.document) == Outcome.KEY_OUT_OF_USE
    assert outcome_by(new, signed.token) == Outcome.KEY_OUT_OF_USE
    with pytest.raises(CertificateError, match="signed with a key out of use"):
        read_revocations(signed_revocations([], old, NOW), new.issuer)


def test_what_the_office_signed_that_is_no_certificate_is_none(key: SigningKey) -> None:
    status = signed_status_list([], key, NOW)
    assert status is not None
    facts_free = sign_document({"@context": ["x"], "type": [], "issuer": {"id": key.issuer.current.did}}, key, NOW)
    for text in (signed_revocations([], key, NOW), status, json.dumps(facts_free)):
        assert verify(text.encode(), key.issuer, a_list(key), TODAY).certificate is None


@pytest.mark.parametrize(
    "content",
    [b"", b"{}", b"[]", b"null", b"{", b"\xff\xfe", b"hello", b"a.b.c", b"....", b"%PDF-1.7", b"%PDF-1.7\n" + b"x" * 999,
     b'{"issuer": ' * 2, b"[" * 100_000, b'{"a":' * 100_000, b"\x89PNG\r\n"],
)  # fmt: skip
def test_a_wrong_file_gives_one_clear_line(key: SigningKey, content: bytes) -> None:
    found = verify(content, key.issuer, a_list(key), TODAY)
    assert found.outcome in {Outcome.UNREADABLE, Outcome.NOT_OURS}
    assert found.reason
    assert "\n" not in found.reason


def test_a_huge_file_is_refused_unread(key: SigningKey) -> None:
    assert verify(b"{" + b" " * LARGEST, key.issuer, None, TODAY).reason.startswith("expected a certificate of at most")


@settings(max_examples=200, suppress_health_check=[HealthCheck.function_scoped_fixture], deadline=None)
@given(place=st.integers(0, 4000), byte=st.integers(0, 255))
def test_one_byte_changed_never_says_something_else(key: SigningKey, place: int, byte: int) -> None:
    content = bytearray(a_certificate(key).document.encode())
    content[place % len(content)] = byte
    found = verify(bytes(content), key.issuer, a_list(key), TODAY)
    if found.certificate is not None:
        genuine = verify(a_certificate(key).document.encode(), key.issuer, a_list(key), TODAY)
        assert found == genuine


def test_the_list_is_refused_when_altered_or_anothers(key: SigningKey, tmp_path: Path) -> None:
    text = signed_revocations([(ID, date(2026, 12, 1))], key, NOW)
    for bad in (text.replace("2026-12-01", "2026-12-02"), signed_revocations([], a_key(tmp_path / "other"), NOW)):
        with pytest.raises(CertificateError, match="was not signed by this office, or was altered"):
            read_revocations(bad, key.issuer)
    with pytest.raises(CertificateError, match="expected a list of revoked certificates"):
        read_revocations("[]", key.issuer)


def test_no_name_and_no_reason_stands_in_the_published_list(key: SigningKey) -> None:
    found = json.loads(signed_revocations([(ID, date(2026, 12, 1))], key, NOW))
    assert found["revoked"] == [{"id": f"urn:uuid:{ID}", "on": "2026-12-01"}]
    assert set(found) == {"@context", "type", "issuer", "revoked", "proof"}


def test_a_key_named_by_hand_does_not_lend_its_time(key: SigningKey) -> None:
    early = replace(key.issuer.current, since=NOW + timedelta(days=1))
    issuer = replace(key.issuer, keys=(early,))
    assert verify(a_certificate(key).document.encode(), issuer, None, TODAY).outcome == Outcome.KEY_OUT_OF_USE


def test_a_list_that_does_not_say_what_was_signed_is_not_published(key: SigningKey) -> None:
    revoked = [(ID, date(2026, 12, 1))]
    plain, status = signed_revocations(revoked, key, NOW), signed_status_list([ID], key, NOW)
    check_lists(revoked, (plain, status), key)
    check_lists(revoked, (plain, None), key)
    for texts in (
        (signed_revocations([], key, NOW), status),
        (plain, signed_status_list([], key, NOW)),
        (plain, (status or "").replace("BitstringStatusList", "bitstringStatusList")),
    ):
        with pytest.raises(CertificateError, match="not published"):
            check_lists(revoked, texts, key)


def test_a_key_is_not_replaced_by_one_that_is_older(tmp_path: Path) -> None:
    a_key(tmp_path / "keys")
    with pytest.raises(CertificateError, match="clock is behind"):
        rotate_key(tmp_path / "keys", passphrase=PASSPHRASE, now=NOW - timedelta(seconds=1))
