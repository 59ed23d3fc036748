"""A class of twelve goes from a list to certificates by the README's own commands, all of them with `--trial`."""

from __future__ import annotations

import csv
import datetime as dt
import re
import shlex
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from click.testing import CliRunner
from pypdf import PdfReader

from tinwright.cli import main
from tinwright.examining.form import questions_of, read_form, read_key
from tinwright.knowledge import load
from tinwright.quizzes.scoring import write_answer
from tinwright.register.practicals_file import PRACTICALS_HEAD

if TYPE_CHECKING:
    from collections.abc import Collection

    from click.testing import Result

ROOT = Path(__file__).parents[2]
README = (ROOT / "README.md").read_text(encoding="utf-8").partition("## Certify volunteers")[2].partition("\n## ")[0]
DAY = dt.datetime.now().astimezone().date()
"""Today, for the signing key was made today, too."""


class Walk:
    """Somebody who follows the README in the project's folder, and writes down what it says to write down."""

    def __init__(self, folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
        self.folder = folder
        self.here = folder / "project"
        self.here.mkdir()
        for name in ("content", "quizzes"):
            (self.here / name).symlink_to(ROOT / name)
        monkeypatch.chdir(self.here)
        monkeypatch.setattr("click.get_app_dir", lambda _: str(folder / "own"))
        monkeypatch.setenv("HOME", str(folder))
        monkeypatch.setenv("TINWRIGHT_PASSPHRASE", "twelve cans on a shelf")
        monkeypatch.delenv("TINWRIGHT_REGISTER", raising=False)
        monkeypatch.delenv("TINWRIGHT_KEYS", raising=False)

    def runs(self, line: str, *, for_: dict[str, str] | None = None, trial: bool = True) -> Result:
        """Run a command that stands in the README, with other names in the place of its own."""
        assert f"`tinwright {line}`" in README
        words = [(for_ or {}).get(word, word) for word in shlex.split(line)]
        return CliRunner().invoke(main, [*words, *(["--trial"] if trial else [])])

    def done(self, line: str, *, for_: dict[str, str] | None = None, trial: bool = True) -> str:
        result = self.runs(line, for_=for_, trial=trial)
        assert result.exit_code == 0, result.output
        return result.output

    def type_in(self, form: str, people: dict[str, Collection[int]]) -> None:
        """Type right answers of people but to some questions, counted from 0, which they left blank."""
        exam = read_form(self.folder / "exams" / f"volunteer-{form}.form.json")
        questions = questions_of(exam, read_key(self.folder / "exams" / f"volunteer-{form}.key.json", exam))
        right = [write_answer(question.answer if question.asks == "number" else question.key) for question in questions]
        with (self.here / "answers.csv").open("w", encoding="utf-8", newline="") as file:
            table = csv.writer(file)
            table.writerow(["form", exam.code])
            table.writerow(["person", "taken_on", *range(1, len(right) + 1)])
            for person, wrong in people.items():
                cells = ["" if place in wrong else answer for place, answer in enumerate(right)]
                table.writerow([person, DAY.isoformat(), *cells])


@pytest.mark.slow
def test_a_class_of_twelve_goes_from_a_list_to_certificates(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    walk = Walk(tmp_path, monkeypatch)
    people = [f"V{number:04d}" for number in range(1, 13)]
    kb = load(ROOT / "content")
    kitchen = kb.programme.kitchens[0]
    sealer = kb.sealers[kitchen.sealers[0]]

    walk.done("exam make volunteer --forms 2 --out ../exams", trial=False)
    rows = "".join(f"Invented Person {n},p{n}@example.org,{kitchen.name}\n" for n in range(1, 13))
    (walk.here / "class.csv").write_text(f"name,email,kitchen\n{rows}", encoding="utf-8")
    assert "12 added" in walk.done("register import class.csv")
    walk.done("register sign-in ../sign-in.pdf")
    assert "Invented Person 12" in "".join(page.extract_text() for page in PdfReader(tmp_path / "sign-in.pdf").pages)

    form = read_form(tmp_path / "exams" / "volunteer-A.form.json")
    key = read_key(tmp_path / "exams" / "volunteer-A.key.json", form)
    places = {item.id: place for place, item in enumerate(form.items)}
    area = key.areas[0]
    missed = {places[item] for item in area.items[: len(area.items) - area.right + 1]}
    failed = set(range(len(form.items) - key.cut + 1))
    walk.type_in("A", dict.fromkeys(people[:10], ()) | {people[10]: missed, people[11]: failed})
    graded = "exam grade ../exams/volunteer-A.key.json answers.csv --report ../results"
    told = walk.done(graded)
    assert "12 sheets graded, 10 passed" in told
    assert "second try today" in next(line for line in told.splitlines() if line.startswith(people[10]))
    assert "second try today" not in next(line for line in told.splitlines() if line.startswith(people[11]))

    walk.done('register coach V0001 --by AE --about "holding cans"', for_={"V0001": people[10]})
    second = next(
        file.name.removesuffix(".key.json").removeprefix("volunteer-")
        for file in (tmp_path / "exams").glob("*.key.json")
        if form.code in file.read_text(encoding="utf-8") and file.name != "volunteer-A.key.json"
    )
    walk.type_in(second, {people[10]: ()})
    with_its_own_key = {"../exams/volunteer-A.key.json": f"../exams/volunteer-{second}.key.json"}
    assert "1 sheet graded, 1 passed" in walk.done(graded, for_=with_its_own_key)
    # Both results are there: nothing was written over.
    assert len(list((tmp_path / "results").glob("*.csv"))) == 2

    walk.done("exam analyze --exam volunteer --forms ../exams --report ../analysis.html")
    marks = ["done"] * (len(PRACTICALS_HEAD) - 6)
    with (walk.here / "observed.csv").open("w", encoding="utf-8", newline="") as file:
        table = csv.writer(file)
        table.writerow(PRACTICALS_HEAD)
        table.writerows([person, DAY.isoformat(), sealer.drive, sealer.id, "AE", *marks, ""] for person in people)
    walk.done("register practicals FILE.csv", for_={"FILE.csv": "observed.csv"})

    walk.done("certificate key make --site https://your.site/cans/")
    for person in people[:11]:
        walk.done("certificate issue V0001", for_={"V0001": person})
    refused = walk.runs("certificate issue V0001", for_={"V0001": people[11]})
    assert (refused.exit_code, "missing: the examination" in refused.output) == (1, True)
    papers = list((tmp_path / "tinwright-certificates").glob("*.pdf"))
    assert len(papers) == 11
    assert {len(PdfReader(paper).pages) for paper in papers} == {1}
    paper = re.sub(r"\s+", " ", "".join(page.extract_text() for page in PdfReader(papers[0]).pages))
    assert "Made in a trial: nobody was examined." in paper
    assert "The questions of its examination are public" in paper

    assert "12 volunteers" in walk.done("register where")
    assert not (tmp_path / "own" / "register.db").exists()
    assert not (tmp_path / "own" / "keys").exists()
