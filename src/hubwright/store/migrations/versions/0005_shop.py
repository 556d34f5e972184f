"""The shop's settings with their history."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0005"
down_revision = "0004"


def upgrade() -> None:
    """Make the table of settings."""
    op.create_table(
        "shop",
        sa.Column("number", sa.Integer, nullable=False, autoincrement=False),
        sa.Column("base", sa.Integer, nullable=False),
        sa.Column("author", sa.Text, nullable=False),
        sa.Column("at", sa.String(27), nullable=False),
        sa.Column("kind", sa.String(20), nullable=False),
        sa.Column("note", sa.Text, nullable=False),
        sa.Column("changes", sa.Text, nullable=False),
        sa.Column("undoes", sa.Integer),
        sa.Column("data", sa.LargeBinary, nullable=False),
        sa.Column("data_sha256", sa.String(64), nullable=False),
        sa.Column("chain", sa.String(64), nullable=False),
        sa.Column("entry_key", sa.String(64), nullable=False),
        sa.PrimaryKeyConstraint("number", name="pk_shop"),
        sa.UniqueConstraint("entry_key", name="uq_shop_entry_key"),
    )
