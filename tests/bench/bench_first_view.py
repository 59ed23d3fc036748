"""How soon a page is read, and can be used, at a first visit on a slow phone.

    python tests/bench/bench_first_view.py

The phone: a processor four times slower than this one, 150 ms there and back, 1.6 Mbit/s down, 750 kbit/s up (the "slow
4G" of common measuring tools), nothing kept from before. The site is sent by nginx with the settings we print. Times are
given as shares of a second and a half, the best of several: run it on an idle machine.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

from playwright.sync_api import sync_playwright

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT / "tests"))

from hosting.servers import nginx  # noqa: E402 found by the line above

PAGES = (
    "index.html",
    "defects/index.html",
    "defects/droop.html",
    "seam-check.html",
    "find-the-cause.html",
    "bench-log.html",
    "quizzes/mixed.html",
)
SLOW_4G = {"offline": False, "latency": 150, "downloadThroughput": 1_600_000 / 8, "uploadThroughput": 750_000 / 8}
TIMES = """(({domContentLoadedEventStart, domContentLoadedEventEnd}) => [
  performance.getEntriesByName("first-contentful-paint")[0].startTime, domContentLoadedEventStart, domContentLoadedEventEnd,
])(performance.getEntriesByType("navigation")[0])"""
"""First paint of the text; every script of the page has run, so that its own boxes and buttons work; the theme has set up
its menu and search, which it does after that."""
BOUND_MS = 1500
REPEATS = 5


def main() -> None:
    browser_path = os.environ.get("BROWSER_EXECUTABLE") or shutil.which("chromium")
    with tempfile.TemporaryDirectory() as name, sync_playwright() as play:
        folder = Path(name)
        folder.chmod(0o755)
        command = [sys.executable, "-m", "mkdocs", "build", "-q", "-d", str(folder / "site")]
        subprocess.run(command, cwd=ROOT, check=True)
        as_root = hasattr(os, "geteuid") and os.geteuid() == 0
        browser = play.chromium.launch(executable_path=browser_path, args=["--no-sandbox"] if as_root else [])
        with nginx(folder) as address:
            for path in PAGES:
                seen = []
                for _ in range(REPEATS):
                    context = browser.new_context(viewport={"width": 390, "height": 844}, service_workers="block")
                    page = context.new_page()
                    session = context.new_cdp_session(page)
                    session.send("Network.enable")
                    session.send("Network.emulateNetworkConditions", SLOW_4G)
                    session.send("Emulation.setCPUThrottlingRate", {"rate": 4})
                    page.goto(f"{address}{path}")
                    seen.append(page.evaluate(TIMES))
                    context.close()
                read, used, menu = (min(times) / BOUND_MS for times in zip(*seen, strict=True))
                told = f"read after {read:.2f}, used after {used:.2f}, menu and search after {menu:.2f} of 1.5 s"
                print(f"{path:22} {told}")  # noqa: T201
        browser.close()


if __name__ == "__main__":
    main()
