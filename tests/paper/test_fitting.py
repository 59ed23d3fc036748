"""Cards in the largest type that fits."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest

from tinwright.errors import PaperError
from tinwright.paper.fitting import fitted

if TYPE_CHECKING:
    from collections.abc import Sequence


def cards_of(lines: dict[str, int]) -> Any:
    def html_at(only: Sequence[str], size: float) -> str:
        sections = [
            f'<section id="{id_}" style="break-before: page; font-size: {10 * size}pt">{"<p>line</p>" * lines[id_]}</section>'
            for id_ in only
        ]
        return f"<style>@page {{ size: Letter }} p {{ margin: 0 }}</style>{''.join(sections)}"

    return fitted(list(lines), html_at)


def test_cards_are_set_as_large_as_fits_a_page_each() -> None:
    document = cards_of({"short": 2, "long": 45, "other": 3})
    assert len(document.pages) == 3


def test_a_card_that_does_not_fit_is_named() -> None:
    with pytest.raises(PaperError, match=r"^long: expected one page, got more even in small type; shorten the texts$"):
        cards_of({"short": 2, "long": 200})
