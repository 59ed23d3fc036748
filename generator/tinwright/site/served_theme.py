"""The theme while the site is served for editing: the same templates and files, found in a part of the time."""

from __future__ import annotations

import os
from pathlib import Path
from typing import TYPE_CHECKING

from jinja2 import FileSystemLoader
from mkdocs.theme import Theme

from tinwright.templates import compiled_templates

if TYPE_CHECKING:
    from jinja2 import Environment

__all__ = ["environment_of"]


class _WithoutHidden(FileSystemLoader):
    """Lists no hidden file or folder: MkDocs passes them over, one by one, and the theme has 14,000 of them."""

    def list_templates(self) -> list[str]:
        found: set[str] = set()
        for root in self.searchpath:
            for folder, folders, names in os.walk(root, followlinks=self.followlinks):
                folders[:] = [name for name in folders if not name.startswith(".")]
                inside = Path(folder).relative_to(root)
                found.update((inside / name).as_posix() for name in names if not name.startswith("."))
        return sorted(found)


def environment_of(theme: Theme) -> Environment:
    """Return a theme's templates as MkDocs makes them ready, without its hidden files, and compiled only once."""
    environment = Theme.get_env(theme)
    environment.loader = _WithoutHidden(theme.dirs)
    environment.bytecode_cache = compiled_templates()
    return environment
