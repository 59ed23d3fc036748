"""Write the code of the formulas again, in a clone of the repository: `python -m tinwright.codegen`."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING

from tinwright.codegen.for_python import MODULE, module_text

if TYPE_CHECKING:
    from pathlib import Path


def main() -> None:
    """Write the Python half and then, by its help, the browser's."""
    _write(MODULE, module_text())
    from tinwright.codegen import for_browser  # noqa: PLC0415 - it loads what was just written

    _write(for_browser.SCRIPT, for_browser.script_text())
    _write(for_browser.SENTENCES_SCRIPT, for_browser.sentences_text())


def _write(file: Path, text: str) -> None:
    file.write_text(text, encoding="utf-8", newline="\n")
    sys.stdout.write(f"wrote {file}\n")


if __name__ == "__main__":
    main()
