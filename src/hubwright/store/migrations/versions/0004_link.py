"""Links for customers who measure by mail."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0004"
down_revision = "0003"


def upgrade() -> None:
    """Make the table of links."""
    op.create_table(
        "link",
        sa.Column("id", sa.String(32), nullable=False),
        sa.Column("token_sha256", sa.String(64), nullable=False),
        sa.Column("job_id", sa.String(32), sa.ForeignKey("job.id", name="fk_link_job_id"), nullable=False),
        sa.Column("areas", sa.Text, nullable=False),
        sa.Column("customer", sa.Text, nullable=False),
        sa.Column("made_at", sa.String(27), nullable=False),
        sa.Column("made_by", sa.Text, nullable=False),
        sa.Column("expires_at", sa.String(27), nullable=False),
        sa.Column("revoked_at", sa.String(27)),
        sa.Column("revoked_by", sa.Text),
        sa.Column("uses", sa.Integer, nullable=False),
        sa.Column("used_at", sa.String(27)),
        sa.PrimaryKeyConstraint("id", name="pk_link"),
        sa.UniqueConstraint("token_sha256", name="uq_link_token_sha256"),
    )
    op.create_index("ix_link_job_id", "link", ["job_id"])
