"""The key of every generated question, worked out again by another way, and questions that follow their records."""

from __future__ import annotations

import re
import shutil
from collections import Counter
from decimal import Decimal
from fractions import Fraction
from itertools import product
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tinwright.advice.generated_choices import _wrong_stacks
from tinwright.advice.generated_questions import KINDS, generate
from tinwright.errors import QuizError
from tinwright.knowledge import KnowledgeBase, load
from tinwright.knowledge.linking import plain_text
from tinwright.quizzes.generated_numbers import MicrometerSet, Watch, hold_question, overlap_question
from tinwright.seaming import SealerSetup, Slot, Spacer, set_up

if TYPE_CHECKING:
    from collections.abc import Callable

    from tinwright.quizzes.questions import Question

ROOT = Path(__file__).parents[2]
THOUSANDTHS = st.integers(40, 140).map(lambda number: Decimal(number).scaleb(-3))
THREE = st.tuples(THOUSANDTHS, THOUSANDTHS, THOUSANDTHS)


@pytest.fixture(scope="module")
def questions(kb: KnowledgeBase) -> tuple[Question, ...]:
    return generate(kb, seed=5)


@pytest.fixture
def edited(tmp_path: Path) -> Callable[[str, str, str], KnowledgeBase]:
    """Load a copy of the demonstration with one text put in place of another in one file."""

    def edit(path: str, old: str, new: str) -> KnowledgeBase:
        content = tmp_path / "content"
        shutil.copytree(ROOT / "content", content)
        (file,) = content.glob(f"*/{path}")
        text = file.read_text(encoding="utf-8")
        assert old in text
        file.write_text(text.replace(old, new, 1), encoding="utf-8")
        return load(content)

    return edit


def of_kind(questions: tuple[Question, ...], kind: str) -> list[Question]:
    return [question for question in questions if question.id.startswith(f"g-{kind}-")]


def named(questions: tuple[Question, ...], id_: str) -> Question:
    return next(question for question in questions if question.id == id_)


def right(question: Question) -> str:
    return question.choices[question.key[0]].text


@given(cover=THREE, body=THREE, width=THREE, plate=THOUSANDTHS)
def test_the_overlap_is_the_least_of_all_choices_of_readings(
    cover: tuple[Decimal, ...], body: tuple[Decimal, ...], width: tuple[Decimal, ...], plate: Decimal
) -> None:
    # 21 CFR 113.60(a)(1)(iii): overlap length = CH + BH + T - W. The least over every choice of points is the worst case.
    worst = min(ch + bh + plate - w for ch, bh, w in product(cover, body, width))
    question = overlap_question("q", MicrometerSet(cover, body, width, plate), "a sheet", ("term/overlap",))
    if question is None:
        assert worst <= Decimal("0.0005")
    else:
        assert question.answer == worst
        assert question.low is not None
        assert question.high is not None
        assert not any(question.low <= number <= question.high for number, _ in question.wrong_numbers)


def test_the_slips_of_an_overlap_are_those_worked_by_hand() -> None:
    readings = MicrometerSet(
        cover_hook_in=(Decimal("0.074"), Decimal("0.076"), Decimal("0.078")),
        body_hook_in=(Decimal("0.079"), Decimal("0.077"), Decimal("0.078")),
        seam_width_in=(Decimal("0.116"), Decimal("0.119"), Decimal("0.118")),
        lid_plate_in=Decimal("0.010"),
    )
    question = overlap_question("q", readings, "a sheet", ("term/overlap",))
    assert question is not None
    # worst 74+77+10-119; added +119; no plate 74+77-119; point by point 47, 44, 48: average 46.33; best 78+79+10-116
    assert question.answer == Decimal("0.042")
    assert [str(number) for number, _ in question.wrong_numbers] == ["0.280", "0.032", "0.0463", "0.051", "0.044"]


@given(st.integers(1, 500), st.integers(3, 60), st.data())
def test_the_cans_to_hold_are_those_after_the_last_good_one(good: int, made: int, data: st.DataObject) -> None:
    failed = good + made
    changed = data.draw(st.integers(good + 1, failed - 1))
    question = hold_question("q", Watch(good, changed, failed), "sealer", ("procedure/when-a-check-fails",))
    held = [can for can in range(1, failed + 1) if can > good]
    assert question.answer == len(held)
    assert question.critical
    assert all(number != len(held) for number, _ in question.wrong_numbers)


@pytest.mark.parametrize("seed", [0, 1, 2])
def test_every_overlap_key_follows_from_the_numbers_in_the_question(kb: KnowledgeBase, seed: int) -> None:
    found = generate(kb, "overlap", seed)
    assert len(found) >= 3
    for question in found:
        numbers = [Decimal(text) for text in re.findall(r"0\.\d+", question.text)]
        cover, body, width, plate = numbers[:3], numbers[3:6], numbers[6:9], numbers[9]
        assert question.answer == min(cover) + min(body) + plate - max(width)


def test_one_stack_alone_of_the_options_is_as_high_as_the_can_needs(
    kb: KnowledgeBase, questions: tuple[Question, ...]
) -> None:
    found = of_kind(questions, "stack")
    assert found
    for question in found:
        sealer = next(s for s in kb.sealers.values() if question.id.startswith(f"g-stack-{s.id}-"))
        can = question.id.removeprefix(f"g-stack-{sealer.id}-").rsplit("-", 1)[0]
        code = kb.cans[can].code.split("x")[1]
        # Can size codes: whole inches, then sixteenths (Can Manufacturers Institute).
        height = Fraction(code[:-2]) + Fraction(code[-2:]) / 16 if "." not in code else Fraction(2) + Fraction(1, 64)
        size = {spacer.name: spacer.size.inches for spacer in sealer.spacers}
        count = {spacer.name: spacer.count for spacer in sealer.spacers}
        heights = []
        for choice in question.choices:
            pieces = Counter[str]()
            for piece in choice.text.split(" and "):
                number, name = piece.split(" ", 1)
                pieces[name if name in size else name.removesuffix("s")] += int(number)
            assert all(number <= count[name] for name, number in pieces.items())
            heights.append(sum(size[name] * number for name, number in pieces.items()))
        needed = sealer.seat_height.inches - height
        assert [place for place, stack in enumerate(heights) if stack == needed] == list(question.key)


def test_sixteenths_read_as_hundredths_are_among_the_stacks(questions: tuple[Question, ...]) -> None:
    whys = [choice.why for question in of_kind(questions, "stack") for choice in question.choices]
    assert any("sixteenths of an inch" in why for why in whys)


def test_a_drawn_defect_stands_among_others_that_are_drawn_otherwise(
    kb: KnowledgeBase, questions: tuple[Question, ...]
) -> None:
    by_title = {defect.title: defect for defect in kb.defects.values()}
    found = of_kind(questions, "drawn")
    assert len(found) > 30
    for question in found:
        assert question.drawing is not None
        drawn = kb.defects[question.drawing]
        assert right(question) == drawn.title
        figures = [by_title[choice.text].figure.model_dump(exclude={"caption"}) for choice in question.choices]
        assert sum(figure == drawn.figure.model_dump(exclude={"caption"}) for figure in figures) == 1
        first = {look.defect for look in drawn.look_alikes}
        assert first & {by_title[choice.text].id for choice in question.choices}


def test_the_right_roller_and_way_are_those_of_the_cause(kb: KnowledgeBase, questions: tuple[Question, ...]) -> None:
    ways = {"tighten": "nearer the chuck", "loosen": "away from the chuck"}
    for cause in ("first-roller-loose", "first-roller-tight", "second-roller-loose", "second-roller-tight"):
        record = kb.causes[cause]
        roller = record.adjuster.replace("-", " ")
        assert right(named(questions, f"g-roller-{cause}-1")) == (
            f"Bring the {roller} {ways[record.correction.direction]}"
        )


def test_the_screw_turns_as_the_sealer_record_says(questions: tuple[Question, ...]) -> None:
    # content/sealers/bench-lever-sealer.yml: the second screw works the other way around from the first
    assert right(named(questions, "g-roller-second-roller-loose-bench-lever-sealer-1")) == (
        "Second roller screw, counterclockwise, seen from the right side"
    )
    assert right(named(questions, "g-roller-first-roller-loose-bench-lever-sealer-1")) == (
        "First roller screw, clockwise, seen from the left side"
    )


def test_steps_in_the_order_of_the_key_stand_in_that_order_in_the_procedure(
    kb: KnowledgeBase, questions: tuple[Question, ...]
) -> None:
    for question in of_kind(questions, "steps"):
        procedure = kb.procedures[question.teaches[0].removeprefix("procedure/")]
        sealer = next((kb.sealers[ref.removeprefix("sealer/")] for ref in question.teaches[1:]), None)
        drive = sealer.drive if sealer else None
        steps = [step for step in procedure.steps if not step.drives or drive in step.drives]
        texts = [plain_text(kb, step.do) for step in steps]
        chosen = [question.choices[place].text for place in question.key]
        places = [next(n for n, text in enumerate(texts) if text.startswith(choice)) for choice in chosen]
        assert places == sorted(places)
        assert 3 <= len(places) <= 7
        assert question.key != tuple(range(len(question.key)))


def test_steps_of_another_drive_are_left_out(questions: tuple[Question, ...]) -> None:
    for question in of_kind(questions, "steps"):
        if "bench-lever-sealer" in question.id:
            assert not any("until the cam" in choice.text or "plug" in choice.text for choice in question.choices)


def test_the_same_seed_gives_the_same_questions_and_another_seed_gives_others(kb: KnowledgeBase) -> None:
    assert generate(kb, seed=3) == generate(kb, seed=3)
    assert generate(kb, "overlap", 3) != generate(kb, "overlap", 4)


def test_every_question_has_its_own_id_a_why_and_records_that_there_are(
    kb: KnowledgeBase, questions: tuple[Question, ...]
) -> None:
    assert len({question.id for question in questions}) == len(questions)
    for question in questions:
        assert question.why
        assert question.teaches
        assert all(tuple(ref.split("/", 1)) in kb.records for ref in question.teaches)
        assert len({choice.text for choice in question.choices}) == len(question.choices)
        assert "[[" not in question.text + "".join(choice.text + choice.why for choice in question.choices)


def test_the_right_answer_stands_about_equally_often_at_each_place(questions: tuple[Question, ...]) -> None:
    places = Counter(q.key[0] for q in questions if q.asks == "one-answer" and len(q.choices) == 4)
    assert set(places) == {0, 1, 2, 3}
    assert max(places.values()) < 2 * min(places.values()) + 6


def test_invented_figures_are_named_as_such(questions: tuple[Question, ...]) -> None:
    assert all("invented as an example" in question.text for question in of_kind(questions, "stack"))
    assert all("Invented" in question.text for question in of_kind(questions, "overlap"))


def test_a_thinner_lid_plate_changes_the_overlap_and_nothing_else(
    kb: KnowledgeBase, edited: Callable[[str, str, str], KnowledgeBase]
) -> None:
    changed = edited("seam-specifications/demo-307.yml", "end_plate: 0.010 in", "end_plate: 0.009 in")
    before, after = generate(kb), generate(changed)
    assert named(after, "g-overlap-demo-307-1").answer == named(before, "g-overlap-demo-307-1").answer - Decimal(
        "0.001"
    )  # type: ignore[operator]
    others = [q for q in before if not q.id.startswith("g-overlap-demo-307-")]
    assert others == [q for q in after if not q.id.startswith("g-overlap-demo-307-")]


def test_another_seat_height_changes_the_stack(
    kb: KnowledgeBase, edited: Callable[[str, str, str], KnowledgeBase]
) -> None:
    changed = edited("sealers/bench-crank-sealer.yml", "seat_height: 5 1/16 in", "seat_height: 5 3/16 in")
    id_ = "g-stack-bench-crank-sealer-301x411-1"
    assert right(named(generate(kb), id_)) == "1 thick spacer"
    assert right(named(generate(changed), id_)) == "1 thick spacer and 1 thin spacer"


def test_a_correction_turned_round_turns_the_key_round(edited: Callable[[str, str, str], KnowledgeBase]) -> None:
    changed = edited("causes/second-roller-loose.yml", "direction: tighten", "direction: loosen")
    assert right(named(generate(changed), "g-roller-second-roller-loose-1")) == (
        "Bring the second roller away from the chuck"
    )


def test_a_new_title_of_a_defect_is_the_new_right_answer(starter: Path) -> None:
    file = starter / "defects" / "droop.yml"
    file.write_text(file.read_text("utf-8").replace("title: Droop", "title: Sag"), "utf-8")
    assert right(named(generate(load(starter)), "g-drawn-droop-1")) == "Sag"


def test_fewer_cans_between_checks_mean_fewer_to_hold(edited: Callable[[str, str, str], KnowledgeBase]) -> None:
    changed = edited("program.yml", "recheck_cans: 24", "recheck_cans: 6")
    assert all(question.answer <= 6 for question in generate(changed, "hold"))  # type: ignore[operator]


def test_an_unknown_kind_is_refused_with_the_nearest_one(kb: KnowledgeBase) -> None:
    with pytest.raises(QuizError, match="did you mean 'stack'"):
        generate(kb, "stacks")
    assert list(KINDS) == ["overlap", "stack", "drawn", "roller", "steps", "hold"]


def test_hundredths_for_sixteenths_lead_to_the_nearest_stack() -> None:
    """301x408 is 4 8/16 in: read as 4.08 in it leaves 0.92 in of a seat of 5 in, and 15/16 in is nearest to that."""
    spacers = tuple(Spacer(f"{number}/16", Fraction(number, 16), 1) for number in (1, 8, 15))
    found = set_up("301x408", SealerSetup(("301",), Fraction(5), spacers, (Slot("1", ("301",)),)))
    [slip] = [stack for stack, why in _wrong_stacks(found, spacers) if "as hundredths" in why]
    assert slip.height_in == Fraction(15, 16)
