"""Examinations that people sat, for tests: a form of plain questions, answer sheets, a register."""

from __future__ import annotations

import datetime as dt
import json
from typing import TYPE_CHECKING

from click.testing import CliRunner, Result

from examining.exam_forms import a_form, a_key
from tinwright.cli import main
from tinwright.examining.digested import digest_of
from tinwright.examining.form import ExamForm, ExamKey, FormItem, KeyArea, KeyItem
from tinwright.register import open_register
from tinwright.register import volunteers as people_of

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path
    from typing import Any

__all__ = ["DAY", "a_plain_exam", "a_register", "a_response", "lay_down", "run", "typed"]

DAY = "2026-11-26"


def a_plain_exam(
    items: int = 6, *, cut: int = 4, critical: Sequence[int] = (), choices: int = 4
) -> tuple[ExamForm, ExamKey]:
    """Make a form of questions with one answer each; the right one of question n is its letter n, round and round."""
    shown = tuple(
        FormItem(f"q-{n:02d}", "one-answer", f"Question {n}?", tuple(f"Choice {c} of {n}" for c in range(choices)))
        for n in range(1, items + 1)
    )
    form = a_form(items=shown)
    right = tuple(
        KeyItem(
            item.id,
            "first-roller" if n % 2 else "second-roller",
            "one-answer",
            ((n - 1) % choices,),
            critical=n in critical,
            teaches=(f"part/part-{n}",),
        )
        for n, item in enumerate(shown, 1)
    )
    own = tuple(item.id for item in right if item.critical)
    areas = (KeyArea("What can hurt", own, len(own)),) if own else ()
    return form, a_key(form, items=right, cut=cut, cut_raw=str(cut), areas=areas)


def lay_down(folder: Path, form: ExamForm, key: ExamKey) -> Path:
    """Write form and key, and return the file of the key."""
    folder.mkdir(exist_ok=True)
    (folder / f"{form.code}.form.json").write_text(form.written(), encoding="utf-8")
    file = folder / f"{form.code}.key.json"
    file.write_text(key.written(), encoding="utf-8")
    return file


def typed(file: Path, form: ExamForm, rows: Sequence[Sequence[str]], *, day: str = DAY) -> Path:
    """Type answer sheets into a CSV file: for each row the person, then the answers."""
    head = ",".join(["person", "taken_on", *(str(n) for n in range(1, form.out_of + 1))])
    lines = [f"form,{form.code}", head, *(",".join([row[0], day, *row[1:]]) for row in rows)]
    file.write_text("\n".join(lines) + "\n", encoding="utf-8")
    return file


def a_response(file: Path, form_: ExamForm, person: str, answers: dict[str, str], **changes: Any) -> Path:
    """Write a response file as the page saves it; what is changed is changed before the digest is computed."""
    content: dict[str, Any] = {
        "tinwright": "responses",
        "exam": form_.exam,
        "form": form_.form,
        "form_digest": form_.digest,
        "person": person,
        "taken_on": DAY,
        "answers": answers,
    } | changes
    file.write_text(json.dumps(content | {"digest": digest_of(content)}), encoding="utf-8")
    return file


def a_register(folder: Path, people: int) -> Path:
    """Make a register with some volunteers, V0001 and so on."""
    file = folder / "register.db"
    with open_register(file, by="tester") as books, books.store.writing() as connection:
        for number in range(1, people + 1):
            people_of.add(
                connection, "tester", name=f"Person {number}", email=None, kitchen=None, added_on=dt.date(2026, 11, 1)
            )
    return file


def run(*arguments: object, register: Path | None = None, on: str | None = DAY) -> Result:
    """Run `tinwright exam`."""
    place = ["--register", str(register)] if register else []
    day = ["--on", on] if on else []
    nowhere = ["--content", "no-such-folder"] if arguments[0] in {"grade", "analyze", "analyse"} else []
    return CliRunner().invoke(main, ["exam", *map(str, arguments), *place, *day, *nowhere])
