"""Both checkers of certificates, asked for the same files: what each answers, and in how much time."""

from __future__ import annotations

import base64
import time
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from credentials.twin import in_browser
from tinwright.credentials.issuer import parse_issuer
from tinwright.credentials.revocation import read_revocations
from tinwright.credentials.verification import verify
from tinwright.errors import CertificateError

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date

__all__ = ["STANDINGS", "Answers", "asked"]

STANDINGS = {"genuine", "revocation-not-checked", "expired", "not-yet", "revoked", "key-out-of-use"}
"""Outcomes that show what the certificate says."""

_SCRIPT = """
const found = [];
for (const file of given.files) {
  const content = bytes(file), start = process.cpuUsage();
  const verdict = await checker.verify(content, given.published, given.today);
  const spent = process.cpuUsage(start);
  found.push({ ...verdict, seconds: (spent.user + spent.system) / 1e6 });
}
return found;
"""


@dataclass(frozen=True)
class Answers:
    """What both say of one file."""

    python: str
    """Its outcome, with a name after a colon when one is shown."""
    browser: str
    """The same of the browser's checker."""
    whole_alike: bool
    """Whether all that is shown is the same."""
    seconds: float
    """Processor time of the slower one."""


def asked(files: Sequence[bytes], issuer: dict[str, Any], revoked: Any, today: date) -> list[Answers]:
    """Ask both.

    Args:
        files: what to judge.
        issuer: the office's profile.
        revoked: its list of revoked certificates; None when there is none.
        today: the day to judge by.
    """
    import json

    office = parse_issuer(issuer)
    try:
        revocations = None if revoked is None else read_revocations(json.dumps(revoked), office)
    except CertificateError:
        revocations = None
    given = {
        "files": [base64.b64encode(content).decode() for content in files],
        "published": {"issuer": issuer, "revoked": revoked},
        "today": str(today),
    }
    found = []
    for content, theirs in zip(files, in_browser(_SCRIPT, given), strict=True):
        start = time.process_time()
        ours = verify(content, office, revocations, today)
        seconds = max(time.process_time() - start, theirs["seconds"])
        shown = ours.certificate
        told = None
        if shown is not None:
            told = {
                "id": shown.id,
                "name": shown.name,
                "shown": list(shown.shown),
                "issuedOn": str(shown.issued_on),
                "validUntil": str(shown.valid_until),
                "office": shown.office,
                "limits": shown.limits,
            }
        python = f"{ours.outcome}: {shown.name}" if shown else str(ours.outcome)
        certificate = theirs["certificate"]
        browser = f"{theirs['outcome']}: {certificate['name']}" if certificate else str(theirs["outcome"])
        found.append(Answers(python, browser, told == certificate, seconds))
    return found
