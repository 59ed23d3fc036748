"""The browser's half gives the same answers as the Python half."""

from __future__ import annotations

import json
from dataclasses import asdict
from typing import TYPE_CHECKING

import numpy as np
import pytest

from seaming.twin import (
    ANSWERS,
    DEFECT_IDS,
    DIMENSIONS_MOVED,
    in_browser,
    plain,
    run_node,
    seeded,
    some_causes,
    some_screw,
)
from tinwright.seaming import (
    ADJUSTERS,
    DIMENSIONS,
    FORMULAS,
    Check,
    Limit,
    Reading,
    SeamLimits,
    SeamReadings,
    SeenDefect,
    Signs,
    correct,
    expected_minutes,
    find_amounts,
    find_directions,
    find_next,
    find_questions,
    find_unit,
    judge,
    length_text,
    order_checks,
    parse_percent,
    parse_reading,
    rank,
    span_text,
)

if TYPE_CHECKING:
    import random
    from collections.abc import Callable
    from fractions import Fraction

SYMBOLS = ("CH", "BH", "W", "S", "Te", "Tb", "G")
SEAMS = 100_000


def test_every_function_has_its_name_in_the_browser() -> None:
    names = json.loads(run_node("process.stdout.write(JSON.stringify(Object.keys(seaming)));", b""))
    for name in ("parse_reading", "judge", "rank", "order_checks", "find_next", "correct", "find_questions"):
        first, *others = name.split("_")
        assert first + "".join(word.capitalize() for word in others) in names


def generated_seams() -> np.ndarray:
    """Half on the thousandth as a gauge shows it, half anywhere."""
    rng = np.random.default_rng(11)
    low = np.array([0.030, 0.030, 0.090, 0.040, 0.005, 0.005, 0.0])
    high = np.array([0.100, 0.100, 0.150, 0.080, 0.014, 0.014, 0.008])
    seams = rng.uniform(low, high, size=(SEAMS, len(SYMBOLS)))
    seams[: SEAMS // 2] = np.round(seams[: SEAMS // 2], 3)
    return seams


def test_seam_arithmetic_is_equal_bit_for_bit() -> None:
    seams = generated_seams()
    errors = {"CH": 0.001, "BH": 0.001, "W": 0.001, "S": 0.0005, "Te": 0.0005, "Tb": 0.0003, "G": 0.0001}
    script = f"""
    const given = new Float64Array(input.buffer, input.byteOffset, input.length / 8);
    const symbols = {json.dumps(SYMBOLS)}, errors = {json.dumps(errors)};
    const names = Object.keys(seaming.formulas), found = new Float64Array({SEAMS} * names.length * 2);
    let place = 0;
    for (let row = 0; row < {SEAMS}; row += 1) {{
      const values = {{}};
      symbols.forEach((symbol, column) => {{ values[symbol] = given[row * symbols.length + column]; }});
      for (const name of names) {{
        found[place] = seaming.formulaValue(name, values);
        found[place + 1] = seaming.formulaUncertainty(name, values, errors);
        place += 2;
      }}
    }}
    process.stdout.write(Buffer.from(found.buffer));
    """
    raw = np.frombuffer(run_node(script, seams.tobytes()), dtype=np.float64).reshape(SEAMS, len(FORMULAS), 2)
    for column, formula in enumerate(FORMULAS.values()):
        given = [seams[:, SYMBOLS.index(symbol)] for symbol in formula.symbols]
        rows = list(zip(*(values.tolist() for values in given), strict=True))
        evaluate = formula.arithmetic.evaluate
        values = np.array([evaluate(*row) for row in rows])
        assert values.tobytes() == raw[:, column, 0].tobytes(), formula.name
        assert values.tobytes() == np.asarray(evaluate(*given)).tobytes(), formula.name
        # The uncertainty costs more in Python: every tenth seam.
        some = [formula.uncertainty(dict(zip(formula.symbols, row, strict=True)), errors) for row in rows[::10]]
        assert np.array(some).tobytes() == raw[::10, column, 1].tobytes(), formula.name


def some_signs(rng: random.Random) -> Signs:
    defects = [defect for defect in DEFECT_IDS if rng.random() < 0.3]
    absent = [defect for defect in DEFECT_IDS if defect not in defects and rng.random() < 0.2]
    return Signs(
        tuple(defects),
        tuple(absent),
        {
            dimension: rng.choice(("larger", "smaller", "normal", "varies"))
            for dimension in DIMENSIONS_MOVED
            if rng.random() < 0.3
        },
        rng.choice((None, *ANSWERS["extent"])),
        rng.choice((None, *ANSWERS["repeats"])),
        rng.choice((None, *ANSWERS["change"])),
    )


@pytest.fixture(scope="module")
def cases(cases_of: Callable[[int], int]) -> list[tuple[list, Signs]]:
    rng = seeded(5)
    return [(some_causes(rng, ADJUSTERS), some_signs(rng)) for _ in range(cases_of(10_000))]


def test_ranking_is_equal(cases: list[tuple[list, Signs]]) -> None:
    found = in_browser("rank", [[plain(causes), plain(signs)] for causes, signs in cases])
    for (causes, signs), browser in zip(cases, found, strict=True):
        assert plain(rank(causes, signs)) == browser


def test_the_next_question_is_equal(cases: list[tuple[list, Signs]]) -> None:
    some = cases[::5]
    found = in_browser("findNext", [[plain(causes), plain(signs)] for causes, signs in some])
    for (causes, signs), browser in zip(some, found, strict=True):
        assert plain(find_next(causes, signs)) == browser


def test_the_order_of_checks_is_equal() -> None:
    rng = seeded(6)
    given = [
        [
            Check(f"c{place}", rng.choice(ADJUSTERS), rng.randint(1, 20), rng.choice([0.0, 0.05, 0.1, rng.random()]))
            for place in range(rng.randint(0, 9))
        ]
        for _ in range(2000)
    ]
    found = in_browser("orderChecks", [[plain(checks)] for checks in given])
    minutes = in_browser("expectedMinutes", [[plain(checks)] for checks in given])
    for checks, order, expected in zip(given, found, minutes, strict=True):
        assert plain(order_checks(checks)) == order
        assert expected_minutes(checks) == expected


ENTRIES = [
    *(".055", "55 thou", "0.055", "1.40 mm", "0.055 in", "55", "0,055", "5/64", "1 3/64 in", "2-11/64 in", "", "x"),
    *(
        "0",
        "1/0",
        "1234",
        "9 mm",
        "9",
        "19",
        "20",
        ".118 .",
        '.055"',
        "55 THOUSANDTHS",
        "\u00a0.055",
        "5.",
        ".",
        "70 %",
    ),
    *(
        "0.7",
        "101",
        "100",
        "1",
        "123456789",
        "1234567890",
        "0.1234567",
        "12.34567 mm",
        "-0.1",
        "1,2,3",
        "7/9 mm",
        "constructor",
    ),
]


@pytest.mark.parametrize("unit", ["in", "mm"])
def test_entries_are_read_alike(unit: str) -> None:
    rng = seeded(8)
    texts = ENTRIES + ["".join(rng.choices('0123456789./ ,inmthouMM%"-', k=rng.randint(1, 9))) for _ in range(3000)]
    texts += [f"{rng.randint(0, 400) / 100} mm" for _ in range(500)]
    for parse, name, more in ((parse_reading, "parseReading", (unit,)), (parse_percent, "parsePercent", ())):
        found = in_browser(name, [[text, *more] for text in texts])
        for text, browser in zip(texts, found, strict=True):
            entry = parse(text, *more)
            python = {
                **asdict(entry),
                **{name: _float(getattr(entry, name)) for name in ("value", "suggestion", "step")},
            }
            assert python == browser


def _float(value: Fraction | None) -> float | None:
    return None if value is None else float(value)


AROUND = {"countersink": 125, "seam-width": 118, "seam-thickness": 55, "body-hook": 78, "cover-hook": 76}


def sound_seam(rng: random.Random) -> SeamReadings:
    """Return readings near the aims: of other seams hardly one is accepted."""
    readings = [
        Reading(dimension, point, (middle + rng.randint(-1, 1)) / 1000)
        for dimension, middle in AROUND.items()
        for point in "1234"
    ]
    return SeamReadings("micrometer", (*readings, Reading("tightness", "1", 90)), 0.010, 0.010)


def some_seam(rng: random.Random) -> SeamReadings:
    wide = rng.choice([3, 12])
    slips = rng.choice([[1000], [1000] * 30 + [100, 39.37, 1e4], [39.37, 1000], [25400]])
    steps = [0.0, 0.001, 0.01, 0.01 / 25.4]
    readings = [
        Reading(
            dimension,
            str(point),
            (middle + rng.randint(-wide, wide)) / rng.choice(slips),
            rng.choice(steps),
        )
        for dimension, middle in AROUND.items()
        if rng.random() < 0.85
        for point in range(1, rng.choice([2, 3, 4, 4, 4, 5]))
    ]
    if rng.random() < 0.5:
        readings.append(Reading("tightness", "1", rng.choice([60, 70, 75, 90])))
    if rng.random() < 0.15:
        readings += [Reading("overlap", point, rng.randint(-5, 50) / 1000, rng.choice(steps)) for point in "12"]
    plates = [rng.choice([0.010, 0.010, 0.009, 0.0097, 0.022, 0.05, None]) for _ in range(2)]
    method, unit = rng.choice(["micrometer", "optical"]), rng.choice(["in", "in", "mm"])
    return SeamReadings(method, tuple(readings), *plates, rng.choice(steps), rng.choice(steps), unit)


def some_limits(rng: random.Random) -> SeamLimits | None:
    if rng.random() < 0.15:
        return None
    middles = {"countersink": 125, "seam-width": 118, "seam-thickness": 55, "body-hook": 78, "overlap": 42}
    limits = tuple(
        Limit(
            dimension,
            rng.choice([None, (middle - rng.randint(3, 9)) / 1000]),
            rng.choice([None, middle / 1000]),
            rng.choice([None, (middle + rng.randint(3, 9)) / 1000]),
        )
        for dimension, middle in middles.items()
        if rng.random() < 0.8
    )
    return SeamLimits(
        limits,
        rng.choice([None, 45.0]),
        rng.choice("ABC"),
        rng.choice([None, 70.0]),
        rng.choice([None, 70.0]),
        rng.choice([None, 0.010, 0.011]),
        rng.choice([None, 0.010, 0.009]),
    )


def test_verdicts_questions_and_directions_are_equal(cases_of: Callable[[int], int]) -> None:
    rng = seeded(9)
    given = []
    for _ in range(cases_of(3000)):
        errors = {name: rng.choice([0.0, 0.0005, 0.001]) for name in (*DIMENSIONS, "end-plate") if rng.random() < 0.7}
        defects = [
            SeenDefect("d", "A defect", disposition)
            for disposition in ("reject", "hold", "cosmetic", "discard-part")
            if rng.random() < 0.05
        ]
        seam = sound_seam(rng) if rng.random() < 0.2 else some_seam(rng)
        given.append((seam, some_limits(rng), errors, defects, rng.choice("ABC")))
    calls = [plain(case) for case in given]
    verdicts = [judge(*case) for case in given]
    said = [[plain(verdict)] for verdict in verdicts]
    found = in_browser("judge", calls)
    directions = in_browser("findDirections", said)
    amounts = in_browser("findAmounts", said)
    questions = in_browser("findQuestions", [call[:3] for call in calls])
    outcomes, kinds = set(), set()
    told = zip(given, verdicts, said, found, directions, amounts, questions, strict=True)
    for case, verdict, [python], browser, ways, out_by, asked in told:
        for mine, theirs in zip(python["parts"], browser["parts"], strict=True):
            # The normal distribution is not arithmetic: equal to 1e-12 is enough.
            assert mine.pop("probability") == pytest.approx(theirs.pop("probability"), abs=1e-12)
        assert python == browser
        assert find_directions(verdict) == ways
        assert find_amounts(verdict) == out_by
        assert plain(find_questions(*case[:3])) == asked
        outcomes.add(verdict.outcome)
        kinds |= {question["kind"] for question in asked}
    assert outcomes == {"accept", "measure-again", "reject", "no-limit"}
    assert kinds == {
        *("unit", "millimeters", "decimal-point", "spread", "plate-missing", "plate-odd", "plate-differs"),
        *("too-few-points", "hook-longer-than-seam", "width-too-small", "free-space-negative", "more-than-room"),
        "overlap-contradicts",
    }


@pytest.mark.parametrize("unit", ["in", "mm"])
def test_values_are_written_alike(unit: str) -> None:
    rng = seeded(12)
    values = [rng.choice([rng.uniform(-0.01, 0.2), rng.randint(0, 400) / 100 / 25.4]) for _ in range(2000)]
    assert in_browser("lengthText", [[value, unit] for value in values]) == [length_text(each, unit) for each in values]
    spans = [[rng.choice(DIMENSIONS), *sorted(rng.sample(values, 2)), unit] for _ in range(1000)]
    assert in_browser("spanText", spans) == [span_text(*span) for span in spans]
    written = [[[rng.choice(["in", "mm"]) for _ in range(rng.randint(0, 4))], unit] for _ in range(50)]
    assert in_browser("findUnit", written) == [find_unit(*each) for each in written]


def test_corrections_are_equal() -> None:
    rng = seeded(10)
    given = []
    for _ in range(2000):
        screw = some_screw(rng)
        direction = rng.choice(["tighten", "loosen", "raise", "lower", "replace", "refit", "clean", "sort-out", "redo"])
        out_by = rng.choice([None, 0.0, 0.00625, 0.0125, rng.random() / 50])
        given.append((rng.choice(ADJUSTERS), direction, rng.choice([screw, None]), out_by))
    found = in_browser("correct", [plain(case) for case in given])
    for case, browser in zip(given, found, strict=True):
        assert plain(correct(*case)) == browser


def test_a_formula_is_shown_with_the_numbers_put_in_alike() -> None:
    numbers = {"CH": "0.076", "BH": "0.078", "Te": "0.010", "Tb": "0.009", "W": "0.118", "S": "0.055", "G": "0.004"}
    found = in_browser("formulaPlain", [[name, numbers] for name in FORMULAS])
    assert found == [formula.plain(numbers) for formula in FORMULAS.values()]
