"""A feed of changes (Atom, RFC 4287): the records reviewed last."""

from __future__ import annotations

import uuid
import xml.etree.ElementTree as ET
from typing import TYPE_CHECKING

from tinwright.knowledge.plain_words import KIND_TITLES

if TYPE_CHECKING:
    from collections.abc import Callable

    from tinwright.knowledge import KnowledgeBase
    from tinwright.knowledge.models.base import Record

__all__ = ["change_feed"]

_ATOM = "http://www.w3.org/2005/Atom"
_NAMES = uuid.uuid5(uuid.NAMESPACE_OID, "tinwright.feed")
_ENTRIES = 40


def change_feed(kb: KnowledgeBase, *, address: Callable[[Record], str], home: str, here: str) -> bytes:
    """Return an Atom feed of the records reviewed last, newest first.

    Args:
        kb: the knowledge base.
        address: gives the address of a record's page; relative ones are read from where the feed lies.
        home: address of the home page.
        here: address of the feed itself.
    """
    ET.register_namespace("", _ATOM)
    feed = ET.Element(f"{{{_ATOM}}}feed")
    records = [record for record in kb.records.values() if record.kind != "programme"]
    newest = sorted(records, key=lambda r: (r.reviewed.toordinal(), r.kind, r.id), reverse=True)[:_ENTRIES]
    _add(feed, "id", _urn(kb.programme.title))
    _add(feed, "title", f"{kb.programme.title}: what was reviewed")
    _add(feed, "updated", _moment(newest[0] if newest else kb.programme))
    ET.SubElement(_add(feed, "author"), f"{{{_ATOM}}}name").text = kb.programme.office
    ET.SubElement(feed, f"{{{_ATOM}}}link", rel="alternate", href=home)
    ET.SubElement(feed, f"{{{_ATOM}}}link", rel="self", href=here)
    for record in newest:
        entry = _add(feed, "entry")
        _add(entry, "id", _urn(f"{kb.programme.title}/{record.kind}/{record.id}"))
        _add(entry, "title", f"{KIND_TITLES[record.kind][0]}: {record.name}")
        _add(entry, "updated", _moment(record))
        ET.SubElement(entry, f"{{{_ATOM}}}link", rel="alternate", href=address(record))
        _add(entry, "summary", f"Reviewed on {record.reviewed.isoformat()}.")
    ET.indent(feed)
    return bytes(ET.tostring(feed, encoding="utf-8", xml_declaration=True)) + b"\n"


def _add(parent: ET.Element, name: str, text: str | None = None) -> ET.Element:
    element = ET.SubElement(parent, f"{{{_ATOM}}}{name}")
    element.text = text
    return element


def _urn(name: str) -> str:
    return uuid.uuid5(_NAMES, name).urn


def _moment(record: Record) -> str:
    return f"{record.reviewed.isoformat()}T00:00:00Z"
