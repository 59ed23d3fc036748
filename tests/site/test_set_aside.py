"""What is set aside comes back: a page is the same as if all of it had been converted."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import markdown
import pytest

from tinwright.site import build_site
from tinwright.site.set_aside import set_aside

if TYPE_CHECKING:
    from tinwright.knowledge import KnowledgeBase
    from tinwright.knowledge.bank import Bank

FRONT_MATTER = re.compile(r"\A---\n.*?\n---\n", re.DOTALL)


def converted(text: str) -> str:
    return markdown.markdown(text, extensions=["attr_list", "toc"])


def in_two_steps(text: str) -> str:
    aside = set_aside(text)
    return aside.with_parts(aside.with_blocks(converted(aside.text)))


def flat(html: str) -> str:
    """HTML without white space, and without the paragraph that Python-Markdown puts round a style sheet's link."""
    html = re.sub(r"<p>((?:<link[^>]*>\s*)+)</p>", r"\1", html)
    return re.sub(r"\s+", "", html)


def test_every_page_of_the_demonstration_is_the_same(kb: KnowledgeBase, bank: Bank) -> None:
    left = 0
    for page in build_site(kb, bank=bank).pages:
        text = FRONT_MATTER.sub("", page.text)
        assert flat(in_two_steps(text)) == flat(converted(text)), page.uri
        left += len(set_aside(text).text)
    assert left < 200_000, "what is converted should be a small part of several million letters"


@pytest.mark.parametrize(
    "text",
    [
        "# A\n\n<p>b</p>\n\n## C\n\n<div>\n\n<p>d</p>\n\n</div>\n",
        "# A\n\n<p>b\n\n# no heading\n\n</p>\n\n## C\n\nplain *words*\n",
        "# A\n\n<pre>\n# no heading\n</pre>\n",
        "# A\n\n<p>b</p> words after\n",
        "# A\n\n<em>inline</em> first\n\n<p>b</p>\n",
        "# A\n\n<p>never closed\n",
        "# A\n\n</p><p>b</p>\n",
        '# A\n\n<p title="a > b">c<br>d</p><svg viewBox="0 0 1 1"><path d="M0 0"/></svg>\n',
        "# A\n\n<div data-search-exclude><svg><g/></svg><p>x</p></div>\n\n<p>y</p>\n",
        "<p>b</p>\n",
        "",
    ],
)
def test_what_is_not_whole_blocks_is_converted_as_ever(text: str) -> None:
    assert flat(in_two_steps(text)) == flat(converted(text))


def test_drawings_and_what_is_not_searched_are_hidden_from_the_search() -> None:
    aside = set_aside("# A\n\n<p>b<svg><title>c</title></svg></p>\n\n<div data-search-exclude>d</div>\n")
    shown = aside.with_blocks(converted(aside.text))
    assert not any(word in shown for word in ("<svg", "c</title>", "d</div>"))
    assert aside.parts == ["<svg><title>c</title></svg>", "<div data-search-exclude>d</div>"]


def test_a_mark_that_somebody_wrote_puts_nothing_in() -> None:
    text = "# A\n\n\ue0000\ue000\n\n<p>secret</p>\n\n## B\n\n<!--\ue0007\ue000-->\n"
    assert in_two_steps(text).count("secret") == 1


def test_anchors_are_known() -> None:
    assert set_aside('# A\n\n<p id="b"><svg id="c"></svg></p>\n').anchors() == {"b", "c"}
