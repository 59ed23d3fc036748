"""Sittings of examinations, and what was answered to each item."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sqlalchemy import insert, select

from tinwright.errors import RecordError
from tinwright.register import voiding, volunteers
from tinwright.register.entries import ItemResponse, Sitting
from tinwright.store import tables
from tinwright.store.changes import exact_points, in_order, log, next_id, plain_text

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from sqlalchemy import Connection

__all__ = ["columns_of", "every", "family_of", "find", "item_responses", "record", "standing", "standing_for"]

_table = tables.sitting


def record(connection: Connection, by: str, values: Mapping[str, Any], responses: Sequence[ItemResponse]) -> Sitting:
    """Enter a graded sitting once; the same response graded with another key takes the place of the first grading.

    Args:
        connection: a writing transaction.
        by: the account that enters it.
        values: the fields of `Sitting` but its id.
        responses: what was answered to each item.
    """
    _check(values, responses)
    holder = volunteers.hold(connection, values["volunteer_id"])
    draft = Sitting(**{**values, "id": "", "volunteer_id": holder.id})
    same = _with_digest(connection, draft.digest)
    if any(row.volunteer_id != holder.id for row in same):
        raise RecordError(f"this response is already in the register, for {_owner(same)}: look whose it is")
    if known := next((row for row in same if row.graded_with == draft.graded_with), None):
        if known.voided is not None:
            raise RecordError(f"this response is in the register as {known.id}, made void: {known.voided}")
        if draft.supersedes not in {None, known.supersedes}:
            raise RecordError(f"this response, graded with this key, is already in the register as {known.id}")
        return known
    standing = standing_for(connection, holder.id)
    replaced = _replaced(draft, standing)
    sitting = Sitting(
        **{**vars(draft), "id": next_id(connection, "sitting"), "supersedes": replaced.id if replaced else None}
    )
    connection.execute(insert(_table).values(columns_of(sitting)))
    if responses:
        rows = [{**vars(response), "sitting_id": sitting.id} for response in responses]
        connection.execute(insert(tables.item_response), rows)
    log(connection, by, "sitting graded again" if replaced else "sitting recorded", sitting.id)
    return sitting


def _check(values: Mapping[str, Any], responses: Sequence[ItemResponse]) -> None:
    for key in ("exam", "form", "digest", "graded_with"):
        plain_text(values[key], key)
    score, out_of = exact_points(values["score"], "score"), exact_points(values["out_of"], "out of")
    if score > out_of or not out_of:
        raise RecordError(f"score: expected at most the points there are, got {values['score']} of {values['out_of']}")
    for response in responses:
        exact_points(response.score, f"item {response.item_id}")
    seen = [response.item_id for response in responses]
    if twice := sorted({id_ for id_ in seen if seen.count(id_) > 1}):
        raise RecordError(f"items: expected each once, got {', '.join(twice)} more often")


def _with_digest(connection: Connection, digest: str) -> list[Sitting]:
    void = voiding.reasons(connection, "sitting")
    rows = connection.execute(select(_table).where(_table.c.digest == digest)).mappings()
    return [_sitting(row, void) for row in rows]


def _owner(rows: Sequence[Sitting]) -> str:
    return rows[0].volunteer_id or "somebody who was erased"


def _replaced(draft: Sitting, standing: Sequence[Sitting]) -> Sitting | None:
    """Return the sitting that the new one takes the place of, if it does; refuse a wrong or a doubtful one."""
    if draft.supersedes is not None:
        named = next((row for row in standing if row.id == draft.supersedes), None)
        if named is None:
            raise RecordError(f"supersedes: {draft.volunteer_id} has no sitting {draft.supersedes} that still counts")
        if (named.exam, named.form, named.taken_on) != (draft.exam, draft.form, draft.taken_on):
            raise RecordError(f"supersedes: {named.id} is of another examination, form or day")
        return named
    if regraded := next((row for row in standing if row.digest == draft.digest), None):
        return regraded
    for row in standing:
        if (row.exam, row.form, row.taken_on) == (draft.exam, draft.form, draft.taken_on):
            raise RecordError(
                f"{draft.volunteer_id} already has a sitting of {row.exam}, form {row.form}, on {row.taken_on}: "
                f"say that this one supersedes {row.id} when it corrects it"
            )
    return None


def every(connection: Connection, volunteer_id: str | None = None) -> list[Sitting]:
    """Return sittings in the order they were entered, of one volunteer or of all, superseded ones among them."""
    query = select(_table).order_by(*in_order(_table.c.id))
    if volunteer_id is not None:
        query = query.where(_table.c.volunteer_id == volunteer_id)
    void = voiding.reasons(connection, "sitting")
    return [_sitting(row, void) for row in connection.execute(query).mappings()]


def find(connection: Connection, id_: str) -> Sitting:
    """Return one sitting, or say that there is none."""
    row = connection.execute(select(_table).where(_table.c.id == id_)).mappings().first()
    if row is None:
        raise RecordError(f"no sitting has the id {id_!r}")
    return _sitting(row, voiding.reasons(connection, "sitting"))


def standing_for(connection: Connection, volunteer_id: str) -> list[Sitting]:
    """Return the sittings of a volunteer that count, oldest first."""
    return standing(every(connection, volunteer_id))


def standing(rows: Sequence[Sitting]) -> list[Sitting]:
    """Return the sittings that count, oldest first: not superseded, not void, a second try only beside its first.

    Args:
        rows: all sittings of one person or of several.
    """
    superseded = {row.supersedes for row in rows if row.voided is None}
    counting = {row.id: row for row in rows if row.id not in superseded and row.voided is None}
    kept = [row for row in counting.values() if row.second_of is None or row.second_of in counting]
    # The sort is stable: of one day, the one entered last stays last, and a second try comes after its first.
    return sorted(kept, key=lambda row: (row.taken_on, row.second_of is not None))


def family_of(rows: Sequence[Sitting], id_: str) -> list[str]:
    """Return the ids of all gradings of one sitting and of its second tries.

    Args:
        rows: all sittings of the person.
        id_: one of them.
    """
    family = {id_}
    while True:
        more = {row.id for row in rows if {row.supersedes, row.second_of} & family}
        more |= {row.supersedes for row in rows if row.id in family and row.supersedes}
        if more <= family:
            return sorted(family, key=lambda name: (len(name), name))
        family |= more


def columns_of(sitting: Sitting) -> dict[str, Any]:
    """Return what stands in the row of a sitting."""
    return {name: value for name, value in vars(sitting).items() if name != "voided"}


def item_responses(
    connection: Connection, *, sitting_id: str | None, exam: str | None, form: str | None
) -> list[ItemResponse]:
    """Return what was answered, of one sitting or of all that still count."""
    response = tables.item_response
    query = select(response).join(_table).order_by(*in_order(_table.c.id), response.c.item_id)
    if sitting_id is not None:
        query = query.where(response.c.sitting_id == sitting_id)
    else:
        later = _table.alias("later")
        query = query.where(~select(later.c.id).where(later.c.supersedes == _table.c.id).exists())
        void = select(tables.voided.c.id).where(tables.voided.c.kind == "sitting", tables.voided.c.id == _table.c.id)
        query = query.where(~void.exists())
    if exam is not None:
        query = query.where(_table.c.exam == exam)
    if form is not None:
        query = query.where(_table.c.form == form)
    return [ItemResponse(**row) for row in connection.execute(query).mappings()]


def _sitting(row: Mapping[Any, Any], void: Mapping[str, str]) -> Sitting:
    return Sitting(**{**row, "volunteer_id": row["volunteer_id"] or "", "voided": void.get(row["id"])})
