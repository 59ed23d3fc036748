"""Layers: several folders read as one program, the ground first."""

from __future__ import annotations

import re
import shutil
import subprocess
import sys
import zipfile
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from click.testing import CliRunner, Result

from tinwright.cli import main
from tinwright.knowledge import find_problems, load
from tinwright.knowledge.amending import AmendError, amended, digest_of
from tinwright.knowledge.layers import layers_of, own_folder
from tinwright.knowledge.loading import open_questions
from tinwright.site import build_site

if TYPE_CHECKING:
    from collections.abc import Callable

ROOT = Path(__file__).parents[2]

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


def over(tmp_path: Path, text: str, **more: str) -> Path:
    """Three layers, with `text` in the county for the ground's term `hook`."""
    return lay_down(tmp_path, THREE | {"county/terms/hook.yml": text} | more)


HOOK = digest_of(
    {
        "title": "Hook",
        "definition": {"text": "A bent edge.", "evidence": "practice"},
        "reviewed": "2026-11-02",
    }
)


def test_a_record_beneath_is_amended_in_some_fields(tmp_path: Path) -> None:
    root = over(tmp_path, f"amends: {HOOK}\ntitle: Body hook\n")
    assert told(root) == []
    kb = load(root)
    assert (kb.terms["hook"].title, kb.terms["hook"].definition.text) == ("Body hook", "A bent edge.")
    assert kb.origins["term", "hook"] == ("ground", "county")
    assert kb.origins["term", "lid"] == ("county",)


def test_a_record_beneath_is_replaced_as_a_whole(tmp_path: Path) -> None:
    root = over(tmp_path, f"replaces: {HOOK}\n" + term("Our hook", "Ours."))
    assert load(root).terms["hook"].definition.text == "Ours."
    assert load(root).origins["term", "hook"] == ("county",)


def test_what_is_left_out_is_told_where_something_still_names_it(tmp_path: Path) -> None:
    root = over(tmp_path, "leave_out: We do not say so.\n")
    left = "is left out by content/county/terms/hook.yml: amend this, or leave it out, too"
    assert told(root) == [
        "content/ground/pages/why.md:3:5: no record is called 'term/hook'",
        f"content/state/terms/rim.yml:2:20: term rim: the term 'hook' {left}",
    ]
    (root / "ground/pages/why.md").unlink()
    (root / "state/terms/rim.yml").write_text(term("Rim", "The edge."), encoding="utf-8")
    assert told(root) == []
    assert list(load(root).terms) == ["lid", "rim"]


def test_the_same_id_without_a_word_is_a_mistake_that_tells_the_two_ways(tmp_path: Path) -> None:
    assert told(over(tmp_path, term("Our hook", "Ours."))) == [
        "content/county/terms/hook.yml:1:1: term hook: duplicate id; it already stands in content/ground/terms/hook.yml:1; "
        f"begin with 'replaces: {HOOK}' to replace that, or with 'amends: {HOOK}' to amend it"
    ]


def test_a_mistake_in_an_amendment_is_told_at_its_place(tmp_path: Path) -> None:
    assert told(over(tmp_path, f"amends: {HOOK}\ntitel: Body hook\n")) == [
        "content/county/terms/hook.yml:2:1: term hook: unknown key 'titel'; did you mean 'title'?"
    ]
    assert told(over(tmp_path, f"amends: {HOOK}\nsynonyms: {{drop: [crook]}}\n")) == [
        "content/county/terms/hook.yml:2:19: term hook: no entry is called 'crook'; there are: none"
    ]


def test_what_changes_beneath_is_asked_about_and_never_taken_by_itself(tmp_path: Path) -> None:
    root = over(tmp_path, f"amends: {HOOK}\ntitle: Body hook\n")
    assert open_questions(root) == []
    (root / "ground/terms/hook.yml").write_text("# a note alone\n" + term("Hook", "A bent edge."), encoding="utf-8")
    assert open_questions(root) == []
    (root / "ground/terms/hook.yml").write_text(term("Hook", "An edge, bent."), encoding="utf-8")
    (question,) = open_questions(root)
    assert str(question) == (
        "content/county/terms/hook.yml:1:1: term hook: the text beneath has changed: content/ground/terms/hook.yml"
    )
    assert load(root).terms["hook"].title == "Body hook"


def test_lists_are_amended_by_what_an_entry_is_called() -> None:
    beneath = {"causes": [{"cause": "a", "likelihood": "likely"}, {"cause": "b"}], "said": ["x", "y", "z"]}
    change = {"causes": {"drop": ["a"], "add": [{"cause": "c"}]}, "said": {"first": ["z"]}}
    assert amended(beneath, change) == {"causes": [{"cause": "b"}, {"cause": "c"}], "said": ["z", "x", "y"]}
    assert beneath["said"] == ["x", "y", "z"]
    with pytest.raises(AmendError, match="no entry is called 'q'; there are: x, y, z"):
        amended(beneath, {"said": {"drop": ["q"]}})


COMMENTED = """\
# Ours, in our words.
- id: end    # not one of theirs
  title: End
  definition: {text: "A lid.", evidence: practice}
  reviewed: 2026-11-02

- id: hook   # theirs, shorter
  amends: OLD
  title:   Body hook
- id: rim
  leave_out: We say edge.
"""


@pytest.fixture
def asked(tmp_path: Path) -> Path:
    """Three layers whose ground has changed one record that the county amended, in a file with notes."""
    files = THREE | {"county/terms/ours.yml": COMMENTED, "county/terms/lid.yml": term("Lid", "See [[term/hook]].")}
    return lay_down(tmp_path, files)


def answered(root: Path, *answers: str) -> Result:
    return CliRunner().invoke(main, ["update", "--content", str(root)], input="".join(f"{each}\n" for each in answers))


def test_keeping_ones_own_words_changes_the_digest_and_no_other_byte(asked: Path) -> None:
    result = answered(asked, "keep")
    assert result.exit_code == 0, result.output
    assert (asked / "county/terms/ours.yml").read_text(encoding="utf-8") == COMMENTED.replace("OLD", HOOK)
    assert open_questions(asked) == []


def test_taking_theirs_takes_out_the_entry_and_no_other_byte(asked: Path) -> None:
    assert answered(asked, "take").exit_code == 0
    own = "- id: hook   # theirs, shorter\n  amends: OLD\n  title:   Body hook\n"
    assert (asked / "county/terms/ours.yml").read_text(encoding="utf-8") == COMMENTED.replace(own, "")
    assert load(asked).terms["hook"].title == "Hook"
    assert told(asked) == []


def test_later_changes_nothing_and_asks_again(asked: Path) -> None:
    assert answered(asked, "later").stdout.endswith("1 question, 1 left for later\n")
    assert len(open_questions(asked)) == 1
    assert (asked / "county/terms/ours.yml").read_text(encoding="utf-8") == COMMENTED


def test_check_shows_both_versions_side_by_side(asked: Path) -> None:
    checked = CliRunner().invoke(main, ["check", "--content", str(asked)])
    assert checked.exit_code == 0, checked.output
    assert re.search(r"title: Body hook +\| title: Hook\n", checked.stdout)
    assert CliRunner().invoke(main, ["check", "--strict", "--content", str(asked)]).exit_code == 1


def test_a_list_of_layers_may_name_the_shared_knowledge_that_comes_with_the_package(tmp_path: Path) -> None:
    root = lay_down(tmp_path, {"layers.yml": "- shared\n- county\n", "county/program.yml": PROGRAM})
    assert len(load(root).defects) > 1


def test_a_page_says_where_its_record_comes_from_at_its_end(tmp_path: Path) -> None:
    root = over(tmp_path, f"amends: {HOOK}\ntitle: Body hook\n")
    pages = {page.uri: page.text for page in build_site(load(root)).pages}
    said = {id_: pages[f"terms/{id_}.md"].partition("Last reviewed")[2] for id_ in ("hook", "rim", "lid")}
    assert "From ground, changed by this program." in said["hook"]
    assert "From state." in said["rim"]
    assert "From this program." in said["lid"]


def test_a_program_of_one_layer_says_nothing_of_layers(content: Callable[[dict[str, str]], Path]) -> None:
    root = content({"terms/hook.yml": term("Hook", "A bent edge.")})
    pages = {page.uri: page.text for page in build_site(load(root)).pages}
    assert "From " not in pages["terms/hook.md"].partition("Last reviewed")[2]


def test_the_demonstration_in_one_folder_has_no_record_that_nothing_names(tmp_path: Path) -> None:
    for layer in load(ROOT / "content").layers:
        shutil.copytree(layer.folder, tmp_path / "content", dirs_exist_ok=True)
    assert told(tmp_path / "content") == []


def test_the_wheel_brings_the_shared_knowledge_and_nothing_of_the_demonstration(tmp_path: Path) -> None:
    built = subprocess.run(
        [sys.executable, "-m", "hatchling", "build", "--target", "wheel", "--directory", str(tmp_path)],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=False,
    )
    assert built.returncode == 0, built.stderr
    (wheel,) = tmp_path.glob("*.whl")
    with zipfile.ZipFile(wheel) as packed:
        names = {name for name in packed.namelist() if name.startswith("tinwright/shared/")}
        assert not [name for name in packed.namelist() if "sorrel" in name or name.endswith("issuer.json")]
    shared = ROOT / "content" / "shared"
    assert names == {
        f"tinwright/shared/{file.relative_to(shared).as_posix()}" for file in shared.rglob("*") if file.is_file()
    }
