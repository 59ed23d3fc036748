"""The folder of published keys holds public files only."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from tinwright.knowledge import find_problems
from tinwright.knowledge.published import PUBLIC_FILES, read_published

if TYPE_CHECKING:
    from collections.abc import Callable

    Content = Callable[[dict[str, str]], Path]

DEMONSTRATION = Path(__file__).parents[2] / "content" / "sorrel-county"
ISSUER = (DEMONSTRATION / "certificates" / "issuer.json").read_text(encoding="utf-8")


def messages(root: Path) -> list[str]:
    return [str(problem) for problem in find_problems(root) if "certificates/" in problem.file]


def test_the_folder_may_be_missing(content: Content) -> None:
    root = content({})
    assert messages(root) == []
    assert read_published(root) == {}


@pytest.mark.parametrize("name", ["ann-example-2026.pdf", "ann-example.json", "signing-key.pem", "register.db"])
def test_a_private_file_in_it_is_a_problem_and_is_not_read(content: Content, name: str) -> None:
    root = content({"certificates/issuer.json": ISSUER, f"certificates/{name}": "{}"})
    (found,) = messages(root)
    assert found.startswith(
        f"content/certificates/{name}:1:1: expected only issuer.json, revoked.json, status-list.json"
    )
    assert list(read_published(root)) == ["issuer.json"]


@pytest.mark.parametrize("text", ["", "{", "[]", "{}", '{"name": "x"}'])
def test_a_broken_file_is_a_problem(content: Content, text: str) -> None:
    root = content({"certificates/issuer.json": ISSUER, "certificates/revoked.json": text})
    (found,) = messages(root)
    assert "expected what `tinwright certificate publish` writes" in found


def test_a_list_without_keys_is_a_problem(content: Content) -> None:
    root = content({"certificates/revoked.json": '{"revoked": []}'})
    assert messages(root) == ["content/certificates/issuer.json:1:1: the file is missing"]


def test_the_demonstration_publishes_all_of_them() -> None:
    assert list(read_published(DEMONSTRATION)) == list(PUBLIC_FILES)
