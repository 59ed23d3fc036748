"""A day with two sealers and three people, on a telephone and on paper: from two files to what the next reader knows.

What is expected was worked out by hand from the two files in docs/, which are invented.
"""

from __future__ import annotations

import shutil
from typing import TYPE_CHECKING

import pytest
from click.testing import CliRunner, Result

from conftest import ROOT
from paper.reading import texts
from tinwright.benchlog.charts import charts_of
from tinwright.cli import main
from tinwright.knowledge import load
from tinwright.logbook import open_bench_log
from tinwright.reporting import day_report, season_report
from tinwright.site.building import build_site

if TYPE_CHECKING:
    from pathlib import Path

    from tinwright.benchlog import Event
    from tinwright.knowledge import KnowledgeBase
    from tinwright.reporting import DayReport

PHONE = ROOT / "docs" / "bench-log-2026-11-14-k7f3q2.json"
PAPER = ROOT / "docs" / "bench-log-2026-11-14-P04.csv"


def log(*arguments: str, store: Path, content: Path = ROOT / "content") -> Result:
    """Run a command of the bench log."""
    place = ["--register", str(store), "--content", str(content)]
    return CliRunner().invoke(main, ["log", *arguments, *place])


@pytest.fixture(scope="module")
def store(tmp_path_factory: pytest.TempPathFactory) -> Path:
    place = tmp_path_factory.mktemp("office") / "register.db"
    done = log("import", str(PHONE), str(PAPER), "--on", "2026-11-28", store=place)
    assert done.exit_code == 0, done.stderr
    return place


@pytest.fixture(scope="module")
def day(store: Path, kb: KnowledgeBase) -> DayReport:
    with open_bench_log(store) as book:
        return day_report(kb, list(book.sessions()))


def test_importing_twice_changes_nothing(store: Path) -> None:
    with open_bench_log(store) as book:
        before = list(book.sessions())
    assert log("import", str(PAPER), str(PHONE), "--on", "2026-11-28", store=store).exit_code == 0
    with open_bench_log(store) as book:
        assert list(book.sessions()) == before


def test_there_is_one_record_of_two_sealers_and_three_people(day: DayReport) -> None:
    assert [found.session.sealer for found in day.sessions] == ["bench-crank-sealer", "bench-lever-sealer"]
    assert day.people == ["AE", "BK", "CM"]
    assert (day.date, day.kitchen) == ("2026-11-14", "Mill Street")
    assert [found.sealed for found in day.sessions] == [96, 48]
    assert day.failed == 1
    assert [len(found.of_kind("jam")) for found in day.sessions] == [0, 1]


def test_the_right_cans_are_held(day: DayReport) -> None:
    """Can 66 was good, can 72 bad, 73 and 74 came after it, a good test can ended it; 72 to 74 were thrown away."""
    crank, lever = day.sessions
    (hold,) = crank.holds
    assert hold.cans == ((67, 74),)
    assert hold.since is not None
    assert (hold.since.can_number, hold.event.can_number) == (66, 72)
    assert (crank.held.not_heated, crank.held.heated) == (((67, 71),), ())
    assert lever.holds == ()
    assert (lever.held.not_heated, lever.held.heated) == ((), ())


def test_cans_that_nobody_looked_at_before_the_jam_are_listed(day: DayReport) -> None:
    (unchecked,) = day.sessions[1].unchecked
    assert unchecked.cans == ((21, 30),)
    assert unchecked.change.kind == "jam"


def test_checks_that_were_missed_are_listed(day: DayReport) -> None:
    """Crank: 73 and 74 sealed in spite of the bad can 72. Lever: 41 minutes from 9:59 to 10:40, and 30 are allowed."""
    assert [(missed.check, missed.cans) for missed in day.sessions[0].missed] == [
        ("test-cans", (73, 74)),
        ("teardown", (73, 74)),
        ("next-can", (73, 75)),
    ]
    assert [(missed.check, missed.cans, missed.times) for missed in day.sessions[1].missed] == [("check", (32, 44), 1)]


def test_the_chart_shows_the_drift_before_the_failure(day: DayReport) -> None:
    """13 cans, in thousandths: 4 x 55, 4 x 55.5, 56, 57, 58, 59, 61.5; sum 733.5, center 56.4231.

    Differences: 8 x 0.5, 3 x 1, 2.5; mean 9.5/12, times 3/1.12838 is 2.1048: limits 54.318 and 58.528. So can 66 at 59
    is beyond its limit while its seam still passed, and can 72 failed the specification (at most 60).
    """
    (chart,) = day.charts
    before, after = chart.stretches
    assert before.limits is not None
    assert 1000 * before.limits.center == pytest.approx(56.4231, abs=1e-4)
    assert 1000 * before.limits.lower == pytest.approx(54.318, abs=1e-3)
    assert 1000 * before.limits.upper == pytest.approx(58.528, abs=1e-3)
    beyond = [(p.event.can_number, p.event.result) for p in chart.points if "beyond-limits" in p.signals]
    assert beyond == [(66, "accept"), (72, "reject")]
    assert [p.event.can_number for p in chart.points if "run" in p.signals] == [42, 48]
    assert [len(before.points), len(after.points), after.limits] == [13, 1, None]


def test_what_the_bench_saw_after_can_66_told_of_the_drift_already(day: DayReport) -> None:
    """12 cans: sum 672, center 56; differences 8 x 0.5 and 3 x 1, mean 7/11: limits 54.308 and 57.692."""
    crank = day.sessions[0]

    def until(event: Event) -> bool:
        return event.at <= "10:28:15"

    (chart,) = charts_of([(crank.session, [event for event in crank.events if until(event)])])
    limits = chart.stretches[0].limits
    assert limits is not None
    assert 1000 * limits.upper == pytest.approx(57.692, abs=1e-3)
    assert [p.event.can_number for p in chart.points if "beyond-limits" in p.signals] == [60, 66]


def test_the_season_knows_the_cause_and_that_the_correction_worked(store: Path, kb: KnowledgeBase) -> None:
    with open_bench_log(store) as book:
        season = season_report(kb, book.sessions())
    assert [(each.sealer, each.to_hold, each.discarded, each.still_held) for each in season.sealers] == [
        ("bench-crank-sealer", 8, 3, 5),
        ("bench-lever-sealer", 0, 0, 0),
    ]
    assert season.defects == (("bench-crank-sealer", "307x409", "loose-seam", 1),)
    assert [(each.adjuster, each.direction, each.worked, each.checked) for each in season.corrections] == [
        ("second-roller", "tighten", 1, 1)
    ]
    first = season.shares["loose-seam"][0]
    assert (first.cause, first.times, first.total) == ("second-roller-loose", 1, 1)


def test_the_next_reader_is_told_what_was_found_and_nothing_of_who_found_it(store: Path, tmp_path: Path) -> None:
    content = tmp_path / "content"
    shutil.copytree(ROOT / "content", content)
    asked = ["cause", "--defect", "loose-seam", "--sealer", "bench-crank-sealer", "--content", str(content)]
    assert "seen here" not in CliRunner().invoke(main, asked).stdout
    out = content / "sorrel-county" / "seen-here.yml"
    done = log("counts", store=store, content=content)
    assert (done.exit_code, done.stdout) == (0, f"1 confirmed cause in {out}\n")
    lines = [line for line in out.read_text(encoding="utf-8").splitlines() if not line.startswith("#")]
    assert lines == [
        "through: 2026",
        "invented: true",
        "confirmed:",
        "- sealer: bench-crank-sealer",
        "  defect: loose-seam",
        "  cause: second-roller-loose",
        "  times: 1",
    ]
    assert "seen here 1 of 1 times\n" in CliRunner().invoke(main, asked).stdout
    pages = {page.uri: page.text for page in build_site(load(content)).pages}
    for page in ("defects/loose-seam.md", "trees/loose-seam.md"):
        assert "seen here 1 of 1 times" in pages[page]
    assert "Causes confirmed through 2026" in pages["sealers/bench-crank-sealer.md"]


def test_the_day_is_filed_as_page_and_as_pdf(store: Path, tmp_path: Path) -> None:
    page, pdf = tmp_path / "day.html", tmp_path / "day.pdf"
    done = log("report", "day", "--date", "2026-11-14", "--out", str(page), "--out", str(pdf), store=store)
    assert done.exit_code == 0, done.stderr
    for text in (" ".join(texts(pdf.read_bytes())), " ".join(page.read_text(encoding="utf-8").split())):
        for said in ("Hold cans 67 to 74 (8)", "Still on hold: cans 67 to 71 (5).", "Cans 21 to 30: before 09:46, jam"):
            assert said in text
