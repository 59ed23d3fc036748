"""Layers: several folders read as one program, the ground first."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tinwright.knowledge import find_problems, load
from tinwright.knowledge.layers import layers_of, own_folder

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

PROGRAM = """\
title: A program
office: An office
about: It seals cans.
altitude_ft: 100
local_rules: Ask.
kitchens:
  - name: A kitchen
policy: {test_cans: 2, recheck_minutes: 30, recheck_cans: 24, review_months: 24, certificate_years: 2}
reviewed: 2026-11-02
"""


def term(title: str, said: str) -> str:
    return f'title: {title}\ndefinition: {{text: "{said}", evidence: practice}}\nreviewed: 2026-11-02\n'


def lay_down(tmp_path: Path, files: dict[str, str]) -> Path:
    root = tmp_path / "content"
    for path, text in files.items():
        target = root / path
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_text(text, encoding="utf-8")
    return root


THREE = {
    "layers.yml": "- ground\n- state\n- county\n",
    "ground/terms/hook.yml": term("Hook", "A bent edge."),
    "ground/pages/why.md": "# Why\n\nSee [[term/hook]].\n",
    "state/terms/rim.yml": term("Rim", "See [[term/hook]]."),
    "county/program.yml": PROGRAM,
    "county/terms/lid.yml": term("Lid", "See [[term/rim]]."),
}


def told(root: Path) -> list[str]:
    return [str(problem) for problem in find_problems(root)]


def test_three_layers_are_one_program(tmp_path: Path) -> None:
    root = lay_down(tmp_path, THREE)
    assert told(root) == []
    kb = load(root)
    assert list(kb.terms) == ["hook", "lid", "rim"]
    assert [layer.name for layer in kb.layers] == ["ground", "state", "county"]
    assert kb.own == own_folder(root) == root / "county"


def test_a_problem_names_the_file_and_its_layer(tmp_path: Path) -> None:
    root = lay_down(tmp_path, THREE | {"state/terms/rim.yml": term("Rim", "See [[term/hok]].")})
    assert told(root) == [
        "content/state/terms/rim.yml:2:20: term rim: no term is called 'hok'; did you mean 'hook'?",
    ]


def test_a_folder_without_a_list_is_one_layer(content: Callable[[dict[str, str]], Path]) -> None:
    root = content({"terms/hook.yml": term("Hook", "A bent edge.")})
    layers, problems = layers_of(root)
    assert ([layer.folder for layer in layers], problems) == ([root], [])


def test_a_list_that_names_what_there_is_not_says_so(tmp_path: Path) -> None:
    root = lay_down(tmp_path, THREE | {"layers.yml": "- ground\n- state\n- conty\n"})
    assert told(root)[0] == (
        "content/layers.yml:3:3: no folder and no installed package is called 'conty'; did you mean 'county'?"
    )
    assert told(lay_down(tmp_path, {"layers.yml": "ground"})) == [
        "content/layers.yml:1:1: expected a list of layers, such as `- shared`"
    ]
    root = lay_down(tmp_path, {"layers.yml": "- ground\n- state\n- ground\n- county\n"})
    assert told(root) == ["content/layers.yml:3:3: the layer 'ground' stands here twice"]


def test_records_beside_the_layers_are_not_passed_over_in_silence(tmp_path: Path) -> None:
    root = lay_down(tmp_path, THREE | {"terms/end.yml": term("End", "A lid."), "program.yml": PROGRAM})
    assert told(root) == [
        "content/program.yml:1:1: expected records in one of the layers",
        "content/terms:1:1: expected a layer that layers.yml names: put this folder into one of them, or name it there",
    ]


def test_a_page_on_top_takes_the_place_of_one_beneath(tmp_path: Path) -> None:
    from tinwright.knowledge.handwritten import read_handwritten

    root = lay_down(tmp_path, THREE | {"county/pages/why.md": "# Why here\n\nWords.\n"})
    assert [page.title for page in read_handwritten(*load(root).folders)] == ["Why here"]


def test_an_empty_list_is_told(tmp_path: Path) -> None:
    root = lay_down(tmp_path, THREE | {"layers.yml": "[]\n"})
    assert told(root) == ["content/layers.yml:1:1: expected a list of layers, such as `- shared`"]
