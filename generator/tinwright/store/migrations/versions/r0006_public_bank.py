"""Whether anybody could read the questions of an examination beforehand."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0006"
down_revision = "0005"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Add to the sittings and the certificates; of those before, nothing of the kind was noted."""
    for name in ("sitting", "certificate"):
        with op.batch_alter_table(name) as table:
            table.add_column(sa.Column("public_bank", sa.Boolean, nullable=False, server_default=sa.false()))
