"""Of each line of the bench log its run, the day it was written on, and what its writer had before it."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0004"
down_revision = "0003"
branch_labels = None
depends_on = None

_COLUMNS = ("run", "on", "after")


def upgrade() -> None:
    """Add the columns, and say of what the desk wrote what it had: a release lets go only what its writer knew of."""
    with op.batch_alter_table("bench_event") as table:
        for name in _COLUMNS:
            table.add_column(sa.Column(name, sa.Text, nullable=False, server_default=""))
    with op.batch_alter_table("bench_event") as table:
        for name in _COLUMNS:
            table.alter_column(name, server_default=None)
    connection = op.get_bind()
    event = sa.table(
        "bench_event", *(sa.column(name) for name in ("number", "session", "id", "after", "import_number"))
    )
    there: dict[int, dict[str, int]] = {}
    rows = connection.execute(
        sa.select(event.c.number, event.c.session, event.c.id, event.c.import_number).order_by(event.c.number)
    ).all()
    for number, session, id_, import_number in rows:
        source, _, line = str(id_).rpartition("-")
        lasts = there.setdefault(session, {})
        if import_number is None:
            after = " ".join(f"{name}-{last}" for name, last in sorted(lasts.items()) if name != source)
            connection.execute(sa.update(event).where(event.c.number == number).values(after=after))
        lasts[source] = max(lasts.get(source, 0), int(line))
