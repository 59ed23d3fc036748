"""What a certificate says, and what it must not say."""

from __future__ import annotations

import base64
import json
from datetime import date
from typing import TYPE_CHECKING, Any

import pytest

from credentials.certificates import ID, NOW, OFFICE, SITE, a_certificate, a_key, some_facts
from tinwright.credentials.credentials import credential, issue, shown_file_name
from tinwright.errors import CertificateError

if TYPE_CHECKING:
    from pathlib import Path

    from tinwright.credentials.keys import SigningKey


@pytest.fixture
def key(tmp_path: Path) -> SigningKey:
    return a_key(tmp_path / "keys")


def claims_of(token: str) -> dict[str, Any]:
    part = token.split(".")[1]
    found: dict[str, Any] = json.loads(base64.urlsafe_b64decode(part + "=" * (-len(part) % 4)))
    return found


def test_it_has_the_members_open_badges_asks_for(key: SigningKey) -> None:
    # Open Badges 3.0, sections B.1 (OpenBadgeCredential, AchievementSubject, Achievement) and B.2 (Profile).
    found = credential(some_facts(), key.issuer)
    assert found["@context"][0] == "https://www.w3.org/ns/credentials/v2"
    assert set(found["type"]) >= {"VerifiableCredential", "OpenBadgeCredential"}
    assert {"id", "type", "name", "issuer", "validFrom", "credentialSubject"} <= set(found)
    assert found["issuer"]["type"] == ["Profile"]
    subject = found["credentialSubject"]
    assert subject["type"] == ["AchievementSubject"]
    assert {"id", "type", "criteria", "description", "name"} <= set(subject["achievement"])
    (identity,) = subject["identifier"]
    assert identity["identityType"] == "name"
    assert (identity["hashed"], identity["identityHash"]) == (False, "Example Volunteer")


def test_each_part_shown_is_a_result_of_its_own(key: SigningKey) -> None:
    subject = credential(some_facts(), key.issuer)["credentialSubject"]
    described = {each["id"]: each["name"] for each in subject["achievement"]["resultDescription"]}
    assert list(described.values()) == [
        "Written examination: Seam volunteers, form B",
        "Observed at the machine: crank with cam",
        "Observed at the machine: hand lever",
    ]
    assert [each["resultDescription"] for each in subject["result"]] == list(described)
    assert {each["status"] for each in subject["result"]} == {"Completed"}


def test_no_number_stands_in_it_that_two_readers_could_write_differently(key: SigningKey) -> None:
    def numbers(value: Any) -> list[Any]:
        if isinstance(value, dict):
            return [n for each in value.values() for n in numbers(each)]
        if isinstance(value, list):
            return [n for each in value for n in numbers(each)]
        return [value] if isinstance(value, int | float) and not isinstance(value, bool) else []

    assert numbers(json.loads(a_certificate(key).document)) == []


def test_it_says_what_it_is_not(key: SigningKey) -> None:
    said = credential(some_facts(), key.issuer)["description"]
    for words in (
        "not a Better Process Control School certificate",
        "not a license",
        "process authority",
        "21 CFR 108, 113 or 114 or 9 CFR 431",
        "does not permit the sale or the public distribution",
        "ask your State food program",
    ):
        assert words in said


@pytest.mark.parametrize("word", ["certified", "closure technician", "better process", "fda", "usda", "approved"])
def test_nothing_but_the_denial_uses_a_word_that_claims_too_much(key: SigningKey, word: str) -> None:
    found = credential(some_facts(), key.issuer)
    del found["description"]
    assert word not in json.dumps(found).lower()


def test_a_day_is_a_day_in_every_time_zone(key: SigningKey) -> None:
    found = credential(some_facts(), key.issuer)
    assert found["validFrom"] == "2026-11-25T00:00:00+14:00"
    assert found["validUntil"] == "2028-11-24T23:59:59-12:00"


def test_the_token_says_the_same_as_the_document(key: SigningKey) -> None:
    signed = a_certificate(key)
    document, claims = json.loads(signed.document), claims_of(signed.token)
    del document["proof"]
    assert {name: claims[name] for name in document} == document
    # 2026-11-25T00:00+14:00 and 2028-11-24T23:59:59-12:00, in seconds since 1970, by `date --date=... +%s`
    assert {name: value for name, value in claims.items() if name not in document} == {
        "iss": key.issuer.current.did,
        "sub": f"urn:uuid:{ID}#holder",
        "jti": f"urn:uuid:{ID}",
        "nbf": 1795514400,
        "exp": 1858766399,
        "iat": 1795620600,
    }


def test_no_address_stands_in_it_when_the_office_has_no_site(tmp_path: Path) -> None:
    found = credential(some_facts(), a_key(tmp_path / "other", site=None).issuer)
    assert "credentialStatus" not in found
    assert "url" not in found["issuer"]


def test_with_a_site_it_names_the_list_of_revoked_ones(key: SigningKey) -> None:
    status = credential(some_facts(), key.issuer)["credentialStatus"]
    assert status["statusListCredential"] == f"{SITE}certificates/status-list.json"
    assert status["id"] == f"{status['statusListCredential']}#{status['statusListIndex']}"


@pytest.mark.parametrize(
    ("change", "message"),
    [
        ({"id": "1"}, "id: expected a random UUID"),
        ({"id": ID.upper()}, "id: expected a random UUID in lower case"),
        ({"id": "6fa459ea-ee8a-11e2-9af9-0800200c9a66"}, "id: expected a random UUID"),
        ({"name": "  "}, "name: expected some text"),
        ({"name": "A\nB"}, "name: expected one line of text"),
        ({"name": "A\u202eB"}, "name: expected one line of text"),
        ({"name": "\ud800"}, "name: expected one line of text"),
        ({"name": "N" * 201}, "name: expected at most 200 characters, got 201"),
        ({"drives": ()}, "drives: expected one or more"),
        ({"drives": ("Crank Cam",)}, "drives: expected one or more such as crank-cam, got Crank Cam"),
        ({"valid_until": date(2026, 11, 24)}, "expected 2026-11-25 or later"),
        ({"limits": ""}, "limits: expected some text"),
    ],
)
def test_facts_that_do_not_fit_are_refused(change: dict[str, Any], message: str) -> None:
    with pytest.raises(CertificateError, match=message):
        some_facts(**change)


def test_a_key_of_another_office_does_not_sign(key: SigningKey) -> None:
    with pytest.raises(
        CertificateError, match="the key is that of 'Sorrel County Extension', and the office is 'Dock County"
    ):
        issue(some_facts(office="Dock County Extension"), key, NOW)


@pytest.mark.parametrize(
    ("name", "stem"),
    [
        ("Zoë Example", "zoe-example-2026-11-25-9b2d5b0e"),
        ("../../etc/passwd", "etc-passwd-2026-11-25-9b2d5b0e"),
        ("例 子", "certificate-2026-11-25-9b2d5b0e"),
        ("N" * 200, f"{'n' * 60}-2026-11-25-9b2d5b0e"),
    ],
)
def test_a_files_name_is_safe_on_every_computer(name: str, stem: str) -> None:
    assert shown_file_name(some_facts(name=name)) == stem


def test_the_office_stands_in_it_as_issuer(key: SigningKey) -> None:
    assert json.loads(a_certificate(key).document)["issuer"] == {
        "id": key.issuer.current.did,
        "type": ["Profile"],
        "name": OFFICE,
        "url": SITE,
    }
