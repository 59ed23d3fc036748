"""The trade's arithmetic and reasoning, on plain values: no files, no YAML, no site.

    from tinwright.seaming import FORMULAS

    FORMULAS["overlap-a"].value({"CH": 0.076, "BH": 0.078, "Te": 0.010, "W": 0.118})   # 0.046

The browser's half, `browser/seaming/seaming.js`, has the same functions under the same names in camelCase; each module
has its script there, such as `seaming-verdict.js`.
"""

from tinwright.seaming.causes import (
    Distinction,
    Ranked,
    Ranking,
    Reason,
    find_distinctions,
    find_posterior,
    rank,
)
from tinwright.seaming.computed import VARIANTS, Computed, compute
from tinwright.seaming.correction import (
    RETEST,
    SECOND_CANNOT_MEND,
    CorrectionAdvice,
    Screw,
    correct,
    turns_text,
)
from tinwright.seaming.experience import (
    PRIOR_CASES,
    Confirmed,
    Experience,
    add_cases,
    find_experience,
)
from tinwright.seaming.formula import Formula
from tinwright.seaming.formulas import FORMULAS, SYMBOLS
from tinwright.seaming.guard import GUARD_FACTOR, compare, conformance_probability, reading_uncertainty
from tinwright.seaming.limits import Limit, SeamLimits, SeenDefect
from tinwright.seaming.next_question import Ask, find_next, list_questions
from tinwright.seaming.order import STAGES, Check, expected_minutes, order_checks
from tinwright.seaming.questions import Question, find_questions
from tinwright.seaming.readings import (
    POINTS_NEEDED,
    SIDE_SEAM_NOTE,
    Entry,
    Extremes,
    Reading,
    SeamReadings,
    find_unit,
    parse_percent,
    parse_reading,
)
from tinwright.seaming.setup import (
    SealerSetup,
    SetUp,
    Slot,
    Spacer,
    Stack,
    StackSearch,
    find_stacks,
    reachable_stacks,
    set_up,
)
from tinwright.seaming.signs import ADJUSTERS, CauseProfile, Sign, Signs, list_signs, weigh
from tinwright.seaming.verdict import DimensionVerdict, SeamVerdict, find_amounts, find_directions, judge
from tinwright.seaming.wording import DIMENSIONS, LABELS, inches_text, length_text, percent_text, span_text

__all__ = [
    "ADJUSTERS",
    "DIMENSIONS",
    "FORMULAS",
    "GUARD_FACTOR",
    "LABELS",
    "POINTS_NEEDED",
    "PRIOR_CASES",
    "RETEST",
    "SECOND_CANNOT_MEND",
    "SIDE_SEAM_NOTE",
    "STAGES",
    "SYMBOLS",
    "VARIANTS",
    "Ask",
    "CauseProfile",
    "Check",
    "Computed",
    "Confirmed",
    "CorrectionAdvice",
    "DimensionVerdict",
    "Distinction",
    "Entry",
    "Experience",
    "Extremes",
    "Formula",
    "Limit",
    "Question",
    "Ranked",
    "Ranking",
    "Reading",
    "Reason",
    "Screw",
    "SealerSetup",
    "SeamLimits",
    "SeamReadings",
    "SeamVerdict",
    "SeenDefect",
    "SetUp",
    "Sign",
    "Signs",
    "Slot",
    "Spacer",
    "Stack",
    "StackSearch",
    "add_cases",
    "compare",
    "compute",
    "conformance_probability",
    "correct",
    "expected_minutes",
    "find_amounts",
    "find_directions",
    "find_distinctions",
    "find_experience",
    "find_next",
    "find_posterior",
    "find_questions",
    "find_stacks",
    "find_unit",
    "inches_text",
    "judge",
    "length_text",
    "list_questions",
    "list_signs",
    "order_checks",
    "parse_percent",
    "parse_reading",
    "percent_text",
    "rank",
    "reachable_stacks",
    "reading_uncertainty",
    "set_up",
    "span_text",
    "turns_text",
    "weigh",
]
