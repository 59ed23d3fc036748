"""A blind sorting test: whoever sees a defect's drawing at the width of a thumb tells it from every other.

Each drawing is seen in gray, without its arrow and a little unsharp, as a hurried or color-blind reader sees it. Bounds:
our own, no source.
"""

from __future__ import annotations

import io
import re
from typing import TYPE_CHECKING

import numpy as np
import pytest
from PIL import Image, ImageFilter

from demo_site import ROOT
from tinwright.advice.drawings import closeups_of
from tinwright.knowledge import load

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray
    from playwright.sync_api import Browser, Page

pytestmark = pytest.mark.browser

SIDE = 160
"""How wide a drawing is on the first screen of a defect's page, in CSS pixels."""
SEEN = 24
"""By how many of 255 grays a point differs before it is seen to."""
APART = 0.005
"""Least share of a square that differs between two drawings: a spot of 11 by 11 points."""
ARROW = re.compile(r'<polygon class="tw-svg-mark"[^>]*>')
CLOSEUPS = {id_: closeups_of(defect) for id_, defect in load(ROOT / "content").defects.items()}


@pytest.fixture(scope="module")
def page(browser: Browser) -> Iterator[Page]:
    """A page of this test's own, that asks for nothing."""
    page = browser.new_page(viewport={"width": SIDE, "height": SIDE})
    yield page
    page.close()


def seen(page: Page, svgs: list[str], *, scale: float = 1.0, shift: float = 0.0) -> NDArray[np.float64]:
    """Draw pictures and return what is seen of each, as rows of grays; each is a little larger or moved."""
    boxes = "".join(
        f'<div style="width:{SIDE}px;height:{SIDE}px;overflow:hidden;color:#1d252c">'
        f'<div style="width:{SIDE * scale}px;margin:{SIDE * (1 - scale) / 2 + shift}px">{ARROW.sub("", svg)}</div></div>'
        for svg in svgs
    )
    page.set_content(f'<body style="margin:0;background:#fff">{boxes}</body>')
    shot = Image.open(io.BytesIO(page.screenshot(full_page=True))).convert("L")
    assert shot.size == (SIDE, SIDE * len(svgs))
    blurred = shot.filter(ImageFilter.GaussianBlur(1.2))
    return np.asarray(blurred, dtype=float).reshape(len(svgs), SIDE * SIDE)


def unlike(one: NDArray[np.float64], other: NDArray[np.float64]) -> float:
    """Return what share of the square differs between two drawings."""
    return float((abs(one - other) > SEEN).mean())


@pytest.fixture(scope="module")
def bad(page: Page) -> NDArray[np.float64]:
    """The drawings of all defects."""
    return seen(page, [str(bad.svg) for bad, _ in CLOSEUPS.values()])


def test_no_two_defects_look_alike(bad: NDArray[np.float64]) -> None:
    ids = list(CLOSEUPS)
    alike = {
        (ids[i], ids[j]): round(unlike(bad[i], bad[j]), 4)
        for i in range(len(ids))
        for j in range(i)
        if unlike(bad[i], bad[j]) < APART
    }
    assert alike == {}


def test_no_defect_looks_like_the_good_one(page: Page, bad: NDArray[np.float64]) -> None:
    good = seen(page, [str(good.svg) for _, good in CLOSEUPS.values()])
    alike = {
        id_: round(unlike(bad[i], good[i]), 4) for i, id_ in enumerate(CLOSEUPS) if unlike(bad[i], good[i]) < APART
    }
    assert alike == {}


@pytest.mark.parametrize(("scale", "shift"), [(0.97, 0), (1.03, 0), (1, 1), (1, -1)])
def test_a_drawing_a_little_larger_or_moved_is_still_sorted_to_its_own(
    page: Page, bad: NDArray[np.float64], scale: float, shift: float
) -> None:
    ids = list(CLOSEUPS)
    moved = seen(page, [str(bad.svg) for bad, _ in CLOSEUPS.values()], scale=scale, shift=shift)
    sorted_to = {ids[i]: ids[int(((bad - one) ** 2).mean(axis=1).argmin())] for i, one in enumerate(moved)}
    assert {id_: other for id_, other in sorted_to.items() if id_ != other} == {}
