"""The records for other programs, beside the pages, and pages that lead from old addresses."""

from __future__ import annotations

from importlib.resources import files
from types import MappingProxyType
from typing import TYPE_CHECKING, Any
from urllib.parse import urljoin

from markupsafe import Markup, escape
from pydantic_core import to_json

from tinwright.exchange import change_feed, knowledge_json, structured_data
from tinwright.site.pages_and_assets import Asset, Page, address_of, relative_address
from tinwright.site.rendering import script_json, uri_of

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    from tinwright.knowledge import KnowledgeBase
    from tinwright.knowledge.models.base import Record

__all__ = ["FEED", "KNOWLEDGE", "exchange_assets", "with_structured_data"]

KNOWLEDGE = "data/knowledge.json"
"""Where the whole knowledge base lies; this address does not change."""
FEED = "feed.xml"
"""Where the feed of changes lies."""


def exchange_assets(kb: KnowledgeBase, *, directory_urls: bool, site_url: str | None) -> Iterator[Asset]:
    """Yield the knowledge base as JSON with its schema, the feed, `robots.txt`, and a page for each old address."""

    def address(record: Record) -> str:
        return address_of(uri_of(record), directory_urls=directory_urls)

    yield Asset(KNOWLEDGE, to_json(knowledge_json(kb, address=address)) + b"\n")
    schema = files("tinwright.exchange").joinpath("knowledge.schema.json")
    yield Asset("data/knowledge.schema.json", schema.read_bytes())
    base = site_url or ""
    feed = change_feed(kb, address=lambda r: urljoin(base, address(r)), home=base or "./", here=urljoin(base, FEED))
    yield Asset(FEED, feed)
    sitemap = f"Sitemap: {urljoin(base, 'sitemap.xml')}\n" if site_url else ""
    yield Asset("robots.txt", f"User-agent: *\nAllow: /\n{sitemap}".encode())
    for (kind, _), record in sorted(kb.records.items()):
        if kind != "programme":
            yield from _old_addresses(record, directory_urls=directory_urls, site_url=site_url)


def _old_addresses(record: Record, *, directory_urls: bool, site_url: str | None) -> Iterator[Asset]:
    uri = uri_of(record)
    for old in record.formerly:
        here = f"{type(record).folder}/{old}.md"
        link = relative_address(uri, here, directory_urls=directory_urls)
        published = address_of(here, directory_urls=directory_urls)
        file = f"{published}index.html" if directory_urls else published
        canonical = _canonical(site_url, uri, directory_urls=directory_urls)
        page = _MOVED.format(title=escape(record.name), link=escape(link), canonical=canonical)
        yield Asset(file, page.encode())


def _canonical(site_url: str | None, uri: str, *, directory_urls: bool) -> Markup:
    if not site_url:
        return Markup("")
    whole = urljoin(site_url, address_of(uri, directory_urls=directory_urls))
    return Markup('<link rel="canonical" href="{}">\n').format(whole)


_MOVED = """\
<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>{title} has a new address</title>
<meta http-equiv="refresh" content="0; url={link}">
<meta name="robots" content="noindex">
{canonical}</head>
<body>
<p>This page has a new address: <a href="{link}">{title}</a></p>
</body>
</html>
"""


def with_structured_data(
    kb: KnowledgeBase,
    pages: Iterable[Page],
    *,
    quizzes: Mapping[str, dict[str, Any]] = MappingProxyType({}),
    directory_urls: bool,
    site_url: str | None,
) -> Iterator[Page]:
    """Yield each page; that of a record or a quiz with what it is about, in the terms of schema.org.

    Args:
        kb: the knowledge base.
        pages: the pages.
        quizzes: what `exchange.quiz_data` says of each page of questions, by its uri.
        directory_urls: True when pages are published as folders.
        site_url: where the site will be published, when that is known.
    """
    records = {uri_of(record): record for (kind, _), record in kb.records.items() if kind != "programme"}

    def address(record: Record) -> str:
        return published(uri_of(record))

    def published(uri: str) -> str:
        return urljoin(site_url or "", address_of(uri, directory_urls=directory_urls))

    for page in pages:
        if record := records.get(page.uri):
            about = structured_data(kb, record, address=address if site_url else None)
        elif page.uri in quizzes:
            about = {**quizzes[page.uri], **({"url": published(page.uri)} if site_url else {})}
        else:
            yield page
            continue
        block = f'\n\n<script type="application/ld+json">{script_json(about)}</script>\n'
        yield Page(page.uri, page.text.rstrip("\n") + block)
