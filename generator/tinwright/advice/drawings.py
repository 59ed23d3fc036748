"""From what a record says of its figure to the drawings beside it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, TypedDict

from markupsafe import Markup

from tinwright.figures import (
    FRAMES,
    GOOD_SEAM,
    MOVES,
    PART_FIGURES,
    SectionDimensions,
    assembly_svg,
    forming_svg,
    good_beside,
    hook_closeup_svg,
    hook_svg,
    moving_svg,
    operation_svg,
    outside_closeup_svg,
    outside_svg,
    part_svg,
    rollers_svg,
    section_closeup_svg,
    section_svg,
)

if TYPE_CHECKING:
    from tinwright.knowledge import KnowledgeBase
    from tinwright.knowledge.models import Defect, Part, Sealer
    from tinwright.knowledge.models.trouble import SectionFigure

__all__ = [
    "Drawing",
    "closeup",
    "closeups_of",
    "frames_of_both_operations",
    "named_drawing",
    "of_defect",
    "of_movement",
    "of_part",
    "of_sealer",
    "thumbnail",
    "unnamed",
]


class _Texts(TypedDict):
    """What every drawing is given to name itself."""

    title: str
    description: str
    id_prefix: str


_GOOD = "A good seam, for comparison."
_GOOD_CAN = "A good can, for comparison."
_GOOD_NAMES = {"sound-can": "A good can", "ridge": "Inside of the body behind a good seam"}


@dataclass(frozen=True)
class Drawing:
    """A drawing ready for a page."""

    svg: Markup
    """The SVG element."""
    caption: str
    """What to look at."""
    role: str = "one"
    """`good`, `bad` or `one`, for the layout."""


def of_defect(defect: Defect) -> list[Drawing]:
    """Draw a defect beside a good seam: cross-section, outside view and stripped hook, whichever it has."""
    spec = defect.figure
    drawings: list[Drawing] = []
    if spec.outside is not None:
        good = good_beside(spec.outside.feature)
        named = _GOOD_NAMES.get(good, "Outside of a good seam")
        drawings += [
            _good(
                outside_svg(good, extent="all-round", **_texts(named, "good-outside")),
                _GOOD_CAN if good == "sound-can" else _GOOD,
            ),
            _bad(
                outside_svg(
                    spec.outside.feature,
                    extent=spec.outside.extent,
                    **_texts(f"{defect.title}, seen from outside", "outside", spec.caption),
                ),
                spec.caption,
            ),
        ]
    if spec.section is not None:
        drawings += [
            _good(section_svg(GOOD_SEAM, **_texts("Cross-section of a good seam", "good-section"))),
            _bad(
                section_svg(
                    _dimensions(spec.section),
                    feature=spec.section.feature,
                    **_texts(f"{defect.title}, cross-section", "section", spec.caption),
                ),
                spec.caption,
            ),
        ]
    if spec.hook is not None:
        drawings += [
            _good(hook_svg(None, **_texts("Stripped cover hook of a good seam", "good-hook"))),
            _bad(
                hook_svg(spec.hook.feature, **_texts(f"{defect.title}, stripped cover hook", "hook", spec.caption)),
                spec.caption,
            ),
        ]
    return drawings


def closeups_of(defect: Defect) -> tuple[Drawing, Drawing]:
    """Draw what shows first, the bad one and the good one, both cut out around the fault."""
    good = _closeup(defect, _texts("Good", "closeup-good", "The same place on a good one."), good=True)
    return Drawing(closeup(defect, "closeup"), "Bad", "bad"), Drawing(_svg(good), "Good", "good")


def closeup(defect: Defect, id_prefix: str) -> Markup:
    """Draw what shows first of a defect, cut out around the fault, with an arrow and without words."""
    return _svg(_closeup(defect, _texts(f"Bad: {defect.title}", id_prefix, defect.figure.caption), good=False))


def _closeup(defect: Defect, texts: _Texts, *, good: bool) -> str:
    spec = defect.figure
    if spec.outside is not None:
        feature = str(spec.outside.feature)
        shown = good_beside(feature) if good else feature
        return outside_closeup_svg(feature, extent=str(spec.outside.extent), shown=shown, **texts)
    if spec.section is not None:
        return section_closeup_svg(_dimensions(spec.section), feature=spec.section.feature, good=good, **texts)
    return hook_closeup_svg(spec.hook.feature if spec.hook else "", good=good, **texts)


def thumbnail(defect: Defect, *, named: bool = True) -> Markup:
    """Draw a defect small, without dimension lines: for the gallery, or not `named` where words stand beside it."""
    return _draw_small(defect, _texts(defect.title, f"card-{defect.id}", defect.figure.caption), named=named)


def unnamed(defect: Defect, id_prefix: str) -> Markup:
    """Draw a defect without any words, described without its name: for a question that asks for it."""
    names = [name.lower() for name in (defect.title, *defect.also)]
    told = (text for text in (defect.figure.caption, defect.summary) if not any(name in text.lower() for name in names))
    said = next(told, "A seam, to be judged by eye.")
    return _draw_small(defect, _texts("What is drawn here?", id_prefix, said), named=False)


def _draw_small(defect: Defect, texts: _Texts, *, named: bool) -> Markup:
    spec = defect.figure
    if spec.outside is not None:
        return _svg(outside_svg(spec.outside.feature, extent=spec.outside.extent, named=named, **texts))
    if spec.section is not None:
        return _svg(section_svg(_dimensions(spec.section), feature=spec.section.feature, labels=False, **texts))
    return _svg(hook_svg(spec.hook.feature if spec.hook else None, named=named, **texts))


def of_part(part: Part) -> Drawing | None:
    """Draw a part, when the product knows how to."""
    if part.figure not in PART_FIGURES:
        return None
    svg = part_svg(part.figure, **_texts(part.title, "part", part.does.text))
    return Drawing(_svg(svg), f"{part.title}: a simple drawing, not to scale.")


def of_sealer(sealer: Sealer, kb: KnowledgeBase) -> Drawing:
    """Draw the assembly of a sealer with the names of its main parts."""
    names = {id_: kb.parts[id_].title for id_ in sealer.parts}
    description = f"A plain line drawing of a sealer with {', '.join(names.values())}."
    svg = assembly_svg(sealer.drive, **_texts(sealer.title, "assembly", description))
    return Drawing(_svg(svg), "How the parts go together: a simple drawing, not to scale.")


def of_movement(name: str, id_prefix: str) -> Drawing:
    """Draw what a step of a procedure moves, and which way."""
    said = MOVES[name].said
    return Drawing(_svg(moving_svg(name, **_texts(said.rstrip("."), id_prefix, f"{said} A simple drawing."))), said)


def named_drawing(name: str) -> Drawing | None:
    """Draw what a hand-written page asks for by `{{ figure:NAME }}`; None for an unknown name."""
    if name in {"first-operation", "second-operation"}:
        which = name.split("-", maxsplit=1)[0]
        caption = {
            "first": "First operation: the deep, round groove curls the two edges together.",
            "second": "Second operation: the shallow, flat groove presses them.",
        }[which]
        return Drawing(_svg(operation_svg(which, **_texts(f"The {which} operation", name, caption))), caption)
    if name == "good-seam":
        caption = "A good double seam cut through, to scale: five layers, three of the lid and two of the can."
        return Drawing(_svg(section_svg(GOOD_SEAM, **_texts("A good double seam", name, caption))), caption)
    if name == "rollers":
        caption = "The groove of the first roller is deeper and rounder, that of the second shallower and flatter."
        return Drawing(_svg(rollers_svg(**_texts("The two seaming rollers", name, caption))), caption)
    return None


def frames_of_both_operations() -> list[Drawing]:
    """Draw how the two operations form a seam, as stills in their order."""
    count = len(FRAMES)
    return [
        Drawing(
            _svg(forming_svg(at, **_texts(f"Step {at + 1} of {count}", f"forming-{at + 1}", frame.said))),
            f"{at + 1} of {count}: {frame.said}",
        )
        for at, frame in enumerate(FRAMES)
    ]


def _svg(text: str) -> Markup:
    return Markup(text)  # noqa: S704 figures escapes every text in it


def _texts(title: str, id_prefix: str, description: str = "") -> _Texts:
    return {"title": title, "description": description or title, "id_prefix": id_prefix}


def _good(svg: str, caption: str = _GOOD) -> Drawing:
    return Drawing(_svg(svg), caption, "good")


def _bad(svg: str, caption: str) -> Drawing:
    return Drawing(_svg(svg), caption, "bad")


def _dimensions(figure: SectionFigure) -> SectionDimensions:
    given = {
        name: float(value.inches)
        for name in ("body_hook", "cover_hook", "seam_width", "seam_thickness", "countersink")
        if (value := getattr(figure, name)) is not None
    }
    return replace(GOOD_SEAM, **given)
