"""Strings that would do something if a page took them for anything but text, and a programme made of them.

Each sets `window.__hit`, or asks for `hit.invalid`, if it runs. From the classes of injection in the OWASP Cross Site
Scripting Prevention and Filter Evasion cheat sheets (from memory), and from what Markdown, Jinja, YAML and MkDocs give
a meaning to.
"""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

from filled_programme import _OTHER, _fields, _picture
from tinwright.knowledge.models import KINDS

if TYPE_CHECKING:
    from pathlib import Path

MARKUP = (
    "<script>window.__hit=1</script>",
    "<ScRiPt src=//hit.invalid/x.js></sCrIpT>",
    "<img src=x onerror=window.__hit=1>",
    "<img/src=`x`onerror=window.__hit=1//",
    "<svg onload=window.__hit=1>",
    "<svg><script>window.__hit=1</script></svg>",
    "<svg><animate onbegin=window.__hit=1 attributeName=x dur=1s>",
    "<svg><use href='data:image/svg+xml,<svg id=x xmlns=http://www.w3.org/2000/svg><script>window.__hit=1</script></svg>#x'>",
    "<math><mtext><table><mglyph><style><img src=x onerror=window.__hit=1>",
    "<iframe srcdoc='<script>parent.__hit=1</script>'></iframe>",
    "<details open ontoggle=window.__hit=1>",
    "<body onpageshow=window.__hit=1>",
    "<a href=javascript:window.__hit=1>press</a>",
    "<form action=javascript:window.__hit=1><button>press</button></form>",
    "<base href=//hit.invalid/>",
    "<link rel=stylesheet href=//hit.invalid/x.css>",
    "<meta http-equiv=refresh content='0;url=//hit.invalid/'>",
    "<object data=//hit.invalid/x.swf></object>",
    "<template><img src=x onerror=window.__hit=1></template>",
    "<noscript><p title='</noscript><img src=x onerror=window.__hit=1>'>",
)
ENDINGS = (
    "</title><script>window.__hit=1</script>",
    "</script><script>window.__hit=1</script>",
    "</textarea></style></noscript></svg><img src=x onerror=window.__hit=1>",
    "--><img src=x onerror=window.__hit=1>",
    "]]><img src=x onerror=window.__hit=1>",
    "\" autofocus onfocus=window.__hit=1 x=\"",
    "' autofocus onfocus=window.__hit=1 x='",
    "\"};window.__hit=1;//",
    "';window.__hit=1;'",
    "\\\";window.__hit=1;//",
    "`${window.__hit=1}`",
)  # fmt: skip
LANGUAGES = (
    "[press](javascript:window.__hit=1)",
    "![x](x){: onerror=window.__hit=1 }",
    "{: onclick=window.__hit=1 style=background:url(//hit.invalid/) }",
    "<javascript:window.__hit=1>",
    "[x]: javascript:window.__hit=1",
    "{{ 7 * 7 }}{% raw %}{# x #}",
    "{{ ''.__class__.__mro__ }}",
    "<%= 7 * 7 %><?php 7 ?>",
    "{\"__proto__\":{\"__hit\":1}}",
    "<style>@import '//hit.invalid/x.css';</style>",
    "<p style=\"background:url(//hit.invalid/x)\">",
    "expression(window.__hit=1)",
    "--- \ntitle: x\n---\n# heading",
)  # fmt: skip
DISGUISED = (
    "\uff1cscript\uff1ewindow.__hit=1\uff1c/script\uff1e",
    "\u02bb\u02bcimg src=x onerror=window.__hit=1\u203a",
    "<img\u2028src=x\u2028onerror=window.__hit=1>",
    "<scr\u00adipt>window.__hit=1</scr\u00adipt>",
    "\u202e>tpircs/<1=tih__.wodniw>tpircs<",
    "\u200b<script\u200b>window.__hit=1</script>",
    "&lt;script&gt;window.__hit=1&lt;/script&gt;",
    "&#60;img src=x onerror=window.__hit=1&#62;",
    "%3Cscript%3Ewindow.__hit=1%3C/script%3E",
    "\\u003cscript\\u003ewindow.__hit=1\\u003c/script\\u003e",
    "+ADw-script+AD4-window.__hit=1+ADw-/script+AD4-",
)
ADDRESSES = (
    "javascript:window.__hit=1",
    "JaVaScRiPt:window.__hit=1",
    "java\tscript:window.__hit=1",
    "\u0001javascript:window.__hit=1".replace("\u0001", "\u00a0"),
    "data:text/html,<script>parent.__hit=1</script>",
    "vbscript:window.__hit=1",
    "//hit.invalid/x",
    'https://example.org/" onclick="window.__hit=1',
    "https://example.org/'><img src=x onerror=window.__hit=1>",
)
CORPUS = MARKUP + ENDINGS + LANGUAGES + DISGUISED + ADDRESSES
REFUSED = tuple(text for text in DISGUISED if not text.isprintable() and "\u2028" not in text)
"""What the checker refuses in a record, because nobody sees all of it; the rest must be harmless on every page."""
IN_RECORDS = tuple(text for text in CORPUS if text not in REFUSED)

IN_ONE_RECORD = 11
"""How many strings each field of one record holds, in another order in each field so that each comes first somewhere."""

GROUPS = tuple(IN_RECORDS[start : start + IN_ONE_RECORD] for start in range(0, len(IN_RECORDS), IN_ONE_RECORD))


def write_hostile_programme(root: Path) -> None:
    """Lay down, for each group of strings, a record of each kind with the group in each of its text fields."""
    _picture(root)
    for kind, model in KINDS.items():
        if kind == "programme":
            _write(root / "program.yml", _record(model, kind, IN_RECORDS, 0))
            continue
        for number, group in enumerate(GROUPS):
            _write(root / model.folder / f"{kind}-{number}.yml", _record(model, kind, group, number))
    (root / "sources" / "others.yml").write_text(json.dumps([_OTHER], default=str), encoding="utf-8")


def _record(model: Any, kind: str, strings: tuple[str, ...], number: int) -> dict[str, Any]:
    count = 0

    def text(path: str) -> str:
        nonlocal count
        count += 1
        if path.endswith(".address"):
            return ADDRESSES[(number + count) % len(ADDRESSES)]
        turn = count % len(strings)
        return " ".join([*strings[turn:], *strings[:turn]])

    record: dict[str, Any] = _named(_fields(model, kind, text), number)
    if kind == "cause":
        record["correction"]["say"] = "Put <script>window.__hit=1</script> right."  # the checker asks for a short order
    return record | {"formerly": [f"before-{number}"]}


def _named(value: Any, number: int, key: str = "") -> Any:
    """Point each reference to a record of the same number."""
    if isinstance(value, dict):
        return {name: _named(part, number, name) for name, part in value.items()}
    if isinstance(value, list):
        return [_named(part, number, key) for part in value]
    return f"{value}-{number}" if isinstance(value, str) and value in KINDS and key != "grade" else value


def _write(file: Path, record: dict[str, Any]) -> None:
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_text(json.dumps(record, default=str, ensure_ascii=False, indent=1), encoding="utf-8")
