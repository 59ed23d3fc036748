"""How soon a page is read, and can be used, at a first visit on a slow phone.

    python tests/bench/bench_first_view.py

The phone: a processor four times slower than this one, 150 ms there and back, 1.6 Mbit/s down, 750 kbit/s up (the "slow
4G" of common measuring tools), nothing kept from before. The site is sent by nginx with the settings we print. Times are
given as shares of a second and a half, the best of several and, in brackets, the middle one: run it on an idle machine.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path
from statistics import median

from playwright.sync_api import sync_playwright

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT / "tests"))

from hosting.servers import nginx  # noqa: E402 found by the line above

PAGES = {
    "index.html": "article",
    "defects/index.html": "tw-filter output:not(:empty)",
    "defects/droop.html": "article",
    "seam-check.html": "tw-seam-check input",
    "find-the-cause.html": "tw-find-cause input",
    "bench-log.html": "tw-bench-log button",
    "quizzes/mixed.html": "tw-quiz button",
}
"""What is there as soon as a page can be used: what its own script puts in, or its text where there is none."""
SLOW_4G = {"offline": False, "latency": 150, "downloadThroughput": 1_600_000 / 8, "uploadThroughput": 750_000 / 8}
NOTE_USABLE = """new MutationObserver((_, watching) => {
  if (!document.querySelector("%s")) return;
  window.usable = performance.now();
  watching.disconnect();
}).observe(document, { childList: true, subtree: true });"""
TIMES = """(({domContentLoadedEventEnd}) => {
  const read = performance.getEntriesByName("first-contentful-paint")[0].startTime;
  return [read, Math.max(read, window.usable), domContentLoadedEventEnd];
})(performance.getEntriesByType("navigation")[0])"""
"""First paint of the text; the page's own boxes and buttons are there; every script has run, the theme's menu and search
among them."""
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
            for path, usable in PAGES.items():
                seen = []
                for _ in range(REPEATS):
                    context = browser.new_context(viewport={"width": 390, "height": 844}, service_workers="block")
                    page = context.new_page()
                    page.add_init_script(NOTE_USABLE % usable)
                    session = context.new_cdp_session(page)
                    session.send("Network.enable")
                    session.send("Network.emulateNetworkConditions", SLOW_4G)
                    session.send("Emulation.setCPUThrottlingRate", {"rate": 4})
                    page.goto(f"{address}{path}")
                    page.wait_for_function("window.usable")
                    seen.append(page.evaluate(TIMES))
                    context.close()
                read, used, every = (
                    f"{min(times) / BOUND_MS:.2f} ({median(times) / BOUND_MS:.2f})" for times in zip(*seen, strict=True)
                )
                print(f"{path:22} read after {read}, used after {used}, every script after {every} of 1.5 s")  # noqa: T201
        browser.close()


if __name__ == "__main__":
    main()
