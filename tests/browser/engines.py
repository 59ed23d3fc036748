"""Firefox and WebKit, each driven by the protocol that it brings itself: WebDriver BiDi, and WebDriver (both of the W3C)."""

from __future__ import annotations

import json
import os
import re
import shutil
import socket
import subprocess
import tempfile
import time
import urllib.request
from contextlib import ExitStack, contextmanager, suppress
from pathlib import Path
from typing import TYPE_CHECKING, Any, Protocol

import websocket

if TYPE_CHECKING:
    from collections.abc import Iterator

__all__ = ["ENGINES", "Engine"]

PATIENCE = 120
"""Seconds without any answer after which a browser is taken for dead; no test waits them out."""


class Engine(Protocol):
    """One window of a browser of its own, with nothing remembered."""

    def open(self, address: str) -> None:
        """Load a page, to its end."""

    def run(self, code: str) -> Any:
        """Run the body of an `async` function in the page; returns what it returns, by way of JSON."""


class _Firefox:
    def __init__(self, line: websocket.WebSocket) -> None:
        self._line, self._number = line, 0
        self._send("session.new", capabilities={})
        self._window = self._send("browsingContext.getTree")["contexts"][0]["context"]

    def open(self, address: str) -> None:
        self._send("browsingContext.navigate", context=self._window, url=address, wait="complete")

    def run(self, code: str) -> Any:
        expression = f"(async () => {{{code}}})().then(JSON.stringify)"
        done = self._send("script.evaluate", expression=expression, target={"context": self._window}, awaitPromise=True)
        if done["type"] != "success":
            raise AssertionError(done["exceptionDetails"]["text"])
        return json.loads(done["result"].get("value", "null"))

    def _send(self, method: str, **parameters: Any) -> Any:
        self._number += 1
        self._line.send(json.dumps({"id": self._number, "method": method, "params": parameters}))
        while True:
            answer = json.loads(self._line.recv())
            if answer.get("id") != self._number:
                continue  # something that happened, not what was asked for
            if answer["type"] == "error":
                raise AssertionError(f"{method}: {answer['message']}")
            return answer["result"]


@contextmanager
def _firefox() -> Iterator[Engine]:
    program = shutil.which("firefox-esr") or shutil.which("firefox") or "firefox-esr"
    with ExitStack() as stack:
        profile = stack.enter_context(tempfile.TemporaryDirectory(ignore_cleanup_errors=True))
        log = stack.enter_context((Path(profile) / "said.txt").open("w+", encoding="utf-8"))
        asked = [program, "--headless", "--no-remote", "--profile", profile, "--remote-debugging-port=0"]
        running = stack.enter_context(subprocess.Popen(asked, stdout=log, stderr=subprocess.PIPE, text=True))
        stack.callback(running.kill)
        assert running.stderr is not None
        found = next(filter(None, (re.search(r"BiDi listening on (ws://\S+)", line) for line in running.stderr)))
        line = websocket.create_connection(f"{found[1]}/session", timeout=PATIENCE, suppress_origin=True)
        stack.callback(line.close)
        yield _Firefox(line)


class _WebKit:
    def __init__(self, driver: str) -> None:
        self._driver, self._session = driver, ""
        browser = {"binary": str(_mini_browser()), "args": ["--automation"]}
        wanted = {"browserName": "MiniBrowser", "webkitgtk:browserOptions": browser}
        self._session = self._send("", capabilities={"alwaysMatch": wanted})["sessionId"]
        self._send("/timeouts", script=PATIENCE * 1000, pageLoad=PATIENCE * 1000)

    def open(self, address: str) -> None:
        self._send("/url", url=address)

    def run(self, code: str) -> Any:
        script = (
            f"const done = arguments[0]; (async () => {{{code}}})()"
            ".then(value => done(JSON.stringify({ value })), error => done(JSON.stringify({ error: String(error) })));"
        )
        answer = json.loads(self._send("/execute/async", script=script, args=[]))
        if "error" in answer:
            raise AssertionError(answer["error"])
        return answer.get("value")

    def _send(self, path: str, **body: Any) -> Any:
        address = f"{self._driver}/session{f'/{self._session}' if self._session else ''}{path}"
        request = urllib.request.Request(address, method="POST", data=json.dumps(body).encode())  # noqa: S310 this machine
        with urllib.request.urlopen(request, timeout=PATIENCE) as answer:  # noqa: S310
            return json.load(answer)["value"]


def _mini_browser() -> Path:
    """The plain window around WebKit that Debian's package of its driver brings."""
    return sorted(Path("/usr/lib").glob("*/webkit2gtk-4*/MiniBrowser"))[-1]


@contextmanager
def _webkit() -> Iterator[Engine]:
    with ExitStack() as stack:
        home = stack.enter_context(tempfile.TemporaryDirectory(ignore_cleanup_errors=True))
        screen = ["Xvfb", "-displayfd", "1", "-screen", "0", "400x800x24", "-nolisten", "tcp"]
        shown = stack.enter_context(
            subprocess.Popen(screen, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True)
        )
        stack.callback(shown.kill)
        assert shown.stdout is not None
        surroundings = {
            **os.environ,
            "DISPLAY": f":{shown.stdout.readline().strip()}",
            "XDG_DATA_HOME": home,
            "XDG_CACHE_HOME": home,
            "WEBKIT_DISABLE_SANDBOX_THIS_IS_DANGEROUS": "1",  # it needs rights that a container does not give
        }
        port = _free_port()
        running = stack.enter_context(
            subprocess.Popen(["WebKitWebDriver", f"--port={port}"], env=surroundings, stderr=subprocess.DEVNULL)
        )
        stack.callback(running.kill)
        _wait_for(port, running)
        yield _WebKit(f"http://127.0.0.1:{port}")


def _free_port() -> int:
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port: int = free.getsockname()[1]
        return port


def _wait_for(port: int, running: subprocess.Popen[bytes]) -> None:
    """Come back once somebody answers there, or the program has ended."""
    while running.poll() is None:
        with suppress(ConnectionRefusedError), socket.create_connection(("127.0.0.1", port)):
            return
        time.sleep(0.05)
    raise AssertionError("WebKitWebDriver ended before it answered")


ENGINES = {"firefox": (_firefox, ("firefox-esr",)), "webkit": (_webkit, ("WebKitWebDriver", "Xvfb"))}
"""Engine: how it is begun, and the programs it needs."""
