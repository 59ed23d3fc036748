"""Every page and drawing by two judges of HTML: the Nu checker, and html-validate with its rules for WCAG.

The Nu checker is the W3C's own for the HTML standard, with SVG and ARIA in it; html-validate is a second opinion.
"""

from __future__ import annotations

import json
import re
import subprocess
import tempfile
from pathlib import Path
from typing import Any

import pytest

from demo_site import ROOT

JUDGES = ROOT / ".judges" / "node_modules"
NU_CHECKER = JUDGES / "vnu-jar" / "build" / "dist" / "vnu.jar"
HTML_VALIDATE = JUDGES / "html-validate" / "bin" / "html-validate.mjs"
RULES = Path(__file__).with_name("html-validate.cjs")

UNREAD = "violates Content Security Policy (meta tag): blocked by"
"""The Nu checker does not work out the hashes of a policy; `tests/browser/test_exam_form.py` has the browser do so."""


def asked(judge: Path, *command: str) -> Any:
    """What a judge answers, as JSON; it may leave with 1 when it found faults."""
    if not judge.is_file():
        pytest.fail(f"no judge {judge.name}: run scripts/test, which installs it into .judges", pytrace=False)
    with tempfile.TemporaryFile("w+", encoding="utf-8") as said:  # node leaves before a long answer is through a pipe
        result = subprocess.run(command, stdout=said, stderr=subprocess.PIPE, text=True, timeout=240, check=False)
        assert result.returncode in {0, 1}, result.stderr
        said.seek(0)
        return json.loads(said.read() or result.stderr)


def by_the_nu_checker(folder: Path) -> list[str]:
    """Errors and warnings in every HTML and SVG file of a folder, as `file:line: fault`."""
    options = ("--format", "json", "--also-check-svg", "--skip-non-html")
    answer = asked(NU_CHECKER, "java", "-jar", str(NU_CHECKER), *options, str(folder))
    root = f"{folder.as_uri().replace('file://', 'file:')}/"
    return [
        f"{message['url'].removeprefix(root)}:{message.get('lastLine')}: {message['message']}"
        for message in answer["messages"]
        if UNREAD not in message["message"]
    ]


def by_html_validate(folder: Path) -> list[str]:
    """Errors and warnings in every HTML file of a folder, as `file:line: fault`."""
    options = ("--config", str(RULES), "--formatter", "json")
    answer = asked(HTML_VALIDATE, "node", str(HTML_VALIDATE), *options, str(folder))
    return [
        f"{Path(page['filePath']).relative_to(folder)}:{message['line']}: {message['message']} ({message['ruleId']})"
        for page in answer
        for message in page["messages"]
    ]


@pytest.mark.parametrize("judged", [by_the_nu_checker, by_html_validate])
@pytest.mark.parametrize("folder", ["site_folder", "office_folder"])
def test_no_judge_finds_a_fault(judged: Any, folder: str, request: pytest.FixtureRequest) -> None:
    faults = judged(request.getfixturevalue(folder))
    assert faults == [], "\n".join(faults[:20])


BROKEN = """<!doctype html>
<html lang="en"><head><title>Broken</title></head><body><h1>Broken</h1>
<label for="nothing">A label of nothing</label>
<svg viewBox="0 0 1 1" role="img" aria-label="A line"><line wdth="3"/></svg>
<input type="checkbox" autocomplete="off" aria-label="A box">
</body></html>
"""


def test_the_judges_find_the_faults_of_a_broken_page(tmp_path: Path) -> None:
    (tmp_path / "broken.html").write_text(BROKEN, encoding="utf-8")
    (tmp_path / "broken.svg").write_text(
        '<svg xmlns="http://www.w3.org/2000/svg"><rect hight="1"/></svg>', encoding="utf-8"
    )
    found = "\n".join(by_the_nu_checker(tmp_path))
    assert "broken.html:3" in found
    assert "“wdth” not allowed" in found
    assert "“autocomplete” is only allowed" in found
    assert "broken.svg:1" in found
    assert "broken.html:5: autocomplete attribute cannot be used" in "\n".join(by_html_validate(tmp_path))


SENDS_NOTHING = ("md-search__form", 'data-md-component="palette"', 'id="questions"')
"""The theme's search and its switch between light and dark; the questions of an examination, saved as a file."""


def test_only_forms_that_send_nothing_lack_a_button_that_sends(site_folder: Path, office_folder: Path) -> None:
    for folder in (site_folder, office_folder):
        for file in folder.rglob("*.html"):
            for form in re.findall(r"<form[^>]*>", file.read_text(encoding="utf-8")):
                assert any(mark in form for mark in SENDS_NOTHING), f"{file.name}: {form}"
