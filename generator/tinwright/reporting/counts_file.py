"""The file of counts that the site is built with: sealers, defects, causes and how often. No person, session or day."""

from __future__ import annotations

from typing import TYPE_CHECKING

import yaml

from tinwright.errors import RecordError
from tinwright.knowledge.wording import nearest

if TYPE_CHECKING:
    from collections.abc import Iterable

    from tinwright.knowledge import KnowledgeBase
    from tinwright.seaming import Confirmed

__all__ = ["check_ids", "counts_text"]

_HEAD = """\
# yaml-language-server: $schema=schema/seen-here.json
# Written by `tinwright log counts`: how often each cause was confirmed at the bench. No person, no session, no day.
"""


def check_ids(kb: KnowledgeBase, counts: Iterable[Confirmed]) -> None:
    """Refuse counts of what is not in the content, so that no file is written which the content would refuse.

    Raises:
        RecordError: naming the first such id, with the nearest spelling.
    """
    for each in counts:
        for kind, id_ in (("sealer", each.sealer), ("defect", each.defect), ("cause", each.cause)):
            records = kb.of_kind(kind)
            if id_ not in records:
                raise RecordError(
                    f"the log names a {kind} {id_!r} that the content does not have{nearest(id_, records)}"
                )


def counts_text(counts: Iterable[Confirmed], *, through: int, invented: bool = False) -> str:
    """Return the text of the file.

    Args:
        counts: the counts.
        through: the year up to which was counted; nothing finer is ever published.
        invented: whether they come from a demonstration.
    """
    rows = [{"sealer": each.sealer, "defect": each.defect, "cause": each.cause, "times": each.times} for each in counts]
    content = {"through": through, **({"invented": True} if invented else {}), "confirmed": rows}
    return _HEAD + yaml.safe_dump(content, sort_keys=False, allow_unicode=True, width=120)
