"""Runs the scripts of the pages beside the machine in Node, on a page that is only a tree of elements."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

from seaming.twin import SEAMING, files_of, run_node
from tinwright.browser.scripts import scripts
from tinwright.site.advice_data import BenchData
from tinwright.site.rendering import Renderer

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tinwright.knowledge import KnowledgeBase

_WANTED = ("bench-slip.js", "seam-picture.js")
_PAGE = """
class FakeElement {
  constructor(tag) { this.tag = tag; this.attributes = {}; this.children = []; this.text = ""; }
  setAttribute(name, value) { this.attributes[name] = value; }
  addEventListener() {}
  append(...nodes) { for (const node of nodes) this.children.push(typeof node === "string" ? { tag: "", textContent: node } : node); }
  set textContent(text) { this.text = text; this.children = []; }
  get textContent() { return this.text + this.children.map((each) => each.textContent).join(""); }
  find(tag) { return (this.tag === tag ? [this] : []).concat(...this.children.map((each) => (each.find ? each.find(tag) : []))); }
}
globalThis.document = { createElement: (tag) => new FakeElement(tag), createElementNS: (space, tag) => new FakeElement(tag) };
const given = JSON.parse(input.toString());
globalThis.tinwrightData = given.data;
"""


def on_the_phone(kb: KnowledgeBase, script: str, calls: Sequence[Any]) -> list[Any]:
    """Run the body of a function of `call` once for each call, with the page's scripts and data at hand."""
    load = f"load({files_of(_needed())});"
    run = f"process.stdout.write(JSON.stringify(given.calls.map((call) => {{ {script} }})));"
    data = BenchData(kb, Renderer(kb, directory_urls=False)).all()
    found: list[Any] = json.loads(
        run_node(_PAGE + load + run, json.dumps({"data": data, "calls": calls}, default=str).encode())
    )
    return found


def _needed() -> set[str]:
    """Name the wanted scripts and what they need, but for what is loaded already."""
    wanted = set(_WANTED)
    for script in reversed(scripts().values()):
        if script.name in wanted:
            wanted.update(script.needs)
    return wanted - {*SEAMING}
