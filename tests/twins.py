"""Which script is the twin of which Python module, and the test that holds the two together.

Each line: the script, its module in the package, and the file and function of the parity test. `tests/test_twins.py` walks
the table; a script that calls itself a twin must stand in it.
"""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["CASES", "NO_CASES", "TWINS", "Twin"]


@dataclass(frozen=True)
class Twin:
    """A script and a Python module that give the same answers."""

    script: str
    """Its file's name."""
    module: str
    """The module in the package, as a path."""
    test: str
    """The parity test: file in `tests`, two colons, function."""


_SEAMING = "seaming/test_browser_twin.py::"
_LOG = "benchlog/test_browser_twin.py::"
_PHONE = "advice/test_phone_advice.py::"
_BENCHED = "practice/test_browser_twin.py::"
_FORGED = "attack/test_certificates.py::test_both_checkers_give_the_answer_of_every_case"
_DRAWN = "advice/test_phone_drawing.py::"

TWINS = (
    Twin("seaming-wording.js", "seaming/wording.py", f"{_SEAMING}test_values_are_written_alike"),
    Twin("seaming-readings.js", "seaming/readings.py", f"{_SEAMING}test_entries_are_read_alike"),
    Twin(
        "seaming-formulas.js",
        "seaming/generated_formulas.py",
        f"{_SEAMING}test_seam_arithmetic_is_equal_bit_for_bit",
    ),
    Twin(
        "seaming-sentences.js",
        "seaming/sentences.py",
        "codegen/test_generated.py::test_what_is_printed_is_fresh",
    ),
    Twin(
        "seaming-formula.js",
        "seaming/formula.py",
        f"{_SEAMING}test_seam_arithmetic_is_equal_bit_for_bit",
    ),
    Twin("seaming-computed.js", "seaming/computed.py", f"{_SEAMING}test_verdicts_questions_and_directions_are_equal"),
    Twin("seaming-questions.js", "seaming/questions.py", f"{_SEAMING}test_verdicts_questions_and_directions_are_equal"),
    Twin("seaming-guard.js", "seaming/guard.py", f"{_SEAMING}test_verdicts_questions_and_directions_are_equal"),
    Twin("seaming-verdict.js", "seaming/verdict.py", f"{_SEAMING}test_verdicts_questions_and_directions_are_equal"),
    Twin(
        "seaming-confirmed.js",
        "seaming/confirmed.py",
        "seaming/test_confirmed.py::test_only_acceptance_is_held_back_and_the_reason_comes_first",
    ),
    Twin("seaming-signs.js", "seaming/signs.py", f"{_SEAMING}test_ranking_is_equal"),
    Twin("seaming-causes.js", "seaming/causes.py", f"{_SEAMING}test_ranking_is_equal"),
    Twin(
        "seaming-experience.js",
        "seaming/experience.py",
        "seaming/test_experience.py::test_the_browser_reckons_alike_with_counts",
    ),
    Twin("seaming-next-question.js", "seaming/next_question.py", f"{_SEAMING}test_the_next_question_is_equal"),
    Twin("seaming-order.js", "seaming/order.py", f"{_SEAMING}test_the_order_of_checks_is_equal"),
    Twin("seaming-correction.js", "seaming/correction.py", f"{_SEAMING}test_corrections_are_equal"),
    Twin("practice-chance.js", "practice/chance.py", f"{_BENCHED}test_chance_is_equal_and_is_that_of_the_paper"),
    Twin("practice-fault.js", "practice/fault.py", f"{_BENCHED}test_the_tables_are_equal"),
    Twin("practice-setting.js", "practice/setting.py", f"{_BENCHED}test_whole_rounds_are_equal_bit_for_bit"),
    Twin("practice-seam.js", "practice/seam.py", f"{_BENCHED}test_whole_rounds_are_equal_bit_for_bit"),
    Twin("practice-showing.js", "practice/showing.py", f"{_BENCHED}test_whole_rounds_are_equal_bit_for_bit"),
    Twin("practice-reading.js", "practice/reading.py", f"{_BENCHED}test_whole_rounds_are_equal_bit_for_bit"),
    Twin("practice-debrief.js", "practice/debrief.py", f"{_BENCHED}test_whole_rounds_are_equal_bit_for_bit"),
    Twin(
        "practice-known.js", "practice/known.py", f"{_BENCHED}test_a_careful_technician_does_the_same_after_any_steps"
    ),
    Twin(
        "practice-careful.js",
        "practice/careful.py",
        f"{_BENCHED}test_a_careful_technician_does_the_same_after_any_steps",
    ),
    Twin("practice-round.js", "practice/round.py", f"{_BENCHED}test_whole_rounds_are_equal_bit_for_bit"),
    Twin("seam-layers.js", "figures/layers.py", f"{_DRAWN}test_the_plates_are_bent_alike"),
    Twin(
        "seam-drawing.js",
        "figures/section.py",
        f"{_DRAWN}test_each_dimension_is_written_in_the_unit_typed_and_said_to_be_out",
    ),
    Twin("seam-picture.js", "advice/report.py", f"{_DRAWN}test_the_worst_readings_are_drawn"),
    Twin("bench-records.js", "advice/profiles.py", f"{_PHONE}test_each_limit_leads_where_it_leads_in_python"),
    Twin(
        "bench-advising.js",
        "advice/advice.py",
        f"{_PHONE}test_the_numbered_correction_is_the_same_in_the_same_order",
    ),
    Twin("bench-saying.js", "advice/spoken.py", f"{_PHONE}test_the_numbered_correction_is_the_same_in_the_same_order"),
    Twin("bench-log-rules.js", "benchlog/events.py", f"{_LOG}test_the_same_order_runs_and_slips_of_the_clock"),
    Twin("bench-log-writing.js", "benchlog/writing.py", f"{_LOG}test_the_same_order_runs_and_slips_of_the_clock"),
    Twin("bench-log-late.js", "benchlog/policy.py", f"{_LOG}test_the_same_checks_were_missed"),
    Twin("bench-log-bench.js", "benchlog/policy.py", f"{_LOG}test_the_same_is_due_at_any_time"),
    Twin("bench-log-due.js", "benchlog/policy.py", f"{_LOG}test_the_same_is_due_at_any_time"),
    Twin("bench-log-holding.js", "benchlog/holding.py", f"{_LOG}test_the_same_cans_are_held_and_for_the_same_reason"),
    Twin("bench-log-charts.js", "benchlog/charts.py", f"{_LOG}test_the_same_charts_with_the_same_limits_and_signals"),
    Twin(
        "bench-log-merging.js",
        "logbook/merging.py",
        f"{_LOG}test_of_two_versions_the_phone_goes_by_one_that_the_office_would",
    ),
    Twin(
        "bench-log-sound.js",
        "logbook/checking.py",
        f"{_LOG}test_an_event_is_taken_by_the_phone_only_when_nothing_is_wrong_with_it",
    ),
    Twin(
        "quiz-scoring.js",
        "quizzes/scoring.py",
        "browser/test_quiz_parity.py::test_browser_and_python_score_answers_alike",
    ),
    Twin(
        "certificate-check.js",
        "credentials/verification.py",
        "credentials/test_browser_checker.py::test_every_tampered_copy",
    ),
    Twin("certificate-encoding.js", "credentials/encoding.py", _FORGED),
    Twin("certificate-proof.js", "credentials/proof.py", _FORGED),
    Twin("certificate-pdf.js", "credentials/pdf_attachment.py", _FORGED),
    Twin("certificate-pdf-streams.js", "credentials/pdf_streams.py", _FORGED),
    Twin("certificate-pdf-syntax.js", "credentials/pdf_syntax.py", _FORGED),
)
"""Every twin."""
CASES = {
    "seaming-wording.js": (
        "length-text",
        "span-text",
    ),
    "seaming-readings.js": (
        "parse-reading",
        "parse-percent",
        "find-unit",
    ),
    "seaming-formulas.js": ("formulas",),
    "seaming-formula.js": ("formulas",),
    "seaming-computed.js": ("judge",),
    "seaming-questions.js": ("find-questions",),
    "seaming-guard.js": ("judge",),
    "seaming-verdict.js": ("judge",),
    "seaming-confirmed.js": ("hold-unconfirmed",),
    "seaming-signs.js": ("rank",),
    "seaming-causes.js": ("rank",),
    "seaming-experience.js": (
        "find-experience",
        "rank-with-counts",
    ),
    "seaming-next-question.js": ("rank-with-counts",),
    "seaming-order.js": ("order-checks",),
    "seaming-correction.js": ("correct",),
    "seam-layers.js": ("bend-plates",),
    "bench-log-rules.js": ("log-reading",),
    "bench-log-writing.js": ("log-reading",),
    "bench-log-late.js": ("log-missed",),
    "bench-log-bench.js": ("log-due",),
    "bench-log-due.js": ("log-due",),
    "bench-log-holding.js": ("log-holding",),
    "bench-log-charts.js": ("log-charts",),
    "bench-log-merging.js": ("log-more-cautious",),
    "bench-log-sound.js": ("log-sound",),
    "quiz-scoring.js": ("score",),
}
"""The files in `cases` that a script is held to, without `.json`."""
NO_CASES = {
    "seaming-sentences.js": "printed from its twin, and compared with it word for word",
    "seam-drawing.js": "gives a picture, no plain values: its plates are in `bend-plates`, its words in `length-text`",
    "seam-picture.js": "needs a page to show on; what it draws is a choice from the verdict that `judge` gives",
    "bench-records.js": "looks up the records of a whole site",
    "bench-advising.js": "puts `rank`, `order-checks` and `correct` together for the records of a whole site",
    "bench-saying.js": "says on a page what the records of a whole site say",
    "practice-chance.js": "compared with the numbers of the paper that describes it",
    **dict.fromkeys(
        (
            *("practice-fault.js", "practice-setting.js", "practice-seam.js", "practice-showing.js"),
            *("practice-reading.js", "practice-debrief.js", "practice-round.js"),
            *("practice-known.js", "practice-careful.js"),
        ),
        "no file yet: a round goes on from what was done before, and whole rounds are compared bit for bit",
    ),
    **dict.fromkeys(
        (
            *("certificate-check.js", "certificate-encoding.js", "certificate-proof.js", "certificate-pdf.js"),
            *("certificate-pdf-streams.js", "certificate-pdf-syntax.js"),
        ),
        "signed files, sound and forged, are a collection of their own: `attack/certificate_cases.py`",
    ),
}
"""Why a script has none."""
