"""People with accounts, and who is signed in."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"


def upgrade() -> None:
    """Make the tables of people and sessions."""
    op.create_table(
        "person",
        sa.Column("id", sa.String(32), nullable=False),
        sa.Column("name", sa.Text, nullable=False),
        sa.Column("name_key", sa.Text, nullable=False),
        sa.Column("password", sa.Text, nullable=False),
        sa.Column("role", sa.String(20), nullable=False),
        sa.Column("made_at", sa.String(27), nullable=False),
        sa.Column("made_by", sa.Text, nullable=False),
        sa.Column("changed_at", sa.String(27), nullable=False),
        sa.Column("changed_by", sa.Text, nullable=False),
        sa.Column("left_at", sa.String(27)),
        sa.PrimaryKeyConstraint("id", name="pk_person"),
        sa.UniqueConstraint("name_key", name="uq_person_name_key"),
    )
    op.create_table(
        "session",
        sa.Column("token_sha256", sa.String(64), nullable=False),
        sa.Column("person_id", sa.String(32), sa.ForeignKey("person.id", name="fk_session_person_id"), nullable=False),
        sa.Column("made_at", sa.String(27), nullable=False),
        sa.Column("seen_at", sa.String(27), nullable=False),
        sa.Column("ends_at", sa.String(27), nullable=False),
        sa.PrimaryKeyConstraint("token_sha256", name="pk_session"),
    )
    op.create_index("ix_session_person_id", "session", ["person_id"])
