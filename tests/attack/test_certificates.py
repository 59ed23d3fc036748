"""Neither checker is fooled, both give the same answer, and none takes long: the cases, then some made by chance."""

from __future__ import annotations

import base64
import json
from datetime import date
from typing import TYPE_CHECKING, Any

import pytest

from attack.certificate_cases import cases
from attack.certificate_fuzzer import fuzz
from attack.two_checkers import STANDINGS, asked

if TYPE_CHECKING:
    from pathlib import Path

MOST_SECONDS = 2


@pytest.fixture(scope="module")
def corpus(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Any]:
    """The cases, by way of their file."""
    file: Path = tmp_path_factory.mktemp("cases") / "cases.json"
    file.write_text(json.dumps(cases()), encoding="utf-8")
    found: dict[str, Any] = json.loads(file.read_text(encoding="utf-8"))
    return found


def fits(answer: str, expected: str) -> bool:
    return answer.partition(":")[0] not in STANDINGS if expected == "refused" else answer == expected


def test_both_checkers_give_the_answer_of_every_case(corpus: dict[str, Any]) -> None:
    wrong = []
    number = 0
    for name, office in corpus["offices"].items():
        files = [base64.b64decode(file["content"]) for file in office["files"]]
        answers = asked(files, office["issuer"], office["revoked"], date.fromisoformat(corpus["today"]))
        number += len(files)
        for file, found in zip(office["files"], answers, strict=True):
            good = fits(found.python, file["answer"]) and fits(found.browser, file["answer"]) and found.whole_alike
            if not good or found.seconds > MOST_SECONDS:
                wrong.append((name, file["name"], file["answer"], found))
    assert wrong == []
    assert number > 500


def test_files_changed_by_chance_are_judged_alike_and_soon() -> None:
    assert fuzz(seed=20261125, files=400) == []
