"""The educator's way: make a key, issue, publish, check, revoke, replace the key."""

from __future__ import annotations

import json
import re
import sqlite3
import sys
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from click.testing import CliRunner
from pypdf import PdfReader

from credentials.certificates import PASSPHRASE, SITE
from tinwright.cli import main

if TYPE_CHECKING:
    from collections.abc import Callable

    from click.testing import Result

ROOT = Path(__file__).parents[2]
CONTENT = ROOT / "content"
EXAMPLES = ROOT / "docs"


class Office:
    """A folder with an educator's content, keys and register, and the command to work on them."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.content = folder / "content"
        self.content.mkdir()
        programme = (CONTENT / "sorrel-county" / "program.yml").read_text(encoding="utf-8")
        kept = programme.replace("[bench-crank-sealer, bench-lever-sealer]", "[]").replace("[motor-sealer]", "[]")
        kept = kept.replace(": see [[caution/institutional-rules]]", "")
        kept = re.sub(r"^accessibility:\n(?:[ #].*\n)+", "", kept, flags=re.MULTILINE)  # it names sources
        (self.content / "program.yml").write_text(kept, encoding="utf-8")
        self.register = folder / "register.db"
        self.out = folder / "out"

    def run(self, *arguments: str, passphrase: str | None = PASSPHRASE) -> Result:
        places = {"TINWRIGHT_KEYS": str(self.folder / "keys"), "TINWRIGHT_REGISTER": str(self.register)}
        asked = {} if passphrase is None else {"TINWRIGHT_PASSPHRASE": passphrase}
        return CliRunner(env={**places, **asked}).invoke(main, ["certificate", *arguments])

    def ok(self, *arguments: str) -> str:
        result = self.run(*arguments)
        assert result.exit_code == 0, result.output
        assert result.exception is None
        return result.output

    def make_key(self) -> str:
        return self.ok("key", "make", "--content", str(self.content), "--site", SITE)

    def ready_volunteer(self, name: str = "Ann Example", *, public_bank: bool = False) -> str:
        """Enter a volunteer who has passed both parts, and return their id."""
        from tinwright.register import STEPS
        from tinwright.register import register as records

        day = date.today()  # noqa: DTZ011 - where the command takes today from, too
        with records.open_register(str(self.register), by="tester") as books:
            volunteer = books.add_volunteer(name, added_on=day)
            books.record_sitting(
                volunteer.id,
                exam="Seam volunteers",
                form="A",
                taken_on=day,
                score="27",
                out_of="30",
                passed=True,
                digest="a" * 64,
                graded_with="b" * 64,
                profile={},
                public_bank=public_bank,
            )
            books.record_practical(
                volunteer.id,
                drive="crank-cam",
                observed_on=day,
                examiner="Ed Example",
                passed=True,
                steps=dict.fromkeys(STEPS, "done"),
            )
        found: str = volunteer.id
        return found

    def issue(self) -> Path:
        """Issue a certificate and return its PDF."""
        self.ok("issue", self.ready_volunteer(), "--content", str(self.content), "--to", str(self.out))
        (pdf,) = self.out.glob("*.pdf")
        return pdf

    def publish(self) -> str:
        return self.ok("publish", str(self.content / "certificates"))

    def verify(self, file: Path) -> Result:
        return self.run("verify", str(file), "--content", str(self.content))


PUBLIC = "The questions of its examination are public: anybody could read them beforehand."


@pytest.fixture
def office(tmp_path: Path) -> Office:
    return Office(tmp_path)


def test_making_a_key_says_what_must_be_known_of_it(office: Office) -> None:
    said = office.make_key()
    assert "Whoever has the key file and the passphrase can issue certificates" in said
    assert "Keep a copy" in said
    assert "rotate --leaked" in said
    assert PASSPHRASE not in said


def test_the_passphrase_is_asked_for_twice_when_it_is_new(office: Office) -> None:
    places = {"TINWRIGHT_KEYS": str(office.folder / "keys"), "TINWRIGHT_PASSPHRASE": None}
    arguments = ["certificate", "key", "make", "--content", str(office.content)]
    result = CliRunner(env=places).invoke(main, arguments, input=f"{PASSPHRASE}\n{PASSPHRASE}\n")
    assert result.exit_code == 0
    assert PASSPHRASE not in result.output


@pytest.mark.parametrize("public", [True, False])
def test_a_certificate_from_a_public_bank_says_so_signed_on_paper_and_when_checked(
    office: Office, public: bool
) -> None:
    office.make_key()
    volunteer = office.ready_volunteer(public_bank=public)
    told = office.ok("issue", volunteer, "--content", str(office.content), "--to", str(office.out))
    number = re.findall(r"Certificate (\S+) of", told)[0]
    # Written again it says the same.
    office.ok("reissue", number, "--content", str(office.content), "--to", str(office.out))
    office.publish()
    for pdf in office.out.glob("*.pdf"):
        signed = json.loads(pdf.with_suffix(".json").read_text(encoding="utf-8"))
        paper = " ".join("".join(page.extract_text() for page in PdfReader(pdf).pages).split())
        checked = office.verify(pdf)
        assert checked.exit_code == 0
        assert [PUBLIC in text for text in (signed["description"], paper, checked.stdout)] == [public] * 3


def test_a_trial_is_signed_with_a_key_that_no_check_accepts(office: Office, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("click.get_app_dir", lambda _: str(office.folder / "own"))
    office.make_key()
    volunteer = office.ready_volunteer()
    office.publish()
    (office.folder / "own").mkdir()
    office.register.rename(office.folder / "own" / "trial-register.db")
    where = ("--content", str(office.content))
    office.ok("key", "make", *where, "--site", SITE, "--trial")
    office.ok("issue", volunteer, *where, "--to", str(office.out), "--trial")
    (pdf,) = office.out.glob("*.pdf")
    assert (
        "Made in a trial: nobody was examined."
        in json.loads(pdf.with_suffix(".json").read_text("utf-8"))["description"]
    )
    assert office.verify(pdf).exit_code == 1
    assert not office.register.exists()


def test_the_keys_are_shown_with_the_time_each_signs_in(office: Office) -> None:
    office.make_key()
    office.ok("key", "rotate", "--content", str(office.content), "--leaked")
    first, old, new = office.ok("key", "show").splitlines()
    assert first == f"Sorrel County Extension, {SITE}"
    assert old.startswith("z6Mk")
    assert old.endswith(", leaked")
    assert new.endswith("signs now")
    assert len(json.loads(office.ok("key", "show", "--json"))["verificationMethod"]) == 2


def test_a_key_in_the_content_is_refused_in_one_line(office: Office) -> None:
    result = office.run("key", "make", "--content", str(office.content), "--keys", str(office.content / "keys"))
    assert result.exit_code == 1
    assert result.stderr.count("\n") == 1
    assert "is published" in result.stderr


def test_from_issue_to_a_check_by_a_stranger(office: Office) -> None:
    office.make_key()
    pdf = office.issue()
    assert "0 revoked certificates" in office.publish()
    for file in (pdf, pdf.with_suffix(".json"), pdf.with_suffix(".jwt")):
        result = office.verify(file)
        assert (result.exit_code, "genuine" in result.stdout, "Name: Ann Example" in result.stdout) == (0, True, True)
        assert oct(file.stat().st_mode)[-3:] == "600"
    assert not list(office.out.glob(".*"))


def test_a_name_that_no_font_has_is_told_before_anything_is_entered(office: Office) -> None:
    office.make_key()
    volunteer = office.ready_volunteer("Ann \ue0ff")
    result = office.run("issue", volunteer, "--content", str(office.content), "--to", str(office.out))
    assert (result.exit_code, result.stdout) == (1, "")
    assert result.stderr.startswith(
        "Volunteer certificate: hand-worked can sealers: Ann \ue0ff: no font on this computer has the letters"
    )
    assert result.stderr.count("\n") == 1
    from tinwright.register.register import open_register

    with open_register(str(office.register), by="tester") as books:
        assert books.certificates() == []
    assert list(office.out.iterdir()) == []


def test_after_it_is_revoked_and_published_it_is_refused(office: Office) -> None:
    office.make_key()
    pdf = office.issue()
    number = json.loads(pdf.with_suffix(".json").read_text())["id"].removeprefix("urn:uuid:")
    from tinwright.register.register import open_register

    with open_register(str(office.register), by="tester") as books:
        books.revoke(number, date.today(), "a reason nobody else may read")  # noqa: DTZ011
    assert "1 revoked certificate " in office.publish()
    result = office.verify(pdf)
    assert (result.exit_code, "revoked" in result.stderr) == (1, True)
    published = "".join(file.read_text() for file in (office.content / "certificates").iterdir())
    for word in ("Ann", "reason", "Seam volunteers", "crank"):
        assert word not in published
    again = office.run("reissue", number, "--content", str(office.content), "--to", str(office.out))
    assert (again.exit_code, "was revoked" in again.stderr) == (1, True)


def test_after_a_leak_every_certificate_is_signed_anew(office: Office) -> None:
    office.make_key()
    pdf = office.issue()
    number = json.loads(pdf.with_suffix(".json").read_text())["id"].removeprefix("urn:uuid:")
    office.ok("key", "rotate", "--content", str(office.content), "--leaked")
    office.publish()
    result = office.verify(pdf)
    assert (result.exit_code, "key-out-of-use" in result.stderr) == (1, True)
    office.ok("reissue", number, "--content", str(office.content), "--to", str(office.out))
    assert office.verify(pdf).exit_code == 0


def test_without_the_right_passphrase_nothing_is_entered_in_the_register(office: Office) -> None:
    office.make_key()
    volunteer = office.ready_volunteer()
    arguments = ("issue", volunteer, "--content", str(office.content), "--to", str(office.out))
    result = office.run(*arguments, passphrase="some other words")  # noqa: S106
    assert result.exit_code == 1
    assert result.stderr.count("\n") == 1
    from tinwright.register.register import open_register

    with open_register(str(office.register)) as books:
        assert books.certificates(volunteer) == []


@pytest.mark.parametrize("library", ["weasyprint", "pikepdf", "segno"])
def test_where_nothing_can_be_printed_nothing_is_entered_in_the_register(
    office: Office, monkeypatch: pytest.MonkeyPatch, library: str
) -> None:
    office.make_key()
    volunteer = office.ready_volunteer()
    monkeypatch.setitem(sys.modules, library, None)
    result = office.run("issue", volunteer, "--content", str(office.content), "--to", str(office.out))
    assert (result.exit_code, 'pip install "tinwright[paper]"' in result.stderr) == (1, True)
    assert result.stderr.count("\n") == 1
    from tinwright.register.register import open_register

    with open_register(str(office.register)) as books:
        assert books.certificates(volunteer) == []


def test_a_pdf_is_checked_where_nothing_can_be_printed(office: Office, monkeypatch: pytest.MonkeyPatch) -> None:
    office.make_key()
    pdf = office.issue()
    office.publish()
    monkeypatch.setitem(sys.modules, "pikepdf", None)
    result = office.verify(pdf)
    assert (result.exit_code, ": genuine: " in result.stdout) == (0, True)


def certificates_in(office: Office) -> list[str]:
    from tinwright.register.register import open_register

    with open_register(str(office.register)) as books:
        return [entry.id for entry in books.certificates()]


def test_what_a_stranger_would_not_find_in_the_files_is_never_entered(
    office: Office, monkeypatch: pytest.MonkeyPatch
) -> None:
    office.make_key()
    volunteer = office.ready_volunteer()

    def mixed_up(*_: object) -> bytes:
        return (EXAMPLES / "certificate-example.pdf").read_bytes()

    monkeypatch.setattr("tinwright.credentials.certificate_files.certificate_pdf", mixed_up)
    result = office.run("issue", volunteer, "--content", str(office.content), "--to", str(office.out))
    assert (result.exit_code, "the signed file .pdf does not check" in result.stderr) == (1, True)
    assert result.stderr.count("\n") == 1
    assert certificates_in(office) == []
    assert list(office.out.iterdir()) == []


def test_when_the_files_cannot_be_written_it_says_how_to_write_them_again(
    office: Office, monkeypatch: pytest.MonkeyPatch
) -> None:
    office.make_key()
    volunteer = office.ready_volunteer()
    with monkeypatch.context() as full:
        full.setattr("os.fsync", lambda _: (_ for _ in ()).throw(OSError(28, "No space left on device")))
        result = office.run("issue", volunteer, "--content", str(office.content), "--to", str(office.out))
    (number,) = certificates_in(office)
    assert result.exit_code == 1
    told, advice = result.stderr.splitlines()
    assert told == f"{office.out}: cannot be written: No space left on device"
    assert advice == f"When that is put right, write its files: tinwright certificate reissue {number}"
    assert list(office.out.iterdir()) == []
    office.ok("reissue", number, "--content", str(office.content), "--to", str(office.out))
    office.publish()
    (pdf,) = office.out.glob("*.pdf")
    assert office.verify(pdf).exit_code == 0


@pytest.mark.parametrize("ahead", ["key", "register", "list"])
def test_a_clock_that_is_behind_stops_with_the_reason(
    office: Office, ahead: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    office.make_key()
    volunteer = office.ready_volunteer()
    office.publish()
    now = datetime.now(tz=UTC)
    tomorrow, yesterday = ((now + timedelta(days=days)).replace(microsecond=0) for days in (1, -1))
    text = tomorrow.strftime("%Y-%m-%dT%H:%M:%SZ")
    if ahead == "key":
        monkeypatch.setattr("tinwright.cli.certificate._now", lambda: yesterday)
    elif ahead == "register":
        connection = sqlite3.connect(office.register)
        connection.execute("INSERT INTO change (at, by, what, subject) VALUES (?, 'tester', 'a test', 'V0001')", [text])
        connection.commit()
        connection.close()
    else:
        listed = office.content / "certificates" / "revoked.json"
        document = json.loads(listed.read_text())
        document["proof"]["created"] = text
        listed.write_text(json.dumps(document))
    reasons = {
        "key": "the office's key was made at ",
        "register": f"the register was last changed at {text}",
        "list": f"the list of revoked certificates was last signed at {text}",
    }
    commands = [("publish", str(office.content / "certificates"))]
    if ahead != "list":
        commands.append(("issue", volunteer, "--content", str(office.content), "--to", str(office.out)))
    for command in commands:
        result = office.run(*command)
        assert (result.exit_code, reasons[ahead] in result.stderr) == (1, True)
        assert result.stderr.startswith("this computer's clock is behind: it says ")
        assert result.stderr.count("\n") == 1
    assert certificates_in(office) == []


def test_a_volunteer_who_lacks_a_part_is_refused(office: Office) -> None:
    from tinwright.register import register as records

    office.make_key()
    with records.open_register(str(office.register)) as books:
        volunteer = books.add_volunteer("Ann Example", added_on=date.today())  # noqa: DTZ011
    result = office.run("issue", volunteer.id, "--content", str(office.content), "--to", str(office.out))
    assert result.exit_code == 1
    assert not list(office.out.iterdir())


def a_file(tmp_path: Path, content: bytes) -> Path:
    file = tmp_path / "file"
    file.write_bytes(content)
    return file


WRONG: dict[str, Callable[[Path], Path]] = {
    "missing": lambda folder: folder / "nothing.pdf",
    "a folder": lambda folder: folder,
    "empty": lambda folder: a_file(folder, b""),
    "a picture": lambda folder: a_file(folder, b"\x89PNG\r\n\x1a\n"),
    "broken PDF": lambda folder: a_file(folder, b"%PDF-1.7 broken"),
    "half": lambda folder: a_file(folder, (EXAMPLES / "certificate-example.json").read_bytes()[:900]),
}


@pytest.mark.parametrize("name", WRONG)
def test_a_wrong_file_gives_one_line_and_no_traceback(name: str, tmp_path: Path) -> None:
    file = WRONG[name](tmp_path)
    result = CliRunner().invoke(main, ["certificate", "verify", str(file), "--content", str(CONTENT)])
    assert result.exit_code in {1, 2}
    assert isinstance(result.exception, SystemExit)
    assert result.stderr.strip()
    assert result.exit_code == 2 or result.stderr.count("\n") == 1


def verified(name: str, *more: str) -> Any:
    arguments = ["certificate", "verify", str(EXAMPLES / name), "--content", str(CONTENT), "--json", *more]
    return json.loads(CliRunner().invoke(main, arguments).stdout)


def test_the_examples_in_the_documents_are_what_they_say() -> None:
    day = ("--today", "2026-12-24")
    for name in ("certificate-example.pdf", "certificate-example.json"):
        assert verified(name, *day)["outcome"] == "genuine"
    assert verified("certificate-example-revoked.json", *day)["outcome"] == "revoked"
    assert (
        verified("certificate-example.pdf", "--today", str(date(2028, 11, 24) + timedelta(1)))["outcome"] == "expired"
    )
