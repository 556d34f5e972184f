"""Jobs, their revisions, and entries put aside."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None


def upgrade() -> None:
    """Make the first tables."""
    op.create_table(
        "job",
        sa.Column("id", sa.String(32), nullable=False),
        sa.Column("head", sa.Integer, nullable=False),
        sa.Column("title", sa.Text, nullable=False),
        sa.Column("title_words", sa.Text, nullable=False),
        sa.Column("plate", sa.Text, nullable=False),
        sa.Column("plate_letters", sa.Text, nullable=False),
        sa.Column("customer", sa.Text, nullable=False),
        sa.Column("customer_words", sa.Text, nullable=False),
        sa.Column("axles", sa.String(10), nullable=False),
        sa.Column("day", sa.String(10)),
        sa.Column("stage", sa.String(40), nullable=False),
        sa.Column("stage_sha256", sa.String(64), nullable=False),
        sa.Column("due", sa.String(10)),
        sa.Column("words", sa.Text, nullable=False),
        sa.Column("data_sha256", sa.String(64), nullable=False),
        sa.Column("changed_at", sa.String(27), nullable=False),
        sa.Column("changed_by", sa.Text, nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_job"),
    )
    for column in ("changed_at", "stage", "day", "due"):
        op.create_index(f"ix_job_{column}", "job", [column])
    op.create_table(
        "revision",
        sa.Column("job_id", sa.String(32), sa.ForeignKey("job.id", name="fk_revision_job_id"), nullable=False),
        sa.Column("number", sa.Integer, nullable=False),
        sa.Column("base", sa.Integer, nullable=False),
        sa.Column("author", sa.Text, nullable=False),
        sa.Column("at", sa.String(27), nullable=False),
        sa.Column("kind", sa.String(20), nullable=False),
        sa.Column("note", sa.Text, nullable=False),
        sa.Column("changes", sa.Text, nullable=False),
        sa.Column("undoes", sa.Integer),
        sa.Column("data", sa.LargeBinary, nullable=False),
        sa.Column("card", sa.Text, nullable=False),
        sa.Column("given", sa.LargeBinary),
        sa.Column("data_sha256", sa.String(64), nullable=False),
        sa.Column("chain", sa.String(64), nullable=False),
        sa.Column("entry_key", sa.String(64), nullable=False),
        sa.PrimaryKeyConstraint("job_id", "number", name="pk_revision"),
        sa.UniqueConstraint("job_id", "entry_key", name="uq_revision_job_id_entry_key"),
    )
    op.create_index("ix_revision_chain", "revision", ["chain"])
    op.create_table(
        "aside",
        sa.Column("id", sa.String(32), nullable=False),
        sa.Column("job_id", sa.String(32), sa.ForeignKey("job.id", name="fk_aside_job_id"), nullable=False),
        sa.Column("base", sa.Integer, nullable=False),
        sa.Column("author", sa.Text, nullable=False),
        sa.Column("at", sa.String(27), nullable=False),
        sa.Column("note", sa.Text, nullable=False),
        sa.Column("changes", sa.Text, nullable=False),
        sa.Column("clashes", sa.Text, nullable=False),
        sa.Column("faults", sa.Text, nullable=False),
        sa.Column("given", sa.LargeBinary),
        sa.Column("entry_key", sa.String(64), nullable=False),
        sa.Column("settled", sa.String(20)),
        sa.Column("settled_by", sa.Text),
        sa.Column("settled_at", sa.String(27)),
        sa.PrimaryKeyConstraint("id", name="pk_aside"),
        sa.UniqueConstraint("job_id", "entry_key", name="uq_aside_job_id_entry_key"),
    )
    op.create_index("ix_aside_settled", "aside", ["settled"])
