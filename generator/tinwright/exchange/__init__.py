"""The same records for other programs: JSON with its schema, structured data for pages, a feed of changes.

from pathlib import Path
from tinwright.exchange import knowledge_json
from tinwright.knowledge import load

knowledge_json(load(Path("content")))["records"]["defect"]["droop"]["title"]
"""

from tinwright.exchange.feed import change_feed
from tinwright.exchange.knowledge_json import knowledge_json
from tinwright.exchange.structured_data import quiz_data, structured_data

__all__ = ["change_feed", "knowledge_json", "quiz_data", "structured_data"]
