"""A page of another site that shows a page of ours in a frame."""

from __future__ import annotations

from contextlib import contextmanager
from typing import TYPE_CHECKING

from demo_site import served

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

_PARENT = """<!doctype html>
<html lang="en"><head><meta charset="utf-8"><title>Another site</title><link rel="icon" href="data:,"></head><body>
<h1>Another site</h1>
<iframe id="frame" title="Can sealing" style="width: 100%; height: 10px; border: 0"></iframe>
<script>
const heights = [];
const frame = document.getElementById("frame");
addEventListener("message", event => {
  if (event.source !== frame.contentWindow || event.data.tinwright !== "height") return;
  heights.push(event.data);
  frame.style.height = `${event.data.height}px`;
});
frame.src = decodeURIComponent(location.hash.slice(1));
</script></body></html>
"""


@contextmanager
def another_site(folder: Path) -> Iterator[str]:
    """Serve the other site; yields the address of its page, to which the framed address is added after `#`."""
    folder.mkdir(parents=True)
    (folder / "parent.html").write_text(_PARENT, encoding="utf-8")
    with served(folder) as address:
        yield f"{address}parent.html"
