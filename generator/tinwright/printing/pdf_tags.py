"""What the tags of a PDF file lack after the printing library: scopes of headings, bodies of list items, flags."""

from __future__ import annotations

from typing import Any

from tinwright.printing.libraries import libraries

__all__ = ["mend"]

_PRINTED = 4
"""The flag of an annotation that is there on paper, too (ISO 32000-1, table 165, bit 3)."""


def mend(pdf: Any) -> None:
    """Give heading cells of tables their scope, list items their body, and links the flag that they are printed.

    Args:
        pdf: the opened file, a `pikepdf.Pdf`.
    """
    pikepdf = libraries().pikepdf
    for element in list(pdf.objects):
        if not isinstance(element, pikepdf.Dictionary):
            continue
        if element.get("/Type") == "/StructElem" and element.get("/S") == "/TH":
            _give_scope(element, pikepdf)
        elif element.get("/Type") == "/StructElem" and element.get("/S") == "/LI":
            _wrap_body(element, pdf, pikepdf)
        elif element.get("/Subtype") == "/Link" and "/Rect" in element:
            element["/F"] = int(element.get("/F", 0)) | _PRINTED


def _give_scope(cell: Any, pikepdf: Any) -> None:
    """Say of a heading cell what it heads (ISO 32000-1, table 349)."""
    given = cell.get("/A")
    attributes = given if isinstance(given, pikepdf.Dictionary) else pikepdf.Dictionary(O=pikepdf.Name.Table)
    attributes["/Scope"] = pikepdf.Name("/Row") if _heads_row(cell) else pikepdf.Name("/Column")
    cell["/A"] = attributes


def _heads_row(cell: Any) -> bool:
    """Tell a heading of a row, which has cells of data beside it, from one of a column."""
    row = cell.get("/P")
    kids = row.get("/K") if row is not None else None
    return kids is not None and any(kid.get("/S") == "/TD" for kid in kids if hasattr(kid, "get"))


def _wrap_body(item: Any, pdf: Any, pikepdf: Any) -> None:
    """Put what stands in a list item beside its label into one body (ISO 32000-1, table 336)."""
    kids = list(item.get("/K", []))
    loose = [kid for kid in kids if not (hasattr(kid, "get") and kid.get("/S") in {"/Lbl", "/LBody"})]
    if not loose:
        return
    body = pdf.make_indirect(
        pikepdf.Dictionary(Type=pikepdf.Name.StructElem, S=pikepdf.Name.LBody, P=item, K=pikepdf.Array(loose))
    )
    if "/Pg" in item:
        body["/Pg"] = item["/Pg"]
    for kid in loose:
        if hasattr(kid, "get") and kid.get("/Type") == "/StructElem":
            kid["/P"] = body
    item["/K"] = pikepdf.Array([*(kid for kid in kids if kid not in loose), body])
