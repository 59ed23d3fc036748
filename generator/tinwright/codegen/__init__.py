"""The formulas as trees of sympy, and what writes them for Python and for the browser.

    python -m tinwright.codegen

writes that code again. Only who changes a formula needs this room, and sympy with it: the site and the
commands use the code.
"""
