"""Fixtures shared by all tests."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from hypothesis import settings

from tinwright.knowledge import KnowledgeBase, load
from tinwright.knowledge.bank import Bank, load_bank

if TYPE_CHECKING:
    from collections.abc import Callable

ROOT = Path(__file__).parents[1]

pytest_plugins = ("stores",)

settings.register_profile("tinwright", deadline=None)  # how long a computer takes is no matter of right and wrong
settings.load_profile("tinwright")


@pytest.fixture(scope="session")
def kb() -> KnowledgeBase:
    """The demonstration content, read once."""
    return load(ROOT / "content")


@pytest.fixture(scope="session")
def bank(kb: KnowledgeBase) -> Bank:
    """The demonstration's question bank, its examination items included."""
    return load_bank(ROOT / "quizzes", kb, examination=ROOT / "quizzes" / "examination")


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
