"""Whether the page of the bench log keeps 60 frames a second with a day of 500 events: while tapping, and while scrolling.

Run it by hand: `.venv/bin/python tests/bench/bench_log_page.py`. It prints ratios to one frame of 16.7 ms and passes or fails
nothing. The processor is slowed four times, as a stand-in for a phone.
"""

from __future__ import annotations

import json
import os
import shutil
import statistics
import subprocess
import sys
import tempfile
from pathlib import Path

from playwright.sync_api import Page, sync_playwright

ROOT = Path(__file__).parents[2]
FRAME_MS = 1000 / 60
THROTTLE = 4
EVENTS = 500
TAPS = 60

TAP = """() => {
  const key = [...document.querySelectorAll(".tw-log__key")].find(each => each.textContent === "+1 can sealed");
  const start = performance.now();
  key.click();
  document.body.offsetHeight;
  return performance.now() - start;
}"""
TICK = """() => {
  const log = document.querySelector("tw-bench-log");
  const start = performance.now();
  log.showNow();
  document.body.offsetHeight;
  return performance.now() - start;
}"""
FRAMES = """act => new Promise(done => {
  const times = [];
  let last = performance.now();
  const frame = now => {
    times.push(now - last);
    last = now;
    if (times.length > 121) return done(times.slice(2));
    act === "scroll" ? scrollBy(0, times.length % 60 < 30 ? 40 : -40) : times.length % 12 === 0 &&
      [...document.querySelectorAll(".tw-log__key")].find(each => each.textContent === "+1 can sealed").click();
    requestAnimationFrame(frame);
  };
  requestAnimationFrame(frame);
})"""


def a_day() -> str:
    """Lines of a day as the page keeps them: cans one by one, a look every 20, a measurement every 50."""
    head = {"date": "2026-11-14", "kitchen": "Mill Street", "sealer": "bench-crank-sealer", "can": "307x409"}
    lines: list[dict[str, object]] = [{"session": head}]
    can = 0
    for number in range(1, EVENTS + 1):
        at = f"{8 + number // 60:02}:{number % 60:02}:00"
        event: dict[str, object] = {"id": f"aaaaaa-{number}", "at": at, "revision": 1}
        if number < 3:
            event |= {"kind": "test-can", "result": "good"}
        elif number % 50 == 0:
            readings = [{"dimension": "seam-thickness", "point": p, "value": 0.055 + number % 7 / 1e4} for p in "123"]
            event |= {"kind": "measured-check", "can_number": can, "result": "accept", "readings": readings}
        elif number % 20 == 0:
            event |= {"kind": "visual-check", "can_number": can, "result": "good"}
        else:
            can += 1
            event |= {"kind": "sealed", "first": can, "last": can}
        lines.append(event)
    return "".join(f"{json.dumps(line)}\n" for line in lines)


def say(title: str, times: list[float]) -> None:
    """Print the middle and the 95th percentile as parts of a frame."""
    times = sorted(times)
    middle, slow = statistics.median(times) / FRAME_MS, times[int(len(times) * 0.95)] / FRAME_MS
    print(f"{title}: {middle:.2f} of a frame (95th percentile {slow:.2f})")  # noqa: T201


def measure(page: Page) -> None:
    """Time taps, ticks and frames, with the list as it opens and with all lines shown."""
    say("one tap, with its line kept and all shown anew", [page.evaluate(TAP) for _ in range(TAPS)])
    say("one tick of the countdown", [page.evaluate(TICK) for _ in range(TAPS)])
    say("frames while tapping five times a second", page.evaluate(FRAMES, "tap"))
    say("frames while scrolling", page.evaluate(FRAMES, "scroll"))


def main() -> None:
    """Build the site, lay down a day, and time what a thumb does."""
    browser_path = os.environ.get("BROWSER_EXECUTABLE") or shutil.which("chromium")
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as play:
        subprocess.run([sys.executable, "-m", "mkdocs", "build", "-q", "-d", folder], cwd=ROOT, check=True)
        as_root = hasattr(os, "geteuid") and os.geteuid() == 0
        browser = play.chromium.launch(executable_path=browser_path, args=["--no-sandbox"] if as_root else [])
        page = browser.new_page(viewport={"width": 390, "height": 844})
        page.add_init_script("Date.now = () => new Date('2026-11-14T17:00:00').getTime();")
        page.goto(f"{Path(folder).as_uri()}/index.html")
        page.evaluate("text => { localStorage['tinwright.bench-log.2026-11-14.1'] = text; }", a_day())
        page.evaluate("localStorage['tinwright.bench-log.open'] = 'tinwright.bench-log.2026-11-14.1'")
        page.goto(f"{Path(folder).as_uri()}/bench-log.html")
        page.get_by_role("button", name="+1 can sealed").wait_for()
        page.context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": THROTTLE})
        measure(page)
        page.get_by_role("button", name="Show all").click()
        print("with all lines shown:")  # noqa: T201
        measure(page)
        browser.close()


if __name__ == "__main__":
    main()
