"""A small kitchen of the tests' own: the starter programme with two sealers and a sheet of limits.

What an educator changes in the demonstration changes no test that stands on it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from small_kitchen import lay_down

if TYPE_CHECKING:
    from pathlib import Path

__all__ = ["SHEET", "lay_bench"]

SHEET = """\
title: A sheet of the tests' own
supplier: Nobody
cans: ["307x409"]
end_plate: 0.010 in
body_plate: 0.010 in
limits:
  - {dimension: countersink, min: 0.120 in, aim: 0.125 in, max: 0.130 in}
  - {dimension: seam-width, min: 0.110 in, aim: 0.118 in, max: 0.125 in}
  - {dimension: overlap, min: 0.040 in, max: no limit}
  - {dimension: seam-thickness, min: 0.052 in, aim: 0.055 in, max: 0.060 in}
  - {dimension: body-hook, min: 0.070 in, aim: 0.078 in, max: 0.086 in}
  - {dimension: cover-hook, min: 0.068 in, aim: 0.076 in, max: 0.084 in}
overlap_percent_min: 45
overlap_variant: A
butting_percent_min: 70
tightness_percent_min: 70
evidence: {grade: invented, note: For tests}
reviewed: 2026-11-04
"""


def lay_bench(folder: Path) -> Path:
    """Lay the kitchen `Mill Street`, with a bench crank sealer and a bench lever sealer, into a new folder.

    Returns:
        Its content.
    """
    lay_down(folder)
    content = folder / "content"
    sealer = content / "sealers" / "our-sealer.yml"
    for id_, title in (("bench-crank-sealer", "Bench crank sealer"), ("bench-lever-sealer", "Bench lever sealer")):
        sealer.with_stem(id_).write_text(
            sealer.read_text("utf-8").replace("title: Bench sealer", f"title: {title}"), "utf-8"
        )
    sealer.unlink()
    for file in (content / "program.yml", content / "pages" / "about-this-site.md"):
        text = file.read_text("utf-8").replace("Our kitchen", "Mill Street")
        file.write_text(text.replace("our-sealer", "bench-crank-sealer"), "utf-8")
    programme = content / "program.yml"
    text = programme.read_text("utf-8")
    programme.write_text(
        text.replace("      - bench-crank", "      - bench-lever-sealer\n      - bench-crank"), "utf-8"
    )
    (content / "seam-specifications").mkdir()
    (content / "seam-specifications" / "demo-307.yml").write_text(SHEET, "utf-8")
    return content
