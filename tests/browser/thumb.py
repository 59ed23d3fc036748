"""A thumb on the page of the bench log: taps by the words on the keys, with a clock of its own."""

from __future__ import annotations

import json
from datetime import datetime, timedelta
from typing import TYPE_CHECKING, Any

from playwright.sync_api import expect

from tinwright.benchlog import Event, MeasuredPoint

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from playwright.sync_api import Locator, Page

PHONE = {"width": 390, "height": 844}
DAY = "2026-11-14"
ALL_GOOD = {
    "seam-thickness": (".055", ".055", ".056"),
    "seam-width": (".118", ".118", ".117"),
    "countersink": (".125", ".125", ".126"),
    "body-hook": (".078", ".078", ".079"),
    "cover-hook": (".076", ".076", ".077"),
}
"""Inside the demonstration's invented sheet for 307 cans."""


class Thumb:
    """What a volunteer does on the page."""

    def __init__(self, page: Page, address: str, *, at: str = "09:00:00") -> None:
        self.page = page
        page.set_viewport_size(PHONE)  # type: ignore[arg-type]
        self._now = datetime.fromisoformat(f"{DAY}T{at}")
        page.clock.install(time=self._now)
        page.clock.set_fixed_time(self._now)  # else it ticks on, and a slow computer comes into the next minute
        page.goto(f"{address}bench-log.html")
        expect(self.log.get_by_role("button").first).to_be_visible()

    @property
    def log(self) -> Locator:
        return self.page.locator("tw-bench-log")

    @property
    def stop(self) -> Locator:
        return self.page.locator(".tw-log__stop")

    @property
    def due(self) -> Locator:
        return self.page.locator(".tw-log__due")

    @property
    def said(self) -> Locator:
        return self.log.locator(".tw-log__said")

    def tap(self, *names: str) -> None:
        for name in names:
            self.log.get_by_role("button", name=name, exact=True).first.click()

    def begin(self, sealer: str = "bench-crank-sealer", *, can: str = "307x409") -> None:
        self.page.select_option("#bl-sealer", sealer)
        self.page.select_option("#bl-can", can)
        self.page.fill("#bl-lid_lot", "A1")
        self.page.fill("#bl-product", "green beans")
        self.page.fill("#bl-supervisor", "AE")
        self.tap("Begin")

    def test_cans(self, number: int = 2, *, torn_down: bool = True) -> None:
        """Make good test cans in a row; the first of them is torn down."""
        for place in range(number):
            self.tap("Test can")
            if torn_down and place == 0:
                self.page.check("#bl-torn_down")
            self.tap("Good")

    def seal(self, number: int) -> None:
        for _ in range(number):
            self.tap("+1 can sealed")

    def look(self, result: str = "Good", *, defect: str = "") -> None:
        self.tap("Look")
        if defect:
            self.page.select_option("#bl-defect", defect)
        self.tap(result)

    def measure(self, readings: dict[str, Sequence[str]], result: str) -> None:
        self.tap("Measure")
        for dimension, values in readings.items():
            for point, value in enumerate(values):
                self.page.fill(f"#bl-{point}-{dimension}", value)
        self.page.locator(f".tw-log__key--{result}").click()

    def minutes(self, number: int) -> None:
        for _ in range(number):
            self.set_clock((self._now + timedelta(minutes=1)).isoformat())
            self.page.clock.run_for(60_000)  # what the page does every so often

    def set_clock(self, now: str) -> None:
        """Let the telephone show another time, at which its clock stands still again."""
        self._now = datetime.fromisoformat(now)
        self.page.clock.set_fixed_time(self._now)

    def saved(self, folder: Path) -> dict[str, Any]:
        """Save the file, and read it."""
        with self.page.expect_download() as download:
            self.log.get_by_role("button", name="Save the file").first.click()
        target = folder / download.value.suggested_filename
        download.value.save_as(target)
        found: dict[str, Any] = json.loads(target.read_text(encoding="utf-8"))
        return found


def events_of(session: dict[str, Any]) -> list[Event]:
    """Read the events of a session of the file as the office does."""
    key = (session["date"], session["kitchen"], session["sealer"])
    return [
        Event(
            **(entries | {"session": key, "readings": tuple(MeasuredPoint(**r) for r in entries.get("readings", ()))})
        )
        for entries in session["events"]
    ]
