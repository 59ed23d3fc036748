"""A stranger checks a certificate on the site, over http and from a memory stick."""

from __future__ import annotations

import base64
import json
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import expect

from browser.test_advice_pages import STRICT_POLICY
from credentials.certificates import ID, NOW, PASSPHRASE, a_certificate, a_key, some_facts
from tinwright.browser import needed_scripts
from tinwright.credentials.certificate_pdf import certificate_pdf
from tinwright.credentials.keys import open_key, rotate_key
from tinwright.credentials.revocation import signed_revocations

if TYPE_CHECKING:
    from playwright.sync_api import BrowserContext, FilePayload, Page

    from tinwright.credentials.keys import SigningKey

pytestmark = pytest.mark.browser

EXAMPLES = Path(__file__).parents[2] / "docs"
CLOCK = datetime(2026, 12, 24, 18, tzinfo=UTC)
WHERE = ("over_http", "from_disk")
NOT_SUPPORTED = "crypto.subtle.importKey = () => Promise.reject(new DOMException('x', 'NotSupportedError'));"


@pytest.fixture(scope="module")
def key(tmp_path_factory: pytest.TempPathFactory) -> SigningKey:
    return a_key(tmp_path_factory.mktemp("browser") / "keys")


def open_page(page: Page, address: str, key: SigningKey, *revoked: str, anchor: str = "") -> None:
    """Open the page of an office that has published the given key and list."""
    listed = json.loads(
        signed_revocations([(id_, date(2026, 12, 1)) for id_ in revoked], key, NOW + timedelta(days=21))
    )
    data = json.dumps({"issuer": key.issuer.as_json(), "revoked": listed})
    page.route(
        "**/assets/certificate-data.js",
        lambda route: route.fulfill(body=f"globalThis.tinwrightCertificates = {data};", content_type="text/javascript"),
    )
    page.clock.set_fixed_time(CLOCK)
    page.goto(f"{address}verify-a-certificate.html{anchor}")


def choose(page: Page, name: str, content: bytes | str) -> None:
    raw = content.encode() if isinstance(content, str) else content
    payload: FilePayload = {"name": name, "mimeType": "application/octet-stream", "buffer": raw}
    page.set_input_files("#vc-file", payload)


def told(page: Page, word: str) -> str:
    """Wait for the word of the answer, and return all that a screen reader is told."""
    expect(page.locator(".tw-verdict__word")).to_have_text(word)
    return page.get_by_role("status").inner_text()


@pytest.mark.parametrize("where", WHERE)
def test_each_form_of_a_certificate_is_genuine(
    page: Page, where: str, key: SigningKey, request: pytest.FixtureRequest
) -> None:
    signed = a_certificate(key)
    forms = {
        "certificate.pdf": certificate_pdf(some_facts(), key.issuer, signed.document),
        "certificate.json": signed.document.encode(),
        "certificate.jwt": signed.token.encode(),
    }
    for name, content in forms.items():
        open_page(page, request.getfixturevalue(where), key)
        choose(page, name, content)
        said = told(page, "Genuine")
        assert "Certificate of Example Volunteer." in said
        assert "when it last published its list, on December 16, 2026" in said
        shown = page.locator(".tw-certificate").inner_text()
        for words in ("Written examination: Seam volunteers, form B", "November 25, 2026", "November 24, 2028", ID):
            assert words in shown
        assert (
            "It is not a Better Process Control School certificate"
            in page.locator("tw-verify-certificate").inner_text()
        )


@pytest.mark.parametrize("where", WHERE)
def test_altered_copies_and_those_of_others_are_refused(
    page: Page, where: str, key: SigningKey, tmp_path: Path, request: pytest.FixtureRequest
) -> None:
    open_page(page, request.getfixturevalue(where), key)
    signed = a_certificate(key)
    pdf = certificate_pdf(some_facts(), key.issuer, signed.document)
    head, body, signature = signed.token.split(".")
    claims = base64.urlsafe_b64decode(body + "=" * (-len(body) % 4)).replace(b"Example", b"Another")
    changed = base64.urlsafe_b64encode(claims).rstrip(b"=").decode()
    copies = (
        ("json", signed.document.replace("Example Volunteer", "Another Volunteer"), "Altered"),
        ("json", signed.document.replace("2028-11-24", "2038-11-24"), "Altered"),
        ("jwt", f"{head}.{changed}.{signature}", "Altered"),
        ("pdf", pdf.replace(b'"Example Volunteer"', b'"Another Example"  '), "Altered"),
        ("pdf", pdf[: pdf.index(b'"proofValue"')], "No certificate found"),
        ("json", a_certificate(a_key(tmp_path / "other")).document, "Not ours"),
        ("json", "{}", "Not ours"),
        ("json", "{", "No certificate found"),
    )
    for ending, content, word in copies:
        choose(page, f"copy.{ending}", content)
        told(page, word)
        assert page.locator(".tw-certificate").count() == 0


def test_revoked_expired_and_signed_with_a_lost_key(
    page: Page, over_http: str, key: SigningKey, tmp_path: Path
) -> None:
    document = a_certificate(key).document
    open_page(page, over_http, key, ID)
    choose(page, "a.json", document)
    assert "took it back on December 1, 2026" in told(page, "Revoked")
    page.clock.set_fixed_time(datetime(2028, 11, 27, tzinfo=UTC))
    open_page(page, over_http, key)
    page.clock.set_fixed_time(datetime(2028, 11, 27, tzinfo=UTC))
    choose(page, "a.json", document)
    assert "It was valid until November 24, 2028." in told(page, "Genuine, but expired")
    old = a_certificate(a_key(tmp_path / "keys")).document
    rotate_key(tmp_path / "keys", passphrase=PASSPHRASE, now=NOW + timedelta(days=20), leaked=True)
    open_page(page, over_http, open_key(tmp_path / "keys", PASSPHRASE))
    choose(page, "a.json", old)
    told(page, "Not to be trusted any more")


def test_it_can_be_dropped_or_pasted(page: Page, over_http: str, key: SigningKey) -> None:
    open_page(page, over_http, key)
    document = a_certificate(key).document
    page.evaluate(
        """(text) => {
          const moved = new DataTransfer();
          moved.items.add(new File([text], "dropped.json"));
          document.querySelector(".tw-choose").dispatchEvent(new DragEvent("drop", {dataTransfer: moved, cancelable: true}));
        }""",
        document,
    )
    told(page, "Genuine")
    page.get_by_text("Or paste its text").click()
    page.get_by_label("Text of the certificate").fill(f"  {document.replace('Example', 'Another')}\n")
    page.get_by_role("button", name="Check this text").click()
    told(page, "Altered")


def test_the_code_on_the_paper_tells_at_once_of_a_revoked_number(page: Page, over_http: str, key: SigningKey) -> None:
    open_page(page, over_http, key, ID, anchor=f"#{ID}")
    expect(page.locator("tw-verify-certificate")).to_contain_text("It was revoked on December 1, 2026.")
    page.unroute("**/assets/certificate-data.js")
    page.goto("about:blank")
    open_page(page, over_http, key, anchor=f"#{ID}")
    came = page.locator("tw-verify-certificate")
    expect(came).to_contain_text("That alone does not make it genuine")
    choose(page, "a.json", a_certificate(key, id="11111111-1111-4111-8111-111111111111").document)
    assert "This is another certificate than the one whose code you followed." in told(page, "Genuine")


@pytest.mark.parametrize(
    ("lacking", "reason"),
    [
        (NOT_SUPPORTED, "This browser is too old to check signatures"),
        ("Object.defineProperty(crypto, 'subtle', {value: undefined});", "This page was opened over plain http."),
    ],
)
def test_a_browser_that_cannot_check_says_so_and_accuses_nobody(
    page: Page, over_http: str, key: SigningKey, lacking: str, reason: str
) -> None:
    page.add_init_script(lacking)
    open_page(page, over_http, key)
    choose(page, "a.json", a_certificate(key).document)
    assert reason in told(page, "Cannot be checked here")


def test_markup_in_a_signed_name_stays_text(page: Page, over_http: str, key: SigningKey) -> None:
    name = "<img src=x onerror=document.title='hacked'>"
    open_page(page, over_http, key)
    choose(page, "<b>.json", a_certificate(key, name=name).document)
    assert name in told(page, "Genuine")
    assert page.locator("tw-verify-certificate img").count() == 0


def test_under_a_strict_policy_it_works_and_asks_nothing_of_anybody(
    page: Page, over_http: str, key: SigningKey
) -> None:
    scripts = "".join(
        f'<script src="assets/{name}" defer></script>'
        for name in ("certificate-data.js", *needed_scripts("verify-certificate.js"))
    )
    body = (
        f'<!doctype html><html lang="en"><title>Alone</title><tw-verify-certificate></tw-verify-certificate>{scripts}'
    )
    page.route(
        f"{over_http}verify-a-certificate.html",
        lambda route: route.fulfill(
            body=body, content_type="text/html", headers={"Content-Security-Policy": STRICT_POLICY}
        ),
    )
    open_page(page, over_http, key)
    choose(page, "a.json", a_certificate(key).document)
    told(page, "Genuine")


@pytest.mark.browser_context_args(java_script_enabled=False)
def test_without_script_it_says_whom_to_ask(page: Page, over_http: str) -> None:
    page.goto(f"{over_http}verify-a-certificate.html")
    text = page.locator("article").inner_text()
    assert "scripts are off. Ask Sorrel County Extension: read out the number on the certificate" in text
    assert "It is not a Better Process Control School certificate" in text


@pytest.mark.parametrize("where", WHERE)
def test_the_examples_of_the_demonstration(page: Page, where: str, request: pytest.FixtureRequest) -> None:
    page.clock.set_fixed_time(CLOCK)
    page.goto(f"{request.getfixturevalue(where)}verify-a-certificate.html")
    for name, word in (("", "Genuine"), ("-revoked", "Revoked")):
        page.set_input_files("#vc-file", EXAMPLES / f"certificate-example{name}.json")
        told(page, word)
    page.set_input_files("#vc-file", EXAMPLES / "certificate-example.pdf")
    assert "A demonstration: Sorrel County Extension is invented." in page.locator("tw-verify-certificate").inner_text()


def test_the_published_files_lie_on_the_site_as_they_are(context: BrowserContext, over_http: str) -> None:
    for name in ("issuer.json", "revoked.json", "status-list.json"):
        answer = context.request.get(f"{over_http}certificates/{name}")
        assert answer.ok
        assert answer.body() == (EXAMPLES.parent / "content" / "sorrel-county" / "certificates" / name).read_bytes()
