"""Several entries made by one act."""

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"


def upgrade() -> None:
    """Add the column; an entry of an older store stands alone."""
    op.add_column("entries", sa.Column("act", sa.Integer()))
