"""The records for other programs: whole, valid, and the same each time."""

from __future__ import annotations

import json
import re
import subprocess
import xml.etree.ElementTree as ET
from pathlib import Path
from typing import TYPE_CHECKING, Any

import jsonschema
import pytest
import yaml
from bs4 import BeautifulSoup

from demo_site import ROOT, built_once, mkdocs
from tinwright.exchange import change_feed, knowledge_json, structured_data
from tinwright.exchange.knowledge_schema import FILE, knowledge_schema, schema_text
from tinwright.knowledge import find_problems, load
from tinwright.knowledge.models import KINDS
from tinwright.site import build_site
from tinwright.site.rendering import uri_of

if TYPE_CHECKING:
    from collections.abc import Callable

    from tinwright.knowledge import KnowledgeBase
    from tinwright.knowledge.bank import Bank

ATOM = {"a": "http://www.w3.org/2005/Atom"}
TERM = "title: Hook\ndefinition: {text: A bent edge., evidence: practice}\nreviewed: 2026-11-20\n"


@pytest.fixture(scope="session")
def site_folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return built_once(tmp_path_factory)


def test_records_read_from_the_json_are_the_records(kb: KnowledgeBase) -> None:
    read = json.loads(json.dumps(knowledge_json(kb)))["records"]
    again = {(kind, id_): KINDS[kind].model_validate(value) for kind in read for id_, value in read[kind].items()}
    assert again == dict(kb.records)


def test_the_json_fits_its_schema_by_another_validator_and_a_wrong_one_does_not(kb: KnowledgeBase) -> None:
    schema = knowledge_schema()
    jsonschema.Draft202012Validator.check_schema(schema)
    validator = jsonschema.Draft202012Validator(schema)
    values = json.loads(json.dumps(knowledge_json(kb, address=uri_of)))
    assert [error.message for error in validator.iter_errors(values)] == []
    values["records"]["defect"]["droop"]["summry"] = values["records"]["defect"]["droop"].pop("summary")
    assert not validator.is_valid(values)


def test_the_published_schema_is_printed_fresh(site_folder: Path) -> None:
    assert FILE.read_text(encoding="utf-8") == schema_text(), "run: python -m tinwright.exchange.knowledge_schema"
    assert (site_folder / "data" / "knowledge.schema.json").read_bytes() == FILE.read_bytes()


def test_the_published_json_is_that_of_the_content(kb: KnowledgeBase, site_folder: Path) -> None:
    published = json.loads((site_folder / "data" / "knowledge.json").read_text(encoding="utf-8"))
    assert published["records"] == json.loads(json.dumps(knowledge_json(kb)["records"]))
    assert [page for page in published["pages"].values() if not (site_folder / page).is_file()] == []
    assert (site_folder / "data" / published["$schema"]).is_file()


def test_every_page_links_the_data_and_the_feed(site_folder: Path) -> None:
    for file in site_folder.rglob("*.html"):
        if file.name == "404.html":
            continue
        head, end, _ = file.read_text(encoding="utf-8").partition("</head>")
        assert end, file
        links = BeautifulSoup(head, "html.parser").select('head link[rel="describedby"], head link[rel="feed"]')
        assert [(file.parent / str(link["href"])).resolve().is_file() for link in links] == [True, True], file


def structured(file: Path) -> dict[str, Any]:
    # a script ends where its end tag stands, whatever is in it (HTML standard, 13.2.5.4)
    blocks = re.findall(
        r'<script type="application/ld\+json">(.*?)</script', file.read_text(encoding="utf-8"), re.DOTALL
    )
    assert len(blocks) == 1, file
    found: dict[str, Any] = json.loads(blocks[0])
    return found


def test_structured_data_fits_the_types_of_schema_org(kb: KnowledgeBase, site_folder: Path, tmp_path: Path) -> None:
    # judge: npm schema-dts (types made from the schema.org vocabulary) with the TypeScript compiler
    files = [
        site_folder / f"{type(r).folder}/{r.id}.html" for (kind, _), r in kb.records.items() if kind != "programme"
    ]
    files += quizzes_of(site_folder)
    types = ("DefinedTerm", "HowTo", "LearningResource", "Quiz")
    lines = [f'import type {{ {", ".join(types)}, WithContext }} from "schema-dts";']
    told = set()
    for number, file in enumerate(files):
        about = structured(file)
        told.add(about["@type"])
        lines.append(f"const page{number}: WithContext<{about['@type']}> = {json.dumps(about)};")
    assert told == set(types)
    assert check_types([*lines, f"export {{ {', '.join(f'page{n}' for n in range(len(files)))} }};"], tmp_path) == ""
    wrong = [lines[0], lines[1].replace('"@type": "', '"nmae": "x", "@type": "', 1), "export { page0 };"]
    assert "nmae" in check_types(wrong, tmp_path)


def quizzes_of(site_folder: Path) -> list[Path]:
    others = {"index.html", "mixed.html"}
    return sorted(file for file in (site_folder / "quizzes").glob("*.html") if file.name not in others)


def test_a_quiz_tells_what_is_asked_and_never_an_answer(site_folder: Path, bank: Bank) -> None:
    """Against the question bank's own files: every question is told, no choice, no reason, no number of its key."""
    files = quizzes_of(site_folder)
    assert {file.stem for file in files} == set(bank.topics)
    for file in files:
        about = structured(file)
        keys = {"@type", "name", "eduQuestionType", "learningResourceType"}
        assert {key for part in about["hasPart"] for key in part} == keys
        assert "Answer" not in json.dumps(about)
        asked = {part["name"] for part in about["hasPart"]}
        rows = yaml.safe_load((ROOT / "quizzes" / "practice" / file.name).with_suffix(".yml").read_text("utf-8"))
        plain = {" ".join(row["question"].split()) for row in rows if "[[" not in row["question"]}
        assert plain
        assert plain <= asked
        soup = BeautifulSoup(file.read_text(encoding="utf-8"), "html.parser")
        assert len(about["hasPart"]) == len(soup.select(".tw-quiz__item"))


def check_types(lines: list[str], folder: Path) -> str:
    judges = ROOT / ".judges" / "node_modules"
    (folder / "pages.ts").write_text("\n".join(lines), encoding="utf-8")
    link = folder / "node_modules"
    if not link.exists():
        link.symlink_to(judges)
    options = {
        "strict": True,
        "noEmit": True,
        "skipLibCheck": True,
        "types": [],
        "moduleResolution": "node",
        "target": "es2022",
    }
    config = {"compilerOptions": options, "files": ["pages.ts"]}
    (folder / "tsconfig.json").write_text(json.dumps(config), encoding="utf-8")
    command = [str(judges / ".bin" / "tsc"), "--project", "tsconfig.json"]
    return subprocess.run(command, cwd=folder, capture_output=True, text=True, check=False).stdout


def test_a_procedure_is_told_step_by_step_and_without_marks_of_ours(kb: KnowledgeBase) -> None:
    about = structured_data(kb, kb.procedures["tear-down-and-measure"], address=lambda r: f"https://example.org/{r.id}")
    steps = kb.procedures["tear-down-and-measure"].steps
    assert [step["position"] for step in about["step"]] == list(range(1, len(steps) + 1))
    assert "[[" not in json.dumps(about)
    assert about["url"] == "https://example.org/tear-down-and-measure"
    assert about["totalTime"] == "PT25M"


def test_the_feed_has_what_rfc_4287_asks_for(kb: KnowledgeBase) -> None:
    # RFC 4287 sections 4.1.1 and 4.1.2: id, title, updated of feed and entries, an author, a self link, unique ids
    feed = ET.fromstring(change_feed(kb, address=uri_of, home="./", here="feed.xml"))  # noqa: S314 our own text
    for element in [feed, *feed.findall("a:entry", ATOM)]:
        for name in ("id", "title", "updated"):
            assert len(element.findall(f"a:{name}", ATOM)) == 1
    assert feed.find("a:author/a:name", ATOM) is not None
    assert feed.find("a:link[@rel='self']", ATOM) is not None
    ids = [str(element.text) for element in feed.findall("a:entry/a:id", ATOM)]
    assert len(set(ids)) == len(ids) > 0
    dates = [str(element.text) for element in feed.findall("a:entry/a:updated", ATOM)]
    assert dates == sorted(dates, reverse=True)
    assert dates[0] == max(f"{record.reviewed}T00:00:00Z" for record in kb.records.values())


@pytest.mark.parametrize("directory_urls", [False, True])
def test_a_renamed_record_is_found_at_its_old_address(content: Callable[..., Path], directory_urls: bool) -> None:
    root = content({"terms/hook.yml": TERM + "formerly: [bent-edge]\n"})
    site = build_site(load(root), directory_urls=directory_urls, site_url="https://example.org/cans/")
    old = "terms/bent-edge/index.html" if directory_urls else "terms/bent-edge.html"
    page = next(asset for asset in site.assets if asset.uri == old)
    soup = BeautifulSoup(page.content, "html.parser")
    goal = "../hook/" if directory_urls else "hook.html"
    assert soup.select_one("a")["href"] == goal  # type: ignore[index]
    assert soup.select_one('meta[http-equiv="refresh"]')["content"] == f"0; url={goal}"  # type: ignore[index]
    canonical = "https://example.org/cans/terms/hook/" if directory_urls else "https://example.org/cans/terms/hook.html"
    assert soup.select_one('link[rel="canonical"]')["href"] == canonical  # type: ignore[index]


def test_what_still_uses_an_old_name_is_told_the_new_one(content: Callable[..., Path]) -> None:
    other = TERM.replace("A bent edge.", "'See [[term/bent-edge]].'").replace("title: ", "title: Other ")
    root = content({"terms/hook.yml": TERM + "formerly: [bent-edge]\n", "terms/other.yml": other})
    assert [p.message for p in find_problems(root)] == ["no term is called 'bent-edge' any more: it is 'hook' now"]


OTHER = TERM.replace("title: ", "title: Other ")


def test_an_old_name_that_is_taken_is_told(content: Callable[..., Path]) -> None:
    files = {"terms/hook.yml": TERM + "formerly: [other, gone]\n", "terms/other.yml": OTHER + "formerly: [gone]\n"}
    assert [p.message for p in find_problems(content(files))] == [
        "'other' is still the id of a term",
        "'gone' is already a former id of 'hook'",
    ]


def test_the_same_records_give_the_same_bytes(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, content: Callable[..., Path]
) -> None:
    content({"terms/hook.yml": TERM})
    (tmp_path / "mkdocs.yml").write_text(
        "site_name: A\nsite_url: https://example.org/a/\ndocs_dir: docs\nuse_directory_urls: false\n"
        "theme: {name: material, font: false}\nplugins: [tinwright, search]\n",
        encoding="utf-8",
    )
    (tmp_path / "docs").mkdir()
    trees = []
    for number, moment in enumerate(("1795000000", "1795000000", "1695000000")):
        monkeypatch.setenv("SOURCE_DATE_EPOCH", moment)
        result = mkdocs("build", "--quiet", "--site-dir", f"site{number}", folder=tmp_path)
        assert result.returncode == 0, result.stderr
        folder = tmp_path / f"site{number}"
        trees.append({file.relative_to(folder): file.read_bytes() for file in folder.rglob("*") if file.is_file()})
    assert trees[0] == trees[1]
    assert trees[0] != trees[2]
    assert b"https://example.org/a/terms/hook.html" in trees[0][Path("sitemap.xml")]
    assert b"Sitemap: https://example.org/a/sitemap.xml" in trees[0][Path("robots.txt")]
