"""Volunteers, what they sat and showed, erasures, and the change record that is only ever added to."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None

_REFUSAL = "the change record is only ever added to"


def upgrade() -> None:
    """Make the first tables."""
    counter = op.create_table(
        "counter",
        sa.Column("name", sa.Text, nullable=False),
        sa.Column("last", sa.Integer, nullable=False),
        sa.PrimaryKeyConstraint("name", name="pk_counter"),
    )
    op.bulk_insert(counter, [{"name": name, "last": 0} for name in ("volunteer", "sitting", "practical")])
    op.create_table(
        "change",
        sa.Column("number", sa.Integer, nullable=False, autoincrement=True),
        sa.Column("at", sa.Text, nullable=False),
        sa.Column("by", sa.Text, nullable=False),
        sa.Column("what", sa.Text, nullable=False),
        sa.Column("subject", sa.Text, nullable=False),
        sa.PrimaryKeyConstraint("number", name="pk_change"),
    )
    op.create_table(
        "erasure",
        sa.Column("volunteer_id", sa.Text, nullable=False),
        sa.Column("erased_on", sa.Date, nullable=False),
        sa.PrimaryKeyConstraint("volunteer_id", name="pk_erasure"),
    )
    op.create_table(
        "volunteer",
        sa.Column("id", sa.Text, nullable=False),
        sa.Column("name", sa.Text, nullable=False),
        sa.Column("email", sa.Text),
        sa.Column("kitchen", sa.Text),
        sa.Column("added_on", sa.Date, nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_volunteer"),
    )
    _examinations()
    _refuse_to_rewrite_changes()


def _examinations() -> None:
    op.create_table(
        "sitting",
        sa.Column("id", sa.Text, nullable=False),
        sa.Column("volunteer_id", sa.Text),
        sa.Column("exam", sa.Text, nullable=False),
        sa.Column("form", sa.Text, nullable=False),
        sa.Column("taken_on", sa.Date, nullable=False),
        sa.Column("score", sa.Text, nullable=False),
        sa.Column("out_of", sa.Text, nullable=False),
        sa.Column("passed", sa.Boolean, nullable=False),
        sa.Column("digest", sa.Text, nullable=False),
        sa.Column("graded_with", sa.Text, nullable=False),
        sa.Column("profile", sa.JSON, nullable=False),
        sa.Column("supersedes", sa.Text),
        sa.PrimaryKeyConstraint("id", name="pk_sitting"),
        sa.ForeignKeyConstraint(["volunteer_id"], ["volunteer.id"], name="fk_sitting_volunteer_id"),
        sa.ForeignKeyConstraint(["supersedes"], ["sitting.id"], name="fk_sitting_supersedes"),
        sa.UniqueConstraint("digest", "graded_with", name="uq_sitting_digest_graded_with"),
        sa.UniqueConstraint("supersedes", name="uq_sitting_supersedes"),
    )
    op.create_index("ix_sitting_volunteer_id", "sitting", ["volunteer_id"])
    op.create_index("ix_sitting_exam_form", "sitting", ["exam", "form"])
    op.create_table(
        "item_response",
        sa.Column("sitting_id", sa.Text, nullable=False),
        sa.Column("item_id", sa.Text, nullable=False),
        sa.Column("response", sa.Text),
        sa.Column("score", sa.Text, nullable=False),
        sa.PrimaryKeyConstraint("sitting_id", "item_id", name="pk_item_response"),
        sa.ForeignKeyConstraint(["sitting_id"], ["sitting.id"], name="fk_item_response_sitting_id"),
    )
    op.create_index("ix_item_response_item_id", "item_response", ["item_id"])
    op.create_table(
        "practical",
        sa.Column("id", sa.Text, nullable=False),
        sa.Column("volunteer_id", sa.Text, nullable=False),
        sa.Column("drive", sa.Text, nullable=False),
        sa.Column("sealer", sa.Text),
        sa.Column("observed_on", sa.Date, nullable=False),
        sa.Column("examiner", sa.Text, nullable=False),
        sa.Column("passed", sa.Boolean, nullable=False),
        sa.Column("steps", sa.JSON, nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_practical"),
        sa.ForeignKeyConstraint(["volunteer_id"], ["volunteer.id"], name="fk_practical_volunteer_id"),
    )
    op.create_index("ix_practical_volunteer_id", "practical", ["volunteer_id"])


def _refuse_to_rewrite_changes() -> None:
    if op.get_bind().dialect.name == "sqlite":
        for verb in ("UPDATE", "DELETE"):
            op.execute(
                f"CREATE TRIGGER change_no_{verb.lower()} BEFORE {verb} ON change "
                f"BEGIN SELECT RAISE(ABORT, '{_REFUSAL}'); END"
            )
        return
    op.execute(
        "CREATE FUNCTION refuse_to_rewrite_changes() RETURNS trigger LANGUAGE plpgsql AS "
        f"$$ BEGIN RAISE EXCEPTION '{_REFUSAL}'; END $$"
    )
    op.execute(
        "CREATE TRIGGER change_no_rewrite BEFORE UPDATE OR DELETE OR TRUNCATE ON change "
        "FOR EACH STATEMENT EXECUTE FUNCTION refuse_to_rewrite_changes()"
    )
