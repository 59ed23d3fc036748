"""Everything in the store, as JSON can hold it, and as one CSV for each table."""

from __future__ import annotations

import csv
import datetime as dt
import io
import json
from typing import TYPE_CHECKING, Any

from sqlalchemy import Integer, select

from tinwright.store.changes import in_order
from tinwright.store.migrating import NEWEST
from tinwright.store.tables import ALL_TABLES

if TYPE_CHECKING:
    from sqlalchemy import Connection

__all__ = ["csv_cell", "csv_tables", "everything"]

FORMAT = "tinwright-register"
_STARTS_A_FORMULA = ("=", "+", "-", "@", "\t", "\r", "\uff1d", "\uff0b", "\uff0d", "\uff20")
"""How a cell begins that a spreadsheet may run: OWASP, "CSV Injection"; the last four are the full-width forms."""


def everything(connection: Connection) -> dict[str, Any]:
    """Return every row of every table; days are texts such as `2026-05-02`.

    Args:
        connection: a reading connection, so that all tables are seen at one moment.
    """
    exported: dict[str, Any] = {"format": FORMAT, "revision": NEWEST}
    for table in ALL_TABLES:
        key = next(iter(table.primary_key.columns))
        order = [key] if isinstance(key.type, Integer) else list(in_order(key))
        rows = connection.execute(select(table).order_by(*order, *list(table.primary_key.columns)[1:])).mappings()
        exported[table.name] = [{name: _jsonable(value) for name, value in row.items()} for row in rows]
    return exported


def csv_tables(exported: dict[str, Any]) -> dict[str, str]:
    """Return the text of one CSV file for each table that holds something (RFC 4180).

    Cells that a spreadsheet would run as a formula begin with an apostrophe.

    Args:
        exported: what `Register.export` returned.
    """
    return {f"{name}.csv": _csv(rows) for name, rows in exported.items() if isinstance(rows, list) and rows}


def _csv(rows: list[dict[str, Any]]) -> str:
    out = io.StringIO()
    writer = csv.writer(out)
    writer.writerow(rows[0])
    writer.writerows([csv_cell(value) for value in row.values()] for row in rows)
    return out.getvalue()


def csv_cell(value: object) -> str:
    """Return the text of a cell; one that a spreadsheet would run as a formula begins with an apostrophe."""
    if value is None:
        return ""
    text = value if isinstance(value, str) else json.dumps(value, ensure_ascii=False)
    return f"'{text}" if text.startswith(_STARTS_A_FORMULA) else text


def _jsonable(value: object) -> object:
    return value.isoformat() if isinstance(value, dt.date) else value
