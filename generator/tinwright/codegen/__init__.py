"""The formulas of a double seam as trees of sympy, and what prints them for Python and for the browser.

    python -m tinwright.codegen

writes anew what is printed from them. Only who changes a formula needs this room, and sympy with it: the site and the
commands use what was printed.
"""
