"""Write the cases anew: `PYTHONPATH=generator:tests .venv/bin/python -m cases`."""

from __future__ import annotations

import sys

from cases import FOLDER
from cases.kinds import KINDS, cases_text


def main() -> None:
    """Write a file for each kind of case."""
    for kind in KINDS:
        file = FOLDER / f"{kind.name}.json"
        file.write_text(cases_text(kind), encoding="utf-8", newline="\n")
        sys.stdout.write(f"wrote {file}\n")


if __name__ == "__main__":
    main()
