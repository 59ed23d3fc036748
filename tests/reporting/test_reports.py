"""Reports as page, PDF and CSV: whole in themselves, safe with whatever was typed, and never where they are published."""

from __future__ import annotations

import csv
import io
import stat
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from bs4 import BeautifulSoup
from click.testing import CliRunner, Result

from conftest import ROOT
from paper.reading import pdf_ua_faults, second_opinion, texts
from tinwright.benchlog import Event, MeasuredPoint, Session
from tinwright.cli import main
from tinwright.errors import RecordError
from tinwright.knowledge import load
from tinwright.knowledge.models.trouble import Turn
from tinwright.knowledge.plain_words import say_adjusted
from tinwright.logbook import open_bench_log
from tinwright.logbook.entries import Dispute, LogFile, LoggedSession, Version
from tinwright.reporting import (
    day_report,
    report_csv,
    report_html,
    report_pdf,
    sealer_report,
    season_report,
)
from tinwright.reporting.wording import what_in_words
from tinwright.seaming import ADJUSTERS

if TYPE_CHECKING:
    from pathlib import Path

    from tinwright.knowledge import KnowledgeBase

HOSTILE = '=1+1 <script>alert(1)</script> & "quoted" {{ 7*7 }}'
CRANK = Session("2026-11-14", "Mill Street", "bench-crank-sealer", "307x409", "A1", "AE", HOSTILE)
THICK = tuple(MeasuredPoint("seam-thickness", str(point), 0.055) for point in (1, 2, 3))


def event(number: int, at: str, kind: str, **entries: object) -> Event:
    return Event(f"a-{number}", CRANK.key, at, kind, by="BK", **entries)  # type: ignore[arg-type]


EVENTS = (
    event(1, "09:00", "test-can", result="good"),
    event(2, "09:01", "test-can", result="good"),
    event(3, "09:05", "sealed", first=1, last=1),
    event(4, "09:06", "measured-check", can_number=1, result="accept", readings=THICK, specification="demo-307"),
    event(5, "09:20", "sealed", first=2, last=12),
    event(6, "09:21", "visual-check", can_number=12, result="bad", defect="droop"),
    event(7, "09:25", "heated", first=1, last=4),
    event(8, "09:30", "adjustment", adjuster="first-roller", direction="tighten", turns="1/8"),
    event(9, "09:33", "test-can", result="bad", defect="droop"),
    event(16, "09:38", "adjustment", adjuster="first-roller", direction="tighten", turns="1/16"),
    event(10, "09:40", "adjustment", adjuster="first-roller", direction="tighten", turns="1/8"),
    event(11, "09:43", "test-can", result="good"),
    event(12, "09:50", "adjustment", adjuster="base-pressure", direction="loosen"),
    event(13, "10:00", "release", first=5, last=6, reason=HOSTILE),
    event(14, "10:05", "discard", first=7, last=12, reason="Droop", struck=True),
    event(15, "10:10", "close"),
)
OTHER = replace(EVENTS[5], result="good", defect="")


@pytest.fixture(scope="module")
def logged() -> LoggedSession:
    versions = (Version("3f9a", "k7f3q2", True, event=EVENTS[5]), Version("77c1", "P04", False, event=OTHER))
    return LoggedSession("B0001", CRANK, EVENTS, (Dispute("B0001", "a-6", versions),))


@pytest.fixture(scope="module")
def html(kb: KnowledgeBase, logged: LoggedSession) -> str:
    return report_html(kb, day_report(kb, [logged]))


def words_of(html: str) -> str:
    return " ".join(BeautifulSoup(html, "html.parser").get_text(" ").split())


def test_the_page_needs_nothing_from_elsewhere_and_runs_nothing(html: str) -> None:
    soup = BeautifulSoup(html, "html.parser")
    assert not soup.find_all(["script", "link", "img", "iframe"])
    assert not [tag for tag in soup.find_all(True) if any(name.startswith("on") for name in tag.attrs)]
    assert "http" not in "".join(str(tag) for tag in soup.find_all("style"))
    ids = [tag["id"] for tag in soup.find_all(id=True)]
    assert len(ids) == len(set(ids))


def test_what_was_typed_is_shown_as_typed(html: str) -> None:
    assert "<script" not in html
    assert words_of(html).count(HOSTILE.replace("  ", " ")) == 2


def test_what_was_held_released_and_is_still_held_is_told_with_the_rule_for_each(html: str) -> None:
    text = words_of(html)
    assert "Hold cans 2 to 12 (11)" in text
    assert "09:21, Visual check: bad, Droop, can 12, by BK. Last good check that could have found it: 09:06" in text
    assert "Still on hold: cans 2 to 4, 7 to 12 (9)." in text
    assert (
        "Not in the canner yet : cans 7 to 12" in text.replace(" :", " :")
        or "Not in the canner yet: cans 7 to 12" in text
    )
    assert "In the canner already: cans 2 to 4" in text
    assert "[common practice, no source]" in text
    assert "discarded" not in text.lower().split("cautions")[0]


def test_a_correction_worked_when_the_next_check_was_good(kb: KnowledgeBase, logged: LoggedSession, html: str) -> None:
    season = season_report(kb, [logged])
    assert [(each.adjuster, each.worked, each.checked, each.times) for each in season.corrections] == [
        ("first-roller", 1, 2, 3),
        ("base-pressure", 0, 0, 1),
    ]
    text = words_of(html)
    assert "the next check failed." in text
    assert "no check before the next change." in text


def test_both_ways_of_telling_are_shown_and_which_counts(html: str) -> None:
    text = words_of(html)
    assert "Entry a-6 was written down in 2 ways: nobody has decided" in text
    assert "k7f3q2: 09:21 Visual check: bad, Droop, can 12 (BK) (counts)" in text
    assert "P04: 09:21 Visual check: good, can 12 (BK)" in text


def test_the_report_is_honest_about_what_looking_shows(html: str) -> None:
    assert "2 of 12 cans checked, 1 of them bad. The others are not good because they were not looked at." in words_of(
        html
    )


def test_what_goes_back_is_told_and_a_defect_found_counts_as_a_bad_can(kb: KnowledgeBase) -> None:
    """Cans 1 to 20, then 1 to 15 again, by a clock that was set back; can B15 has a droop, which nobody checked."""
    day = (
        event(1, "09:00", "test-can", result="good"),
        event(2, "09:20", "sealed", first=1, last=20),
        event(3, "09:21", "visual-check", can_number=12, result="good"),
        event(4, "08:40", "sealed", first=1, last=15),
        event(5, "08:45", "defect", first=15, last=15, defect="droop"),
        event(6, "08:50", "test-can", result="good"),
        replace(event(7, "09:10", "release", first=1, last=15, reason="Opened"), on="2026-11-15"),
    )
    report = day_report(kb, [LoggedSession("B0001", CRANK, day, ())])
    assert (report.sealed, report.bad, report.still_held) == (35, 1, 9)
    text = words_of(report_html(kb, report))
    for said in (
        "1 can found bad",
        "Found bad B15: never released",
        "Hold cans 13 to 20, B1 to B15 (23)",
        "08:45, Defect found: Droop, can B15, by BK. Last good check that could have found it: 09:21, Visual check: good, can 12.",
        "It is read as a new run, cans B1 to B15.",
        "The clock goes back from 09:21 to 08:40 (a-4).",
        "Still on hold: cans 13 to 20, B15 (9).",
        "November 15, 2026, 09:10",
        "2 of 35 cans checked, 1 of them bad.",
    ):
        assert said in text
    rows = list(csv.DictReader(io.StringIO(report_csv(kb, report))))
    assert ("found bad", "B15") in [(row["part"], row["cans"]) for row in rows]
    assert ("2026-11-15 09:10", "B1 to B15") in [(row["time"], row["cans"]) for row in rows]


def test_it_can_be_filed_with_office_day_people_and_lines_to_sign(html: str) -> None:
    soup = BeautifulSoup(html, "html.parser")
    assert soup.header is not None
    head = " ".join(soup.header.get_text(" ").split())
    for part in ("Sorrel County Extension", "Sealing day at Mill Street, November 14, 2026", "AE, BK", "Private"):
        assert part in head
    assert "invented for a demonstration" in head
    assert words_of(html).endswith("Supervisor of the day Date Sorrel County Extension Date")


@pytest.mark.parametrize("kind", ["day", "sealer", "season"])
def test_every_report_prints_to_pdf_ua(kb: KnowledgeBase, logged: LoggedSession, kind: str, tmp_path: Path) -> None:
    made = {"day": day_report, "sealer": sealer_report, "season": season_report}[kind](kb, [logged])
    pdf = report_pdf(kb, made)
    assert pdf_ua_faults(pdf) == []
    assert second_opinion(pdf, tmp_path) == []
    assert pdf == report_pdf(kb, made)
    assert "Read and signed" in " ".join(texts(pdf))


def test_a_letter_that_no_font_has_stops_no_report(kb: KnowledgeBase, logged: LoggedSession, tmp_path: Path) -> None:
    lost = replace(EVENTS[0], note="Lid \ue0ff lot")
    report = day_report(kb, [replace(logged, events=(lost, *EVENTS[1:]))])
    pdf = report_pdf(kb, report)
    assert "Lid [U+E0FF] lot" in " ".join(texts(pdf))
    assert second_opinion(pdf, tmp_path) == []
    assert "Lid \ue0ff lot" in report_html(kb, report)


@pytest.mark.parametrize("kind", ["day", "sealer", "season"])
def test_no_cell_of_a_table_is_run_as_a_formula(kb: KnowledgeBase, logged: LoggedSession, kind: str) -> None:
    made = {"day": day_report, "sealer": sealer_report, "season": season_report}[kind](kb, [logged])
    rows = list(csv.reader(io.StringIO(report_csv(kb, made))))
    assert len({len(row) for row in rows}) == 1
    assert len(rows) > 1
    assert not [cell for row in rows for cell in row if cell.startswith(("=", "+", "@", "\t", "\r"))]
    if kind == "day":
        assert ["released" in row[5] for row in rows].count(True) == 1
        (released,) = [row for row in rows if "released" in row[5]]
        assert released[6:] == ["5 to 6", "BK", f"'{HOSTILE}"]


def test_reports_of_nothing_or_of_several_things_are_refused(kb: KnowledgeBase, logged: LoggedSession) -> None:
    elsewhere = replace(logged, session=replace(CRANK, kitchen="Fairground", sealer="motor-sealer"))
    for made in (day_report, sealer_report):
        for sessions in ([], [logged, elsewhere]):
            with pytest.raises(RecordError, match="expected sessions of one"):
                made(kb, sessions)
    with pytest.raises(RecordError, match="no session"):
        season_report(kb, [])


@pytest.fixture(scope="module")
def store(tmp_path_factory: pytest.TempPathFactory) -> Path:
    place = tmp_path_factory.mktemp("office") / "register.db"
    with open_bench_log(place) as book:
        book.take_in(LogFile("a.json", "0" * 64, "a", ((CRANK, EVENTS),)))
    return place


def run(store: Path, *arguments: str) -> Result:
    place = ["--content", str(ROOT / "content"), "--register", str(store)]
    return CliRunner().invoke(main, ["log", "report", *arguments, *place])


def test_the_commands_write_each_kind_for_its_owner_alone(store: Path, tmp_path: Path) -> None:
    files = [tmp_path / f"day{suffix}" for suffix in (".html", ".pdf", ".csv")]
    done = run(store, "day", "--date", "2026-11-14", *(word for file in files for word in ("--out", str(file))))
    assert (done.exit_code, done.stdout.splitlines()) == (0, [str(file) for file in files])
    assert [file.read_bytes()[:5] for file in files] == [b"<!doc", b"%PDF-", b"part,"]
    assert {stat.S_IMODE(file.stat().st_mode) for file in files} == {0o600}
    for name, more in (("sealer", ["bench-crank-sealer"]), ("season", ["--since", "2026-06-01"])):
        assert run(store, name, *more, "--out", str(tmp_path / f"{name}.csv")).exit_code == 0


@pytest.mark.parametrize(
    ("arguments", "code", "expected"),
    [
        (["day", "--date", "2026-11-15", "--out", "{}/x.csv"], 1, "there is no session of 2026-11-15 in the log"),
        (["day", "--date", "2026-11-14", "--out", "{}/x.docx"], 2, "expected a file ending in .html, .pdf, .csv"),
        (["day", "--date", "2026-11-14", "--out", "{}/y.csv", "--out", "{}/site/x.csv"], 1, "private records must not"),
        (["sealer", "bench-crank-saeler", "--out", "{}/x.csv"], 2, "did you mean 'bench-crank-sealer'?"),
        (["season", "--until", "2020-01-01", "--out", "{}/x.csv"], 1, "there is no session of that time in the log"),
    ],
    ids=["no-day", "kind", "published", "sealer", "no-season"],
)
def test_what_cannot_be_done_is_told_in_one_line_and_leaves_nothing(
    store: Path, tmp_path: Path, arguments: list[str], code: int, expected: str
) -> None:
    (tmp_path / "site").mkdir()
    done = run(store, *(argument.format(tmp_path) for argument in arguments))
    assert done.exit_code == code
    assert expected in done.stderr
    assert sorted(file.name for file in tmp_path.rglob("*")) == ["site"]


def test_counts_of_what_the_content_does_not_have_are_refused_with_the_nearest_name(tmp_path: Path) -> None:
    wrong = event(1, "09:00", "cause", cause="chuck-wron", defect="droop")
    place, out = tmp_path / "register.db", tmp_path / "seen-here.yml"
    with open_bench_log(place) as book:
        book.take_in(LogFile("a.json", "0" * 64, "a", ((CRANK, (wrong,)),)))
    done = CliRunner().invoke(
        main, ["log", "counts", "--out", str(out), "--content", str(ROOT / "content"), "--register", str(place)]
    )
    assert done.exit_code == 1
    assert done.stderr == (
        "the log names a cause 'chuck-wron' that the content does not have; did you mean 'chuck-worn'?\n"
    )
    assert not out.exists()


def test_a_failure_before_any_good_check_holds_cans_of_the_session_before(kb: KnowledgeBase) -> None:
    earlier = Session("2026-11-13", "Mill Street", "bench-crank-sealer")
    friday = tuple(
        Event(f"f-{number}", earlier.key, at, kind, **entries)
        for number, at, kind, entries in (
            (1, "09:00", "test-can", {"result": "good"}),
            (2, "09:30", "sealed", {"first": 1, "last": 20}),
            (3, "09:31", "visual-check", {"can_number": 20, "result": "good"}),
            (4, "09:45", "sealed", {"first": 21, "last": 26}),
        )
    )
    bad = (event(1, "09:00", "test-can", result="bad", defect="droop"),)
    before = [LoggedSession("B0001", earlier, friday, ())]
    told = report_html(kb, day_report(kb, [LoggedSession("B0002", CRANK, bad, ())], before=before))
    assert "Hold cans of November 13, 2026, too: 21 to 26 (6)" in told
    unnamed = (replace(bad[0], defect=""),)
    told = report_html(kb, day_report(kb, [LoggedSession("B0002", CRANK, unnamed, ())], before=before))
    assert "Hold cans of November 13, 2026, too: 1 to 26 (26)" in told
    assert "it has none, so go back further" in told
    good = (event(1, "09:00", "test-can", result="good"), *bad)
    told = report_html(kb, day_report(kb, [LoggedSession("B0002", CRANK, good[:1], ())], before=before))
    assert "Hold cans of" not in told


def test_an_adjustment_is_told_in_the_words_of_the_cause_it_was_done_for(starter: Path) -> None:
    """Never the field beside the field: 'filling, sort-out' is what no person says."""
    kb = load(starter)
    cause = next(iter(kb.causes.values()))
    done = event(1, "09:30", "adjustment", adjuster=str(cause.adjuster), direction=str(cause.correction.direction))
    order = cause.correction.say.rstrip(".")
    assert order[1:] in what_in_words(kb, replace(done, cause=cause.id))
    assert what_in_words(kb, replace(done, adjuster="filling", direction="sort-out", cause=cause.id)).startswith(
        "Adjustment: fill the cans another way"
    )


def test_each_way_of_each_adjuster_is_said_as_an_order() -> None:
    for adjuster in ADJUSTERS:
        for turn in Turn:
            words = say_adjusted(adjuster, turn)
            assert words[0].islower(), words
            assert " " in words, words
            assert not {"sort", "redo", "refit", "working"} & set(words.split()), words
