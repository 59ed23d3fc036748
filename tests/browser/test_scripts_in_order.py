"""Scripts run after what they need, and what they say they need is what they use."""

from __future__ import annotations

import re

import pytest

from tinwright.browser import Script, needed_scripts, published_scripts, scripts

SCRIPTS = list(scripts().values())
DEFINED = re.compile(r"[.](tinwright[A-Z]\w*) = ")
USED = re.compile(r"\btinwright[A-Z]\w*")


def all_needs(name: str) -> set[str]:
    needs = set(scripts()[name].needs)
    return needs.union(*(all_needs(need) for need in needs)) if needs else needs


@pytest.mark.parametrize("script", SCRIPTS, ids=lambda script: script.name)
def test_a_script_says_that_it_needs_whatever_defines_what_it_uses(script: Script) -> None:
    defined = {name: other.name for other in reversed(SCRIPTS) for name in DEFINED.findall(other.text)}
    used = {defined[name] for name in USED.findall(script.text) if name in defined}
    assert used <= {script.name, *all_needs(script.name)}


def test_every_script_comes_after_what_it_needs() -> None:
    places = {name: place for place, name in enumerate(scripts())}
    assert all(places[need] < places[script.name] for script in SCRIPTS for need in script.needs)


@pytest.mark.parametrize("script", SCRIPTS, ids=lambda script: script.name)
def test_a_page_gets_files_in_the_order_in_which_they_can_run(script: Script) -> None:
    name = script.name
    files = needed_scripts(name)
    assert files[-1] == scripts()[name].joined
    assert set(files) <= set(published_scripts())
    for place, file in enumerate(files):
        needs = {need for part in SCRIPTS if part.joined == file for need in part.needs}
        assert {scripts()[need].joined for need in needs} <= {*files[: place + 1]}
