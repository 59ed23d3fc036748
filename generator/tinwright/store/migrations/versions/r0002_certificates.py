"""Certificates, and what each one rests on."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Make the table of certificates."""
    op.create_table(
        "certificate",
        sa.Column("id", sa.Text, nullable=False),
        sa.Column("volunteer_id", sa.Text),
        sa.Column("name", sa.Text, nullable=False),
        sa.Column("drives", sa.JSON, nullable=False),
        sa.Column("exam", sa.Text, nullable=False),
        sa.Column("form", sa.Text, nullable=False),
        sa.Column("issued_on", sa.Date, nullable=False),
        sa.Column("valid_until", sa.Date, nullable=False),
        sa.Column("revoked_on", sa.Date),
        sa.Column("revoked_reason", sa.Text),
        sa.Column("renews", sa.Text),
        sa.Column("sitting_id", sa.Text),
        sa.Column("practical_ids", sa.JSON, nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_certificate"),
        sa.ForeignKeyConstraint(["volunteer_id"], ["volunteer.id"], name="fk_certificate_volunteer_id"),
        sa.ForeignKeyConstraint(["renews"], ["certificate.id"], name="fk_certificate_renews"),
        sa.ForeignKeyConstraint(["sitting_id"], ["sitting.id"], name="fk_certificate_sitting_id"),
    )
    op.create_index("ix_certificate_volunteer_id", "certificate", ["volunteer_id"])
    op.create_index("ix_certificate_revoked_on", "certificate", ["revoked_on"])
