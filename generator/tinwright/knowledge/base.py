"""The knowledge base: every record, every reference resolved."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass, field
from functools import cached_property
from types import MappingProxyType
from typing import TYPE_CHECKING, Any, cast

from tinwright.knowledge.linking import mentions, turned_round

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from pathlib import Path

    from tinwright.knowledge.layers import Layer
    from tinwright.knowledge.linking import Mention
    from tinwright.knowledge.models import (
        Can,
        Cause,
        Caution,
        Defect,
        Part,
        Procedure,
        Programme,
        Sealer,
        SeamSpecification,
        Source,
        Term,
    )
    from tinwright.knowledge.models.base import Record
    from tinwright.knowledge.models.seen_here import SeenHere

__all__ = ["KnowledgeBase"]

_NONE: Mapping[str, Any] = MappingProxyType({})


@dataclass(frozen=True, eq=False)
class KnowledgeBase:
    """All records of one programme, frozen; each mapping is sorted by id.

    Attributes:
        root: the folder it was read from.
        layers: the layers it was read from, the ground first.
        origins: the names of the layers that each record comes from; several for one that was amended.
        records: every record by `(kind, id)`.
        seen_here: how often each cause was confirmed at the benches, when that was counted. It has no page of its own.
        mentions: what each record names, where that is known already.
    """

    root: Path
    records: Mapping[tuple[str, str], Record]
    seen_here: SeenHere | None = None
    mentions: Mapping[tuple[str, str], Sequence[Mention]] | None = None
    layers: tuple[Layer, ...] = ()
    origins: Mapping[tuple[str, str], tuple[str, ...]] = field(default_factory=dict)

    @cached_property
    def folders(self) -> tuple[Path, ...]:
        """The folders of its layers, the ground first."""
        return tuple(layer.folder for layer in self.layers) or (self.root,)

    @property
    def own(self) -> Path:
        """The folder of the layer on top: what is the program's own lies there."""
        return self.folders[-1]

    def of_kind(self, kind: str) -> Mapping[str, Any]:
        """Return the records of one kind by id, sorted."""
        return self._by_kind.get(kind, _NONE)

    @cached_property
    def _by_kind(self) -> dict[str, Mapping[str, Record]]:
        kinds: dict[str, dict[str, Record]] = defaultdict(dict)
        for (kind, id_), record in sorted(self.records.items()):
            kinds[kind][id_] = record
        return {kind: MappingProxyType(records) for kind, records in kinds.items()}

    @cached_property
    def _backlinks(self) -> dict[tuple[str, str], tuple[tuple[str, str, str], ...]]:
        return turned_round(self.mentions or {key: mentions(record) for key, record in self.records.items()})

    def named_by(self, kind: str, id_: str, *, by: str | None = None, field: str | None = None) -> tuple[Record, ...]:
        """Return the records that name the record `kind/id_`, once each.

        Args:
            kind: kind of the record named.
            id_: its id.
            by: only records of this kind.
            field: only where they name it in this field.
        """
        found = dict.fromkeys(
            (source_kind, source_id)
            for source_kind, source_id, source_field in self._backlinks.get((kind, id_), ())
            if (by is None or source_kind == by) and (field is None or source_field == field)
        )
        return tuple(self.records[key] for key in found)

    @property
    def programme(self) -> Programme:
        """The programme itself."""
        return cast("Programme", self.records["programme", "programme"])

    @property
    def sources(self) -> Mapping[str, Source]:
        """Sources by id."""
        return self.of_kind("source")

    @property
    def cans(self) -> Mapping[str, Can]:
        """Cans by id."""
        return self.of_kind("can")

    @property
    def seam_specifications(self) -> Mapping[str, SeamSpecification]:
        """Seam specifications by id."""
        return self.of_kind("seam-specification")

    @property
    def sealers(self) -> Mapping[str, Sealer]:
        """Sealers by id."""
        return self.of_kind("sealer")

    @property
    def parts(self) -> Mapping[str, Part]:
        """Parts by id."""
        return self.of_kind("part")

    @property
    def procedures(self) -> Mapping[str, Procedure]:
        """Procedures by id."""
        return self.of_kind("procedure")

    @property
    def defects(self) -> Mapping[str, Defect]:
        """Defects by id."""
        return self.of_kind("defect")

    @property
    def causes(self) -> Mapping[str, Cause]:
        """Causes by id."""
        return self.of_kind("cause")

    @property
    def cautions(self) -> Mapping[str, Caution]:
        """Cautions by id."""
        return self.of_kind("caution")

    @property
    def terms(self) -> Mapping[str, Term]:
        """Terms by id."""
        return self.of_kind("term")
