"""The certificate on paper: one page, all its words, the code, and the file inside."""

from __future__ import annotations

import io
from typing import TYPE_CHECKING

import pikepdf
import pypdf
import pytest

from credentials.certificates import ID, OFFICE, a_certificate, a_key, some_facts
from tinwright.credentials.certificate_pdf import certificate_pdf
from tinwright.errors import PaperError

if TYPE_CHECKING:
    from pathlib import Path

    from tinwright.credentials.keys import SigningKey


@pytest.fixture(scope="module")
def key(tmp_path_factory: pytest.TempPathFactory) -> SigningKey:
    return a_key(tmp_path_factory.mktemp("paper") / "keys")


def text_of(pdf: bytes) -> str:
    (page,) = pypdf.PdfReader(io.BytesIO(pdf)).pages
    return " ".join(page.extract_text().split())


def test_everything_it_certifies_stands_on_one_landscape_letter_page(key: SigningKey) -> None:
    facts = some_facts()
    pdf = certificate_pdf(facts, key.issuer, a_certificate(key).document)
    (page,) = pypdf.PdfReader(io.BytesIO(pdf)).pages
    assert [float(side) for side in page.mediabox[2:]] == [792, 612]
    text = text_of(pdf)
    for words in (
        facts.name,
        OFFICE,
        facts.programme,
        facts.criteria,
        facts.limits,
        "Written examination: Seam volunteers, form B",
        "Observed at the machine: crank with cam",
        "Observed at the machine: hand lever",
        "November 25, 2026",
        "November 24, 2028",
        ID,
    ):
        assert words in text


@pytest.mark.parametrize("name", ["N" * 200, "Anna " * 39 + "Anna", "<b>&amp;", "Ελένη Παράδειγμα"])
def test_the_longest_and_strangest_name_stays_on_the_page(key: SigningKey, name: str) -> None:
    facts = some_facts(name=name, exam="Examination " * 16, drives=("crank-cam", "hand-lever", "motor"))
    text = text_of(certificate_pdf(facts, key.issuer, "{}"))
    assert name.replace(" ", "") in text.replace(" ", "")
    assert "ask your State food program." in text


def test_letters_that_no_font_has_are_refused_and_named(key: SigningKey) -> None:
    facts = some_facts(name="Ann \U0010fffd")
    with pytest.raises(PaperError, match=r"no font on this computer has the letters .*\(U\+10FFFD\)"):
        certificate_pdf(facts, key.issuer, "{}")


def test_the_signed_file_is_attached_to_the_letter_and_told_what_it_is(key: SigningKey) -> None:
    document = a_certificate(key).document
    with pikepdf.open(io.BytesIO(certificate_pdf(some_facts(), key.issuer, document))) as opened:
        (name,) = opened.attachments
        assert opened.attachments[name].get_file().read_bytes() == document.encode()
        (associated,) = opened.Root.AF
        assert associated.AFRelationship == "/Data"
        assert associated.F == associated.UF == "certificate.json"


def test_the_same_certificate_has_the_same_bytes(key: SigningKey) -> None:
    document = a_certificate(key).document
    first, second = (certificate_pdf(some_facts(), key.issuer, document) for _ in range(2))
    assert first == second


def test_it_is_named_after_its_holder_and_says_its_language(key: SigningKey) -> None:
    with pikepdf.open(io.BytesIO(certificate_pdf(some_facts(), key.issuer, "{}"))) as opened:
        assert "Example Volunteer" in str(opened.docinfo["/Title"])
        assert str(opened.Root.Lang) == "en-US"


def test_without_a_site_there_is_no_code_and_no_address(tmp_path: Path) -> None:
    issuer = a_key(tmp_path / "keys", site=None).issuer
    pdf = certificate_pdf(some_facts(), issuer, "{}")
    text = text_of(pdf)
    assert "http" not in text
    assert f"Ask {OFFICE} how." in text
