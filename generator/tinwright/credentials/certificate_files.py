"""The three files of a certificate, for the educator to hand on: PDF, JSON and token."""

from __future__ import annotations

import os
import tempfile
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from tinwright.credentials.certificate_pdf import certificate_pdf
from tinwright.credentials.credentials import issue, shown_file_name
from tinwright.credentials.revocation import RevocationList
from tinwright.credentials.verification import Outcome, shown_by, verify
from tinwright.errors import CertificateError
from tinwright.store.place import check_place

if TYPE_CHECKING:
    from datetime import datetime

    from tinwright.credentials.credentials import CertificateFacts
    from tinwright.credentials.keys import SigningKey

__all__ = ["CertificateFiles", "prepare_folder", "sign_files"]


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


@dataclass(frozen=True)
class CertificateFiles:
    """A certificate's files, signed and checked, not yet written."""

    stem: str
    """Their name without ending."""
    contents: dict[str, bytes]
    """Ending: what is in the file."""

    def write(self, folder: Path) -> list[Path]:
        """Write the files; all of them, or none.

        Args:
            folder: where to; see `prepare_folder`.

        Returns:
            The files: PDF, JSON, token.
        """
        parts: dict[Path, Path] = {}
        try:
            for ending, content in self.contents.items():
                parts[folder / f"{self.stem}{ending}"] = _written_aside(folder, content)
            for file, part in parts.items():
                part.replace(file)
        except OSError as error:
            for part in parts.values():
                part.unlink(missing_ok=True)
            raise CertificateError(f"{folder}: cannot be written: {error.strerror}") from error
        return list(parts)


def sign_files(facts: CertificateFacts, key: SigningKey, now: datetime) -> CertificateFiles:
    """Sign a certificate, and check each file as a stranger would who has it and what the office publishes.

    Args:
        facts: what it says.
        key: the office's key.
        now: the moment of signing.

    Raises:
        CertificateError: when a stranger would not find in a file what was signed.
    """
    signed = issue(facts, key, now)
    files = CertificateFiles(
        shown_file_name(facts),
        {
            ".pdf": certificate_pdf(facts, key.issuer, signed.document),
            ".json": signed.document.encode(),
            ".jwt": signed.token.encode(),
        },
    )
    for ending, content in files.contents.items():
        found = verify(content, key.issuer, RevocationList(now, {}), facts.issued_on)
        if found.outcome != Outcome.GENUINE or found.certificate != shown_by(facts):
            raise CertificateError(
                f"the signed file {ending} does not check as what was signed, and was not handed out: {found.reason}"
            )
    return files


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
