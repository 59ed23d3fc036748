"""Certificates before judges who share no code with them: published test vectors, and general-purpose verifiers.

- Ed25519: RFC 8032, section 7.1, tests 1 to 3.
- Canonical JSON: RFC 8785, sections 3.2.2 to 3.2.4.
- The proof: W3C Recommendation "Data Integrity EdDSA Cryptosuites v1.0", test vectors for `eddsa-jcs-2022`.
- The Bitstring Status List: W3C Recommendation of that name, and `openvc-core`.
- Verifiers: `openvc-core` (proof and list), `joserfc` and npm `jose` (token), npm `canonicalize` and Node's own
  cryptography (proof), `page-validation` and `pdfua` (PDF/UA-1), `zxing-cpp` (the code on the paper).
"""

from __future__ import annotations

import io
import json
import subprocess
import sys
import warnings
from datetime import UTC, date, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

import page
import pikepdf
import pytest
import zxingcpp
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey
from joserfc import jwk, jws
from joserfc.errors import JoseError
from openvc.did.did_key import DidKeyResolver
from openvc.errors import OpenvcError
from openvc.proof.di_jcs import EddsaJcsProofSuite
from openvc.status.bitstring import decode_bitstring, get_status_bit
from openvc.verify import VerificationPolicy, verify_credential
from PIL import Image

from credentials.certificates import ID, NOW, a_certificate, a_key, some_facts, tampered_documents, tampered_tokens
from credentials.twin import in_browser
from tinwright.credentials.certificate_pdf import certificate_pdf, check_address
from tinwright.credentials.issuer import Issuer, PublishedKey
from tinwright.credentials.keys import SigningKey
from tinwright.credentials.proof import proof_holds, sign_document
from tinwright.credentials.revocation import LIST_LENGTH, place_in_list, signed_revocations, signed_status_list

if TYPE_CHECKING:
    from collections.abc import Sequence

JUDGES = Path(__file__).parents[2] / ".judges" / "node_modules"
CLOCK = datetime(2026, 12, 24, tzinfo=UTC)


@pytest.fixture(scope="module")
def key(tmp_path_factory: pytest.TempPathFactory) -> SigningKey:
    return a_key(tmp_path_factory.mktemp("outside") / "keys")


# Public key, message and signature: RFC 8032, section 7.1, tests 1 to 3.
RFC_8032 = [
    (
        "d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a",
        "",
        "e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555fb8821590a33bacc61e39701cf9b46bd25bf5f0595bbe24655141438e7a100b",
    ),
    (
        "3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c",
        "72",
        "92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da085ac1e43e15996e458f3613d0f11d8c387b2eaeb4302aeeb00d291612bb0c00",
    ),
    (
        "fc51cd8e6218a1a38da47ed00230f0580816ed13ba3303ac5deb911548908025",
        "af82",
        "6291d657deec24024827e69c3abe01a30ce548a284743a445e3680d7db5ac3ac18ff9b538d16f290ae67f760984dc6594a7c15e9716ed28dc027beceea1ec40a",
    ),
]


def test_the_browser_checks_the_signatures_of_rfc_8032() -> None:
    script = """
    const hex = (text) => new Uint8Array(Buffer.from(text, "hex"));
    const found = [];
    for (const [key, message, signature] of given) {
      const altered = hex(signature);
      altered[0] ^= 1;
      found.push([
        await checker.signatureHolds(hex(signature), hex(message), hex(key)),
        await checker.signatureHolds(altered, hex(message), hex(key)),
        await checker.signatureHolds(hex(signature), hex(message + "00"), hex(key)),
      ]);
    }
    return found;
    """
    assert in_browser(script, RFC_8032) == [[True, False, False]] * 3


RFC_8785 = [
    (
        r"""{"numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
        "string": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/", "literals": [null, true, false]}""",
        r"""{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],"string":"€$\u000f\nA'B\"\\\\\"/"}""",
    ),
    (
        r"""{"\u20ac": "Euro Sign", "\r": "Carriage Return", "\ufb33": "Hebrew Letter Dalet With Dagesh", "1": "One",
        "\ud83d\ude00": "Emoji: Grinning Face", "\u0080": "Control", "\u00f6": "Latin Small Letter O With Diaeresis"}""",
        '{"\\r":"Carriage Return","1":"One","\u0080":"Control","ö":"Latin Small Letter O With Diaeresis",'
        '"€":"Euro Sign","\U0001f600":"Emoji: Grinning Face","\ufb33":"Hebrew Letter Dalet With Dagesh"}',
    ),
]


def test_the_browser_writes_the_canonical_json_of_rfc_8785() -> None:
    script = "return given.map((text) => checker.canonical(JSON.parse(text)));"
    assert in_browser(script, [text for text, _ in RFC_8785]) == [canonical for _, canonical in RFC_8785]


# W3C "Data Integrity EdDSA Cryptosuites v1.0", test vectors, representation eddsa-jcs-2022.
W3C_KEY = "z6MkrJVnaZkeFzdQyMZu1cgjg7k1pZZ6pvBQ7XJPt4swbTQ2"
W3C_SECRET = "c96ef9ea10c5e414c471723aff9de72c35fa5b70fae97e8832ecac7d2e2b8ed6"  # noqa: S105 - published
W3C_PROOF = "z2HnFSSPPBzR36zdDgK8PbEHeXbR56YF24jwMpt3R1eHXQzJDMWS93FCzpvJpwTWd3GAVFuUfjoJdcnTMuVor51aX"
W3C_DOCUMENT = {
    "@context": ["https://www.w3.org/ns/credentials/v2", "https://www.w3.org/ns/credentials/examples/v2"],
    "id": "urn:uuid:58172aac-d8ba-11ed-83dd-0b3aef56cc33",
    "type": ["VerifiableCredential", "AlumniCredential"],
    "name": "Alumni Credential",
    "description": "A minimum viable example of an Alumni Credential.",
    "issuer": "https://vc.example/issuers/5678",
    "validFrom": "2023-01-01T00:00:00Z",
    "credentialSubject": {"id": "did:example:abcdefgh", "alumniOf": "The School of Examples"},
}
W3C_CREATED = datetime(2023, 2, 24, 23, 36, 38, tzinfo=UTC)


def w3c_key() -> SigningKey:
    private = Ed25519PrivateKey.from_private_bytes(bytes.fromhex(W3C_SECRET))
    return SigningKey(Issuer("W3C", (PublishedKey.of(private.public_key(), W3C_CREATED),)), private)


def test_the_proof_is_that_of_the_w3c_test_vector() -> None:
    key = w3c_key()
    assert key.issuer.current.multibase == W3C_KEY
    signed = sign_document(W3C_DOCUMENT, key, W3C_CREATED)
    assert signed["proof"]["proofValue"] == W3C_PROOF
    assert proof_holds(signed, key.issuer.current)


def openvc_accepts(document: dict[str, Any]) -> bool:
    try:
        EddsaJcsProofSuite().verify(document, resolver=DidKeyResolver(), now=CLOCK)
    except OpenvcError:
        return False
    return True


def unread(name: str) -> bool:
    """Tell whether openvc does not look at it: it puts the document's context in the place of the proof's own."""
    return name.startswith("proof.@context")


def test_openvc_accepts_the_proof_and_refuses_every_tampered_copy(key: SigningKey) -> None:
    document = a_certificate(key).document
    assert openvc_accepts(json.loads(document))
    assert [name for name, copy in tampered_documents(document) if openvc_accepts(copy) and not unread(name)] == []


def test_openvc_takes_the_issuer_the_dates_and_the_status_list_from_it(key: SigningKey) -> None:
    lists = {ok: signed_status_list([] if ok else [ID], key, NOW) for ok in (True, False)}
    document = json.loads(a_certificate(key).document)
    policy = VerificationPolicy(now=CLOCK, expected_types=["OpenBadgeCredential"])

    def judged(revoked: bool) -> Any:
        status_list = json.loads(lists[not revoked] or "")
        return verify_credential(
            document, policy=policy, resolver=DidKeyResolver(), resolve_status_list=lambda _: status_list
        )

    assert judged(revoked=False).issuer == key.issuer.current.did
    with pytest.raises(OpenvcError, match="revoked"):
        judged(revoked=True)
    for wrong in (datetime(2026, 11, 20, tzinfo=UTC), datetime(2028, 11, 26, tzinfo=UTC)):
        with pytest.raises(OpenvcError):
            EddsaJcsProofSuite().verify(document, resolver=DidKeyResolver(), now=wrong)


def test_openvc_reads_the_bits_of_the_status_list(key: SigningKey) -> None:
    others = [f"00000000-0000-4000-8000-{number:012d}" for number in range(50)]
    found = json.loads(signed_status_list(others[:25], key, NOW) or "")
    bits = decode_bitstring(found["credentialSubject"]["encodedList"])
    assert len(bits) * 8 == LIST_LENGTH >= 131_072  # the least length the Recommendation allows
    assert [get_status_bit(bits, place_in_list(f"urn:uuid:{id_}")) for id_ in others] == [1] * 25 + [0] * 25
    assert openvc_accepts(found)


def test_openvc_checks_the_signature_of_the_plain_list_too(key: SigningKey) -> None:
    found = json.loads(signed_revocations([(ID, date(2026, 12, 1))], key, NOW))
    assert openvc_accepts(found)
    copies = tampered_documents(json.dumps(found))
    assert [name for name, copy in copies if openvc_accepts(copy) and not unread(name)] == []


def joserfc_claims(token: str, key: SigningKey) -> dict[str, Any] | None:
    public = jwk.OKPKey.import_key(key.private.public_key())
    registry = jws.JWSRegistry(algorithms=["EdDSA"])
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # it would rather have the name of RFC 9864, which other verifiers do not know
        try:
            found: dict[str, Any] = json.loads(jws.deserialize_compact(token, public, registry=registry).payload)
        except (JoseError, ValueError):
            return None
    return found


def test_joserfc_accepts_the_token_and_refuses_every_tampered_copy(key: SigningKey) -> None:
    token = a_certificate(key).token
    found = joserfc_claims(token, key)
    assert found is not None
    assert found["credentialSubject"]["identifier"][0]["identityHash"] == "Example Volunteer"
    assert [
        name for name, copy in tampered_tokens(token) if joserfc_claims(copy, key) and not badly_written(name)
    ] == []


def badly_written(name: str) -> bool:
    """Tell whether a copy holds the same bytes written another way, which RFC 7515 leaves to the reader to refuse."""
    return name.startswith("last letter") or name.endswith("letter 85")


def jose(script: str, given: Any) -> Any:
    """Run a script of Node with the judges' packages at hand."""
    if not (JUDGES / "jose").is_dir():
        pytest.fail(
            "no judge of tokens: run scripts/test, or npm install jose canonicalize into .judges", pytrace=False
        )
    head = 'import * as jose from "jose"; import canonicalize from "canonicalize"; import crypto from "node:crypto"; import fs from "node:fs"; const given = JSON.parse(fs.readFileSync(0, "utf8"));\n'
    done = subprocess.run(
        ["node", "--no-warnings", "--input-type=module", "-e", head + script],
        input=json.dumps(given),
        capture_output=True,
        text=True,
        cwd=JUDGES.parent,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    return json.loads(done.stdout)


def jose_accepts(tokens: Sequence[str], key: SigningKey, on: str = "2026-12-24T00:00:00Z") -> list[bool]:
    script = """
    const key = await jose.importJWK({kty: "OKP", crv: "Ed25519", x: given.x}, "EdDSA");
    const found = [];
    for (const token of given.tokens) {
      const options = {algorithms: ["EdDSA"], typ: "vc+jwt", issuer: given.issuer, currentDate: new Date(given.on)};
      found.push(await jose.jwtVerify(token, key, options).then(() => true, () => false));
    }
    process.stdout.write(JSON.stringify(found));
    """
    public = jwk.OKPKey.import_key(key.private.public_key()).as_dict(private=False)
    given = {"x": public["x"], "tokens": list(tokens), "issuer": key.issuer.current.did, "on": on}
    found: list[bool] = jose(script, given)
    return found


def test_jose_accepts_the_token_in_its_time_and_refuses_every_tampered_copy(key: SigningKey) -> None:
    token = a_certificate(key).token
    copies = dict(tampered_tokens(token))
    assert jose_accepts([token], key) == [True]
    assert jose_accepts([token], key, on="2026-11-24T09:00:00Z") == [False]
    assert jose_accepts([token], key, on="2028-11-25T13:00:00Z") == [False]
    accepted = [name for name, yes in zip(copies, jose_accepts(list(copies.values()), key), strict=True) if yes]
    assert [name for name in accepted if not badly_written(name)] == []


def test_node_with_canonicalize_accepts_the_proof_and_refuses_every_tampered_copy(key: SigningKey) -> None:
    script = """
    const alphabet = "123456789ABCDEFGHJKLMNPQRSTUVWXYZabcdefghijkmnopqrstuvwxyz";
    const bytes = (text) => {
      let number = [...text].reduce((sum, letter) => sum * 58n + BigInt(alphabet.indexOf(letter)), 0n).toString(16);
      return Buffer.from(number.padStart(128, "0"), "hex");
    };
    const key = crypto.createPublicKey({key: {kty: "OKP", crv: "Ed25519", x: given.x}, format: "jwk"});
    const hash = (value) => crypto.createHash("sha256").update(canonicalize(value)).digest();
    const found = given.documents.map(({proof, ...document}) => {
      if (!proof || Array.isArray(proof) || typeof proof.proofValue !== "string") return false;
      const {proofValue, ...options} = proof;
      try {
        return crypto.verify(null, Buffer.concat([hash(options), hash(document)]), key, bytes(proofValue.slice(1)));
      } catch { return false; }
    });
    process.stdout.write(JSON.stringify(found));
    """
    document = a_certificate(key).document
    public = jwk.OKPKey.import_key(key.private.public_key()).as_dict(private=False)
    copies = dict(tampered_documents(document))
    accepted = jose(script, {"x": public["x"], "documents": [json.loads(document), *copies.values()]})
    assert accepted[0] is True
    assert [name for name, yes in zip(copies, accepted[1:], strict=True) if yes] == []


@pytest.fixture(scope="module")
def pdf(key: SigningKey) -> bytes:
    return certificate_pdf(some_facts(), key.issuer, a_certificate(key).document)


def test_the_paper_is_pdf_ua_by_page_validation(pdf: bytes, tmp_path: Path) -> None:
    file = tmp_path / "certificate.pdf"
    file.write_bytes(pdf)
    report = page.validate_pdf(str(file), profile=page.ValidationProfile.PDF_UA_1)
    assert "no failures" in str(report)
    with pikepdf.open(file) as opened:  # the judge must be able to say no
        del opened.Root.MarkInfo
        opened.save(tmp_path / "untagged.pdf")
    bad = page.validate_pdf(str(tmp_path / "untagged.pdf"), profile=page.ValidationProfile.PDF_UA_1)
    assert "no failures" not in str(bad)


def test_the_paper_is_pdf_ua_by_pdfua(pdf: bytes, tmp_path: Path) -> None:
    (tmp_path / "certificate.pdf").write_bytes(pdf)
    done = subprocess.run(
        [Path(sys.executable).with_name("pdfua"), "check", tmp_path / "certificate.pdf"],
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stdout
    assert "errors=0 warnings=0" in done.stdout


def test_the_code_on_the_paper_leads_to_the_page_with_the_number(pdf: bytes, key: SigningKey, tmp_path: Path) -> None:
    (tmp_path / "certificate.pdf").write_bytes(pdf)
    subprocess.run(
        ["pdftoppm", "-r", "100", "-png", "-singlefile", "certificate.pdf", "seen"], cwd=tmp_path, check=True
    )
    with Image.open(io.BytesIO((tmp_path / "seen.png").read_bytes())) as seen:
        (code,) = zxingcpp.read_barcodes(seen)
    assert code.text == check_address(some_facts(), key.issuer)
    assert code.text == f"https://extension.example/cans/verify-a-certificate.html#{ID}"
