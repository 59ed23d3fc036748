"""A page for each record, with links both ways."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from tinwright.advice import drawings
from tinwright.advice.seen_here import causes_in_order, seen_behind, seen_on
from tinwright.browser import needed_scripts
from tinwright.knowledge.plain_words import KIND_TITLES
from tinwright.measures import parse_can_code
from tinwright.site.defect_checks import branches_of, is_urgent, red_line
from tinwright.site.pages_and_assets import Page
from tinwright.site.rendering import uri_of

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Mapping

    from tinwright.advice.set_ups import Sheet
    from tinwright.knowledge import KnowledgeBase
    from tinwright.knowledge.models import Can, Cause, Caution, Defect, Part, Procedure, Sealer, Source, Term
    from tinwright.knowledge.models.base import Record
    from tinwright.site.rendering import Renderer

__all__ = ["record_pages"]


def record_pages(kb: KnowledgeBase, renderer: Renderer, sheets: Mapping[tuple[str, str], Sheet]) -> Iterator[Page]:
    """Yield the page of every record but the programme."""
    makers: dict[str, Callable[[Any], dict[str, Any]]] = {
        "defect": lambda record: _defect(kb, record),
        "cause": lambda record: _cause(kb, record),
        "procedure": lambda record: _procedure(kb, record),
        "part": lambda record: _part(kb, record),
        "sealer": lambda record: _sealer(kb, record, sheets),
        "can": lambda record: _can(kb, record, sheets),
        "seam-specification": lambda record: {"spec": record},
        "caution": lambda record: _caution(kb, record),
        "term": lambda record: _term(kb, record),
        "source": lambda record: _source(kb, record),
    }
    for (kind, _), record in sorted(kb.records.items()):
        if kind in makers:
            here = uri_of(record)
            yield Page(here, renderer.render(f"{kind}.md.j2", here, **makers[kind](record)))


def _with_pages(records: Iterable[Record]) -> list[Record]:
    return [record for record in records if record.kind != "programme"]


def _others(kb: KnowledgeBase, record: Record, shown: Iterable[Record]) -> list[Record]:
    """Records that name this one and are not shown on its page already."""
    seen = {(r.kind, r.id) for r in shown}
    return [r for r in _with_pages(kb.named_by(record.kind, record.id)) if (r.kind, r.id) not in seen]


def _defect(kb: KnowledgeBase, defect: Defect) -> dict[str, Any]:
    shown = [kb.defects[alike.defect] for alike in defect.look_alikes]
    return {
        "defect": defect,
        "red_line": red_line(defect),
        "urgent": is_urgent(defect),
        "closeups": drawings.closeups_of(defect),
        "branches": branches_of(defect, kb),
        "scripts": needed_scripts("defect-checks.js"),
        "drawings": drawings.of_defect(defect),
        "causes": causes_in_order(kb, defect),
        "confirmed": seen_behind(kb, defect),
        "named_by": _others(kb, defect, shown),
    }


def _cause(kb: KnowledgeBase, cause: Cause) -> dict[str, Any]:
    screws = [
        (sealer, screw)
        for sealer in kb.sealers.values()
        for screw in sealer.adjusters
        if screw.adjuster == cause.adjuster
    ]
    shown = [*kb.named_by("cause", cause.id, by="defect"), *kb.named_by("cause", cause.id, by="part")]
    return {"cause": cause, "adjusters": screws, "others": _others(kb, cause, shown)}


def _procedure(kb: KnowledgeBase, procedure: Procedure) -> dict[str, Any]:
    corrects = [c for c in kb.causes.values() if c.correction.procedure == procedure.id]
    retests = [c for c in kb.causes.values() if c.retest == procedure.id]
    shown = [*corrects, *retests, *(kb.procedures[id_] for id_ in procedure.then)]
    return {
        "procedure": procedure,
        "corrects": corrects,
        "retests": retests,
        "holds": any(step.held for step in procedure.steps),
        "moves": [
            drawings.of_movement(step.figure, f"move-{number}") if step.figure else None
            for number, step in enumerate(procedure.steps, start=1)
        ],
        "others": _others(kb, procedure, shown),
    }


def _part(kb: KnowledgeBase, part: Part) -> dict[str, Any]:
    named = [kb.procedures[id_] for id_ in part.procedures]
    procedures = named + [p for p in kb.named_by("part", part.id, by="procedure") if p not in named]
    shown = [
        *procedures,
        *kb.named_by("part", part.id, by="sealer"),
        *(kb.causes[id_] for id_ in part.when_worn),
    ]
    return {
        "part": part,
        "drawing": drawings.of_part(part),
        "procedures": procedures,
        "others": _others(kb, part, shown),
    }


def _sealer(kb: KnowledgeBase, sealer: Sealer, sheets: Mapping[tuple[str, str], Sheet]) -> dict[str, Any]:
    named = [kb.procedures[id_] for id_ in sealer.procedures]
    for_drive = [p for p in kb.procedures.values() if sealer.drive in p.drives and p not in named]
    return {
        "sealer": sealer,
        "drawing": drawings.of_sealer(sealer, kb),
        "sheets": [sheet for (sealer_id, _), sheet in sheets.items() if sealer_id == sealer.id],
        "procedures": named + for_drive,
        "confirmed": seen_on(kb, sealer.id),
    }


def _can(kb: KnowledgeBase, can: Can, sheets: Mapping[tuple[str, str], Sheet]) -> dict[str, Any]:
    mine = [sheets[sealer_id, can.id] for sealer_id in kb.sealers]
    return {"can": can, "code": parse_can_code(can.code), "sheets": mine}


def _caution(kb: KnowledgeBase, caution: Caution) -> dict[str, Any]:
    return {"caution": caution, "named_by": _with_pages(kb.named_by("caution", caution.id))}


def _term(kb: KnowledgeBase, term: Term) -> dict[str, Any]:
    back = kb.named_by("term", term.id, by="term")
    related = list({t.id: t for t in (*(kb.terms[id_] for id_ in term.see), *back)}.values())
    return {"term": term, "related": related, "named_by": _others(kb, term, related)}


def _source(kb: KnowledgeBase, source: Source) -> dict[str, Any]:
    named = _with_pages(kb.named_by("source", source.id))
    groups = [(kind, [r for r in named if r.kind == kind]) for kind in KIND_TITLES]
    return {"source": source, "cited_by": [(kind, records) for kind, records in groups if records]}
