"""Alembic's entry: migrate on the connection that trainer.records.migrate hands over."""

from alembic import context

from trainer.records.tables import Base

context.configure(
    connection=context.config.attributes["connection"],
    target_metadata=Base.metadata,
    render_as_batch=True,
    transactional_ddl=True,
)
context.run_migrations()
