"""The demonstration's settings for MkDocs, for programs of the tests' own."""

from __future__ import annotations

from pathlib import Path

_DEMONSTRATION = Path(__file__).parents[1] / "mkdocs.yml"


def settings_for_one_layer() -> str:
    """Return the settings for a program whose content folder is its only layer."""
    return _DEMONSTRATION.read_text(encoding="utf-8").replace(
        "docs_dir: content/shared/pages", "docs_dir: content/pages"
    )
