"""Second tries, what was allowed at a sitting, coaching, and entries that were made void."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0005"
down_revision = "0004"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Add to the sittings, and make the tables of coaching and of void entries."""
    counter = sa.table("counter", sa.column("name", sa.Text), sa.column("last", sa.Integer))
    op.bulk_insert(counter, [{"name": "coaching", "last": 0}])
    with op.batch_alter_table("sitting") as sitting:
        sitting.add_column(sa.Column("second_of", sa.Text))
        sitting.add_column(sa.Column("allowed", sa.Text))
        sitting.create_foreign_key("fk_sitting_second_of", "sitting", ["second_of"], ["id"])
    op.create_table(
        "coaching",
        sa.Column("id", sa.Text, nullable=False),
        sa.Column("volunteer_id", sa.Text, nullable=False),
        sa.Column("coached_on", sa.Date, nullable=False),
        sa.Column("coach", sa.Text, nullable=False),
        sa.Column("about", sa.Text, nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_coaching"),
        sa.ForeignKeyConstraint(["volunteer_id"], ["volunteer.id"], name="fk_coaching_volunteer_id"),
    )
    op.create_index("ix_coaching_volunteer_id", "coaching", ["volunteer_id"])
    op.create_table(
        "voided",
        sa.Column("kind", sa.Text, nullable=False),
        sa.Column("id", sa.Text, nullable=False),
        sa.Column("voided_on", sa.Date, nullable=False),
        sa.Column("reason", sa.Text, nullable=False),
        sa.PrimaryKeyConstraint("kind", "id", name="pk_voided"),
    )
