"""Each check has its own correction: on every sealer which way and how far, or what to do where nothing is turned."""

from __future__ import annotations

from pathlib import Path

import pytest

from tinwright.knowledge import load
from tinwright.knowledge.linking import plain_text
from tinwright.seaming.correction import LOCK, turns_text
from tinwright.site.defect_checks import branches_of, is_urgent, red_line

KB = load(Path(__file__).parents[2] / "content")
WAY = {"tighten": "tighten", "raise": "tighten", "loosen": "loosen", "lower": "loosen"}


@pytest.mark.parametrize("id_", KB.defects)
def test_every_correction_says_what_to_do_on_every_sealer(id_: str) -> None:
    for branch in branches_of(KB.defects[id_], KB):
        cause, correction = branch.cause, branch.correction
        if correction.steps:
            assert correction.steps == cause.correction.do
            assert not correction.on
            continue
        assert correction.lock == LOCK
        rows = {sealer.id: row for row in correction.on for sealer in row.sealers}
        assert set(rows) == set(KB.sealers)
        for sealer in KB.sealers.values():
            for screw in sealer.adjusters:
                if screw.adjuster == cause.adjuster:
                    row = rows[sealer.id]
                    assert row.how == getattr(screw, WAY[cause.correction.direction])
                    assert row.invented == (sealer.evidence.grade == "invented")
                    if screw.safe_step:
                        assert turns_text(screw.safe_step) in row.amount


def test_what_may_be_poison_is_left_shut_before_anything_else() -> None:
    urgent = [defect for defect in KB.defects.values() if is_urgent(defect)]
    assert urgent
    for defect in urgent:
        assert defect.can_action.disposition == "reject"
        assert "Do not open" in red_line(defect)


def test_the_red_line_is_short() -> None:
    assert max(len(plain_text(KB, red_line(defect)).split()) for defect in KB.defects.values()) <= 15
