"""How long one verdict with its drawing, and one ranking, take in the browser, against one 60 Hz frame.

Run it by hand: `.venv/bin/python tests/bench/bench_browser.py`. It prints ratios and passes or fails nothing. The processor is
slowed four times, as a stand-in for a phone.
"""

from __future__ import annotations

import os
import shutil
import statistics
import subprocess
import sys
import tempfile
from pathlib import Path

from playwright.sync_api import sync_playwright

ROOT = Path(__file__).parents[2]
FRAME_MS = 1000 / 60
THROTTLE = 4
REPEATS = 60

VERDICT = """() => {
  const element = document.querySelector("tw-seam-check");
  const start = performance.now();
  element.judge();
  element.offsetHeight;
  return performance.now() - start;
}"""
CAUSES = """() => {
  const { adviseOnSigns, sayAdvice } = tinwrightBench;
  const place = document.querySelector(".tw-bench__advice");
  const signs = { defects: [], directions: { "body-hook": "larger", "cover-hook": "smaller", countersink: "normal" } };
  const start = performance.now();
  place.replaceChildren(...sayAdvice(adviseOnSigns(signs, tinwrightData.sealers[0]), tinwrightData.sealers[0]));
  place.offsetHeight;
  return performance.now() - start;
}"""
RANKING = """() => {
  const signs = { defects: ["droop"], directions: { "body-hook": "larger", "cover-hook": "smaller" } };
  const start = performance.now();
  tinwrightSeaming.rank(tinwrightData.causes, signs);
  return performance.now() - start;
}"""
ADVICE = """() => {
  const signs = { defects: ["droop"], directions: { "body-hook": "larger", "cover-hook": "smaller" } };
  const start = performance.now();
  tinwrightBench.adviseOnSigns(signs, null);
  return performance.now() - start;
}"""


def main() -> None:
    """Build the site, fill in one can, and time what happens on a keystroke."""
    browser_path = os.environ.get("BROWSER_EXECUTABLE") or shutil.which("chromium")
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as play:
        subprocess.run([sys.executable, "-m", "mkdocs", "build", "-q", "-d", folder], cwd=ROOT, check=True)
        as_root = hasattr(os, "geteuid") and os.geteuid() == 0
        browser = play.chromium.launch(executable_path=browser_path, args=["--no-sandbox"] if as_root else [])
        page = browser.new_page(viewport={"width": 360, "height": 780})
        page.goto(f"{Path(folder).as_uri()}/seam-check.html")
        page.select_option("#sc-spec", "demo-307")
        page.select_option("#sc-sealer", "bench-crank-sealer")
        for point in range(3):
            fields = zip(
                ("countersink", "seam-width", "seam-thickness", "body-hook", "cover-hook"),
                (".125", ".118", ".056", ".088", ".062"),
                strict=True,
            )
            for name, text in fields:
                page.fill(f"#sc-{point}-{name}", text)
        page.context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": THROTTLE})
        for title, script in (
            ("verdict with its drawing", VERDICT),
            ("causes and correction, in the frame after", CAUSES),
            ("ranking", RANKING),
            ("ranking, order, next question", ADVICE),
        ):
            times = sorted(page.evaluate(script) for _ in range(REPEATS))
            middle, slow = statistics.median(times) / FRAME_MS, times[int(REPEATS * 0.95)] / FRAME_MS
            print(f"{title}: {middle:.2f} of a frame (95th percentile {slow:.2f})")  # noqa: T201
        browser.close()


if __name__ == "__main__":
    main()
