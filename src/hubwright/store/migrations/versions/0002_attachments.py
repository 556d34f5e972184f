"""Photographs, scans and papers of a job."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"


def upgrade() -> None:
    """Make the table of attachments."""
    op.create_table(
        "attachment",
        sa.Column("id", sa.String(32), nullable=False),
        sa.Column("job_id", sa.String(32), sa.ForeignKey("job.id", name="fk_attachment_job_id"), nullable=False),
        sa.Column("name", sa.Text, nullable=False),
        sa.Column("kind", sa.String(80), nullable=False),
        sa.Column("size_bytes", sa.Integer, nullable=False),
        sa.Column("sha256", sa.String(64), nullable=False),
        sa.Column("author", sa.Text, nullable=False),
        sa.Column("at", sa.String(27), nullable=False),
        sa.Column("note", sa.Text, nullable=False),
        sa.Column("removed_by", sa.Text),
        sa.Column("removed_at", sa.String(27)),
        sa.PrimaryKeyConstraint("id", name="pk_attachment"),
    )
    op.create_index("ix_attachment_job_id", "attachment", ["job_id"])
    op.create_index("ix_attachment_sha256", "attachment", ["sha256"])
