"""Answering the checks of a defect on its page."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable

    from playwright.sync_api import Locator, Page

MOST = 20


def say_yes_to(page: Page, cause: str, tap: Callable[[Locator], object] = lambda link: link.click()) -> Locator:
    """Say No until the check for a cause comes, say Yes, and return its correction."""
    check = page.locator(".tw-check:visible")
    for _ in range(MOST):
        if check.locator(f".tw-fix__cause a[href*='/{cause}.html']").count():
            break
        tap(check.locator(".tw-answer--no a"))
    tap(check.locator(".tw-answer--yes a"))
    return check.locator(".tw-fix")
