"""Cases that any implementation can be held to: for each function a JSON file of what is given and what is expected.

    PYTHONPATH=generator:tests .venv/bin/python -m cases

writes them anew from the Python half; `test_cases.py` holds Python and the browser to them. Names in the files are those of
the browser, quotients are two whole numbers, and probabilities are kept to nine places.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

__all__ = ["FOLDER", "read_cases"]

FOLDER = Path(__file__).parent
"""Where the files lie."""


def read_cases(name: str) -> list[dict[str, Any]]:
    """Return the cases of a function, each with `given`, a list of arguments, and `expected`."""
    found: list[dict[str, Any]] = json.loads((FOLDER / f"{name}.json").read_text(encoding="utf-8"))
    return found
