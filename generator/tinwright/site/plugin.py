"""The MkDocs plugin: pages straight from the YAML, rebuilt when it changes."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from mkdocs.config import base
from mkdocs.config import config_options as c
from mkdocs.exceptions import PluginError
from mkdocs.plugins import BasePlugin
from mkdocs.structure.files import File, Files

from tinwright.errors import TinwrightError
from tinwright.knowledge import load
from tinwright.knowledge.bank import load_bank
from tinwright.site.building import NAVIGATION, SCRIPTS, STYLES, SiteContent, build_site

if TYPE_CHECKING:
    from mkdocs.config.defaults import MkDocsConfig
    from mkdocs.livereload import LiveReloadServer
    from mkdocs.structure.pages import Page

__all__ = ["TinwrightConfig", "TinwrightPlugin"]


class TinwrightConfig(base.Config):  # type: ignore[no-untyped-call]
    """Options of the plugin in `mkdocs.yml`."""

    content = c.Dir(exists=True, default="content")
    """Folder with the records."""
    quizzes = c.Dir(exists=False, default="quizzes")
    """Folder with the practice questions; used when it holds a list of topics."""


class TinwrightPlugin(BasePlugin[TinwrightConfig]):  # type: ignore[no-untyped-call]
    """Hands the site's pages and assets to MkDocs; nothing is written to disk but the site."""

    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        """Read the records, make the site, and set the menu, the styles and the scripts."""
        try:
            kb = load(Path(self.config.content))
            quizzes = Path(self.config.quizzes)
            bank = load_bank(quizzes, kb) if (quizzes / "topics.yml").is_file() else None
            self._site: SiteContent = build_site(kb, bank=bank, directory_urls=config.use_directory_urls)
        except TinwrightError as error:
            raise PluginError(f"the content has problems:\n{error}") from error
        made = {page.uri for page in self._site.pages}
        config.nav = [{title: uri} for title, uri in NAVIGATION if uri in made]
        config.site_name = config.site_name or kb.programme.title
        config.extra_css = [*STYLES, *config.extra_css]
        config.extra_javascript = [*SCRIPTS, *config.extra_javascript]
        return config

    def on_files(self, files: Files, config: MkDocsConfig) -> Files:
        """Add the site's pages and assets to what MkDocs found on disk."""
        for page in self._site.pages:
            raw = files.get_file_from_path(page.uri)
            if raw is not None:
                files.remove(raw)  # a hand-written page, its links and figures not yet filled in
            files.append(File.generated(config, page.uri, content=page.text))
        for asset in self._site.assets:
            files.append(File.generated(config, asset.uri, content=asset.content))
        return files

    def on_page_content(self, html: str, *, page: Page, config: MkDocsConfig, files: Files) -> str:  # noqa: ARG002 MkDocs passes them by name
        """Give the theme the page's title as escaped text: it would else undo the escaping of a heading."""
        if not page.is_homepage and page.title:
            page.meta.setdefault("title", page.title)
        return html

    def on_post_page(self, output: str, *, page: Page, config: MkDocsConfig) -> str:  # noqa: ARG002 MkDocs passes them by name
        """Name the theme's search dialog for screen readers, where the theme does not."""
        return output.replace(
            'data-md-component="search" role="dialog">', 'data-md-component="search" role="dialog" aria-label="Search">'
        )

    def on_serve(self, server: LiveReloadServer, config: MkDocsConfig, builder: object) -> LiveReloadServer:  # noqa: ARG002 MkDocs passes them by name
        """Rebuild when a record changes."""
        server.watch(str(self.config.content))
        if Path(self.config.quizzes).is_dir():
            server.watch(str(self.config.quizzes))
        return server
