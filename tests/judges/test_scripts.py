"""What is published of our scripts is what we wrote, word for word, by the parser of the TypeScript compiler."""

from __future__ import annotations

import json
import subprocess
from typing import TYPE_CHECKING

from demo_site import ROOT
from tinwright.browser import scripts

if TYPE_CHECKING:
    from pathlib import Path

SOURCES = ROOT / "generator" / "tinwright" / "browser"
TYPESCRIPT = ROOT / ".judges" / "node_modules" / "typescript"


def differing(pairs: list[tuple[Path, list[Path]]]) -> list[str]:
    """Names of the published scripts that say something else than their sources."""
    named = json.dumps([(str(published), [str(source) for source in sources]) for published, sources in pairs])
    judge = ["node", str(ROOT / "tests" / "judges" / "same-tokens.cjs"), str(TYPESCRIPT), named]
    found: list[str] = json.loads(subprocess.run(judge, capture_output=True, text=True, check=True).stdout)
    return found


def test_published_scripts_lost_comments_and_nothing_else(site_folder: Path) -> None:
    parts: dict[str, list[Path]] = {}
    for script in scripts().values():
        parts.setdefault(script.joined, []).append(SOURCES / script.subject / script.name)
    pairs = [(site_folder / "assets" / name, sources) for name, sources in sorted(parts.items())]
    assert len(pairs) > 15
    assert differing(pairs) == []
    assert all(
        published.stat().st_size < sum(source.stat().st_size for source in sources) for published, sources in pairs
    )


def test_the_judge_sees_a_word_that_is_lost(tmp_path: Path) -> None:
    source, same, other = (tmp_path / name for name in ("source.js", "same.js", "other.js"))
    source.write_text("// a\nconst text = `a // b`; // c\nconst half = 1 / 2 / 3;\n", encoding="utf-8")
    same.write_text("const text=`a // b`;const half=1/2/3;", encoding="utf-8")
    other.write_text("const text=`a `;const half=1/2/3;", encoding="utf-8")
    assert differing([(same, [source]), (other, [source])]) == [str(other)]
