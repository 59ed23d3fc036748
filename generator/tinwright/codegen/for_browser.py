"""The browser's share of what is written once: formulas as functions, and the constants of the reasoning."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING, Any

from tinwright.codegen.expressions import EQUATIONS
from tinwright.codegen.formula_text import code_text
from tinwright.seaming import (
    causes,
    computed,
    correction,
    experience,
    guard,
    next_question,
    order,
    questions,
    readings,
    signs,
    verdict,
    wording,
)
from tinwright.seaming.formulas import FORMULAS, SYMBOLS
from tinwright.seaming.sentences import SENTENCES

if TYPE_CHECKING:
    import sympy

    from tinwright.codegen.equation import Equation
    from tinwright.seaming.formula import Formula

__all__ = ["SCRIPT", "SENTENCES_SCRIPT", "constants", "function_text", "script_text", "sentences_text"]

SCRIPT = Path(__file__).parents[1] / "browser" / "seaming" / "seaming-formulas.js"
"""The file that is written; a test keeps it fresh."""
SENTENCES_SCRIPT = SCRIPT.with_name("seaming-sentences.js")
"""The file of the sentences, written and kept fresh likewise."""

_HEAD = """\
// @ts-check
// Written from the trees in tinwright.codegen and the constants of tinwright.seaming. Do not edit:
// python -m tinwright.codegen
// joined: seaming.js

// One fact to a line, for whoever compares.
// prettier-ignore
(function (root) {
  "use strict";
"""


def function_text(equation: Equation, tree: sympy.Expr) -> str:
    """Write a tree over the symbols of an equation as a JavaScript function of numbers.

    >>> function_text(EQUATIONS["free-space"], EQUATIONS["free-space"].tree)
    'function (S, Te, Tb) { return S - (3 * Te + 2 * Tb); }'
    """
    return f"function ({', '.join(equation.symbols)}) {{ return {code_text(tree)}; }}"


def constants() -> dict[str, Any]:
    """Collect the constants that the browser's half needs, under their names there."""
    return {
        "symbols": dict(SYMBOLS),
        "dimensions": wording.DIMENSIONS,
        "labels": dict(wording.LABELS),
        "percents": sorted(wording.PERCENTS),
        "units": dict(readings.UNITS),
        "pointsNeeded": dict(readings.POINTS_NEEDED),
        "sideSeamNote": readings.SIDE_SEAM_NOTE,
        "variants": computed.VARIANTS,
        "dimensionOf": dict(computed.DIMENSION_OF),
        "raises": dict(computed.RAISES),
        "mostIn": questions.MOST_IN,
        "leastIn": questions.LEAST_IN,
        "mmFrom": questions.MM_FROM,
        "spread": questions.SPREAD,
        "plateMostIn": questions.PLATE_MOST_IN,
        "plateLeastIn": questions.PLATE_LEAST_IN,
        "platePart": questions.PLATE_PART,
        "wrongUnit": questions.WRONG_UNIT,
        "full": questions.FULL,
        "apart": questions.APART,
        "toldAs": dict(verdict.TOLD_AS),
        "guardFactor": guard.GUARD_FACTOR,
        "close": guard.CLOSE,
        "adjusters": signs.ADJUSTERS,
        "defectSeen": dict(signs.DEFECT_SEEN),
        "defectAbsent": dict(signs.DEFECT_ABSENT),
        "unknownSeen": signs.UNKNOWN_SEEN,
        "unknownAbsent": signs.UNKNOWN_ABSENT,
        "directionAlong": dict(signs.DIRECTION_ALONG),
        "directionVaries": dict(signs.DIRECTION_VARIES),
        "directionUnclaimed": dict(signs.DIRECTION_UNCLAIMED),
        "directionUnknown": dict(signs.DIRECTION_UNKNOWN),
        "placeListed": signs.PLACE_LISTED,
        "placeOther": signs.PLACE_OTHER,
        "placeUnknown": signs.PLACE_UNKNOWN,
        "changeListed": signs.CHANGE_LISTED,
        "changeOther": signs.CHANGE_OTHER,
        "likelyPart": causes.LIKELY_PART,
        "possiblePart": causes.POSSIBLE_PART,
        "finest": causes.FINEST,
        "closeShare": causes.CLOSE,
        "priorCases": experience.PRIOR_CASES,
        "stages": dict(order.STAGES),
        "minutes": next_question.MINUTES,
        "worth": next_question.WORTH,
        "answers": next_question.ANSWERS,
        "gauged": sorted(next_question.GAUGED),
        "setInSteps": sorted(correction.SET_IN_STEPS),
    }


def script_text() -> str:
    """Write the whole generated script."""
    lines = [
        _HEAD,
        "  /** Every formula by name. @type {Record<string, SeamingFormula>} */\n",
        "  const formulas = {\n",
    ]
    for formula in FORMULAS.values():
        lines.append(f"    {json.dumps(formula.name)}: {{\n")
        for key, value in _facts(formula).items():
            lines.append(f"      {key}: {json.dumps(value, ensure_ascii=False)},\n")
        equation = EQUATIONS[formula.name]
        divisor = "null" if equation.divisor is None else function_text(equation, equation.divisor)
        lines.append(f"      evaluate: {function_text(equation, equation.tree)},\n")
        lines.append(f"      divisor: {divisor},\n")
        lines.append("      partials: {\n")
        for name, tree in equation.partials.items():
            lines.append(f"        {name}: {function_text(equation, tree)},\n")
        lines.append("      },\n    },\n")
    lines.append("  };\n  /** Constants of the reasoning, as in the Python half. @type {SeamingConstants} */\n")
    lines.append("  const constants = {\n")
    for key, value in constants().items():
        lines.append(f"    {key}: {json.dumps(value, ensure_ascii=False)},\n")
    lines.append("  };\n  root.tinwrightSeamingFormulas = { constants, formulas };\n})(globalThis);\n")
    return "".join(lines)


_SENTENCES_HEAD = """\
// @ts-check
// Written from the table in tinwright.seaming.sentences. Do not edit: python -m tinwright.codegen
// joined: seaming.js

// One sentence to a line, for whoever compares.
// prettier-ignore
(function (root) {
  "use strict";
  /** @type {Record<string, string>} */
  const SENTENCES = {
"""
_SENTENCES_FOOT = """\
  };

  /** @type {TinwrightSeamingSentences["sentence"]} */
  const sentence = (name, values = {}) =>
    SENTENCES[name].replace(/\\{(\\w+)\\}/g, (_, key) => String(values[key]));

  root.tinwrightSeamingSentences = { sentence };
})(globalThis);

/**
 * @typedef {{names}} SentenceName
 */
"""


def sentences_text() -> str:
    """Write the script of the sentences, with a type that holds their names."""
    lines = (f"    {json.dumps(name)}: {json.dumps(text, ensure_ascii=False)},\n" for name, text in SENTENCES.items())
    names = "\n * | ".join(json.dumps(name) for name in SENTENCES)
    return _SENTENCES_HEAD + "".join(lines) + _SENTENCES_FOOT.replace("{names}", names, 1)


def _facts(formula: Formula) -> dict[str, Any]:
    return {
        "name": formula.name,
        "quantity": formula.quantity,
        "title": formula.title,
        "symbol": formula.symbol,
        "unit": formula.unit,
        "variant": formula.variant,
        "symbols": formula.symbols,
        "source": formula.source,
        "where": formula.where,
        "grade": formula.grade,
        "gradeText": formula.grade_text,
        "text": formula.text,
        "plain": formula.plain(),
        "mathml": formula.mathml,
    }
