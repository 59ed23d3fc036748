"""The forms and keys of a folder, for the analysis of those who sat them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tinwright.errors import ExamError
from tinwright.examining.correcting import dropped_items
from tinwright.examining.form import questions_of, read_form, read_key

if TYPE_CHECKING:
    from pathlib import Path

    from tinwright.examining.form import ExamForm, ExamKey
    from tinwright.quizzes.questions import Question

__all__ = ["SatForm", "read_forms"]

_FORM_END = ".form.json"


@dataclass(frozen=True)
class SatForm:
    """A form with the last revision of its key."""

    form: ExamForm
    """The form."""
    key: ExamKey
    """Its key, as last corrected."""

    @property
    def questions(self) -> dict[str, Question]:
        """Its questions by the id of the item, in the order asked."""
        return {question.id: question for question in questions_of(self.form, self.key)}

    @property
    def dropped(self) -> frozenset[str]:
        """Ids of the items that count as right for everybody."""
        return dropped_items(self.key)


def read_forms(folder: Path, exam: str) -> dict[str, SatForm]:
    """Read every form of an examination in a folder and below, by its code, with the last revision of its key.

    Raises:
        ExamError: when the folder has none, a form has no key, or a file is damaged or was changed.
    """
    found: dict[str, SatForm] = {}
    others: set[str] = set()
    for file in sorted(folder.rglob(f"*{_FORM_END}")):
        form = read_form(file)
        if form.exam != exam:
            others.add(form.exam)
            continue
        stem = file.name.removesuffix(_FORM_END)
        keys = [
            read_key(key, form)
            for key in sorted(file.parent.iterdir())
            if key.name.startswith(f"{stem}.key") and key.name.endswith(".json")
        ]
        if not keys:
            raise ExamError(f"{file}: expected its key beside it, {stem}.key.json, found none")
        found[form.code] = SatForm(form, max(keys, key=lambda key: key.revision))
    if not found:
        hint = f"; there are forms of {', '.join(sorted(others))}" if others else ""
        raise ExamError(f"{folder}: expected forms of the examination {exam!r}, found none{hint}")
    return found
