"""The bench log: sessions, every version of every event, files taken in, and what was decided between versions."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"
branch_labels = None
depends_on = None

_TEXTS = ("result", "can", "lid_lot", "defect", "cause", "adjuster", "direction", "turns", "method", "specification")


def upgrade() -> None:
    """Make the tables of the bench log."""
    counter = sa.table("counter", sa.column("name", sa.Text), sa.column("last", sa.Integer))
    op.bulk_insert(counter, [{"name": "desk", "last": 0}])
    op.create_table(
        "bench_import",
        sa.Column("number", sa.Integer, nullable=False, autoincrement=True),
        sa.Column("digest", sa.Text, nullable=False),
        sa.Column("file", sa.Text, nullable=False),
        sa.Column("source", sa.Text, nullable=False),
        sa.Column("at", sa.Text, nullable=False),
        sa.Column("by", sa.Text, nullable=False),
        sa.PrimaryKeyConstraint("number", name="pk_bench_import"),
        sa.UniqueConstraint("digest", name="uq_bench_import_digest"),
    )
    op.create_table(
        "bench_session",
        sa.Column("number", sa.Integer, nullable=False, autoincrement=True),
        sa.Column("date", sa.Text, nullable=False),
        sa.Column("kitchen", sa.Text, nullable=False),
        sa.Column("sealer", sa.Text, nullable=False),
        sa.PrimaryKeyConstraint("number", name="pk_bench_session"),
        sa.UniqueConstraint("date", "kitchen", "sealer", name="uq_bench_session_date_kitchen_sealer"),
    )
    op.create_table(
        "bench_header",
        sa.Column("session", sa.Integer, nullable=False),
        sa.Column("source", sa.Text, nullable=False),
        sa.Column("digest", sa.Text, nullable=False),
        sa.Column("weight", sa.Integer, nullable=False),
        *(sa.Column(name, sa.Text, nullable=False) for name in ("can", "lid_lot", "supervisor", "product")),
        sa.PrimaryKeyConstraint("session", "source", "digest", name="pk_bench_header"),
        sa.ForeignKeyConstraint(["session"], ["bench_session.number"], name="fk_bench_header_session"),
    )
    _events()
    op.create_table(
        "bench_choice",
        sa.Column("number", sa.Integer, nullable=False, autoincrement=True),
        sa.Column("session", sa.Integer, nullable=False),
        sa.Column("event_id", sa.Text, nullable=False),
        sa.Column("digest", sa.Text, nullable=False),
        sa.Column("among", sa.JSON, nullable=False),
        sa.Column("at", sa.Text, nullable=False),
        sa.Column("by", sa.Text, nullable=False),
        sa.Column("reason", sa.Text, nullable=False),
        sa.PrimaryKeyConstraint("number", name="pk_bench_choice"),
        sa.ForeignKeyConstraint(["session"], ["bench_session.number"], name="fk_bench_choice_session"),
    )
    op.create_index("ix_bench_choice_session_event_id", "bench_choice", ["session", "event_id"])


def _events() -> None:
    op.create_table(
        "bench_event",
        sa.Column("number", sa.Integer, nullable=False, autoincrement=True),
        sa.Column("session", sa.Integer, nullable=False),
        sa.Column("id", sa.Text, nullable=False),
        sa.Column("revision", sa.Integer, nullable=False),
        sa.Column("digest", sa.Text, nullable=False),
        sa.Column("counts", sa.Boolean, nullable=False),
        sa.Column("import_number", sa.Integer),
        sa.Column("at", sa.Text, nullable=False),
        sa.Column("kind", sa.Text, nullable=False),
        sa.Column("struck", sa.Boolean, nullable=False),
        sa.Column("by", sa.Text, nullable=False),
        *(sa.Column(name, sa.Integer) for name in ("can_number", "first", "last")),
        *(sa.Column(name, sa.Text, nullable=False) for name in _TEXTS),
        sa.Column("readings", sa.Text, nullable=False),
        sa.Column("torn_down", sa.Boolean, nullable=False),
        sa.Column("reason", sa.Text, nullable=False),
        sa.Column("note", sa.Text, nullable=False),
        sa.PrimaryKeyConstraint("number", name="pk_bench_event"),
        sa.ForeignKeyConstraint(["session"], ["bench_session.number"], name="fk_bench_event_session"),
        sa.ForeignKeyConstraint(["import_number"], ["bench_import.number"], name="fk_bench_event_import_number"),
        sa.UniqueConstraint("session", "id", "revision", "digest", name="uq_bench_event_session_id_revision_digest"),
    )
