"""From a page of HTML to a tagged PDF file, and the drawings and codes on it.

from pathlib import Path
from tinwright.printing import html_to_pdf

page = '<html lang="en"><title>A sheet</title><h1>A sheet</h1></html>'
Path("sheet.pdf").write_bytes(html_to_pdf(page))

Printing needs the extra `paper`; importing this room does not.
"""

from tinwright.printing.ink import inked
from tinwright.printing.libraries import libraries
from tinwright.printing.pdf import AttachedFile, html_to_pdf, lay_out, to_pdf
from tinwright.printing.qr import qr_svg

__all__ = ["AttachedFile", "html_to_pdf", "inked", "lay_out", "libraries", "qr_svg", "to_pdf"]
