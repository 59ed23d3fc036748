"""The demonstration site in a folder that a web server can read, and the browser to read it with."""

from __future__ import annotations

import shutil
import tempfile
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from browser.conftest import base_url, browser_context_args, browser_type_launch_args, site_folder
from demo_site import built_once

if TYPE_CHECKING:
    from collections.abc import Iterator

__all__ = ["base_url", "browser_context_args", "browser_type_launch_args", "site_folder", "work"]


@pytest.fixture(scope="session")
def work(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    """A folder that a server without rights of its own can read, with the site in it."""
    folder = Path(tempfile.mkdtemp(prefix="hosting-"))
    folder.chmod(0o755)
    shutil.copytree(built_once(tmp_path_factory), folder / "site")
    for path in [folder / "site", *(folder / "site").rglob("*")]:
        path.chmod(0o755 if path.is_dir() else 0o644)
    yield folder
    shutil.rmtree(folder)
