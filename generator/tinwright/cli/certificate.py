"""Commands for certificates: the office's key, issue, check, publish.

What they need is imported inside them: signing and printing come with extras that not everybody installs.
"""
# ruff: noqa: PLC0415 - as said above

from __future__ import annotations

import datetime as dt
import json
import os
import sys
from dataclasses import asdict
from pathlib import Path
from typing import TYPE_CHECKING

import click

from tinwright.cli.common import CONTENT, cannot_write, counted, fail, loaded, write_whole
from tinwright.cli.private import note_trial, place_of
from tinwright.errors import TinwrightError
from tinwright.knowledge.layers import own_folder
from tinwright.knowledge.published import FOLDER

if TYPE_CHECKING:
    from tinwright.credentials.certificate_files import CertificateFiles
    from tinwright.credentials.credentials import CertificateFacts
    from tinwright.credentials.issuer import Issuer
    from tinwright.credentials.keys import SigningKey
    from tinwright.knowledge import KnowledgeBase
    from tinwright.register.register import Certificate, Register

__all__ = ["certificate"]

_KEYS = click.option(
    "--keys",
    type=click.Path(path_type=Path, file_okay=False),
    envvar="TINWRIGHT_KEYS",
    show_envvar=True,
    default=lambda: Path(click.get_app_dir("tinwright")) / "keys",
    show_default="keys, in your own user folder",
    help="Folder with the office's signing key.",
)
_REGISTER = click.option(
    "--register",
    envvar="TINWRIGHT_REGISTER",
    show_envvar=True,
    metavar="PLACE",
    default=lambda: str(Path(click.get_app_dir("tinwright")) / "register.db"),
    show_default="register.db, in your own user folder",
    help="The register: a file, or postgresql+psycopg://USER@HOST/DATABASE.",
)
_TO = click.option(
    "--to",
    type=click.Path(path_type=Path, file_okay=False),
    default=lambda: Path.home() / "tinwright-certificates",
    show_default="~/tinwright-certificates",
    help="Folder for the files.",
)
_SITE = click.option("--site", help="Address of the published site, such as https://extension.example.edu/cans/.")


_TRIAL = click.option(
    "--trial",
    is_flag=True,
    callback=note_trial,
    help="Try it out: with the trial register, and with a key that nobody trusts.",
)


@click.group()
def certificate() -> None:
    """Sign, print, check and publish the certificates of volunteers.

    Example: tinwright certificate issue VOLUNTEER
    """


@certificate.group()
def key() -> None:
    """Make, replace and show the office's signing key.

    Example: tinwright certificate key make --site https://extension.example.edu/cans/
    """


@key.command()
@_KEYS
@CONTENT
@_SITE
@click.option(
    "--former",
    type=click.Path(path_type=Path, dir_okay=False),
    help="The issuer.json published before, when the folder with the old key is lost.",
)
@_TRIAL
def make(keys: Path, content: Path, site: str | None, former: Path | None, trial: bool) -> None:
    """Make the first key; its passphrase is asked for, or taken from TINWRIGHT_PASSPHRASE.

    Example: tinwright certificate key make --site https://extension.example.edu/cans/
    """
    kb = loaded(content)
    with _plainly():
        from tinwright.credentials.issuer import read_issuer
        from tinwright.credentials.keys import make_key

        before = read_issuer(former) if former else None
        keys = _trial_keys() if trial else keys
        passphrase = _passphrase("New passphrase", confirm=True)
        issuer = make_key(keys, name=kb.programme.office, passphrase=passphrase, now=_now(), site=site, former=before)
    click.echo(f"Key of {issuer.name} made in {keys}")
    _say_warnings()


@key.command()
@_KEYS
@CONTENT
@_SITE
@click.option("--leaked", is_flag=True, help="Somebody else may hold the old key: nothing it signed counts any more.")
def rotate(keys: Path, content: Path, site: str | None, leaked: bool) -> None:
    """Put a new key in the place of the current one; the old passphrase is not needed.

    Example: tinwright certificate key rotate
    """
    kb = loaded(content)
    with _plainly():
        from tinwright.credentials.keys import rotate_key

        passphrase = _passphrase("New passphrase", confirm=True)
        issuer = rotate_key(keys, passphrase=passphrase, now=_now(), leaked=leaked, site=site, name=kb.programme.office)
    click.echo(f"New key of {issuer.name} made in {keys}")
    click.echo(
        "Nothing the old key signed counts any more. Now publish, then reissue every certificate in force."
        if leaked
        else "What the old key signed stays good. Now publish, and build the site."
    )
    _say_warnings()


@key.command()
@_KEYS
@click.option("--json", "as_json", is_flag=True, help="Print the public profile as JSON.")
def show(keys: Path, as_json: bool) -> None:
    """Show the public keys and the time each signs in.

    Example: tinwright certificate key show
    """
    with _plainly():
        from tinwright.credentials.issuer import instant_text, read_issuer

        issuer = read_issuer(keys / "issuer.json")
    if as_json:
        click.echo(issuer.text(), nl=False)
        return
    click.echo(f"{issuer.name}, {issuer.site or 'no site named'}")
    for each in issuer.keys:
        until = f"until {instant_text(each.until)}" if each.until else "signs now"
        click.echo(f"{each.multibase}  from {instant_text(each.since)}, {until}{', leaked' if each.leaked else ''}")


@certificate.command()
@click.argument("volunteer")
@_KEYS
@_REGISTER
@CONTENT
@_TO
@click.option("--on", type=click.DateTime(["%Y-%m-%d"]), help="Day of issue; today when left out.")
@_TRIAL
def issue(
    volunteer: str, keys: Path, register: str, content: Path, to: Path, on: dt.datetime | None, trial: bool
) -> None:
    """Enter a certificate for VOLUNTEER in the register, and write it as PDF, JSON and token.

    Example: tinwright certificate issue VOLUNTEER --to ~/certificates
    """
    kb = loaded(content)
    with _plainly():
        from tinwright.credentials.certificate_files import sign_files
        from tinwright.register.register import open_register

        signed: list[CertificateFiles] = []
        day = on.date() if on else dt.datetime.now().astimezone().date()
        with open_register(place_of(None) if trial else register, create=False) as book:
            opened, folder = _ready(_trial_keys() if trial else keys, to, book)
            entry = book.issue_certificate(
                volunteer,
                issued_on=day,
                years=kb.programme.policy.certificate_years,
                before_it_is_kept=lambda new: signed.append(
                    sign_files(_facts(new, kb, opened.issuer, trial=trial), opened, _now())
                ),
            )
    click.echo(f"Certificate {entry.id} of {entry.name} is in the register, valid until {entry.valid_until}")
    try:
        _write(signed[0], folder)
    except TinwrightError as error:
        click.echo(str(error), err=True)
        again = " --trial" if trial else ""
        click.echo(
            f"When that is put right, write its files: tinwright certificate reissue {entry.id}{again}", err=True
        )
        sys.exit(1)


@certificate.command()
@click.argument("number")
@_KEYS
@_REGISTER
@CONTENT
@_TO
@_TRIAL
def reissue(number: str, keys: Path, register: str, content: Path, to: Path, trial: bool) -> None:
    """Sign certificate NUMBER of the register again, and write its files.

    Example: tinwright certificate reissue 9b2d5b0e-8f0c-4c9e-9d53-0f8f3f1f6a11
    """
    kb = loaded(content)
    with _plainly():
        from tinwright.credentials.certificate_files import sign_files
        from tinwright.errors import CertificateError
        from tinwright.register.register import open_register

        with open_register(place_of(None) if trial else register, create=False) as book:
            entry = book.certificate(number)
            opened, folder = _ready(_trial_keys() if trial else keys, to, book)
        if entry.revoked_on is not None:
            raise CertificateError(f"certificate {number} was revoked on {entry.revoked_on}: issue a new one")
        if not entry.name:
            raise CertificateError(f"certificate {number}: its holder was erased from the register")
        _write(sign_files(_facts(entry, kb, opened.issuer, trial=trial), opened, _now()), folder)


@certificate.command()
@click.argument("file", type=click.Path(path_type=Path, dir_okay=False))
@CONTENT
@click.option("--today", type=click.DateTime(["%Y-%m-%d"]), help="Day to judge by; today when left out.")
@click.option("--json", "as_json", is_flag=True, help="Print the answer as JSON.")
def verify(file: Path, content: Path, today: dt.datetime | None, as_json: bool) -> None:
    """Check FILE, a certificate as .pdf, .json or .jwt, by what the office published in its content.

    Example: tinwright certificate verify certificate.pdf
    """
    with _plainly():
        from tinwright.credentials.issuer import read_issuer
        from tinwright.credentials.revocation import PLAIN_LIST, read_list, read_revocations
        from tinwright.credentials.verification import LARGEST, Outcome
        from tinwright.credentials.verification import verify as judge
        from tinwright.errors import RecordError
        from tinwright.given_file import read_given

        published = own_folder(content) / FOLDER
        issuer = read_issuer(published / "issuer.json")
        listed = published / PLAIN_LIST
        revocations = read_revocations(read_list(listed), issuer) if listed.exists() else None
        try:
            found = read_given(file, LARGEST)
        except RecordError as error:
            raise RecordError(f"{file}: {error}") from error
        day = today.date() if today else dt.datetime.now().astimezone().date()
        verdict = judge(found, issuer, revocations, day)
    if as_json:
        click.echo(json.dumps(asdict(verdict), indent=2, default=str, ensure_ascii=False))
    else:
        click.echo(f"{file}: {verdict.outcome}: {verdict.reason}", err=verdict.outcome != Outcome.GENUINE)
        if verdict.certificate is not None:
            shown = verdict.certificate
            click.echo(
                "\n".join(
                    [
                        f"Name: {shown.name}",
                        *shown.shown,
                        f"Number: {shown.id.removeprefix('urn:uuid:')}",
                        f"What it is not: {shown.limits}",
                    ]
                )
            )
    sys.exit(0 if verdict.outcome == Outcome.GENUINE else 1)


@certificate.command()
@click.argument("folder", type=click.Path(path_type=Path, file_okay=False), required=False)
@_KEYS
@_REGISTER
def publish(folder: Path | None, keys: Path, register: str) -> None:
    """Write the public keys and the signed list of revoked certificates to FOLDER, for the site.

    Without FOLDER they go into your own layer of the content.

    Example: tinwright certificate publish
    """
    folder = folder or own_folder(Path("content")) / FOLDER
    with _plainly():
        from tinwright.credentials.clock import check_clock
        from tinwright.credentials.keys import open_key
        from tinwright.credentials.revocation import (
            PLAIN_LIST,
            STATUS_LIST,
            check_lists,
            signed_at,
            signed_revocations,
            signed_status_list,
        )
        from tinwright.register.register import open_register

        with open_register(register, create=False) as book:
            revoked, changed = book.revoked(), book.last_change()
        opened, now = open_key(keys, _passphrase("Passphrase")), _now()
        check_clock(now, opened.issuer, last_change=changed, last_list=signed_at(folder / PLAIN_LIST))
        texts = {
            "issuer.json": opened.issuer.text(),
            PLAIN_LIST: signed_revocations(revoked, opened, now),
            STATUS_LIST: signed_status_list([id_ for id_, _ in revoked], opened, now),
        }
        check_lists(revoked, (texts[PLAIN_LIST], texts[STATUS_LIST]), opened)
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        cannot_write(folder, error)
    for name, text in texts.items():
        if text is None:
            (folder / name).unlink(missing_ok=True)
        else:
            write_whole(folder / name, text)
    keys_listed = counted(len(opened.issuer.keys), "public key")
    click.echo(f"{keys_listed} and {counted(len(revoked), 'revoked certificate')} in {folder}; now build the site")


class _plainly:  # noqa: N801 used as a statement
    """Say errors in one line and stop; say which extra is missing."""

    def __enter__(self) -> None:
        """Do nothing yet."""

    def __exit__(self, kind: object, error: BaseException | None, trace: object) -> None:
        """Turn an error into one line."""
        if isinstance(error, TinwrightError):
            fail(error)
        if isinstance(error, ModuleNotFoundError) and not (error.name or "").startswith("tinwright"):
            click.echo(f"certificates need the package {error.name}: pip install 'tinwright[office,paper]'", err=True)
            sys.exit(1)


def _now() -> dt.datetime:
    return dt.datetime.now(tz=dt.UTC).replace(microsecond=0)


def _passphrase(prompt: str, *, confirm: bool = False) -> str:
    given = os.environ.get("TINWRIGHT_PASSPHRASE")
    if given is not None:
        return given
    asked: str = click.prompt(prompt, hide_input=True, confirmation_prompt=confirm, err=True)
    return asked


def _say_warnings() -> None:
    from tinwright.credentials.keys import WARNINGS

    click.echo("\n".join(["", "Keep in mind:", *(f"- {line}" for line in WARNINGS)]))


def _ready(keys: Path, to: Path, book: Register) -> tuple[SigningKey, Path]:
    """Open the key, make the folder, see that clock and printing will do, before anything is entered."""
    from tinwright.credentials.certificate_files import prepare_folder
    from tinwright.credentials.clock import check_clock
    from tinwright.credentials.keys import open_key
    from tinwright.printing import libraries

    libraries()
    folder = prepare_folder(to)
    opened = open_key(keys, _passphrase("Passphrase"))
    check_clock(_now(), opened.issuer, last_change=book.last_change())
    return opened, folder


def _write(files: CertificateFiles, folder: Path) -> None:
    for file in files.write(folder):
        click.echo(f"written: {file}")


def _trial_keys() -> Path:
    """Return the folder of the key for trials: never the office's, so that nothing it signs passes a check."""
    return Path(click.get_app_dir("tinwright")) / "trial-keys"


def _facts(entry: Certificate, kb: KnowledgeBase, issuer: Issuer, *, trial: bool = False) -> CertificateFacts:
    from tinwright.credentials.certificate_text import criteria_words, limits_words
    from tinwright.credentials.credentials import CertificateFacts

    return CertificateFacts(
        id=entry.id,
        name=entry.name,
        drives=entry.drives,
        exam=entry.exam,
        form=entry.form,
        issued_on=entry.issued_on,
        valid_until=entry.valid_until,
        office=kb.programme.office,
        programme=kb.programme.title,
        criteria=criteria_words(issuer.name),
        limits=limits_words(
            issuer.name,
            demonstration=kb.programme.demonstration,
            public_bank=entry.public_bank,
            trial=trial,
        ),
    )
