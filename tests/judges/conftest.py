"""The built demonstration site and what else we write as HTML, for programs of others that judge it."""

from __future__ import annotations

import zipfile
from typing import TYPE_CHECKING

import pytest

from demo_site import ROOT, built_once
from examining.exam_banks import lay_bank, made_from
from tinwright.advice.advice import advise_on_sheet
from tinwright.advice.readings_file import read_sheet
from tinwright.advice.report import report_html
from tinwright.examining.exam_page import exam_page

if TYPE_CHECKING:
    from pathlib import Path

    from tinwright.knowledge import KnowledgeBase


@pytest.fixture(scope="session")
def site_folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demonstration site as HTML, built with `mkdocs build --strict`."""
    return built_once(tmp_path_factory)


@pytest.fixture(scope="session")
def office_folder(tmp_path_factory: pytest.TempPathFactory, kb: KnowledgeBase, site_folder: Path) -> Path:
    """The pages outside the site: the report of a seam, an examination, and the first page of a saved copy."""
    folder = tmp_path_factory.mktemp("office")
    sheet = read_sheet(ROOT / "docs" / "readings-example.csv", kb)
    report = report_html(kb, advise_on_sheet(kb, sheet), sheet.settings)
    (folder / "seam-report.html").write_text(report, encoding="utf-8")
    made = made_from(lay_bank(tmp_path_factory.mktemp("exam")), kb)[1]
    (folder / "exam-form.html").write_text(exam_page(made.form, kb), encoding="utf-8")
    with zipfile.ZipFile(next(site_folder.glob("*.zip"))) as copy:
        copy.extract("start-here.html", folder)
    return folder
