"""What makes the built folder an app: a manifest, and a service worker with the list of everything to keep."""

from __future__ import annotations

import hashlib
import json
from typing import TYPE_CHECKING

from tinwright.browser import script_text
from tinwright.site.rendering import script_json

if TYPE_CHECKING:
    from pathlib import Path

__all__ = ["GROUND", "MANIFEST", "WORKER", "manifest_text", "retire_worker", "to_keep", "write_worker"]

GROUND = "#1f4744"
"""Color of the app and behind its mark; that of the site's header."""

MANIFEST = "manifest.webmanifest"
"""Address of the manifest, at the top of the site."""

WORKER = "sw.js"
"""Address of the service worker, at the top of the site: it may answer only for what lies below itself."""

_NOT_NEEDED = (".map", ".gz", ".zip")
"""Endings of files that no page needs: sources of the theme for its makers, and the saved copy of the site."""
_KEPT_WHEN_OPENED = ".pdf"
"""Ending of files that are kept from when the reader first opens them: a few of them weigh as much as all pages."""
_OTHER_LANGUAGES = "assets/javascripts/lunr/"
"""Word lists of the search for languages other than English."""


def manifest_text(name: str, description: str, language: str) -> str:
    """Return the manifest of the web app, all its addresses relative to itself.

    Args:
        name: the programme's title.
        description: what the site is for.
        language: its language, such as `en`.
    """
    manifest = {
        "name": name,
        "short_name": name if len(name) <= 12 else "Can seams",
        "description": description,
        "lang": language,
        "start_url": "index.html",
        "scope": "./",
        "display": "standalone",
        "display_override": ["minimal-ui"],
        "background_color": "#ffffff",
        "theme_color": GROUND,
        "icons": [
            {"src": "assets/icon.svg", "sizes": "any", "type": "image/svg+xml"},
            {"src": "assets/icon-192.png", "sizes": "192x192", "type": "image/png"},
            {"src": "assets/icon-512.png", "sizes": "512x512", "type": "image/png"},
            {"src": "assets/icon-whole.png", "sizes": "512x512", "type": "image/png", "purpose": "maskable"},
        ],
    }
    return json.dumps(manifest, indent=1, ensure_ascii=False) + "\n"


def to_keep(site: Path, *, language: str = "en") -> list[Path]:
    """Return the files of a built site that a reader may need, sorted by address.

    Args:
        site: the built folder.
        language: language of the site; English needs no word lists for the search.
    """
    kept = []
    for file in site.rglob("*"):
        address = file.relative_to(site).as_posix()
        if not file.is_file() or address == WORKER or address.startswith(".") or "/." in address:
            continue
        if address.endswith(_NOT_NEEDED) or (language == "en" and address.startswith(_OTHER_LANGUAGES)):
            continue
        kept.append(file)
    return sorted(kept, key=lambda file: file.relative_to(site).as_posix())


def write_worker(site: Path, *, language: str = "en") -> str:
    """Write the service worker for what is now in the built folder; return the version it names.

    The version is a hash over all contents: the same site has the same version, a changed byte another. Printed files
    stand in a list of their own: they are kept once they were opened.
    """
    hashes = {
        file.relative_to(site).as_posix(): hashlib.sha256(file.read_bytes()).hexdigest()[:16]
        for file in to_keep(site, language=language)
    }
    worker = script_text("worker", "worker.js")
    listed = "\n".join([worker, *(f"{address} {hash_}" for address, hash_ in hashes.items())])
    version = hashlib.sha256(listed.encode()).hexdigest()[:16]
    opened = {address: hash_ for address, hash_ in hashes.items() if address.endswith(_KEPT_WHEN_OPENED)}
    pages = {address: hash_ for address, hash_ in hashes.items() if address not in opened}
    kept = script_json({"version": version, "files": pages, "opened": opened})
    (site / WORKER).write_text(f"self.tinwrightKept = {kept};\n{worker}", encoding="utf-8")
    return version


def retire_worker(site: Path) -> None:
    """Write a service worker that removes what an earlier one kept, and then itself."""
    (site / WORKER).write_text(script_text("worker", "retire.js"), encoding="utf-8")
