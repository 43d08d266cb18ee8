"""Alembic's folder: how a store of an earlier revision becomes one of the present revision."""
