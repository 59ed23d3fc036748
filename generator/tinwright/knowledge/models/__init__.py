"""The kinds of record, each a frozen pydantic model.

from tinwright.knowledge.models import KINDS

KINDS["defect"].model_json_schema()
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from tinwright.knowledge.models.can import Can, SeamSpecification
from tinwright.knowledge.models.caution_term import Caution, Term
from tinwright.knowledge.models.machine import Part, Sealer
from tinwright.knowledge.models.procedure import Procedure
from tinwright.knowledge.models.programme import Programme
from tinwright.knowledge.models.source import Source
from tinwright.knowledge.models.trouble import Cause, Defect

if TYPE_CHECKING:
    from tinwright.knowledge.models.base import Record

__all__ = [
    "KINDS",
    "Can",
    "Cause",
    "Caution",
    "Defect",
    "Part",
    "Procedure",
    "Programme",
    "Sealer",
    "SeamSpecification",
    "Source",
    "Term",
]

KINDS: dict[str, type[Record]] = {
    model.kind: model
    for model in (
        Programme,
        Source,
        Can,
        SeamSpecification,
        Part,
        Sealer,
        Procedure,
        Cause,
        Defect,
        Caution,
        Term,
    )
}
"""Every kind of record by name."""
