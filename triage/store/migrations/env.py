"""Runs the migrations on the connection, and inside the transaction, that the store hands over."""

from alembic import context

from triage.store.tables import VERSION_TABLE, Base

context.configure(
    connection=context.config.attributes["connection"], target_metadata=Base.metadata,
    version_table=VERSION_TABLE, transactional_ddl=True,
)
with context.begin_transaction():
    context.run_migrations()
