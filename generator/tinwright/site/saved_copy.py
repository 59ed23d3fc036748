"""The whole site as one zip file, for a memory stick: the same site gives the same bytes."""

from __future__ import annotations

import datetime as dt
import html
import os
import re
import unicodedata
import zipfile
from typing import TYPE_CHECKING

from tinwright.site.web_app import MANIFEST, to_keep

if TYPE_CHECKING:
    from pathlib import Path

    from tinwright.knowledge import KnowledgeBase

__all__ = ["OFFER", "copy_name", "dated", "size_text", "write_copy"]

OFFER = ("<!--saved-copy-->", "<!--/saved-copy-->")
"""Marks on a page round what the build replaces: by the link to the copy, and in the copy by what it is."""

_OFFER = re.compile(f"{re.escape(OFFER[0])}.*?{re.escape(OFFER[1])}", re.DOTALL)
_EARLIEST = dt.datetime(1980, 1, 1, tzinfo=dt.UTC)
"""A zip file knows no earlier date."""


def copy_name(kb: KnowledgeBase) -> str:
    """Return the name of the copy without its ending: the programme's title in plain letters."""
    plain = unicodedata.normalize("NFKD", kb.programme.title).encode("ascii", "ignore").decode()
    return re.sub(r"[^a-z0-9]+", "-", plain.lower()).strip("-")[:60].strip("-") or "site"


def dated(kb: KnowledgeBase) -> dt.datetime:
    """Return the date of the copy: `SOURCE_DATE_EPOCH` when it is set, else the newest review of a record."""
    epoch = os.environ.get("SOURCE_DATE_EPOCH", "")
    if epoch.isdecimal():
        return max(_EARLIEST, dt.datetime.fromtimestamp(int(epoch), tz=dt.UTC))
    newest = max(record.reviewed for record in kb.records.values())
    return max(_EARLIEST, dt.datetime.combine(newest, dt.time(), tzinfo=dt.UTC))


def size_text(size_bytes: int) -> str:
    """Say the size of a file as people do.

    >>> size_text(3_240_000), size_text(420_000)
    ('3.2 MB', '420 kB')
    """
    return f"{size_bytes / 1e6:.1f} MB" if size_bytes >= 1_000_000 else f"{max(1, round(size_bytes / 1000))} kB"


def write_copy(site: Path, name: str, title: str, date: dt.datetime, *, language: str = "en") -> int:
    """Write `NAME.zip` into a built site, and a link with its size on the pages that offer it; return that size.

    Args:
        site: the built folder.
        name: name of the file without `.zip`, and of the folder inside it.
        title: the programme's title.
        date: date of every file inside.
        language: language of the site.
    """
    target = site / f"{name}.zip"
    target.unlink(missing_ok=True)
    offering: list[Path] = []
    with zipfile.ZipFile(target, "w", zipfile.ZIP_DEFLATED, compresslevel=6) as archive:
        for file in to_keep(site, language=language):
            address = file.relative_to(site).as_posix()
            content = file.read_bytes()
            if OFFER[0].encode() in content:
                offering.append(file)
                content = _OFFER.sub(lambda _: _said_in_the_copy(date), content.decode()).encode()
            if address not in {MANIFEST, "404.html"}:
                _add(archive, f"{name}/{address}", content, date)
        _add(archive, "start-here.html", _START.format(title=html.escape(title), name=name).encode(), date)
    size = target.stat().st_size
    for page in offering:
        up = "../" * (len(page.relative_to(site).parts) - 1)
        link = f'<p class="tw-go"><a href="{up}{target.name}" download>Save the whole site ({size_text(size)})</a></p>'
        text = _OFFER.sub(lambda _, link=link: link, page.read_text(encoding="utf-8"))  # type: ignore[misc]
        page.write_text(text, encoding="utf-8")
    return size


def _said_in_the_copy(date: dt.datetime) -> str:
    day = f"{date:%B} {date.day}, {date.year}"
    return f"<p>You are reading a saved copy, as the site stood on {day}. Look for a newer one now and then.</p>"


def _add(archive: zipfile.ZipFile, name: str, content: bytes, date: dt.datetime) -> None:
    entry = zipfile.ZipInfo(name, date.timetuple()[:6])
    entry.compress_type = zipfile.ZIP_DEFLATED
    entry.create_system = 3  # the same on every system that builds it
    entry.external_attr = 0o644 << 16
    archive.writestr(entry, content)


_START = """\
<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width,initial-scale=1">
<title>Start here - {title}</title>
</head>
<body>
<main>
<h1>{title}</h1>
<p><a href="{name}/index.html">Open the site</a></p>
<p>Unpack the whole zip file first: a page opened inside it finds neither its drawings nor the other pages.</p>
</main>
</body>
</html>
"""
