"""A few records that rest on four sources, two of which pass on a third: how statements are known, to be counted by hand."""

from __future__ import annotations

ALL_NAMED = "[[source/manual]] [[source/manuel]] [[source/leaflet]] [[source/book]]\n"


def sources(**more: str) -> str:
    """Four sources: a manual, its French edition, a leaflet that passes the French edition on, and a book of its own."""
    rows = {
        "manual": "reading: whole",
        "manuel": "reading: part\n  same_as: manual",
        "leaflet": "reading: weak\n  same_as: manuel",
        "book": "reading: part",
        **more,
    }
    return "".join(
        f"- id: {id_}\n  title: T\n  short: {id_.title()}\n  publisher: P\n  year: '2001'\n  about: A.\n"
        f"  licence: L\n  reviewed: 2026-11-02\n  {rest}\n"
        for id_, rest in rows.items()
    )


DEFECT = """\
title: Loose seam
said: [it is fat, it is thick, it is slack]
summary: The seam is loose.
found_by: [feel]
places: [seam-face]
extents: [all-round]
can_action:
  disposition: hold
  steps: [{text: Set it aside., evidence: practice}]
what: {text: It is loose., evidence: {source: book, where: p. 3}}
look: [{text: Feel it., evidence: practice}]
figure:
  outside: {feature: abrasion, extent: part-round}
  caption: A fat seam.
causes:
  - {cause: slack, likelihood: common, because: It is slack., evidence: {source: manual, where: p. 4, also: [{source: book, where: p. 5}]}}
  - {cause: worn, likelihood: rare, because: It is worn., evidence: memory}
reviewed: 2026-11-02
"""
CAUSE = """\
title: A cause
adjuster: chuck
what: {text: Something., evidence: invented}
confirm: [{do: Look., if_so: Yes., if_not: No., evidence: practice}]
minutes: 1
extent: [all-round]
repeats: [every-can]
correction:
  say: Wipe it clean.
  direction: clean
  do: [{text: Clean it., evidence: practice}]
  procedure: clean
retest: clean
reviewed: 2026-11-02
"""
PROCEDURE = """\
title: Clean
purpose: {text: It cleans., evidence: {grade: derived, source: manuel, where: p. 6}}
when: Now.
minutes: 1
judges_seam: true
steps: [{do: Clean.}]
done_when: It is clean.
evidence: practice
reviewed: 2026-11-02
"""

SMALL = {
    "sources/all.yml": sources(),
    "defects/loose.yml": DEFECT,
    "causes/slack.yml": CAUSE,
    "causes/worn.yml": CAUSE.replace("title: A cause", "title: Another cause"),
    "procedures/clean.yml": PROCEDURE,
    "pages/how-we-know.md": f"# How we know\n\n{ALL_NAMED}\nBefore.\n\n{{{{ table:evidence }}}}\n\nAfter.\n",
}
"""Content in which 2 statements are read in a source, 1 is worked out, 7 are practice, 1 is memory, 2 are invented."""
