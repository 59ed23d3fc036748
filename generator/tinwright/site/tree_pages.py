"""Troubleshooting trees: from a defect through its checks, in order, to the correction and the re-test."""

from __future__ import annotations

from typing import TYPE_CHECKING

from markupsafe import Markup

from tinwright.advice import drawings
from tinwright.advice.seen_here import seen_behind
from tinwright.figures import TreeNode, tree_svg
from tinwright.knowledge.models.trouble import FoundBy, Place
from tinwright.site.defect_checks import branches_of
from tinwright.site.pages_and_assets import Page
from tinwright.site.rendering import uri_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tinwright.knowledge import KnowledgeBase
    from tinwright.knowledge.models import Defect
    from tinwright.site.defect_checks import Branch
    from tinwright.site.rendering import Renderer

__all__ = ["tree_pages"]


def tree_pages(kb: KnowledgeBase, renderer: Renderer) -> Iterator[Page]:
    """Yield the master tree and the tree of each defect."""
    here = "trees/index.md"
    yield Page(here, renderer.render("tree-index.md.j2", here, branches=_master(kb)))
    for defect in kb.defects.values():
        here = f"trees/{defect.id}.md"
        branches = branches_of(defect, kb)
        cautions = list(dict.fromkeys([*defect.cautions, *(c for b in branches for c in b.cause.cautions)]))[:3]
        svg = _overview(defect, branches, renderer, here)
        text = renderer.render(
            "tree.md.j2",
            here,
            defect=defect,
            branches=branches,
            closeups=drawings.closeups_of(defect),
            cautions=cautions,
            svg=svg,
            confirmed=seen_behind(kb, defect),
        )
        yield Page(here, text)


def _master(kb: KnowledgeBase) -> list[tuple[Place, list[tuple[FoundBy, list[Defect]]]]]:
    """Group defects by where they show, then by how they are found; each under its first place and finding."""
    found = []
    for place in Place:
        here = [defect for defect in kb.defects.values() if place in defect.places]
        ways = [(how, [d for d in here if d.found_by[0] == how]) for how in FoundBy]
        ways = [(how, defects) for how, defects in ways if defects]
        if ways:
            found.append((place, ways))
    return found


def _overview(defect: Defect, branches: list[Branch], renderer: Renderer, here: str) -> Markup:
    """Draw the tree: each check leads to its cause and correction, and on to the next check."""
    children = tuple(
        TreeNode(
            f"{number}. {branch.cause.title}",
            "check",
            renderer.address(uri_of(branch.cause), here),
            (
                TreeNode(
                    branch.cause.correction.say,
                    "correction",
                    renderer.address(uri_of(branch.procedure), here),
                    (TreeNode(branch.retest.title, "retest", renderer.address(uri_of(branch.retest), here), ()),),
                ),
            ),
        )
        for number, branch in enumerate(branches, 1)
    )
    root = TreeNode(defect.title, "defect", renderer.address(uri_of(defect), here), children)
    svg = tree_svg(
        (root,),
        title=f"{defect.title}: checks, corrections and re-tests",
        description="; ".join(
            f"check {n}: {b.cause.title}; if so: {b.cause.correction.say.removesuffix('.')}"
            for n, b in enumerate(branches, 1)
        ),
        id_prefix="tree",
    )
    return Markup(svg)  # noqa: S704 figures escapes every text in it
