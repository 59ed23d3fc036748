"""From HTML to PDF: tagged, the same every time, and nothing fetched."""

from __future__ import annotations

import datetime as dt
import http.server
import io
import logging
import sys
import threading
from typing import TYPE_CHECKING

import pikepdf
import pytest
from pypdf import PdfReader

from paper.reading import pdf_ua_faults, second_opinion, texts
from tinwright.errors import MissingExtraError, PaperError
from tinwright.printing import AttachedFile, html_to_pdf, libraries, qr_svg

if TYPE_CHECKING:
    from pathlib import Path

BODY = """
<h1>A paper</h1>
<p>Text with <a href="#there">a link inside</a> and <a href="https://example.org/">one outside</a>.</p>
<table><thead><tr><th>Column</th><th>Other</th></tr></thead>
<tbody><tr><th>Row</th><td>1</td></tr><tr><th>Row two</th><td>2</td></tr></tbody></table>
<ol><li><p>One</p><p>more of one</p></li><li>Two<ul><li>Inner</li></ul></li></ol>
<h2 id="there">There</h2>
<dl><dt>Word</dt><dd>Meaning</dd></dl>
<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"><title>A square</title><rect width="9" height="9"/></svg>
"""
MARKS = AttachedFile("marks.json", b'{"a": 1}', "The marks", "application/json")
DAY = dt.date(2026, 11, 2)
LOST = "\U0010fffd\ue0ff"
"""Letters of private use, which no font here has."""


def printed(body: str = BODY, *, language: str = "en", attachments: tuple[AttachedFile, ...] = ()) -> bytes:
    html = f'<!doctype html><html lang="{language}"><title>A paper</title><body>{body}</body></html>'
    return html_to_pdf(html, attachments=attachments, dated=DAY)


def test_a_paper_passes_both_checkers_of_pdf_ua(tmp_path: Path) -> None:
    content = printed()
    assert pdf_ua_faults(content) == []
    assert second_opinion(content, tmp_path) == []


def test_a_paper_with_a_file_inside_passes_and_gives_the_file_back() -> None:
    content = printed(attachments=(MARKS,))
    assert pdf_ua_faults(content) == []
    assert PdfReader(io.BytesIO(content)).attachments == {"marks.json": [b'{"a": 1}']}


def test_a_file_inside_can_be_found_by_a_program_that_unpacks_nothing() -> None:
    assert MARKS.content in printed(attachments=(MARKS,))


def test_the_files_inside_belong_to_the_document_and_say_what_they_are() -> None:
    other = AttachedFile("more.txt", b"more", "What is left", "text/plain")
    with pikepdf.open(io.BytesIO(printed(attachments=(MARKS, other)))) as pdf:
        told = [
            (str(spec.UF), str(spec.Desc), str(spec.EF.F.Subtype), str(spec.AFRelationship)) for spec in pdf.Root.AF
        ]
    assert told == [
        ("marks.json", "The marks", "/application/json", "/Data"),
        ("more.txt", "What is left", "/text/plain", "/Data"),
    ]


def test_heading_cells_have_the_scope_of_their_column_or_row() -> None:
    with pikepdf.open(io.BytesIO(printed())) as pdf:
        scopes = [str(e.A.Scope) for e in pdf.objects if isinstance(e, pikepdf.Dictionary) and e.get("/S") == "/TH"]
    assert sorted(scopes) == ["/Column", "/Column", "/Row", "/Row"]


def test_links_are_there_on_paper_too() -> None:
    with pikepdf.open(io.BytesIO(printed())) as pdf:
        flags = [int(annotation.F) for sheet in pdf.pages for annotation in sheet.get("/Annots", [])]
    assert flags
    assert all(flag & 4 for flag in flags)


def test_title_language_and_day_are_in_the_file() -> None:
    with pikepdf.open(io.BytesIO(printed(language="es"))) as pdf:
        assert str(pdf.docinfo["/Title"]) == "A paper"
        assert str(pdf.Root.Lang) == "es"
        assert str(pdf.docinfo["/CreationDate"]).startswith("D:20261102")


def test_the_day_of_the_build_comes_before_the_day_of_the_content(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "86400")
    with pikepdf.open(io.BytesIO(printed())) as pdf:
        assert str(pdf.docinfo["/CreationDate"]).startswith("D:19700102")


def test_a_day_of_the_build_that_is_no_number_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "yesterday")
    with pytest.raises(PaperError, match="expected SOURCE_DATE_EPOCH to be a number of seconds, got 'yesterday'"):
        printed()


def test_the_same_paper_has_the_same_bytes() -> None:
    assert printed() == printed()
    assert printed(attachments=(MARKS,)) == printed(attachments=(MARKS,))


def test_nothing_is_fetched_from_the_network_or_the_disk(tmp_path: Path) -> None:
    asked: list[str] = []

    class Asked(http.server.BaseHTTPRequestHandler):
        def do_GET(self) -> None:
            asked.append(self.path)
            self.send_error(404)

        def log_message(self, *_: object) -> None:
            pass

    secret = tmp_path / "secret.svg"
    secret.write_text('<svg xmlns="http://www.w3.org/2000/svg"><text y="9">SECRET</text></svg>', encoding="utf-8")
    server = http.server.HTTPServer(("127.0.0.1", 0), Asked)
    thread = threading.Thread(target=server.serve_forever)
    thread.start()
    try:
        there = f"http://127.0.0.1:{server.server_port}"
        content = printed(
            f"""<h1>A</h1><style>@import "{there}/a.css"; h1 {{ background: url({there}/b.png) }}
            @font-face {{ font-family: x; src: url({there}/c.ttf) }} p {{ font-family: x }}</style>
            <link rel="stylesheet" href="{there}/d.css"><img src="{there}/e.png" alt="gone">
            <img src="{secret.as_uri()}" alt="kept out"><object data="{secret.as_uri()}"></object>
            <link rel="attachment" href="{secret.as_uri()}"><p>text</p>"""
        )
    finally:
        server.shutdown()
        thread.join()
        server.server_close()
    assert asked == []
    assert "SECRET" not in " ".join(texts(content))
    assert PdfReader(io.BytesIO(content)).attachments == {}


@pytest.mark.parametrize("place", [f"<p>{LOST}</p>", f"<svg width='99' height='20'><text y='9'>{LOST}</text></svg>"])
def test_letters_that_would_be_empty_boxes_are_refused_and_named_once(place: str) -> None:
    with pytest.raises(PaperError) as caught:
        printed(place * 2)
    assert str(caught.value) == (
        f"A paper: no font on this computer has the letters {LOST[0]!r} (U+10FFFD), {LOST[1]!r} (U+E0FF): install one, or do without them"
    )


def test_letters_are_watched_when_nobody_listens_to_warnings() -> None:
    log = logging.getLogger("weasyprint")
    before = log.level, list(log.handlers)
    log.setLevel(logging.CRITICAL)
    try:
        with pytest.raises(PaperError, match="no font on this computer"):
            printed(LOST)
        assert (log.level, log.handlers) == (logging.CRITICAL, before[1])
    finally:
        log.setLevel(before[0])


def test_letters_that_are_never_drawn_are_no_empty_boxes() -> None:
    printed("<p>soft\u00adhyphen zero\u200bwidth no\u00a0break join\u2060er variant\ufe0e tab\t new\nline</p>")


@pytest.mark.parametrize("html", ["<title>A paper</title>", '<html lang="en"><title></title>', '<html lang="en"><p>A'])
def test_a_page_without_a_title_or_a_language_is_not_printed(html: str) -> None:
    with pytest.raises(ValueError, match="expected a page with a title and a language"):
        html_to_pdf(html)


@pytest.mark.parametrize("library", ["weasyprint", "pikepdf", "segno"])
def test_without_the_extra_one_line_says_how_to_install_it(monkeypatch: pytest.MonkeyPatch, library: str) -> None:
    monkeypatch.setitem(sys.modules, library, None)
    with pytest.raises(MissingExtraError, match=r'pip install "tinwright\[paper\]"') as caught:
        printed()
    assert "\n" not in str(caught.value)


def test_without_the_extra_a_code_and_the_question_for_it_say_so_too(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "segno", None)
    for ask in (libraries, lambda: qr_svg("https://example.org/")):
        with pytest.raises(MissingExtraError, match=r'pip install "tinwright\[paper\]"'):
            ask()
