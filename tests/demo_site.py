"""The site of the demonstration content, built once for all tests, and a server to read it from."""

from __future__ import annotations

import functools
import http.server
import os
import subprocess
import sys
import threading
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

from once import made_once

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    import pytest

ROOT = Path(__file__).parents[1]
PATIENCE_MS = 60_000
"""How long a test waits for what it expects before it fails: longer than a busy computer takes, and no test waits it out."""


def mkdocs(*arguments: str, folder: Path) -> subprocess.CompletedProcess[str]:
    """Run MkDocs as an educator would, in `folder`."""
    return python("-m", "mkdocs", *arguments, folder=folder)


def python(*arguments: str, folder: Path) -> subprocess.CompletedProcess[str]:
    """Run Python in `folder`, to its end."""
    return subprocess.run(
        [sys.executable, *arguments],
        cwd=folder,
        env=surroundings(),
        text=True,
        capture_output=True,
        timeout=240,
        check=False,
    )


def surroundings() -> dict[str, str]:
    """The environment the scripts set; MkDocs would else print an advertisement of its next version."""
    return {**os.environ, "NO_MKDOCS_2_WARNING": "1", "PYTHONPATH": str(ROOT / "generator")}


def built_once(factory: pytest.TempPathFactory) -> Path:
    """Build the demonstration site, once even when several workers run the tests."""

    def build(folder: Path) -> None:
        result = mkdocs("build", "--strict", "--quiet", "--site-dir", str(folder), folder=ROOT)
        assert result.returncode == 0, result.stdout + result.stderr

    return made_once(factory, "demo-site", build)


class _Quiet(http.server.SimpleHTTPRequestHandler):
    def log_message(self, format: str, *arguments: object) -> None:  # noqa: A002, ARG002 the names are the library's
        """Print nothing; a test may read what was asked for."""
        if asked := getattr(self.server, "asked", None):
            asked(self.path)

    def parse_request(self) -> bool:
        """Answer no more on a connection that a browser opened ahead, once the server is stopped."""
        return not getattr(self.server, "stopped", False) and super().parse_request()


class _Server(http.server.ThreadingHTTPServer):
    asked: Callable[[str], None] | None = None
    stopped = False

    def server_close(self) -> None:
        """Stop for good."""
        self.stopped = True
        super().server_close()

    def handle_error(self, request: object, client_address: object) -> None:
        """Say nothing of a browser that left a page before it was all sent."""
        if not isinstance(sys.exception(), ConnectionError):
            super().handle_error(request, client_address)  # type: ignore[arg-type]


@contextmanager
def served(folder: Path, *, asked: Callable[[str], None] | None = None) -> Iterator[str]:
    """Serve a folder on a free port of this machine; yields its address, with a slash at the end."""
    handler = functools.partial(_Quiet, directory=str(folder))
    server = _Server(("127.0.0.1", 0), handler)
    server.asked = asked
    thread = threading.Thread(target=server.serve_forever, daemon=True)
    thread.start()
    try:
        yield f"http://127.0.0.1:{server.server_port}/"
    finally:
        server.shutdown()
        server.server_close()
        thread.join(timeout=10)
