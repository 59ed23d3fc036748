"""The bench log in the store: every version kept, the most cautious one counts, the order of files does not matter."""

from __future__ import annotations

import itertools
import json
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
import sqlalchemy as sa
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from benchlog.test_the_rule_in_words import DISPOSITIONS, REACHES
from benchlog.test_the_rule_in_words import a_day as a_random_day
from benchlog_files import CRANK, a_file, an_event
from register_entries import MAY
from tinwright.benchlog import still_held
from tinwright.benchlog.ranges import cans_in_words
from tinwright.errors import RecordError
from tinwright.logbook import BenchLog, open_bench_log
from tinwright.logbook.merging import digest_of
from tinwright.logbook.rows import row_of
from tinwright.register import Register
from tinwright.store.migrating import bring_up_to_date
from tinwright.store.store import _engine_for
from tinwright.store.tables import metadata

if TYPE_CHECKING:
    import random
    from pathlib import Path

    from tinwright.benchlog import Event
    from tinwright.logbook import LoggedSession


@pytest.fixture
def log(register: Register) -> BenchLog:
    return BenchLog(register.store, register.by)


def only(log: BenchLog) -> LoggedSession:
    (session,) = log.sessions()
    return session


def test_the_same_file_twice_changes_nothing_and_says_so(log: BenchLog, register: Register) -> None:
    file = a_file([an_event("a-1"), an_event("a-2", "jam")])
    assert log.take_in(file).added == 2
    before = register.export()
    assert log.take_in(file).again
    assert register.export() == before


def test_a_later_export_adds_what_is_new_and_keeps_the_older_versions(log: BenchLog, register: Register) -> None:
    log.take_in(a_file([an_event("a-1"), an_event("a-2", "jam")]))
    later = [an_event("a-1"), an_event("a-2", "jam", revision=2, struck=True), an_event("a-3", "pause")]
    found = log.take_in(a_file(later))
    assert (found.added, found.revised, found.same, found.disputes) == (1, 1, 1, ())
    assert list(only(log).events) == later
    assert only(log).disputes == ()
    assert len(register.export()["bench_event"]) == 4


def test_an_older_export_that_comes_late_is_kept_as_history(log: BenchLog) -> None:
    log.take_in(a_file([an_event("a-1", revision=3, result="bad")]))
    found = log.take_in(a_file([an_event("a-1")]))
    assert (found.older, found.revised, found.added) == (1, 0, 0)
    assert only(log).events[0].result == "bad"


@pytest.mark.parametrize(
    ("one", "other"),
    [
        (an_event("a-1", result="bad"), an_event("a-1")),
        (an_event("a-1", struck=True), an_event("a-1")),
        (an_event("a-1", result="bad"), an_event("a-1", struck=True)),
        (an_event("a-1", "hold", first=1, last=24), an_event("a-1", "hold", first=1, last=12)),
        (
            an_event("a-1", "release", first=1, last=2, by="AE", reason="x"),
            an_event("a-1", "release", first=1, last=9, by="AE", reason="x"),
        ),
        (an_event("a-1", "discard", first=1, last=2, struck=True), an_event("a-1", "discard", first=1, last=2)),
        (an_event("a-1", "sealed", first=1, last=24), an_event("a-1", "sealed", first=1, last=24, struck=True)),
    ],
)
def test_of_two_ways_to_tell_it_the_more_cautious_one_counts_until_somebody_chooses(
    sqlite_place: str, one: Event, other: Event
) -> None:
    with open_bench_log(sqlite_place) as log:
        for source, event in (("b", other), ("c", one)):
            found = log.take_in(a_file([event], source))
        assert found.disputes == (("B0001", "a-1"),)
        assert only(log).events == (one,)
        (dispute,) = only(log).open_disputes
        assert {(version.source, version.event, version.counts) for version in dispute.versions} == {
            ("c", one, True),
            ("b", other, False),
        }
        (version,) = [version for version in dispute.versions if version.event == other]
        log.choose("b1", "a-1", version.digest[:6], by="AE", reason="asked BK")
        assert only(log).events == (other,)
        assert only(log).open_disputes == ()
        assert len(only(log).disputes) == 1


def test_a_choice_holds_until_there_is_another_version(log: BenchLog, register: Register) -> None:
    good, bad = an_event("a-1"), an_event("a-1", result="bad")
    log.take_in(a_file([good], "b"))
    log.take_in(a_file([bad], "c"))
    digest = next(version.digest for version in only(log).disputes[0].versions if version.event == good)
    log.choose("B0001", "a-1", digest, by="AE", reason="asked")
    assert only(log).events == (good,)
    log.take_in(a_file([replace(good, note="third")], "d"))
    assert only(log).events == (bad,)
    assert len(only(log).open_disputes) == 1
    log.take_in(a_file([replace(good, revision=2)], "b"))
    assert only(log).events == (replace(good, revision=2),)
    assert only(log).disputes == ()
    what = [(line.what, line.subject) for line in register.changes()]
    assert what.count(("bench log: version chosen", "B0001 a-1")) == 1
    assert [subject for said, subject in what if said == "bench log taken in"] == ["I0001", "I0002", "I0003", "I0004"]


def test_what_can_not_be_chosen_is_refused(log: BenchLog) -> None:
    log.take_in(a_file([an_event("a-1"), an_event("a-2")]))
    log.take_in(a_file([an_event("a-1", result="bad")], "c"))
    for session, event, version, message in (
        ("B0009", "a-1", "0", "no session of the bench log is called 'B0009'"),
        ("B0001", "a-2", "0", r"'a-2' was not written down in more than one way; what was: a-1"),
        ("B0001", "a-1", "", "expected one of the versions"),
        ("B0001", "a-1", "xyz", "expected one of the versions"),
    ):
        with pytest.raises(RecordError, match=message):
            log.choose(session, event, version, by="AE", reason="asked")


def test_heads_that_differ_are_kept_and_shown_and_one_can_be_chosen(log: BenchLog) -> None:
    log.take_in(a_file([an_event("a-1")], "a", replace(CRANK, product="green beans", lid_lot="A1")))
    same = log.take_in(a_file([an_event("b-1")], "b", replace(CRANK, product="Green  Beans")))
    assert same.disputes == ()
    found = log.take_in(a_file([an_event("c-1")], "c", replace(CRANK, product="corn")))
    assert found.disputes == (("B0001", "head"),)
    (dispute,) = only(log).open_disputes
    digest = next(one.digest for one in dispute.versions if one.head and one.head.product == "corn")
    log.choose("B0001", "head", digest, by="AE", reason="asked")
    assert only(log).session == replace(CRANK, product="corn", lid_lot="A1")
    assert only(log).open_disputes == ()


def test_a_head_corrected_on_the_same_telephone_is_no_dispute(log: BenchLog) -> None:
    log.take_in(a_file([an_event("a-1")], "a", replace(CRANK, product="corn")))
    log.take_in(a_file([an_event("a-1"), an_event("a-2")], "a", replace(CRANK, product="beans")))
    assert (only(log).session.product, only(log).disputes) == ("beans", ())


def test_the_desk_holds_releases_and_discards(log: BenchLog, register: Register) -> None:
    log.take_in(a_file([an_event("a-1", "sealed", first=1, last=24)]))
    log.write_at_desk("B0001", "hold", (1, 24), at="17:00")
    log.write_at_desk("B0001", "release", (1, 12), at="17:30", by="AE", reason="torn down")
    log.write_at_desk("B0001", "discard", (13, 24), at="17:31")
    assert [(event.id, event.kind) for event in only(log).events[1:]] == [
        ("desk-1", "hold"),
        ("desk-2", "release"),
        ("desk-3", "discard"),
    ]
    for cans, by, reason, message in (
        ((1, 2), "", "x", "by: expected one for cans released, got nothing"),
        ((1, 2), "AE", " ", "reason: expected one for cans released, got nothing"),
        ((3, 2), "AE", "x", "last: expected 3 or more, got 2"),
    ):
        with pytest.raises(RecordError, match=message):
            log.write_at_desk("B0001", "release", cans, at="17:40", by=by, reason=reason)
    assert [line.what for line in register.changes()][-3:] == ["cans held", "cans released", "cans discarded"]


_EVENTS = st.builds(
    an_event,
    st.sampled_from(["a-1", "a-2", "b-1"]),
    result=st.sampled_from(["good", "bad"]),
    revision=st.integers(1, 3),
    struck=st.booleans(),
    by=st.sampled_from(["", "AE"]),
)
_FILES = st.lists(
    st.tuples(st.lists(_EVENTS, max_size=4), st.sampled_from("abc"), st.sampled_from(["", "corn", "beans"])),
    min_size=2,
    max_size=4,
)


# not made smaller when it fails: each example makes two stores
@settings(
    max_examples=25,
    phases=[Phase.reuse, Phase.generate],
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)
@given(_FILES, st.randoms(use_true_random=False))
def test_the_order_of_files_and_taking_them_in_again_do_not_matter(
    tmp_path_factory: pytest.TempPathFactory, told: list[tuple[list[Event], str, str]], chance: object
) -> None:
    files = [a_file(events, source, replace(CRANK, product=product)) for events, source, product in told]
    shuffled = [*files, *files]
    chance.shuffle(shuffled)  # type: ignore[attr-defined]
    stands = []
    for order in (files, shuffled):
        with open_bench_log(tmp_path_factory.mktemp("log") / "register.db") as log:
            for file in order:
                log.take_in(file)
            stands.append([(one.session, one.events, _in_short(one)) for one in log.sessions()])
    assert stands[0] == stands[1]


def _in_short(logged: LoggedSession) -> list[object]:
    return [(row.event_id, [(one.digest, one.counts) for one in row.versions]) for row in logged.disputes]


def test_days_are_read_by_date_kitchen_and_sealer(log: BenchLog) -> None:
    days = itertools.product(["2026-11-21", "2026-11-14"], ["Mill Street", "Fairground"], ["b", "a"])
    for number, (date, kitchen, sealer) in enumerate(days):
        head = replace(CRANK, date=date, kitchen=kitchen, sealer=sealer)
        log.take_in(a_file([replace(an_event(f"a-{number}"), session=head.key)], head=head))
    keys = [logged.session.key for logged in log.sessions()]
    assert keys == sorted(keys)
    assert len(keys) == 8
    assert len(list(log.sessions(since="2026-11-15"))) == 4
    assert [one.session.key for one in log.sessions(until="2026-11-14", kitchen="Fairground", sealer="a")] == [
        ("2026-11-14", "Fairground", "a")
    ]


def test_a_person_erased_is_gone_from_the_log_and_the_events_stay(register: Register, log: BenchLog) -> None:
    ann = register.add_volunteer("Ann Oakapple", added_on=MAY).id
    ben = register.add_volunteer("Ben Example", added_on=MAY).id
    head = replace(CRANK, supervisor=ann)
    told = [
        an_event("a-1", by=ann),
        an_event("a-2", by=ben, note="seen by ann oakapple"),
        an_event("a-3", by=f"{ann}0"),
    ]
    log.take_in(a_file(told, head=head))
    log.take_in(a_file([an_event("a-1", by=ann, result="bad")], "c", head=head))
    digest = next(one.digest for one in only(log).disputes[0].versions if one.event == told[0])
    log.choose("B0001", "a-1", digest, by=ann, reason="Ann Oakapple saw it")
    register.erase(ann, MAY)
    kept = only(log)
    assert kept.session.supervisor == "(erased)"
    assert [(event.id, event.result, event.by, event.note) for event in kept.events] == [
        ("a-1", "good", "(erased)", ""),
        ("a-2", "good", ben, "seen by (erased)"),
        ("a-3", "good", f"{ann}0", ""),
    ]
    assert kept.open_disputes == ()
    everything = json.dumps({name: rows for name, rows in register.export().items() if name.startswith("bench")})
    assert "oakapple" not in everything.casefold()
    assert f'"{ann}"' not in everything


def test_an_older_file_does_not_bring_an_erased_person_back(register: Register, log: BenchLog) -> None:
    ann = register.add_volunteer("Ann Oakapple", added_on=MAY).id
    events = [an_event("a-1", by=ann)]
    log.take_in(a_file(events, head=replace(CRANK, supervisor=ann)))
    register.erase(ann, MAY)
    found = log.take_in(a_file([*events, an_event("a-2", by=ann)], head=replace(CRANK, supervisor=ann)))
    assert (found.added, found.same, found.disputes) == (1, 1, ())
    assert {event.by for event in only(log).events} == {"(erased)"}
    assert only(log).session.supervisor == "(erased)"


def test_no_trace_of_the_person_is_left_in_the_file(tmp_path: Path) -> None:
    with open_bench_log(tmp_path / "register.db") as log:
        register = Register(log._store, "tester")
        ann = register.add_volunteer("Ann Oakapple", added_on=MAY).id
        log.take_in(a_file([an_event("a-1", by=ann, note="Ann Oakapple was tired")]))
        register.erase(ann, MAY)
        assert [file.name for file in tmp_path.iterdir() if b"oakapple" in file.read_bytes().lower()] == []


def test_a_line_that_says_nothing_new_keeps_the_digest_it_always_had() -> None:
    """Else a log that was kept before would differ from the very same file imported once more."""
    event = an_event("desk-1", "release", at="17:01", by="AE", first=13, last=17, reason="opened")
    assert digest_of(event) == "28a4c3a6d374e71cdc82792e72fb76d0"
    changed = [replace(event, run="B"), replace(event, on="2026-11-15"), replace(event, after="a-3")]
    assert len({digest_of(each) for each in (event, *changed)}) == 4


def test_a_store_of_before_keeps_what_the_desk_released(sqlite_place: str) -> None:
    """A release of before comes after what the store held by then, and not after what came later."""
    engine, shown = _engine_for(sqlite_place, create=True)
    bring_up_to_date(engine, shown, to="0003")
    day = [
        an_event("a-1", "sealed", first=1, last=20),
        an_event("a-2", "visual-check", can_number=17, result="bad", defect="vee"),
        an_event("desk-1", "release", first=1, last=20, by="AE", reason="opened"),
        an_event("b-1", "visual-check", can_number=5, result="bad", defect="vee"),
    ]
    table = sa.table("bench_event", *(sa.column(name) for name in row_of(day[0]) if name not in {"run", "on", "after"}))
    for name in ("session", "digest", "counts", "import_number"):
        table.append_column(sa.column(name))
    with engine.connect().execution_options(writes=True) as connection, connection.begin():
        key = dict(zip(("date", "kitchen", "sealer"), CRANK.key, strict=True))
        connection.execute(sa.insert(metadata.tables["bench_session"]).values(number=1, **key))
        connection.execute(
            sa.insert(metadata.tables["bench_import"]).values(
                number=1, digest="d", file="f", source="a", at="x", by="y"
            )
        )
        for event in day:
            row = {name: value for name, value in row_of(event).items() if name not in {"run", "on", "after"}}
            from_desk = event.id.startswith("desk")
            more = {"session": 1, "digest": event.id, "counts": True, "import_number": None if from_desk else 1}
            connection.execute(sa.insert(table).values(**row, **more))
    engine.dispose()
    with open_bench_log(sqlite_place) as log:
        events = only(log).events
    assert [(event.id, event.after) for event in events] == [("a-1", ""), ("a-2", ""), ("b-1", ""), ("desk-1", "a-2")]
    until_then = [event for event in events if event.id != "b-1"]
    assert cans_in_words(still_held(until_then).cans) == "17"
    assert cans_in_words(still_held(events).cans) == "1 to 20"


def test_the_desk_comes_after_all_that_is_there_and_keeps_its_day(log: BenchLog) -> None:
    bad = an_event("a-2", "visual-check", can_number=17, result="bad", defect="vee")
    log.take_in(a_file([an_event("a-1", "sealed", first=1, last=17), bad]))
    made = log.write_at_desk("B0001", "release", (1, 16), at="08:00", on="2026-11-15", by="AE", reason="opened")
    assert (made.at, made.on, made.after) == ("08:00", "2026-11-15", "a-2")
    assert cans_in_words(still_held(only(log).events).cans) == "17"
    with pytest.raises(RecordError, match="found bad: 17; a can that was found bad is never released"):
        log.write_at_desk("B0001", "release", (17, 17), at="08:00", on="2026-11-15", by="AE", reason="opened")
    later = an_event("b-1", "visual-check", can_number=5, result="bad", defect="vee", at="07:00")
    log.take_in(a_file([later], "b"))
    assert cans_in_words(still_held(only(log).events).cans) == "1 to 17"


@settings(max_examples=20, deadline=None, phases=(Phase.explicit, Phase.reuse, Phase.generate))
@given(seed=st.integers(0, 2**40), order=st.randoms(use_true_random=False))
def test_the_same_cans_are_held_in_whatever_order_files_come(
    tmp_path_factory: pytest.TempPathFactory, seed: int, order: random.Random
) -> None:
    day = [replace(event, session=CRANK.key) for event in a_random_day(seed, alone=False)]
    files = {
        source: [event for event in day if event.id.split("-")[0] == source] for source in ("a", "b", "P04", "desk")
    }
    sources = [source for source, events in files.items() if events]
    order.shuffle(sources)
    with open_bench_log(str(tmp_path_factory.mktemp("store") / "register.db")) as log:
        for source in sources:
            log.take_in(a_file(files[source], source))
        held = [still_held(each.events, DISPOSITIONS, REACHES) for each in log.sessions()]
    assert held == [still_held(day, DISPOSITIONS, REACHES)] * bool(day)
