"""The MkDocs plugin: pages straight from the YAML, rebuilt when it changes."""

from __future__ import annotations

import datetime as dt
import gc
import re
from functools import partial
from importlib.resources import files as package_files
from pathlib import Path
from typing import TYPE_CHECKING, Literal

from mkdocs.config import base
from mkdocs.config import config_options as c
from mkdocs.exceptions import PluginError
from mkdocs.plugins import BasePlugin, event_priority
from mkdocs.structure.files import File, Files
from mkdocs.utils import get_relative_url

from tinwright.advice.item_checks import load_sound_practice
from tinwright.errors import TinwrightError
from tinwright.knowledge import load
from tinwright.site.building import FOOTER, NAVIGATION, SCRIPTS, STYLES, SiteContent, build_site
from tinwright.site.exchange_assets import FEED, KNOWLEDGE
from tinwright.site.kept_pages import KeptPages, UnchangedPage
from tinwright.site.private_scan import private_files
from tinwright.site.saved_copy import copy_name, dated, write_copy
from tinwright.site.search_index import SEARCHER, shorten_index
from tinwright.site.served_theme import environment_of
from tinwright.site.set_aside import SetAside, set_aside
from tinwright.site.web_app import MANIFEST, manifest_text, retire_worker, write_worker
from tinwright.templates import compiled_templates

if TYPE_CHECKING:
    from jinja2 import Environment
    from mkdocs.config.defaults import MkDocsConfig
    from mkdocs.livereload import LiveReloadServer
    from mkdocs.structure.nav import Navigation
    from mkdocs.structure.pages import Page
    from mkdocs.utils.templates import TemplateContext

__all__ = ["TinwrightConfig", "TinwrightPlugin"]

_THEMES_FAVICON = "assets/images/favicon.png"
"""The theme maker's own picture, which is not the educator's."""

_MENDED = (
    ('data-md-component="search" role="dialog">', 'data-md-component="search" role="dialog" aria-label="Search">'),
    # HTML allows no such attribute on a tick box; page-start.js sets it, for the browser that heeds it all the same
    ('type="checkbox" id="__drawer" autocomplete="off">', 'type="checkbox" id="__drawer">'),
    ('type="checkbox" id="__search" autocomplete="off">', 'type="checkbox" id="__search">'),
)
"""Faults of the theme's pages that no template of ours can reach: what it writes, and what stands there instead."""

_STYLE_SHEET = re.compile(r'<link rel="stylesheet" href="[^"]*">')
_SCRIPT = re.compile(r'<script src=("(?![^"]*assets/page-start\.js")[^"]*")>')
"""A script that the page would wait for; only the one for light and dark must come before the first paint."""
_THEMES_SEARCHER = re.compile(r"assets/javascripts/workers/search\.[0-9a-f]+\.min\.js")
_LOOK_EVERY_S = 0.1
"""How often the folders of records are looked at while the site is served: some hundred small files."""
_STILL_FOR_S = 0.05
"""How long no more changes must follow a change before the site is built: an editor writes a file in a few steps."""


class TinwrightConfig(base.Config):  # type: ignore[no-untyped-call]
    """Options of the plugin in `mkdocs.yml`."""

    content = c.Dir(exists=True, default="content")
    """Folder with the records."""
    quizzes = c.Dir(exists=False, default="quizzes")
    """Folder with the practice questions; used when it holds a list of topics."""


class TinwrightPlugin(BasePlugin[TinwrightConfig]):  # type: ignore[no-untyped-call]
    """Hands the site's pages and assets to MkDocs; nothing is written to disk but the site."""

    _edited = False
    """True while the site is served for editing: nothing is then kept on the reader's device."""

    def __init__(self) -> None:
        self._kept = KeptPages()

    def on_startup(self, *, command: Literal["build", "gh-deploy", "serve"], dirty: bool) -> None:  # noqa: ARG002 MkDocs passes it by name
        """Note whether the site is built to be published, or served to be edited."""
        self._edited = command == "serve"
        # nearly all that a build makes lives to its end: looking for garbage in it so often took a sixth of the time
        gc.set_threshold(50_000, 20, 100)

    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        """Read the records, make the site, and set the menu, the styles, the scripts and the theme's few changes."""
        try:
            today = dt.datetime.now(tz=dt.UTC).date()
            self._kb = kb = load(Path(self.config.content), today=today)
            quizzes = Path(self.config.quizzes)
            bank = load_sound_practice(quizzes, kb, today=today) if (quizzes / "topics.yml").is_file() else None
            self._site: SiteContent = build_site(
                kb, bank=bank, directory_urls=config.use_directory_urls, site_url=config.site_url or None
            )
        except TinwrightError as error:
            raise PluginError(f"the content has problems:\n{error}") from error
        self._aside: dict[str, SetAside] = {}
        self._texts = {page.uri: page.text for page in self._site.pages}
        overrides = str(package_files("tinwright.site").joinpath("overrides"))
        if overrides not in config.theme.dirs:  # after the educator's own, before the theme's
            config.theme.dirs.insert(1 if config.theme.custom_dir else 0, overrides)
        if config.theme.get("favicon") == _THEMES_FAVICON:
            config.theme["favicon"] = "assets/icon.svg"
        made = {page.uri for page in self._site.pages}
        config.nav = [{title: uri} for title, uri in NAVIGATION if uri in made]
        config.site_name = config.site_name or kb.programme.title
        if self._edited:
            config.theme.get_env = partial(environment_of, config.theme)  # type: ignore[method-assign]
        config.extra_css = [*STYLES, *config.extra_css]
        config.extra_javascript = [*SCRIPTS, *config.extra_javascript]
        return config

    def on_files(self, files: Files, config: MkDocsConfig) -> Files:
        """Put the site's pages and assets in place of what MkDocs found on disk: nothing that is not known goes out."""
        _refuse_unknown(files, self._site, config)
        for page in self._site.pages:
            files.append(File.generated(config, page.uri, content=page.text))
        for asset in self._site.assets:
            files.append(File.generated(config, asset.uri, content=asset.content))
        if not self._edited:
            title, language = config.site_name, str(config.theme.get("language", "en"))
            manifest = manifest_text(title, config.site_description or title, language)
            files.append(File.generated(config, MANIFEST, content=manifest))
        else:
            self._kept.use(self._site.pages, (uri for _, uri in NAVIGATION), files, config)
        return files

    def on_env(self, env: Environment, *, config: MkDocsConfig, files: Files) -> Environment:
        """Tell the templates what they say on every page, and leave the theme's own picture out of the site."""
        self._from_theme = _from_the_theme(files, config)
        picture = files.get_file_from_path(_THEMES_FAVICON)
        if picture is not None and config.theme["favicon"] != _THEMES_FAVICON:
            files.remove(picture)
        env.bytecode_cache = compiled_templates()
        footer = [(title, file.url) for title, uri in FOOTER if (file := files.get_file_from_path(uri)) is not None]
        env.globals["tinwright"] = {"footer": footer, "installable": not self._edited}
        return env

    @event_priority(-200)
    def on_page_markdown(self, markdown: str, *, page: Page, config: MkDocsConfig, files: Files) -> str:  # noqa: ARG002 MkDocs passes them by name
        """Set the page's finished HTML aside, which need not be converted."""
        if isinstance(page, UnchangedPage):
            return markdown
        self._aside[page.file.src_uri] = aside = set_aside(markdown)
        return aside.text

    @event_priority(200)
    def on_page_content(self, html: str, *, page: Page, config: MkDocsConfig, files: Files) -> str:  # noqa: ARG002 MkDocs passes them by name
        """Put the HTML back, and give the theme the title as escaped text: it would undo the escaping of a heading."""
        if isinstance(page, UnchangedPage):
            return html
        aside = self._aside[page.file.src_uri]
        html = aside.with_blocks(html)
        page.present_anchor_ids = (page.present_anchor_ids or set()) | aside.anchors()
        if not page.is_homepage and page.title:
            page.meta.setdefault("title", page.title)
        return html

    def on_page_context(
        self,
        context: TemplateContext,
        *,
        page: Page,
        config: MkDocsConfig,
        nav: Navigation,  # noqa: ARG002 MkDocs passes it by name
    ) -> TemplateContext:
        """Let the search find what it found before on a page that did not change."""
        if isinstance(page, UnchangedPage):
            self._kept.add_entries(page, config)
        return context

    def on_post_page(self, output: str, *, page: Page, config: MkDocsConfig) -> str:  # noqa: ARG002 MkDocs passes them by name
        """Put drawings back, link the records for other programs, and mend what the theme writes."""
        if isinstance(page, UnchangedPage):
            return output
        data, feed = (get_relative_url(uri, page.url) for uri in (KNOWLEDGE, FEED))
        links = (
            f'<link rel="describedby" type="application/json" title="The whole knowledge base as data" href="{data}">'
            # not rel=alternate: the theme takes those for translations, and asks for a site map beside each
            f'<link rel="feed" type="application/atom+xml" title="What was reviewed" href="{feed}">'
        )
        # a style sheet below the text would be there only after the first paint, and move it
        head, body, text = output.partition("<body")
        links += "".join(_STYLE_SHEET.findall(text))
        output = _SCRIPT.sub(r"<script src=\1 defer>", head + body + _STYLE_SHEET.sub("", text))
        output = self._aside.pop(page.file.src_uri).with_parts(output)
        for fault, mended in _MENDED:
            output = output.replace(fault, mended, 1)
        output = _THEMES_SEARCHER.sub(SEARCHER, output, count=1)
        output = output.replace("</head>", f"{links}</head>", 1)
        if self._edited:
            self._kept.note(page, self._texts.get(page.file.src_uri, ""), output)
        return output

    @event_priority(-200)
    def on_post_build(self, *, config: MkDocsConfig) -> None:
        """Write the copy to save and the service worker, when all else, the search included, has been written."""
        site = Path(config.site_dir)
        language = str(config.theme.get("language", "en"))
        shorten_index(site)
        _refuse_private(site, self._from_theme)
        if self._edited:
            self._kept.note_entries(config)
            retire_worker(site)
            return
        write_copy(site, copy_name(self._kb), config.site_name, dated(self._kb), language=language)
        write_worker(site, language=language)

    def on_serve(self, server: LiveReloadServer, config: MkDocsConfig, builder: object) -> LiveReloadServer:  # noqa: ARG002 MkDocs passes them by name
        """Rebuild when a record changes; it is looked for more often than MkDocs looks, which takes half a second."""
        theirs = server.observer
        server.observer = type(theirs)(timeout=_LOOK_EVERY_S)
        server.build_delay = _STILL_FOR_S
        server.watch(str(self.config.content))
        if Path(self.config.quizzes).is_dir():
            server.watch(str(self.config.quizzes))
        server.observer.start()
        server.observer = theirs
        return server


def _refuse_unknown(files: Files, site: SiteContent, config: MkDocsConfig) -> None:
    """Take out of the files what lies in the folder of documents, and refuse what the build does not know.

    Hand-written pages and their pictures are among what the build made: links and figures filled in, metadata gone.
    """
    made = {page.uri for page in site.pages} | {asset.uri for asset in site.assets}
    named = {*map(str, config.extra_css), *map(str, config.extra_javascript)}
    unknown = []
    for raw in list(files):
        if raw.src_dir is None or Path(raw.src_dir).resolve() != Path(config.docs_dir).resolve():
            continue
        if raw.src_uri in made or raw.inclusion.is_excluded():  # type: ignore[no-untyped-call]
            files.remove(raw)
        elif raw.src_uri not in named or Path(raw.abs_src_path or "").is_symlink():
            unknown.append(raw.src_uri)
    if unknown:
        listed = "\n".join(f"{config.docs_dir}/{uri}: not a page, and no picture of one" for uri in sorted(unknown))
        raise PluginError(f"files that would be published and that nobody knows:\n{listed}")


def _from_the_theme(files: Files, config: MkDocsConfig) -> set[str]:
    """Return where files of the theme's own package go, which need not be searched for what is private."""
    own = config.theme.custom_dir
    ours = {Path(place).resolve() for place in config.theme.dirs if place != own}
    return {raw.dest_uri for raw in files if raw.src_dir is not None and Path(raw.src_dir).resolve() in ours}


def _refuse_private(site: Path, known: set[str]) -> None:
    """Take what is private out of the built site, and stop: nobody is to upload it by mistake."""
    found = private_files(site, but=known)
    for file, _ in found:
        file.unlink()
    if found:
        listed = "\n".join(f"{file.relative_to(site)}: {what}" for file, what in found)
        raise PluginError(f"private files came into the site and were taken out of it again:\n{listed}")
