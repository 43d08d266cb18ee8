"""Vehicles, sessions and what is recorded in them.

The column types are spelled out: a revision has to give the same tables for ever, whatever the model becomes.
"""

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None

NOW = sa.DateTime(timezone=True)


def upgrade() -> None:
    """Make the tables in an empty database."""
    _vehicles_and_sessions()
    _entries()
    op.create_table(
        "snapshots",
        sa.Column("id", sa.Integer(), nullable=False), _entry(),
        sa.Column("ordinal", sa.Integer(), nullable=False),
        sa.Column("understood", sa.Text(), nullable=False),
        sa.Column("phase", sa.String(20)), sa.Column("phase_why", sa.Text()),
        sa.PrimaryKeyConstraint("id", name="pk_snapshots"),
        sa.UniqueConstraint("entry_id", "ordinal", name="uq_snapshots_entry_id_ordinal"),
        _to_entry("snapshots"),
    )
    op.create_table(
        "events",
        sa.Column("id", sa.Integer(), nullable=False), _entry(),
        sa.Column("ordinal", sa.Integer(), nullable=False), sa.Column("event", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_events"),
        sa.UniqueConstraint("entry_id", "ordinal", name="uq_events_entry_id_ordinal"),
        _to_entry("events"),
    )
    op.create_table(
        "readings",
        _entry(), sa.Column("snapshot_id", sa.Integer()), sa.Column("reading", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("entry_id", name="pk_readings"), _to_entry("readings"), _to_snapshot("readings"),
    )
    op.create_table(
        "traces",
        _entry(), sa.Column("name", sa.Text()), sa.Column("body", sa.LargeBinary(), nullable=False),
        sa.PrimaryKeyConstraint("entry_id", name="pk_traces"), _to_entry("traces"),
    )
    op.create_table(
        "corrections",
        sa.Column("id", sa.Integer(), nullable=False), _entry(),
        sa.Column("ordinal", sa.Integer(), nullable=False), sa.Column("snapshot_id", sa.Integer()),
        sa.Column("field", sa.String(40), nullable=False), sa.Column("value", sa.Text()),
        sa.PrimaryKeyConstraint("id", name="pk_corrections"),
        sa.UniqueConstraint("entry_id", "ordinal", name="uq_corrections_entry_id_ordinal"),
        _to_entry("corrections"), _to_snapshot("corrections"),
    )
    op.create_index("ix_corrections_snapshot_id", "corrections", ["snapshot_id"])


def _vehicles_and_sessions() -> None:
    op.create_table(
        "vehicles",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("label", sa.Text()), sa.Column("label_key", sa.Text()),
        sa.Column("vin", sa.Text()), sa.Column("vin_key", sa.Text()),
        sa.Column("details", sa.Text(), nullable=False), sa.Column("added_at", NOW, nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_vehicles"),
        sa.UniqueConstraint("vin_key", name="uq_vehicles_vin_key"),
    )
    op.create_index("ix_vehicles_label_key", "vehicles", ["label_key"])
    op.create_table(
        "sessions",
        sa.Column("id", sa.Integer(), nullable=False), sa.Column("name", sa.Text(), nullable=False),
        sa.Column("vehicle_id", sa.Integer()), sa.Column("vehicle", sa.Text()),
        sa.Column("events_known", sa.Boolean(), nullable=False),
        sa.Column("opened_at", NOW, nullable=False), sa.Column("revision", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_sessions"),
        sa.UniqueConstraint("name", name="uq_sessions_name"),
        sa.ForeignKeyConstraint(["vehicle_id"], ["vehicles.id"], name="fk_sessions_vehicle_id"),
    )
    op.create_index("ix_sessions_vehicle_id", "sessions", ["vehicle_id"])


def _entries() -> None:
    op.create_table(
        "entries",
        sa.Column("id", sa.Integer(), nullable=False), sa.Column("session_id", sa.Integer(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False), sa.Column("kind", sa.String(20), nullable=False),
        sa.Column("recorded_at", NOW, nullable=False),
        sa.Column("struck_at", NOW), sa.Column("struck_revision", sa.Integer()),
        sa.PrimaryKeyConstraint("id", name="pk_entries"),
        sa.UniqueConstraint("session_id", "position", name="uq_entries_session_id_position"),
        sa.CheckConstraint("(struck_at IS NULL) = (struck_revision IS NULL)", name=op.f("ck_entries_struck")),
        sa.ForeignKeyConstraint(["session_id"], ["sessions.id"], name="fk_entries_session_id"),
    )
    op.create_table(
        "pastes",
        _entry(), sa.Column("body", sa.LargeBinary(), nullable=False),
        sa.Column("is_text", sa.Boolean(), nullable=False), sa.Column("source", sa.Text()),
        sa.PrimaryKeyConstraint("entry_id", name="pk_pastes"), _to_entry("pastes"),
    )


def _entry() -> "sa.Column[int]":
    return sa.Column("entry_id", sa.Integer(), nullable=False)


def _to_entry(table: str) -> sa.ForeignKeyConstraint:
    return sa.ForeignKeyConstraint(["entry_id"], ["entries.id"], name=f"fk_{table}_entry_id")


def _to_snapshot(table: str) -> sa.ForeignKeyConstraint:
    return sa.ForeignKeyConstraint(["snapshot_id"], ["snapshots.id"], name=f"fk_{table}_snapshot_id")
