"""The direction table: what each setting does to both hooks and the countersink, as two readable sources give it.

Azaquar, dimensional defects (single source for most cells); cells it leaves open are left out.
"""

from __future__ import annotations

from seaming.twin import a_cause

CAUSES = [
    a_cause("first-roller-tight", "first-roller", effects={"body-hook": "smaller", "cover-hook": "larger"}),
    a_cause("first-roller-loose", "first-roller", effects={"body-hook": "larger", "cover-hook": "smaller"}),
    a_cause("first-roller-worn", "first-roller", effects={"cover-hook": "smaller"}),
    a_cause(
        "base-pressure-high",
        "base-pressure",
        effects={"body-hook": "larger", "cover-hook": "smaller", "countersink": "larger"},
    ),
    a_cause("base-pressure-low", "base-pressure", effects={"body-hook": "smaller"}),
    a_cause("chuck-base-distance-small", "base-height", effects={"body-hook": "larger", "countersink": "larger"}),
    a_cause("chuck-base-distance-large", "base-height", effects={"body-hook": "smaller"}),
]

LOW_OR_LARGE = {"base-pressure-low", "chuck-base-distance-large"}

# What is read: body hook, cover hook, countersink -> the causes that may stand first.
ROWS = [
    # Table of the sources, the cells left open read as normal.
    ("first roller too tight", ("smaller", "larger", "normal"), {"first-roller-tight"}),
    ("first roller too loose", ("larger", "smaller", "normal"), {"first-roller-loose"}),
    ("pressure too high", ("larger", "smaller", "larger"), {"base-pressure-high"}),
    ("pressure too low", ("smaller", "normal", "normal"), LOW_OR_LARGE),
    ("distance too small", ("larger", "normal", "larger"), {"chuck-base-distance-small"}),
    ("distance too large", ("smaller", "normal", "normal"), LOW_OR_LARGE),
    ("first roller worn", ("normal", "smaller", "normal"), {"first-roller-worn"}),
    # The same table with the countersink not read, where hooks alone decide.
    ("tight, no countersink", ("smaller", "larger", None), {"first-roller-tight"}),
    ("loose, no countersink", ("larger", "smaller", None), {"first-roller-loose", "base-pressure-high"}),
    ("worn, no countersink", ("normal", "smaller", None), {"first-roller-worn"}),
]
