"""Runs the browser's certificate checker in Node."""

from __future__ import annotations

import base64
import json
import subprocess
from typing import TYPE_CHECKING, Any

from tinwright.browser import published_scripts

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tinwright.credentials.issuer import Issuer

SCRIPT = published_scripts()["certificate-check.js"].decode()
_LOAD = f"""
"use strict";
const fs = require("node:fs"), vm = require("node:vm");
vm.runInThisContext({json.dumps(SCRIPT)}, "certificate-check.js");
const checker = globalThis.tinwrightCertificate;
const given = JSON.parse(fs.readFileSync(0, "utf8"));
const bytes = (text) => new Uint8Array(Buffer.from(text, "base64"));
(async () => {{
"""


def in_browser(script: str, given: Any) -> Any:
    """Run a script that has `checker`, `given` and `bytes` at hand, and return what it returns."""
    whole = f"{_LOAD}{script}\n}})().then((found) => process.stdout.write(JSON.stringify(found)));"
    done = subprocess.run(
        ["node", "--no-warnings", "-e", whole], input=json.dumps(given), capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr
    return json.loads(done.stdout)


def browser_verdicts(
    contents: Sequence[bytes], issuer: Issuer, revoked: str | None, today: str
) -> list[dict[str, Any]]:
    """Judge files by the browser's checker."""
    given = {
        "files": [base64.b64encode(content).decode() for content in contents],
        "published": {"issuer": issuer.as_json(), "revoked": None if revoked is None else json.loads(revoked)},
        "today": today,
    }
    script = """
    const found = [];
    for (const file of given.files) found.push(await checker.verify(bytes(file), given.published, given.today));
    return found;
    """
    found: list[dict[str, Any]] = in_browser(script, given)
    return found
