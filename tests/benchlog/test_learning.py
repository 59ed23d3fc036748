"""Confirmed causes are counted once a session, and move the shares as the arithmetic says."""

from __future__ import annotations

import pytest

from tinwright.benchlog import Event
from tinwright.benchlog.learning import count_causes, shares_behind
from tinwright.seaming import Confirmed

DAY = ("2026-11-14", "Mill Street", "bench-crank-sealer")


def confirmed(id_: str, cause: str = "chuck-worn", session: tuple[str, str, str] = DAY, **more: bool) -> Event:
    return Event(id_, session, "10:00", "cause", cause=cause, defect="droop", **more)


def test_a_cause_counts_once_a_session_however_many_people_write_it_down() -> None:
    events = [confirmed("a-1"), confirmed("P04-3"), confirmed("a-2", session=("2026-11-21", *DAY[1:]))]
    assert count_causes(events) == (Confirmed("bench-crank-sealer", "droop", "chuck-worn", 2),)


def test_what_was_struck_out_or_only_suspected_does_not_count() -> None:
    adjusted = Event("a-2", DAY, "10:01", "adjustment", adjuster="chuck", direction="replace", cause="chuck-worn")
    assert count_causes([confirmed("a-1", struck=True), adjusted]) == ()


def test_counts_are_kept_apart_by_sealer_defect_and_cause() -> None:
    events = [confirmed("a-1"), confirmed("a-2", "chuck-loose"), confirmed("b-1", session=(*DAY[:2], "motor-sealer"))]
    assert [(count.sealer, count.cause, count.times) for count in count_causes(events)] == [
        ("bench-crank-sealer", "chuck-loose", 1),
        ("bench-crank-sealer", "chuck-worn", 1),
        ("motor-sealer", "chuck-worn", 1),
    ]


def test_without_cases_the_words_alone_give_the_shares() -> None:
    words = {"a": "rare", "b": "common", "c": "occasional"}
    assert [(share.cause, share.mean) for share in shares_behind(words, {})] == [
        ("b", pytest.approx(0.6)),
        ("c", pytest.approx(0.3)),
        ("a", pytest.approx(0.1)),
    ]


def test_a_confirmed_cause_that_the_content_does_not_name_is_there_and_counts() -> None:
    found = {share.cause: share for share in shares_behind({"a": "common"}, {"x": 6})}
    assert (found["x"].times, found["x"].total) == (6, 6)
    assert found["x"].mean == pytest.approx((10 * 0.02 / 0.62 + 6) / 16)


def test_the_interval_narrows_as_cases_come_in() -> None:
    words = {"a": "common", "b": "occasional"}
    few, many = (shares_behind(words, {"a": 2 * times, "b": times})[0] for times in (1, 100))
    assert many.high - many.low < (few.high - few.low) / 3


def test_the_only_cause_has_the_whole_share() -> None:
    (only,) = shares_behind({"a": "rare"}, {"a": 3})
    assert (only.mean, only.low, only.high) == (1.0, 1.0, 1.0)
