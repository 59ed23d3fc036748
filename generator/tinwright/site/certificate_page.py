"""Check a certificate: the page that tells a stranger whether one is genuine, and the keys it goes by."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tinwright.browser import needed_scripts
from tinwright.knowledge.published import FOLDER, read_published
from tinwright.site.pages_and_assets import Asset, Page
from tinwright.site.rendering import script_json

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tinwright.knowledge import KnowledgeBase
    from tinwright.site.rendering import Renderer

__all__ = ["CERTIFICATE_PAGE", "certificate_assets", "certificate_page"]

CERTIFICATE_PAGE = "verify-a-certificate.md"
"""The page's place; the code on a printed certificate leads to it."""


def certificate_page(kb: KnowledgeBase, renderer: Renderer) -> Iterator[Page]:
    """Yield the page, once the office has published its keys."""
    published = read_published(kb.own)
    if published:
        issuer = published["issuer.json"].value
        yield Page(
            CERTIFICATE_PAGE,
            renderer.render(
                "verify-a-certificate.md.j2",
                CERTIFICATE_PAGE,
                office=str(issuer.get("name", kb.programme.office)),
                keys=[method["publicKeyMultibase"] for method in issuer["verificationMethod"]],
                scripts=("certificate-data.js", *needed_scripts("verify-certificate.js")),
            ),
        )


def certificate_assets(kb: KnowledgeBase) -> Iterator[Asset]:
    """Yield the published files as they are, and what the page's script needs of them."""
    published = read_published(kb.own)
    for file in published.values():
        yield Asset(f"{FOLDER}/{file.name}", file.content)
    if published:
        data = {
            "issuer": published["issuer.json"].value,
            "revoked": published["revoked.json"].value if "revoked.json" in published else None,
        }
        yield Asset("assets/certificate-data.js", f"globalThis.tinwrightCertificates = {script_json(data)};\n".encode())
