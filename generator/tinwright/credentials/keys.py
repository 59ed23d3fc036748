"""The educator's signing key: made, kept, and put out of use.

The secret half lies in a file of its own, locked with a passphrase. Whoever has the file and the passphrase can issue
certificates in the name of the office. The public halves, old ones too, lie beside it in `issuer.json`.
"""

from __future__ import annotations

import os
import stat
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING
from urllib.parse import urlsplit

from cryptography.exceptions import UnsupportedAlgorithm
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey
from cryptography.hazmat.primitives.serialization import (
    BestAvailableEncryption,
    Encoding,
    PrivateFormat,
    load_pem_private_key,
)

from tinwright.credentials.clock import check_clock
from tinwright.credentials.issuer import PAGE, Issuer, PublishedKey, read_issuer
from tinwright.errors import CertificateError, RecordError
from tinwright.given_file import read_given
from tinwright.store.place import check_place, write_private

if TYPE_CHECKING:
    from datetime import datetime
    from pathlib import Path

__all__ = ["LEAST_PASSPHRASE", "WARNINGS", "SigningKey", "make_key", "open_key", "rotate_key", "site_addresses"]

LEAST_PASSPHRASE = 12
"""Fewest characters of a passphrase (common practice, no source)."""

WARNINGS = (
    "Whoever has the key file and the passphrase can issue certificates in the name of your office.",
    "Keep a copy of the whole folder on a USB drive in a locked place, and the passphrase somewhere else.",
    "A forgotten passphrase cannot be found again. Make the next key with `rotate`; old certificates stay good.",
    "If the file or the passphrase may have leaked: `rotate --leaked`, publish, reissue every certificate in force.",
    "Never put this folder on a shared drive, in e-mail, or beside the site.",
)
"""What an educator must know of the key, one line each."""

_ISSUER = "issuer.json"


@dataclass(frozen=True)
class SigningKey:
    """The secret key, open, and the issuer it signs for."""

    issuer: Issuer
    """The office, with its public keys."""
    private: Ed25519PrivateKey
    """The secret half of the current key."""

    def sign(self, message: bytes) -> bytes:
        """Sign a message; 64 bytes."""
        return self.private.sign(message)


def site_addresses(address: str) -> tuple[str, str]:
    """Return the addresses of a site's first page and of its page that checks certificates.

    Args:
        address: of the site, or of that page itself where the site publishes pages as folders.

    >>> site_addresses("https://extension.example.edu/cans")
    ('https://extension.example.edu/cans/', 'https://extension.example.edu/cans/verify-a-certificate.html')
    >>> site_addresses("https://extension.example.edu/verify-a-certificate/")
    ('https://extension.example.edu/', 'https://extension.example.edu/verify-a-certificate/')
    """
    parts = urlsplit(address)
    if parts.scheme not in {"http", "https"} or not parts.netloc or parts.query or parts.fragment or " " in address:
        raise CertificateError(f"expected an address such as https://extension.example.edu/cans/, got {address!r}")
    for ending in (f"/{PAGE}.html", f"/{PAGE}/", f"/{PAGE}"):
        if address.endswith(ending):
            return address.removesuffix(ending) + "/", address
    site = address.removesuffix("index.html").rstrip("/") + "/"
    return site, f"{site}{PAGE}.html"


def make_key(
    folder: Path,
    *,
    name: str,
    passphrase: str,
    now: datetime,
    site: str | None = None,
    former: Issuer | None = None,
) -> Issuer:
    """Make the first key of an office, in a folder of its own.

    Args:
        folder: where to keep it; made when there is none.
        name: name of the office.
        passphrase: what locks the secret half.
        now: from when on it signs.
        site: address of the published site, when it is known.
        former: what was published before, when the folder with the old key is lost.

    Raises:
        CertificateError: when there is a key already, or the place or the passphrase will not do.
    """
    if not name.strip():
        raise CertificateError("expected the name of the office, got none")
    _check_passphrase(passphrase)
    addresses: tuple[str | None, str | None] = (None, None)
    if site:
        addresses = site_addresses(site)
    elif former is not None:
        addresses = (former.site, former.page)
    issuer_file = check_place(folder / _ISSUER)
    if issuer_file.exists():
        raise CertificateError(f"{folder}: there is a key already; put another in its place with rotate")
    try:
        folder.mkdir(parents=True, exist_ok=True, mode=0o700)
    except OSError as error:
        raise CertificateError(f"{folder}: cannot be made: {error.strerror}") from error
    new = _new_key(folder, passphrase, now)
    issuer = Issuer(name.strip(), (*_ended(former, now, leaked=False), new), *addresses)
    write_private(issuer_file, issuer.text())
    return issuer


def rotate_key(
    folder: Path, *, passphrase: str, now: datetime, leaked: bool = False, site: str | None = None, name: str = ""
) -> Issuer:
    """Put a new key in the place of the current one; the old passphrase is not needed.

    The public half of the old key stays listed, so that what it signed can be checked. Its secret half is of no more
    use to anybody honest, and is removed.

    Args:
        folder: where the key is kept.
        passphrase: what locks the new key.
        now: from when on the new key signs.
        leaked: True when somebody else may hold the old one; what it signed is then not trusted any more.
        site: new address of the site.
        name: new name of the office.
    """
    _check_passphrase(passphrase)
    old = read_issuer(check_place(folder / _ISSUER))
    check_clock(now, old)
    addresses = site_addresses(site) if site else (old.site, old.page)
    new = _new_key(folder, passphrase, now)
    issuer = Issuer(name.strip() or old.name, (*_ended(old, now, leaked=leaked), new), *addresses)
    write_private(folder / _ISSUER, issuer.text())
    for key in old.keys:
        _file_of(folder, key).unlink(missing_ok=True)
    return issuer


def open_key(folder: Path, passphrase: str) -> SigningKey:
    """Open the current key.

    Raises:
        CertificateError: when there is none, others can read it, or the passphrase is not the right one.
    """
    issuer_file = check_place(folder / _ISSUER)
    if not issuer_file.exists():
        raise CertificateError(
            f"{folder}: expected a signing key, found none; make one with: tinwright certificate key"
        )
    issuer = read_issuer(issuer_file)
    file = _file_of(folder, issuer.current)
    try:
        pem = read_given(file, 10_000)
        mode = stat.S_IMODE(file.stat().st_mode)
    except RecordError as error:
        raise CertificateError(f"{file}: {error}") from error
    if os.name == "posix" and mode & 0o077:
        raise CertificateError(f"{file}: other people on this computer can read it; first run: chmod 600 {file}")
    try:
        private = load_pem_private_key(pem, passphrase.encode())
    except (ValueError, TypeError, UnsupportedAlgorithm) as error:
        raise CertificateError(f"{file}: the passphrase does not open it, or the file is damaged") from error
    if not isinstance(private, Ed25519PrivateKey) or private.public_key() != issuer.current.public:
        raise CertificateError(f"{file}: expected the key that {issuer_file.name} names last, got another")
    return SigningKey(issuer, private)


def _check_passphrase(passphrase: str) -> None:
    if len(passphrase) < LEAST_PASSPHRASE:
        raise CertificateError(
            f"expected a passphrase of at least {LEAST_PASSPHRASE} characters, got {len(passphrase)}; "
            "four or five words that do not belong together do well"
        )


def _ended(former: Issuer | None, now: datetime, *, leaked: bool) -> tuple[PublishedKey, ...]:
    """Return the keys so far, the last one ended."""
    if former is None:
        return ()
    now = now.replace(microsecond=0)
    last = replace(former.current, until=former.current.until or now, leaked=now if leaked else former.current.leaked)
    return (*former.keys[:-1], last)


def _file_of(folder: Path, key: PublishedKey) -> Path:
    return folder / f"signing-key-{key.multibase[-8:]}.pem"


def _new_key(folder: Path, passphrase: str, now: datetime) -> PublishedKey:
    private = Ed25519PrivateKey.generate()
    pem = private.private_bytes(Encoding.PEM, PrivateFormat.PKCS8, BestAvailableEncryption(passphrase.encode()))
    key = PublishedKey.of(private.public_key(), now)
    write_private(_file_of(folder, key), pem.decode("ascii"))
    return key
