"""The arithmetic of every formula, written from its tree by `python -m tinwright.codegen`: do not edit."""

# Every function takes all symbols of its formula, by their names in the trade, and stands in one line.
# ruff: noqa: ARG005, E501, N803
# fmt: off

from __future__ import annotations

from types import MappingProxyType
from typing import TYPE_CHECKING

from tinwright.seaming.formula import Arithmetic

if TYPE_CHECKING:
    from collections.abc import Mapping

__all__ = ["ARITHMETIC"]

ARITHMETIC: Mapping[str, Arithmetic] = MappingProxyType({
    "overlap-a": Arithmetic(
        sign="O",
        symbols=("CH", "BH", "Te", "W",),
        evaluate=lambda CH, BH, Te, W: CH + BH + Te - W,
        divisor=None,
        partials={
            "CH": lambda CH, BH, Te, W: 1,
            "BH": lambda CH, BH, Te, W: 1,
            "Te": lambda CH, BH, Te, W: 1,
            "W": lambda CH, BH, Te, W: -1,
        },
        template="{CH} + {BH} + {Te} − {W}",
        math_row="<mi>O</mi><mo>=</mo><mi>CH</mi><mo>+</mo><mi>BH</mi><mo>+</mo><msub><mi>T</mi><mi>e</mi></msub><mo>−</mo><mi>W</mi>",
    ),
    "overlap-b": Arithmetic(
        sign="O",
        symbols=("CH", "BH", "Te", "W",),
        evaluate=lambda CH, BH, Te, W: CH + BH + 1.1 * Te - W,
        divisor=None,
        partials={
            "CH": lambda CH, BH, Te, W: 1,
            "BH": lambda CH, BH, Te, W: 1,
            "Te": lambda CH, BH, Te, W: 1.1,
            "W": lambda CH, BH, Te, W: -1,
        },
        template="{CH} + {BH} + 1.1 × {Te} − {W}",
        math_row="<mi>O</mi><mo>=</mo><mi>CH</mi><mo>+</mo><mi>BH</mi><mo>+</mo><mn>1.1</mn><mo>\u2062</mo><msub><mi>T</mi><mi>e</mi></msub><mo>−</mo><mi>W</mi>",
    ),
    "percent-overlap-a": Arithmetic(
        sign="%O",
        symbols=("CH", "BH", "Te", "W", "Tb",),
        evaluate=lambda CH, BH, Te, W, Tb: 100 * (CH + BH + Te - W) / (W - (2 * Te + Tb)),
        divisor=lambda CH, BH, Te, W, Tb: W - (2 * Te + Tb),
        partials={
            "CH": lambda CH, BH, Te, W, Tb: 100 / (W - (2 * Te + Tb)),
            "BH": lambda CH, BH, Te, W, Tb: 100 / (W - (2 * Te + Tb)),
            "Te": lambda CH, BH, Te, W, Tb: 100 / (W - (2 * Te + Tb)) + 200 / (W - (2 * Te + Tb)) / (W - (2 * Te + Tb)) * (CH + BH + Te - W),
            "W": lambda CH, BH, Te, W, Tb: -100 / (W - (2 * Te + Tb)) - 100 / (W - (2 * Te + Tb)) / (W - (2 * Te + Tb)) * (CH + BH + Te - W),
            "Tb": lambda CH, BH, Te, W, Tb: 100 / (W - (2 * Te + Tb)) / (W - (2 * Te + Tb)) * (CH + BH + Te - W),
        },
        template="100 × ({CH} + {BH} + {Te} − {W}) / ({W} − (2 × {Te} + {Tb}))",
        math_row="<mi>%O</mi><mo>=</mo><mn>100</mn><mo>×</mo><mfrac><mrow><mi>CH</mi><mo>+</mo><mi>BH</mi><mo>+</mo><msub><mi>T</mi><mi>e</mi></msub><mo>−</mo><mi>W</mi></mrow><mrow><mi>W</mi><mo>−</mo><mrow><mo>(</mo><mn>2</mn><mo>\u2062</mo><msub><mi>T</mi><mi>e</mi></msub><mo>+</mo><msub><mi>T</mi><mi>b</mi></msub><mo>)</mo></mrow></mrow></mfrac>",
    ),
    "percent-overlap-b": Arithmetic(
        sign="%O",
        symbols=("CH", "BH", "Te", "W", "Tb",),
        evaluate=lambda CH, BH, Te, W, Tb: 100 * (CH + BH + 1.1 * Te - W) / (W - 1.1 * (2 * Te + Tb)),
        divisor=lambda CH, BH, Te, W, Tb: W - 1.1 * (2 * Te + Tb),
        partials={
            "CH": lambda CH, BH, Te, W, Tb: 100 / (W - 1.1 * (2 * Te + Tb)),
            "BH": lambda CH, BH, Te, W, Tb: 100 / (W - 1.1 * (2 * Te + Tb)),
            "Te": lambda CH, BH, Te, W, Tb: 110 / (W - 1.1 * (2 * Te + Tb)) + 220 / (W - 1.1 * (2 * Te + Tb)) / (W - 1.1 * (2 * Te + Tb)) * (CH + BH + 1.1 * Te - W),
            "W": lambda CH, BH, Te, W, Tb: -100 / (W - 1.1 * (2 * Te + Tb)) - 100 / (W - 1.1 * (2 * Te + Tb)) / (W - 1.1 * (2 * Te + Tb)) * (CH + BH + 1.1 * Te - W),
            "Tb": lambda CH, BH, Te, W, Tb: 110 / (W - 1.1 * (2 * Te + Tb)) / (W - 1.1 * (2 * Te + Tb)) * (CH + BH + 1.1 * Te - W),
        },
        template="100 × ({CH} + {BH} + 1.1 × {Te} − {W}) / ({W} − 1.1 × (2 × {Te} + {Tb}))",
        math_row="<mi>%O</mi><mo>=</mo><mn>100</mn><mo>×</mo><mfrac><mrow><mi>CH</mi><mo>+</mo><mi>BH</mi><mo>+</mo><mn>1.1</mn><mo>\u2062</mo><msub><mi>T</mi><mi>e</mi></msub><mo>−</mo><mi>W</mi></mrow><mrow><mi>W</mi><mo>−</mo><mn>1.1</mn><mo>\u2062</mo><mrow><mo>(</mo><mn>2</mn><mo>\u2062</mo><msub><mi>T</mi><mi>e</mi></msub><mo>+</mo><msub><mi>T</mi><mi>b</mi></msub><mo>)</mo></mrow></mrow></mfrac>",
    ),
    "percent-overlap-c": Arithmetic(
        sign="%O",
        symbols=("CH", "BH", "Te", "W", "Tb",),
        evaluate=lambda CH, BH, Te, W, Tb: 100 * (CH + BH + 1.1 * Te - W) / (W - (2.6 * Te + 1.1 * Tb)),
        divisor=lambda CH, BH, Te, W, Tb: W - (2.6 * Te + 1.1 * Tb),
        partials={
            "CH": lambda CH, BH, Te, W, Tb: 100 / (W - (2.6 * Te + 1.1 * Tb)),
            "BH": lambda CH, BH, Te, W, Tb: 100 / (W - (2.6 * Te + 1.1 * Tb)),
            "Te": lambda CH, BH, Te, W, Tb: 110 / (W - (2.6 * Te + 1.1 * Tb)) + 260 / (W - (2.6 * Te + 1.1 * Tb)) / (W - (2.6 * Te + 1.1 * Tb)) * (CH + BH + 1.1 * Te - W),
            "W": lambda CH, BH, Te, W, Tb: -100 / (W - (2.6 * Te + 1.1 * Tb)) - 100 / (W - (2.6 * Te + 1.1 * Tb)) / (W - (2.6 * Te + 1.1 * Tb)) * (CH + BH + 1.1 * Te - W),
            "Tb": lambda CH, BH, Te, W, Tb: 110 / (W - (2.6 * Te + 1.1 * Tb)) / (W - (2.6 * Te + 1.1 * Tb)) * (CH + BH + 1.1 * Te - W),
        },
        template="100 × ({CH} + {BH} + 1.1 × {Te} − {W}) / ({W} − (2.6 × {Te} + 1.1 × {Tb}))",
        math_row="<mi>%O</mi><mo>=</mo><mn>100</mn><mo>×</mo><mfrac><mrow><mi>CH</mi><mo>+</mo><mi>BH</mi><mo>+</mo><mn>1.1</mn><mo>\u2062</mo><msub><mi>T</mi><mi>e</mi></msub><mo>−</mo><mi>W</mi></mrow><mrow><mi>W</mi><mo>−</mo><mrow><mo>(</mo><mn>2.6</mn><mo>\u2062</mo><msub><mi>T</mi><mi>e</mi></msub><mo>+</mo><mn>1.1</mn><mo>\u2062</mo><msub><mi>T</mi><mi>b</mi></msub><mo>)</mo></mrow></mrow></mfrac>",
    ),
    "body-hook-butting": Arithmetic(
        sign="%BHB",
        symbols=("BH", "Tb", "W", "Te",),
        evaluate=lambda BH, Tb, W, Te: 100 * (BH - 1.1 * Tb) / (W - 1.1 * (2 * Te + Tb)),
        divisor=lambda BH, Tb, W, Te: W - 1.1 * (2 * Te + Tb),
        partials={
            "BH": lambda BH, Tb, W, Te: 100 / (W - 1.1 * (2 * Te + Tb)),
            "Tb": lambda BH, Tb, W, Te: -110 / (W - 1.1 * (2 * Te + Tb)) + 110 / (W - 1.1 * (2 * Te + Tb)) / (W - 1.1 * (2 * Te + Tb)) * (BH - 1.1 * Tb),
            "W": lambda BH, Tb, W, Te: -100 / (W - 1.1 * (2 * Te + Tb)) / (W - 1.1 * (2 * Te + Tb)) * (BH - 1.1 * Tb),
            "Te": lambda BH, Tb, W, Te: 220 / (W - 1.1 * (2 * Te + Tb)) / (W - 1.1 * (2 * Te + Tb)) * (BH - 1.1 * Tb),
        },
        template="100 × ({BH} − 1.1 × {Tb}) / ({W} − 1.1 × (2 × {Te} + {Tb}))",
        math_row="<mi>%BHB</mi><mo>=</mo><mn>100</mn><mo>×</mo><mfrac><mrow><mi>BH</mi><mo>−</mo><mn>1.1</mn><mo>\u2062</mo><msub><mi>T</mi><mi>b</mi></msub></mrow><mrow><mi>W</mi><mo>−</mo><mn>1.1</mn><mo>\u2062</mo><mrow><mo>(</mo><mn>2</mn><mo>\u2062</mo><msub><mi>T</mi><mi>e</mi></msub><mo>+</mo><msub><mi>T</mi><mi>b</mi></msub><mo>)</mo></mrow></mrow></mfrac>",
    ),
    "free-space": Arithmetic(
        sign="FS",
        symbols=("S", "Te", "Tb",),
        evaluate=lambda S, Te, Tb: S - (3 * Te + 2 * Tb),
        divisor=None,
        partials={
            "S": lambda S, Te, Tb: 1,
            "Te": lambda S, Te, Tb: -3,
            "Tb": lambda S, Te, Tb: -2,
        },
        template="{S} − (3 × {Te} + 2 × {Tb})",
        math_row="<mi>FS</mi><mo>=</mo><mi>S</mi><mo>−</mo><mrow><mo>(</mo><mn>3</mn><mo>\u2062</mo><msub><mi>T</mi><mi>e</mi></msub><mo>+</mo><mn>2</mn><mo>\u2062</mo><msub><mi>T</mi><mi>b</mi></msub><mo>)</mo></mrow>",
    ),
    "compactness": Arithmetic(
        sign="C",
        symbols=("Te", "Tb", "S",),
        evaluate=lambda Te, Tb, S: 100 * (3 * Te + 2 * Tb) / S,
        divisor=lambda Te, Tb, S: S,
        partials={
            "Te": lambda Te, Tb, S: 300 / S,
            "Tb": lambda Te, Tb, S: 200 / S,
            "S": lambda Te, Tb, S: -100 / S / S * (3 * Te + 2 * Tb),
        },
        template="100 × (3 × {Te} + 2 × {Tb}) / {S}",
        math_row="<mi>C</mi><mo>=</mo><mn>100</mn><mo>×</mo><mfrac><mrow><mn>3</mn><mo>\u2062</mo><msub><mi>T</mi><mi>e</mi></msub><mo>+</mo><mn>2</mn><mo>\u2062</mo><msub><mi>T</mi><mi>b</mi></msub></mrow><mrow><mi>S</mi></mrow></mfrac>",
    ),
    "thickness-aim": Arithmetic(
        sign="Sa",
        symbols=("Te", "Tb", "G",),
        evaluate=lambda Te, Tb, G: 3 * Te + 2 * Tb + G,
        divisor=None,
        partials={
            "Te": lambda Te, Tb, G: 3,
            "Tb": lambda Te, Tb, G: 2,
            "G": lambda Te, Tb, G: 1,
        },
        template="3 × {Te} + 2 × {Tb} + {G}",
        math_row="<msub><mi>S</mi><mi>a</mi></msub><mo>=</mo><mn>3</mn><mo>\u2062</mo><msub><mi>T</mi><mi>e</mi></msub><mo>+</mo><mn>2</mn><mo>\u2062</mo><msub><mi>T</mi><mi>b</mi></msub><mo>+</mo><mi>G</mi>",
    ),
})
"""The arithmetic of every formula by its name."""
