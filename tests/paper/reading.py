"""What the tests read out of a printed document."""

from __future__ import annotations

import io
import subprocess
from functools import cache
from typing import TYPE_CHECKING

import page
import pdfua
import zxingcpp
from PIL import Image
from pypdf import PdfReader

if TYPE_CHECKING:
    from pathlib import Path


def words(text: str) -> str:
    """A text on one line, its hard spaces undone."""
    return " ".join(text.replace("\u00a0", " ").split())


@cache
def texts(content: bytes) -> list[str]:
    """The words on each page."""
    return [words(sheet.extract_text()) for sheet in PdfReader(io.BytesIO(content)).pages]


def pdf_ua_faults(content: bytes) -> list[str]:
    """Faults against PDF/UA-1 (ISO 14289-1), by a validator that knows 104 of its rules."""
    report = page.validate_pdf_bytes(content, profile=page.ValidationProfile.PDF_UA_1)
    return [str(failure) for failure in report.failures]


def second_opinion(content: bytes, folder: Path) -> list[str]:
    """Findings of another checker of PDF/UA-1, on what it knows."""
    file = folder / "document.pdf"
    file.write_bytes(content)
    return [str(finding) for finding in pdfua.validate(str(file)).findings]


def picture(content: bytes, folder: Path, *, sheet: int = 1, gray: bool = False) -> Image.Image:
    """A page as a printer would put it on paper, at 150 dots per inch."""
    file = folder / "document.pdf"
    file.write_bytes(content)
    subprocess.run(
        [
            "pdftoppm",
            "-png",
            "-r",
            "150",
            "-f",
            str(sheet),
            "-l",
            str(sheet),
            "-singlefile",
            *(["-gray"] * gray),
            file,
            folder / "page",
        ],
        check=True,
    )
    with Image.open(folder / "page.png") as image:
        return image.copy()


def codes(image: Image.Image) -> list[str]:
    """What the QR codes in a picture say."""
    return [code.text for code in zxingcpp.read_barcodes(image)]


@cache
def type_sizes(content: bytes) -> list[list[tuple[float, str]]]:
    """On each page the pieces of text in their order, each with the size of its type in points."""
    sheets = []
    for sheet in PdfReader(io.BytesIO(content)).pages:
        pieces: list[tuple[float, str]] = []

        def note(
            text: str, cm: list[float], tm: list[float], _: object, size: float, to: list[tuple[float, str]] = pieces
        ) -> None:
            if text.strip():
                to.append((round(abs(size * cm[3] * tm[3]), 2), words(text)))

        sheet.extract_text(visitor_text=note)
        sheets.append(pieces)
    return sheets
