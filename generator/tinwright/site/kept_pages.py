"""While the site is served for editing: pages whose text did not change are used again as they were last built.

What a page becomes depends on its own Markdown and on what is around it: the settings, the menu, the addresses of all
files and the theme. When anything around it changes, every page is built anew.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from mkdocs.structure.pages import Page as MkDocsPage
from mkdocs.structure.toc import TableOfContents

if TYPE_CHECKING:
    from collections.abc import Iterable

    from mkdocs.config.defaults import MkDocsConfig
    from mkdocs.structure.files import File, Files
    from mkdocs.structure.pages import Page as BuiltPage

    from tinwright.site.pages_and_assets import Page

__all__ = ["KeptPages", "UnchangedPage"]

_TEMPLATE = "unchanged.html"
_KNOWN_PLUGINS = {"tinwright", "search", "offline", "material/search", "material/offline"}
"""Plugins that do nothing to a page but what is kept of it; with any other, every page is built anew."""


@dataclass(frozen=True)
class _Finished:
    """What became of a page."""

    text: str
    """The Markdown it was made of."""
    output: str
    """The whole page as it was written."""
    anchors: frozenset[str]
    """The ids that can be linked to on it."""


class UnchangedPage(MkDocsPage):
    """A page that is not converted: its output is known."""

    def __init__(self, file: File, config: MkDocsConfig, finished: _Finished) -> None:
        super().__init__(None, file, config)
        self.output = finished.output
        self._anchors = finished.anchors

    def read_source(self, config: MkDocsConfig) -> None:  # noqa: ARG002 MkDocs passes it
        """Take no text; say which template hands the output on, and that the search need not read it."""
        self.markdown = ""
        self.meta = {"template": _TEMPLATE, "search": {"exclude": True}}

    def render(self, config: MkDocsConfig, files: Files) -> None:  # noqa: ARG002 MkDocs passes them
        """Convert nothing."""
        self.content = ""
        self.toc = TableOfContents([])
        self.present_anchor_ids = set(self._anchors)


class KeptPages:
    """The pages of the last build, and what the search found on them."""

    def __init__(self) -> None:
        self._around: object = None
        self._finished: dict[str, _Finished] = {}
        self._entries: dict[str, list[dict[str, Any]]] = {}

    def use(self, pages: Iterable[Page], menu: Iterable[str], files: Files, config: MkDocsConfig) -> None:
        """Put what is known of each page that did not change in its place.

        Args:
            pages: every page that is made now.
            menu: pages of the menu; those are always built.
            files: all files of the site.
            config: the settings of this build.
        """
        around = _around(files, config)
        if around != self._around or around is None:
            self._finished.clear()
            self._entries.clear()
        self._around = around
        built = set(menu)
        for page in pages:
            finished = self._finished.get(page.uri)
            if page.uri not in built and finished is not None and finished.text == page.text:
                file = files.get_file_from_path(page.uri)
                if file is not None:
                    UnchangedPage(file, config, finished)

    def note(self, page: BuiltPage, text: str, output: str) -> None:
        """Keep what became of a page; one with links to other pages that have yet to be checked is built each time."""
        if self._around is not None and set(page.links_to_anchors or ()) <= {page.file}:
            self._finished[page.file.src_uri] = _Finished(text, output, frozenset(page.present_anchor_ids or ()))
        else:
            self._finished.pop(page.file.src_uri, None)

    def add_entries(self, page: UnchangedPage, config: MkDocsConfig) -> None:
        """Tell the search what it found on an unchanged page last time."""
        found = _search_entries(config)
        if found is not None:
            found.extend(self._entries.get(page.url, ()))

    def note_entries(self, config: MkDocsConfig) -> None:
        """Keep what the search found on each page."""
        self._entries.clear()
        for entry in _search_entries(config) or ():
            self._entries.setdefault(entry["location"].partition("#")[0], []).append(entry)


def _search_entries(config: MkDocsConfig) -> list[dict[str, Any]] | None:
    """Return the theme's growing list of what can be found; None when another search is in use, or none."""
    plugin = config.plugins.get("material/search") or config.plugins.get("search")
    entries = getattr(getattr(plugin, "search_index", None), "entries", None)
    return entries if isinstance(entries, list) else None


def _around(files: Files, config: MkDocsConfig) -> object:
    """Return all that a page depends on beside its text, to be compared; None when that cannot be told."""
    known = set(config.plugins) <= _KNOWN_PLUGINS and not config.hooks
    if not known or (
        "search" in {name.rpartition("/")[2] for name in config.plugins} and _search_entries(config) is None
    ):
        return None
    own = config.theme.custom_dir
    templates = [(str(file), file.stat().st_mtime_ns) for file in sorted(Path(own).rglob("*"))] if own else []
    settings = Path(config.config_file_path).read_text(encoding="utf-8") if config.config_file_path else ""
    return settings, templates, [(file.src_uri, file.url) for file in files]
