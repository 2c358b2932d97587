"""How Alembic reaches the store: the connection is handed in with its transaction begun, and nothing is configured."""

from __future__ import annotations

from alembic import context

from wrapwright.outside.store.schema import METADATA

context.configure(connection=context.config.attributes["connection"], target_metadata=METADATA, transactional_ddl=True)
with context.begin_transaction():
    context.run_migrations()
