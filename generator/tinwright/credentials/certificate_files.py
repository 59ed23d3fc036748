"""The three files of a certificate, for the educator to hand on: PDF, JSON and token."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path
from typing import TYPE_CHECKING

from tinwright.credentials.certificate_pdf import certificate_pdf
from tinwright.credentials.credentials import issue, shown_file_name
from tinwright.errors import CertificateError
from tinwright.store.place import check_place

if TYPE_CHECKING:
    from datetime import datetime

    from tinwright.credentials.credentials import CertificateFacts
    from tinwright.credentials.keys import SigningKey

__all__ = ["prepare_folder", "write_certificate"]


def prepare_folder(folder: Path) -> Path:
    """Make the folder for certificates, where nothing is published.

    Raises:
        CertificateError: when it cannot be made.
        RecordError: when it lies in a folder of the site or of its sources.
    """
    place = check_place(folder / "certificate").parent
    try:
        place.mkdir(parents=True, exist_ok=True, mode=0o700)
    except OSError as error:
        raise CertificateError(f"{folder}: cannot be made: {error.strerror}") from error
    return place


def write_certificate(facts: CertificateFacts, key: SigningKey, folder: Path, now: datetime) -> list[Path]:
    """Sign a certificate and write its files; all of them, or none.

    Args:
        facts: what it says.
        key: the office's key.
        folder: where to; see `prepare_folder`.
        now: the moment of signing.

    Returns:
        The files: PDF, JSON, token.
    """
    signed = issue(facts, key, now)
    contents = {
        ".pdf": certificate_pdf(facts, key.issuer, signed.document),
        ".json": signed.document.encode(),
        ".jwt": signed.token.encode(),
    }
    stem = shown_file_name(facts)
    parts: dict[Path, Path] = {}
    try:
        for ending, content in contents.items():
            parts[folder / f"{stem}{ending}"] = _written_aside(folder, content)
        for file, part in parts.items():
            part.replace(file)
    except OSError as error:
        for part in parts.values():
            part.unlink(missing_ok=True)
        raise CertificateError(f"{folder}: cannot be written: {error.strerror}") from error
    return list(parts)


def _written_aside(folder: Path, content: bytes) -> Path:
    """Write a file that only its owner may read, under a name of no meaning."""
    handle, name = tempfile.mkstemp(dir=folder, prefix=".certificate.", suffix=".part")
    try:
        with os.fdopen(handle, "wb") as out:
            out.write(content)
            out.flush()
            os.fsync(out.fileno())
    except OSError:
        Path(name).unlink(missing_ok=True)
        raise
    return Path(name)
