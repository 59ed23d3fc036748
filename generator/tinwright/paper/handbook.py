"""The handbook: all records as a book, with contents, pointers by page and an index."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from tinwright.advice import drawings
from tinwright.advice.seen_here import causes_in_order
from tinwright.advice.set_ups import SET_UP_ORDER, all_sheets
from tinwright.advice.worked_example import worked_example
from tinwright.figures import GOOD_SEAM, section_svg
from tinwright.knowledge.handwritten import read_handwritten
from tinwright.knowledge.models.caution_term import Signal
from tinwright.knowledge.models.machine import Adjuster
from tinwright.knowledge.models.trouble import Place
from tinwright.knowledge.plain_words import say
from tinwright.measures import parse_can_code
from tinwright.paper.handwritten import handwritten_html
from tinwright.paper.press import Press, Printed, anchor, in_order
from tinwright.seaming import FORMULAS, SIDE_SEAM_NOTE

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from tinwright.advice.set_ups import Sheet
    from tinwright.knowledge import KnowledgeBase
    from tinwright.knowledge.models import Can, Cause, Defect, Procedure, Sealer
    from tinwright.knowledge.models.base import Record

__all__ = ["handbook"]


@dataclass(frozen=True)
class IndexLine:
    """One line of the index."""

    name: str
    """What is looked up."""
    target: str
    """Id of the place it leads to."""
    means: str
    """The name it goes by in this book, where that is another."""


def handbook(press: Press) -> Printed:
    """Print the handbook.

    Raises:
        MissingExtraError: when the libraries of the extra `paper` are not installed.
    """
    return press.print(
        "handbook.pdf", "handbook.html.j2", title=f"{press.kb.programme.title}: handbook", linked=True, **_values(press)
    )


def _values(press: Press) -> dict[str, Any]:
    kb = press.kb
    sheets = all_sheets(kb)
    return {
        "cautions": [
            (signal, found) for signal in Signal if (found := [c for c in kb.cautions.values() if c.signal == signal])
        ],
        "handwritten": [
            (page, lambda page=page: handwritten_html(press, page)) for page in read_handwritten(*kb.folders)
        ],
        "cans": [(can, parse_can_code(can.code)) for can in _by_size(kb.cans.values())],
        "sealers": [
            (sealer, drawings.of_sealer(sealer, kb), _procedures_of(kb, sealer)) for sealer in kb.sealers.values()
        ],
        "parts": [(part, drawings.of_part(part)) for part in in_order(kb.parts.values())],
        "procedures": _procedures(kb),
        "good_seam": section_svg(
            GOOD_SEAM, title="A good double seam", description="Cross-section to scale.", id_prefix="good"
        ),
        "formulas": list(FORMULAS.values()),
        "example": worked_example(),
        "side_seam": SIDE_SEAM_NOTE,
        "specifications": in_order(kb.seam_specifications.values()),
        "finder": _finder(kb),
        "defects": [
            (defect, drawings.of_defect(defect), causes_in_order(kb, defect))
            for defect in in_order(kb.defects.values())
        ],
        "causes": _causes(kb),
        "set_ups": [(sealer, *_set_ups(sealer, sheets.values())) for sealer in kb.sealers.values()],
        "terms": in_order(kb.terms.values()),
        "sources": sorted(kb.sources.values(), key=lambda source: source.short.casefold()),
        "index": _index(kb),
    }


def _by_size(cans: Iterable[Can]) -> list[Can]:
    def size(can: Can) -> tuple[Any, ...]:
        code = parse_can_code(can.code)
        return code.diameter_in, code.height_in, can.code

    return sorted(cans, key=size)


def _procedures_of(kb: KnowledgeBase, sealer: Sealer) -> list[Procedure]:
    named = [kb.procedures[id_] for id_ in sealer.procedures]
    return named + [p for p in kb.procedures.values() if sealer.drive in p.drives and p not in named]


def _procedures(kb: KnowledgeBase) -> list[tuple[str, list[Procedure]]]:
    """Put the procedures of a set-up first, in their order, and the others after."""
    setting_up = [kb.procedures[id_] for id_ in SET_UP_ORDER if id_ in kb.procedures]
    others = [p for p in in_order(kb.procedures.values()) if p not in setting_up]
    groups = [("Setting up and testing, in order", setting_up), ("Sealing, checking and care", others)]
    return [(heading, found) for heading, found in groups if found]


def _finder(kb: KnowledgeBase) -> list[tuple[Place, list[Defect]]]:
    """Group the defects by every place they show in."""
    groups = [(place, [d for d in in_order(kb.defects.values()) if place in d.places]) for place in Place]
    return [(place, found) for place, found in groups if found]


def _causes(kb: KnowledgeBase) -> list[tuple[str, list[tuple[Cause, list[tuple[Sealer, Any]]]]]]:
    """Group the causes in the order of adjustment, each with the screws that act on it."""
    groups = []
    for adjuster in Adjuster:
        found = [cause for cause in in_order(kb.causes.values()) if cause.adjuster == adjuster]
        screws = [(s, screw) for s in kb.sealers.values() for screw in s.adjusters if screw.adjuster == adjuster]
        if found:
            groups.append((say(adjuster).capitalize(), [(cause, screws) for cause in found]))
    return groups


def _set_ups(sealer: Sealer, sheets: Iterable[Sheet]) -> tuple[list[Sheet], list[Sheet]]:
    mine = sorted(
        (sheet for sheet in sheets if sheet.sealer is sealer), key=lambda s: (s.code.diameter_in, s.code.height_in)
    )
    return [sheet for sheet in mine if sheet.works], [sheet for sheet in mine if not sheet.works]


_INDEXED = ("caution", "sealer", "part", "procedure", "defect", "cause", "term", "seam-specification")


def _index(kb: KnowledgeBase) -> list[tuple[str, list[IndexLine]]]:
    """List every name of every record, and every other name it goes by, under its first letter."""
    letters: dict[str, list[IndexLine]] = defaultdict(list)
    for line in sorted(_lines(kb), key=lambda line: (line.name.casefold(), line.target)):
        first = line.name[:1].upper()
        letters[first if first.isalpha() else "0–9"].append(line)
    return sorted(letters.items())


def _lines(kb: KnowledgeBase) -> Iterator[IndexLine]:
    for kind in _INDEXED:
        for record in kb.of_kind(kind).values():
            yield IndexLine(record.name, anchor(record), "")
            for other in dict.fromkeys(_other_names(record)):
                if other.casefold() != record.name.casefold():
                    yield IndexLine(other, anchor(record), record.name)


def _other_names(record: Record) -> tuple[str, ...]:
    return tuple(getattr(record, "also", ()))
