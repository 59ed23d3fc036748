"""A small bank for tests of examinations: a folder with topics, items, a blueprint and its ratings."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING, Any

import yaml

from tinwright.examining.making import MadeForm, make_forms
from tinwright.examining.ratings import read_ratings
from tinwright.knowledge.bank import load_bank

if TYPE_CHECKING:
    from collections.abc import Collection
    from pathlib import Path

    from tinwright.knowledge.base import KnowledgeBase
    from tinwright.knowledge.models import Sealer

__all__ = ["DAY", "all_made_from", "lay_bank", "made_from"]

DAY = dt.date(2026, 11, 25)
_REVIEWED = dt.date(2026, 11, 1)


class _Plain(yaml.SafeDumper):
    """Writes everything out: the bank takes no YAML aliases."""

    def ignore_aliases(self, data: Any) -> bool:  # noqa: ARG002 - named by the library
        return True


def _yaml(values: Any) -> str:
    return yaml.dump(values, Dumper=_Plain, sort_keys=False)


def _item(number: int, topic: str, asks: str, **more: Any) -> dict[str, Any]:
    name = f"{topic} question {topic[0]}{number}"
    item: dict[str, Any] = {
        "id": f"x-{topic}-{number}",
        "topic": topic,
        "use": "examination",
        "asks": asks,
        "difficulty": 0.5 + number % 4 * 0.1,
        "question": f"What is asked in {name}?",
        "why": f"Reason why {name} is so.",
        "teaches": ["procedure/set-first-roller"],
        "reviewed": _REVIEWED,
    }
    wrong = [{"text": f"Wrong {letter} of {name}", "why": f"Tempts {letter} in {name}"} for letter in "abc"]
    right = {"text": f"Good of {name}", "right": True, "why": f"Right in {name}"}
    item |= {
        "one-answer": {"options": [right, *wrong]},
        "several-answers": {"options": [right, {**right, "text": f"Also good of {name}"}, *wrong]},
        "order": {
            "steps": [f"Step {word} of {name}" for word in ("one", "two", "three", "four")],
            "mistakes": [{"answer": "Another order.", "why": f"Tempts in {name}"}],
        },
        "match": {
            "pairs": [
                {"left": f"Left {word} of {name}", "right": f"Right {word} of {name}", "why": f"Pair {word} of {name}"}
                for word in ("one", "two", "three")
            ],
            "spare": [{"answer": f"Spare of {name}", "why": f"Spare tempts in {name}"}],
        },
        "number": {
            "unit": "in",
            "answer": 0.04321,
            "low": 0.04311,
            "high": 0.04331,
            "mistakes": [{"number": 0.09876, "why": f"Slip in {name}"}],
        },
        "point": {
            "figure": "seam-section",
            "place": ("cover-hook", "chuck-wall")[number // len(_KINDS) % 2],
            "mistakes": [{"place": "body-hook", "why": f"Misplaced in {name}"}],
        },
    }[asks]
    return item | more


_KINDS = ("one-answer", "one-answer", "several-answers", "order", "match", "number", "point", "one-answer")
_BLUEPRINT: dict[str, Any] = {
    "id": "small",
    "title": "Small examination",
    "about": "For tests.",
    "topics": [{"topic": "sealing", "items": 6}, {"topic": "judging", "items": 4}],
    "critical_areas": [
        {"title": "Sealing safely", "topics": ["sealing"], "items": 2, "right": 1},
        {"title": "Judging safely", "topics": ["judging"], "items": 1, "right": 1},
    ],
    "difficulty_tolerance": 0.1,
    "minutes": 20,
    "standard_setting": {"ratings": "small-ratings.csv", "method": "Three judges.", "evidence": "invented"},
    "claims": {"not_ready": 0.3, "ready": 0.9, "false_pass": 0.4, "false_fail": 0.3, "just_qualified": 0.4},
    "practical": [
        "clamp-and-assemble",
        "set-first-roller",
        "set-second-roller",
        "make-test-can",
        "look-and-feel",
        "tear-down-and-measure",
        "when-a-check-fails",
    ],
    "demonstration": True,
    "reviewed": _REVIEWED,
}


def lay_bank(folder: Path, *, each: int = 16, blueprint: dict[str, Any] | None = None, anchors: int = 0) -> Path:
    """Write a bank with so many items in each of two topics, and return its folder."""
    root = folder / "bank"
    (root / "blueprints").mkdir(parents=True)
    (root / "examination").mkdir()
    (root / "practice").mkdir()
    topics = [
        {"id": topic, "title": topic.title(), "about": "For tests.", "reviewed": _REVIEWED}
        for topic in ("sealing", "judging")
    ]
    (root / "topics.yml").write_text(_yaml(topics), encoding="utf-8")
    rows = ["# Invented.", "item,judge,rating"]
    for topic in ("sealing", "judging"):
        items = []
        for number in range(each):
            more: dict[str, Any] = {}
            if number % 3 == 0:
                more["critical"] = True
            if number < anchors:
                more["anchor"] = True
            if number == 1:
                more["drawing"] = "no-second-operation"
            items.append(_item(number, topic, _KINDS[number % len(_KINDS)], **more))
        (root / "examination" / f"{topic}.yml").write_text(_yaml(items), encoding="utf-8")
        rows += [
            f"{item['id']},{judge},{item['difficulty'] + more:.2f}"
            for item in items
            for judge, more in (("judge 1", 0.05), ("judge 2", 0.0), ("judge 3", -0.02))
        ]
    (root / "blueprints" / "small-ratings.csv").write_text("\n".join(rows) + "\n", encoding="utf-8")
    values = {key: value for key, value in ({**_BLUEPRINT, **(blueprint or {})}).items() if key != "id"}
    (root / "blueprints" / "small.yml").write_text(_yaml(values), encoding="utf-8")
    return root


def made_from(
    root: Path,
    kb: KnowledgeBase,
    *,
    forms: int = 2,
    seed: int = 7,
    used: tuple[str, ...] = (),
    sealers: Collection[Sealer] = (),
) -> tuple[MadeForm, ...]:
    """Make forms from a bank that was laid down, and leave their second tries aside."""
    made = all_made_from(root, kb, forms=forms, seed=seed, used=used, sealers=sealers)
    return tuple(one for one in made if not one.is_second_try)


def all_made_from(
    root: Path,
    kb: KnowledgeBase,
    *,
    forms: int = 2,
    seed: int = 7,
    used: tuple[str, ...] = (),
    sealers: Collection[Sealer] = (),
) -> tuple[MadeForm, ...]:
    """Make forms and second tries from a bank that was laid down."""
    bank = load_bank(root, kb, examination=root / "examination")
    blueprint = bank.blueprints["small"]
    ratings = read_ratings(root / "blueprints" / blueprint.standard_setting.ratings)
    return make_forms(
        kb,
        bank,
        blueprint,
        ratings,
        forms=forms,
        seed=seed,
        salt="0f" * 16,
        made_on=DAY,
        used=used,
        sealers=sealers,
    )
