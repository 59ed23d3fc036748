"""Settings for the web server that the folder is put on: security policy, types and caching, ready to paste."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

__all__ = ["SERVERS", "Place", "content_security_policy", "headers", "settings_text"]

SERVERS = ("nginx", "apache", "headers")
"""What settings can be written for; `headers` is the bare list, for any other server."""

TYPES = {
    "html": "text/html",
    "css": "text/css",
    "js": "text/javascript",
    "json": "application/json",
    "webmanifest": "application/manifest+json",
    "svg": "image/svg+xml",
    "png": "image/png",
    "jpg": "image/jpeg",
    "csv": "text/csv",
    "txt": "text/plain",
    "xml": "application/xml",
    "pdf": "application/pdf",
    "zip": "application/zip",
}
"""Ending of a file: its type."""

_AS_TEXT = ("html", "css", "js", "json", "webmanifest", "svg", "csv", "txt", "xml")
_NEVER_CHANGES = r"\.[0-9a-f]{8}\.min\.(?:css|js)$"
"""Files with a hash of their content in their name: another content has another name."""
_YEAR_SECONDS = 31_536_000

_PATH = re.compile(r"/(?:[A-Za-z0-9._~-]+/)*")
_HOST = re.compile(r"https?://[A-Za-z0-9.-]+(?::[0-9]{1,5})?")
_FOLDER = re.compile(r"[A-Za-z0-9 ._~/:\\-]+")


@dataclass(frozen=True)
class Place:
    """Where the site is put, and who may show it.

    Raises:
        ValueError: when a value cannot stand in a server's settings.
    """

    path: str = "/"
    """Address below the host, from slash to slash, such as `/food/sealing/`."""
    folder: str = "/srv/www/sealing/"
    """Folder on the server that holds `index.html`."""
    framed_by: tuple[str, ...] = ()
    """Other sites whose pages may show pages of this one in a frame, such as `https://extension.example.edu`."""

    def __post_init__(self) -> None:
        if not _PATH.fullmatch(self.path):
            raise ValueError(f"expected a path from slash to slash such as /food/sealing/, got {self.path!r}")
        if not _FOLDER.fullmatch(self.folder):
            raise ValueError(f"expected a folder such as /srv/www/sealing/, got {self.folder!r}")
        for site in self.framed_by:
            if not _HOST.fullmatch(site):
                raise ValueError(f"expected a site such as https://extension.example.edu, got {site!r}")


def content_security_policy(framed_by: Sequence[str] = ()) -> str:
    """Return the policy every page keeps: everything from the site itself, nothing inline.

    `img-src data:` is for the small icons in the theme's style sheet.

    Args:
        framed_by: other sites that may show the pages in a frame.
    """
    rules = {
        "default-src": "'none'",
        "script-src": "'self'",
        "style-src": "'self'",
        "img-src": "'self' data:",
        "font-src": "'self'",
        "connect-src": "'self'",
        "worker-src": "'self'",
        "manifest-src": "'self'",
        "base-uri": "'none'",
        "form-action": "'none'",
        "frame-ancestors": " ".join(["'self'", *framed_by]),
    }
    return "; ".join(f"{name} {value}" for name, value in rules.items())


def headers(framed_by: Sequence[str] = ()) -> dict[str, str]:
    """Return the headers to send with every file."""
    return {
        "Content-Security-Policy": content_security_policy(framed_by),
        "X-Content-Type-Options": "nosniff",
        "Referrer-Policy": "strict-origin-when-cross-origin",
        "Permissions-Policy": "camera=(), geolocation=(), microphone=(), payment=(), usb=()",
    }


def settings_text(server: str, place: Place) -> str:
    """Return the settings for one of `SERVERS`.

    Args:
        server: `nginx`, `apache` or `headers`.
        place: where the site is put.
    """
    return {"nginx": _nginx, "apache": _apache, "headers": _plain}[server](place)


def _nginx(place: Place) -> str:
    folder = place.folder.rstrip("/") + "/"
    lines = [
        "# For nginx. Put these lines inside `server { }`, then test with `nginx -t` and reload.",
        f"location {place.path} {{",
        f'    alias "{folder}";',
        "    index index.html;",
        "    absolute_redirect off;  # nginx behind another server cannot know that it is reached over https",
        f"    error_page 404 {place.path}404.html;",
        "    etag on;",
        "    expires -1;  # ask each time whether a file has changed",
        "    gzip on;",
        "    gzip_comp_level 6;",
        f"    gzip_types {' '.join(TYPES[ending] for ending in _AS_TEXT if ending != 'html')};",
        "    charset utf-8;",
        f"    charset_types {' '.join(TYPES[ending] for ending in _AS_TEXT if ending != 'html')};",
        "    default_type application/octet-stream;",
        "    types {",
        *(f"        {type_} {ending};" for ending, type_ in TYPES.items()),
        "    }",
        *(f'    add_header {name} "{value}" always;' for name, value in headers(place.framed_by).items()),
        f'    location ~ "{_NEVER_CHANGES}" {{',
        "        expires 1y;  # the name changes with the content",
        "    }",
        "}",
    ]
    if place.path != "/":
        lines.append(f"location = {place.path.rstrip('/')} {{ absolute_redirect off; return 301 {place.path}; }}")
    return "\n".join(lines) + "\n"


def _apache(place: Place) -> str:
    lines = [
        "# For Apache httpd 2.4 with the modules headers, mime and dir (deflate makes it quicker).",
        "# Put these lines into a file `.htaccess` beside index.html (the server must allow it by `AllowOverride",
        "# FileInfo Indexes`), or inside the <Directory> of that folder; then test with `apachectl configtest`",
        "# and reload. When another server ends TLS before this one, httpd cannot know it: say `ServerName https://HOST`",
        "# in the configuration, or an address without its last slash is led on to http.",
        "DirectoryIndex index.html",
        f"ErrorDocument 404 {place.path}404.html",
        "AddDefaultCharset utf-8",
        *(f"AddType {type_} .{ending}" for ending, type_ in TYPES.items()),
        f"AddCharset utf-8 {' '.join(f'.{ending}' for ending in _AS_TEXT)}",
        *(f'Header always set {name} "{value}"' for name, value in headers(place.framed_by).items()),
        'Header set Cache-Control "no-cache"',
        f'<FilesMatch "{_NEVER_CHANGES}">',
        f'    Header set Cache-Control "max-age={_YEAR_SECONDS}, immutable"',
        "</FilesMatch>",
        "<IfModule mod_deflate.c>",
        f"    AddOutputFilterByType DEFLATE {' '.join(TYPES[ending] for ending in _AS_TEXT)}",
        "</IfModule>",
    ]
    return "\n".join(lines) + "\n"


def _plain(place: Place) -> str:
    lines = [
        "# Send with every file:",
        *(f"{name}: {value}" for name, value in headers(place.framed_by).items()),
        "# and with every file but those below:",
        "Cache-Control: no-cache",
        f"# with files whose address matches {_NEVER_CHANGES}",
        f"Cache-Control: max-age={_YEAR_SECONDS}, immutable",
        "# Types, all text in UTF-8:",
        *(
            f".{ending} Content-Type: {type_}{'; charset=utf-8' if ending in _AS_TEXT else ''}"
            for ending, type_ in TYPES.items()
        ),
        f"# When there is no such file: status 404 with the content of {place.path}404.html.",
    ]
    return "\n".join(lines) + "\n"
