"""Verdicts, outcomes, and the person behind an entry."""

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"


def upgrade() -> None:
    """Add the tables and the column; nothing that is there changes."""
    op.add_column("entries", sa.Column("who", sa.Text()))
    op.create_table(
        "verdicts",
        sa.Column("id", sa.Integer(), nullable=False), sa.Column("session_id", sa.Integer(), nullable=False),
        sa.Column("revision", sa.Integer(), nullable=False),
        sa.Column("made_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("engine_version", sa.Text(), nullable=False),
        sa.Column("tables_version", sa.Text(), nullable=False), sa.Column("verdict", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_verdicts"),
        sa.ForeignKeyConstraint(["session_id"], ["sessions.id"], name="fk_verdicts_session_id"),
    )
    op.create_index("ix_verdicts_session_id", "verdicts", ["session_id"])
    op.create_table(
        "outcomes",
        sa.Column("entry_id", sa.Integer(), nullable=False),
        sa.Column("module", sa.Text(), nullable=False), sa.Column("code", sa.Text(), nullable=False),
        sa.Column("failure_type", sa.String(2)), sa.Column("done", sa.Text(), nullable=False),
        sa.Column("cured", sa.String(7), nullable=False), sa.Column("found_cause", sa.String(12)),
        sa.Column("verdict_id", sa.Integer()), sa.Column("said", sa.Float(53)), sa.Column("standing", sa.String(12)),
        sa.PrimaryKeyConstraint("entry_id", name="pk_outcomes"),
        sa.CheckConstraint("cured IN ('yes', 'no', 'unknown')", name=op.f("ck_outcomes_cured")),
        sa.ForeignKeyConstraint(["entry_id"], ["entries.id"], name="fk_outcomes_entry_id"),
        sa.ForeignKeyConstraint(["verdict_id"], ["verdicts.id"], name="fk_outcomes_verdict_id"),
    )
    op.create_table(
        "outcome_rates",
        sa.Column("outcome_id", sa.Integer(), nullable=False), sa.Column("rate_key", sa.Text(), nullable=False),
        sa.Column("hit", sa.Boolean(), nullable=False),
        sa.PrimaryKeyConstraint("outcome_id", "rate_key", name="pk_outcome_rates"),
        sa.ForeignKeyConstraint(["outcome_id"], ["outcomes.entry_id"], name="fk_outcome_rates_outcome_id"),
    )
