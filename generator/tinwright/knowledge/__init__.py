"""From the educator's YAML to checked, linked, frozen records.

from pathlib import Path
from tinwright.knowledge import load

kb = load(Path("content"))
kb.defects["droop"].can_action.steps[0].text
kb.named_by("cause", "first-roller-loose", by="defect")
"""

from tinwright.knowledge.base import KnowledgeBase
from tinwright.knowledge.loading import find_problems, load

__all__ = ["KnowledgeBase", "find_problems", "load"]
