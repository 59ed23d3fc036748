"""The site's own words for what the records hold as ids."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable

__all__ = [
    "COMPUTED_WORDS",
    "DIRECTION_WORDS",
    "KIND_TITLES",
    "WORDS",
    "say",
    "say_adjusted",
    "say_change",
    "say_changes",
    "say_direction",
]

KIND_TITLES = {
    "defect": ("Defect", "Defects"),
    "cause": ("Cause", "Causes"),
    "procedure": ("Procedure", "Procedures"),
    "part": ("Part", "Parts"),
    "sealer": ("Sealer", "Sealers"),
    "can": ("Can", "Cans"),
    "caution": ("Caution", "Cautions"),
    "term": ("Term", "Terms"),
    "source": ("Source", "Sources"),
    "seam-specification": ("Seam specification", "Seam specifications"),
}
"""Singular and plural of each kind of record, as headings."""

WORDS = {
    # how it is found
    "see": "see it",
    "feel": "feel it",
    "measure": "measure it",
    "teardown": "find it at teardown",
    # where on the can
    "below-seam": "just under the seam",
    "seam-face": "on the outside of the seam",
    "seam-top": "on the top edge of the seam",
    "chuck-wall": "inside, on the wall of the countersink",
    "end-panel": "on the flat of the lid",
    "inside-seam": "inside the seam",
    "can-body": "on the can body",
    "empty-parts": "on the empty can or lid, before sealing",
    # how far around
    "all-round": "all the way around",
    "part-round": "part of the way around",
    "one-place": "in one place",
    "side-seam": "at the side seam",
    # from can to can
    "every-can": "on every can",
    "same-place": "at the same place on every can",
    "wanders": "on some cans, at no fixed place",
    "one-can": "on one can only",
    # likelihood
    "common": "common",
    "occasional": "now and then",
    "rare": "rare",
    # schemes
    "cfia": "CFIA (Canada)",
    "fao-17": "FAO manual 17",
    "afdo": "AFDO (US food officials)",
    "7-cfr-42": "7 CFR 42 (USDA)",
    # what to do with the can
    "discard-part": "Do not seal it. Throw the part away.",
    "reject": "Do not use this can.",
    "hold": "Set this can aside until it is judged.",
    "cosmetic": "A mark only. Hold the can until your program says.",
    # what a correction acts on
    "can-and-lid": "empty can and lid",
    "filling": "filling",
    "handling": "handling",
    "operation": "working the sealer",
    "chuck": "chuck",
    "base-height": "base height",
    "base-pressure": "base pressure",
    "roller-height": "roller height",
    "first-roller": "first roller",
    "second-roller": "second roller",
    # drives
    "crank-cam": "crank with cam",
    "hand-lever": "hand lever",
    "motor": "motor",
    # what a correction does
    "tighten": "tighten",
    "loosen": "loosen",
    "raise": "raise",
    "lower": "lower",
    "replace": "replace",
    "refit": "fit again",
    "clean": "clean",
    "sort-out": "put right",
    "redo": "do another way",
    # what was changed last
    "nothing": "nothing",
    "can-size": "the can size",
    "can-lot": "the lot of cans",
    "lid-lot": "the lot of lids",
    "roller": "a roller",
    "spacers": "the spacers",
    "adjustment": "an adjustment",
    "operator": "the person at the sealer",
    "product": "the food",
    # dimensions
    "countersink": "countersink depth",
    "seam-width": "seam width",
    "seam-thickness": "seam thickness",
    "body-hook": "body hook",
    "cover-hook": "cover hook",
    "overlap": "overlap",
    "tightness": "tightness",
    # how much of a source was read
    "whole": "the section cited was read whole",
    "part": "only part of it was at hand",
    "weak": "read in a weak copy (a translation, a re-post or a passage without its title)",
    "memory": "not read again; cited from memory",
}
"""Plain words for each id that is shown to a reader."""

DIRECTION_WORDS = {
    "countersink": ("deeper", "shallower"),
    "seam-width": ("wider", "narrower"),
    "seam-thickness": ("thicker", "thinner"),
    "body-hook": ("longer", "shorter"),
    "cover-hook": ("longer", "shorter"),
    "overlap": ("longer", "shorter"),
    "tightness": ("tighter", "looser"),
}
"""What `larger` and `smaller` mean for each dimension."""

COMPUTED_WORDS = {"percent-overlap": ("higher", "lower"), "body-hook-butting": ("higher", "lower")}
"""The same for each value that is worked out from several readings."""


def say(id_: str) -> str:
    """Return the plain words for an id; an id without any is shown with its hyphens opened."""
    return WORDS.get(id_, id_.replace("-", " "))


def say_adjusted(adjuster: str, direction: str) -> str:
    """Say in a few words what was done to a part of the sealer, or to the work at it.

    >>> say_adjusted("first-roller", "tighten"), say_adjusted("can-and-lid", "sort-out")
    ('tighten the first roller', 'throw out bad cans and lids')
    """
    thing = say(adjuster)
    return (
        _DONE_TO.get((adjuster, direction))
        or _WORK.get(adjuster)
        or {
            "refit": f"fit the {thing} again",
            "clean": f"clean the {thing}",
            "sort-out": f"put the {thing} right",
            "redo": f"set the {thing} again",
        }.get(direction, f"{say(direction)} the {thing}")
    )


_DONE_TO = {
    ("can-and-lid", "clean"): "wipe cans and lids clean",
    ("can-and-lid", "redo"): "set the sealer again for these cans and lids",
    ("can-and-lid", "refit"): "lay the lid on again",
    ("can-and-lid", "sort-out"): "throw out bad cans and lids",
    ("filling", "clean"): "wipe the flanges clean",
    ("handling", "clean"): "clean where cans are handled",
    ("operation", "clean"): "wipe the sealer clean",
    ("base-height", "clean"): "clean the base plate and the spacers",
    ("base-height", "refit"): "stack the spacers again",
    ("base-pressure", "clean"): "clean the pressure nut and the spring",
    ("roller-height", "clean"): "clean and oil the rollers",
    ("roller-height", "refit"): "set the roller height again",
}


_WORK = {
    "can-and-lid": "take other cans and lids",
    "filling": "fill the cans another way",
    "handling": "handle the cans another way",
    "operation": "work the sealer another way",
}
"""What is no part of the sealer can only be done otherwise."""


def say_change(change: str) -> str:
    """Return the plain words for what was changed last.

    >>> say_change("chuck"), say_change("lid-lot")
    ('the chuck', 'the lot of lids')
    """
    return {"chuck": "the chuck", "adjustment": "a setting"}.get(change, say(change))


def say_changes(changes: Iterable[str]) -> str:
    """Say when a cause is likelier; wear comes by itself, so `nothing` is a time of its own.

    >>> say_changes(["nothing", "chuck", "roller"])
    'after a change of the chuck or a roller; also when nothing was changed'
    >>> say_changes(["nothing"])
    'when nothing was changed'
    """
    given = tuple(changes)
    *first, last = [say_change(change) for change in given if change != "nothing"] or [""]
    if not last:
        return "when nothing was changed"
    after = f"after a change of {', '.join(first)} or {last}" if first else f"after a change of {last}"
    return f"{after}; also when nothing was changed" if "nothing" in given else after


def say_direction(dimension: str, direction: str) -> str:
    """Return `longer`, `deeper`, `thinner` ... for a dimension and a direction.

    >>> say_direction("countersink", "larger")
    'deeper'
    """
    larger, smaller = (DIRECTION_WORDS | COMPUTED_WORDS)[dimension]
    return {
        "larger": larger,
        "smaller": smaller,
        "varies": "uneven",
        "disputed": "disputed: sources disagree",
        "normal": "as it should be",
    }[direction]
