"""Small made-up knowledge, signs and counts for properties that must hold whatever the records say."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from hypothesis import strategies as st

from seaming.twin import ANSWERS
from tinwright.seaming import ADJUSTERS, CauseProfile, Confirmed, Sign, Signs

if TYPE_CHECKING:
    from collections.abc import Mapping

DEFECTS = ("droop", "vee", "seam-inclusion", "spinner")
DIMENSIONS = ("countersink", "seam-width", "seam-thickness", "body-hook", "cover-hook")
MEASURED: Mapping[str, Mapping[str, str]] = {
    "long-body-hook": {"body-hook": "larger"},
    "short-overlap": {"body-hook": "smaller", "cover-hook": "smaller"},
}
_LIKELIHOODS = st.sampled_from(("common", "occasional", "rare"))
_WAYS = st.sampled_from(("larger", "smaller", "varies"))


def _some(items: tuple[str, ...]) -> st.SearchStrategy[tuple[str, ...]]:
    return st.lists(st.sampled_from(items), unique=True).map(tuple)


_PROFILES = st.builds(
    CauseProfile,
    cause=st.just(""),
    adjuster=st.sampled_from(ADJUSTERS),
    minutes=st.integers(1, 30).map(float),
    likelihoods=st.dictionaries(st.sampled_from(DEFECTS), _LIKELIHOODS),
    effects=st.dictionaries(st.sampled_from(DIMENSIONS), st.sampled_from(("larger", "smaller", "varies", "disputed"))),
    effect_likelihoods=st.dictionaries(st.sampled_from(DIMENSIONS), st.dictionaries(_WAYS, _LIKELIHOODS, max_size=2)),
    extents=_some(tuple(ANSWERS["extent"])),
    repeats=_some(tuple(ANSWERS["repeats"])),
    after=_some(tuple(ANSWERS["change"])),
)

CAUSES = st.lists(_PROFILES, min_size=1, max_size=5).map(
    lambda made: [replace(profile, cause=f"cause-{place}") for place, profile in enumerate(made)]
)

COUNTS = st.lists(
    st.builds(
        Confirmed,
        sealer=st.sampled_from(("ours", "theirs")),
        defect=st.sampled_from((*DEFECTS, *MEASURED)),
        cause=st.sampled_from([f"cause-{place}" for place in range(6)]),
        times=st.integers(1, 10_000),
    ),
    max_size=5,
)


@st.composite
def told(draw: st.DrawFn) -> Signs:
    """Draw signs: some of them, in any order."""
    defects = draw(_some(DEFECTS))
    absent = tuple(defect for defect in draw(_some(DEFECTS)) if defect not in defects)
    ways = st.sampled_from(("larger", "smaller", "normal", "varies"))
    return Signs(
        defects,
        absent,
        draw(st.dictionaries(st.sampled_from(DIMENSIONS), ways)),
        draw(st.sampled_from((None, *ANSWERS["extent"]))),
        draw(st.sampled_from((None, *ANSWERS["repeats"]))),
        draw(st.sampled_from((None, *ANSWERS["change"]))),
    )


def lists(cause: CauseProfile, sign: Sign) -> bool:
    """Say whether the record of a cause, or of a defect that names it, lists this very sign."""
    if sign.kind == "defect":
        return sign.key in cause.likelihoods
    if sign.kind == "direction":
        return sign.answer in {cause.effects.get(sign.key), *cause.effect_likelihoods.get(sign.key, {})}
    listed = {"extent": cause.extents, "repeats": cause.repeats, "last-change": cause.after}
    return sign.answer in listed.get(sign.kind, ())


def with_sign(signs: Signs, sign: Sign) -> Signs:
    """Tell one more sign."""
    if sign.kind == "defect":
        return replace(signs, defects=(*signs.defects, sign.key))
    if sign.kind == "absent":
        return replace(signs, absent=(*signs.absent, sign.key))
    if sign.kind == "direction":
        return replace(signs, directions={**signs.directions, sign.key: sign.answer})
    return replace(signs, **{sign.kind.replace("-", "_"): sign.answer})


def untold(signs: Signs) -> list[Sign]:
    """List what could still be told."""
    found = [
        Sign(kind, defect, answer)
        for defect in DEFECTS
        if defect not in (*signs.defects, *signs.absent)
        for kind, answer in (("defect", "seen"), ("absent", "not-seen"))
    ]
    found += [
        Sign("direction", name, way)
        for name in DIMENSIONS
        if name not in signs.directions
        for way in ("larger", "smaller", "normal", "varies")
    ]
    open_ = (("extent", signs.extent), ("repeats", signs.repeats), ("last-change", signs.last_change))
    for kind, answer in open_:
        if answer is None:
            found += [Sign(kind, "", each) for each in ANSWERS[kind.replace("last-", "")] if each != "nothing"]
    return found
