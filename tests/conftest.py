"""Fixtures shared by all tests."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from hypothesis import settings

from small_kitchen import lay_down
from tinwright.knowledge import KnowledgeBase, load
from tinwright.knowledge.bank import Bank, load_bank

if TYPE_CHECKING:
    from collections.abc import Callable

ROOT = Path(__file__).parents[1]

pytest_plugins = ("stores",)

settings.register_profile("tinwright", deadline=None)  # how long a computer takes is no matter of right and wrong
settings.load_profile("tinwright")


def pytest_addoption(parser: pytest.Parser) -> None:
    """`--cases` says how long the comparisons of Python with the browser may take; the forge asks for all of them."""
    parser.addoption("--cases", type=int, default=1000, help="at most so many random cases in a comparison")


@pytest.fixture(scope="session")
def cases_of(request: pytest.FixtureRequest) -> Callable[[int], int]:
    """How many random cases to draw where a whole comparison has so many."""
    most: int = request.config.getoption("--cases")
    return lambda whole: min(whole, most)


@pytest.fixture(scope="session")
def kb() -> KnowledgeBase:
    """The demonstration content, read once."""
    return load(ROOT / "content")


@pytest.fixture(scope="session")
def bank(kb: KnowledgeBase) -> Bank:
    """The demonstration's question bank, its examination items included."""
    return load_bank(ROOT / "quizzes", kb, examination=ROOT / "quizzes" / "examination")


@pytest.fixture
def starter(tmp_path: Path) -> Path:
    """The content of the starter programme, small and sound, which nobody's edit of the demonstration changes."""
    lay_down(tmp_path / "ours")
    return tmp_path / "ours" / "content"


@pytest.fixture
def content(tmp_path: Path) -> Callable[[dict[str, str]], Path]:
    """Lay down a content folder from a mapping of paths to YAML, with a sound programme unless one is given."""

    def lay_down(files: dict[str, str]) -> Path:
        root = tmp_path / "content"
        for path, text in {"program.yml": PROGRAMME, **files}.items():
            target = root / path
            target.parent.mkdir(parents=True, exist_ok=True)
            target.write_text(text, encoding="utf-8")
        return root

    return lay_down


PROGRAMME = """\
title: A programme
office: An office
about: It seals cans.
altitude_ft: 100
local_rules: Ask.
kitchens:
  - name: A kitchen
policy: {test_cans: 2, recheck_minutes: 30, recheck_cans: 24, review_months: 24, certificate_years: 2}
reviewed: 2026-11-02
"""
