"""Alembic's way in: it gets the connection, and the transaction, of `hubwright.store.migrate`."""

from __future__ import annotations

from alembic import context

from hubwright.store.tables import metadata

context.configure(
    connection=context.config.attributes["connection"],
    target_metadata=metadata,
    render_as_batch=True,
    transactional_ddl=True,
)
context.run_migrations()
