"""The files of a form: what is written is read back, and what was changed is refused."""

from __future__ import annotations

import hashlib
import json
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from examining.exam_forms import a_form, a_key
from tinwright.errors import ExamError
from tinwright.examining.form import questions_of, read_form, read_key

if TYPE_CHECKING:
    from pathlib import Path


def test_a_form_and_its_key_are_read_back_as_written(tmp_path: Path) -> None:
    form = a_form()
    key = a_key(form)
    (tmp_path / "a.form.json").write_text(form.written(), encoding="utf-8")
    (tmp_path / "a.key.json").write_text(key.written(), encoding="utf-8")
    assert read_form(tmp_path / "a.form.json") == form
    assert read_key(tmp_path / "a.key.json", form) == key


def test_the_digest_is_the_sha_256_of_the_sorted_compact_json() -> None:
    """RFC 8785 on plain ASCII with whole numbers: members sorted, no space; worked out here without the library."""
    content = a_form().as_json()
    digest = content.pop("digest")
    plain = json.dumps(content, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    assert digest == hashlib.sha256(plain.encode()).hexdigest()


def test_readings_are_read_back_and_a_form_without_any_says_nothing_of_them(tmp_path: Path) -> None:
    item = replace(a_form().items[0], table=(("In inches", "Point 1"), ("Body hook", "0.078")))
    form = a_form(items=(item, *a_form().items[1:]))
    (tmp_path / "a.form.json").write_text(form.written(), encoding="utf-8")
    assert read_form(tmp_path / "a.form.json") == form
    assert "table" not in a_form().written(), "a form made before there were tables keeps its digest"


def test_the_code_is_the_letter_and_the_first_six_digits() -> None:
    form = a_form(form="B")
    assert form.code == f"B-{form.as_json()['digest'][:6]}"


def test_a_form_file_holds_no_answer() -> None:
    text = a_form().written()
    for word in ('"key"', '"critical"', '"answer"', '"low"', '"topic"', '"teaches"', "0.036"):
        assert word not in text


@pytest.mark.parametrize(
    ("change", "told"),
    [
        (lambda text: text.replace("first?", "last?"), "it was changed"),
        (lambda text: text[: len(text) // 2], "a damaged file"),
        (lambda text: text.replace('"tinwright": "form"', '"tinwright": "key"'), "got 'key'"),
        (lambda text: text.replace('"seed": 7', '"seed": 7, "seed": 8'), "a damaged file"),
        (lambda text: text.replace('"seed": 7', '"seed": NaN'), "a damaged file"),
        (lambda _: "[]", "got 'none'"),
    ],
)
def test_a_form_that_was_damaged_or_changed_is_refused(tmp_path: Path, change, told: str) -> None:  # type: ignore[no-untyped-def]
    file = tmp_path / "a.form.json"
    file.write_text(change(a_form().written()), encoding="utf-8")
    with pytest.raises(ExamError, match=told):
        read_form(file)


def test_a_key_of_another_form_is_refused(tmp_path: Path) -> None:
    other = a_form(seed=8)
    file = tmp_path / "a.key.json"
    file.write_text(a_key(other).written(), encoding="utf-8")
    with pytest.raises(ExamError, match=f"expected the key of form {a_form().code}, got that of {other.code}"):
        read_key(file, a_form())


def test_a_file_that_is_not_there_is_told(tmp_path: Path) -> None:
    with pytest.raises(ExamError, match="cannot be read: No such file"):
        read_form(tmp_path / "none.form.json")


def test_a_key_for_other_questions_does_not_fit() -> None:
    form = a_form()
    with pytest.raises(ExamError, match="the same questions in the same order"):
        questions_of(form, a_key(form, items=a_key(form).items[::-1]))


def test_the_questions_are_scored_by_the_key_in_the_order_shown() -> None:
    form = a_form()
    first, _, order, *_ = questions_of(form, a_key(form))
    assert first.choices[first.key[0]].text == "The first"
    assert [order.choices[place].text for place in order.key] == ["Loosen", "Turn", "Lock"]
