"""How Alembic runs the migrations: on the connection, and inside the transaction, that `migrating.upgrade` hands it."""

from __future__ import annotations

from alembic import context

from tinwright.store.migrating import VERSION_TABLE
from tinwright.store.tables import metadata

if __name__ == "env_py":  # the name that Alembic gives this file when it runs it
    context.configure(
        connection=context.config.attributes["connection"],
        target_metadata=metadata,
        version_table=VERSION_TABLE,
        render_as_batch=True,
    )
    with context.begin_transaction():
        context.run_migrations()
