"""The tables of the cupboard. Times are text in UTC of one width, so that both databases keep and sort them alike."""

from __future__ import annotations

from sqlalchemy import (
    Column,
    ForeignKey,
    Index,
    Integer,
    LargeBinary,
    MetaData,
    PrimaryKeyConstraint,
    String,
    Table,
    Text,
    UniqueConstraint,
)

metadata = MetaData(
    naming_convention={
        "pk": "pk_%(table_name)s",
        "fk": "fk_%(table_name)s_%(column_0_name)s",
        "uq": "uq_%(table_name)s_%(column_0_N_name)s",
        "ix": "ix_%(table_name)s_%(column_0_N_name)s",
    }
)

ID = String(32)
TIME = String(27)
DAY = String(10)
HASH = String(64)

job = Table(
    "job",
    metadata,
    Column("id", ID, primary_key=True),
    Column("head", Integer, nullable=False),
    Column("title", Text, nullable=False),
    Column("title_words", Text, nullable=False),
    Column("plate", Text, nullable=False),
    Column("plate_letters", Text, nullable=False),
    Column("customer", Text, nullable=False),
    Column("customer_words", Text, nullable=False),
    Column("axles", String(10), nullable=False),
    Column("day", DAY),
    Column("stage", String(40), nullable=False),
    Column("stage_sha256", HASH, nullable=False),
    Column("due", DAY),
    Column("words", Text, nullable=False),
    Column("data_sha256", HASH, nullable=False),
    Column("changed_at", TIME, nullable=False),
    Column("changed_by", Text, nullable=False),
    Index(None, "changed_at"),
    Index(None, "stage"),
    Index(None, "day"),
    Index(None, "due"),
)
"""One row per job: where its history stands, and what lists and searches need, worked out from the newest revision."""

revision = Table(
    "revision",
    metadata,
    Column("job_id", ID, ForeignKey("job.id"), nullable=False),
    Column("number", Integer, nullable=False),
    Column("base", Integer, nullable=False),
    Column("author", Text, nullable=False),
    Column("at", TIME, nullable=False),
    Column("kind", String(20), nullable=False),
    Column("note", Text, nullable=False),
    Column("changes", Text, nullable=False),
    Column("undoes", Integer),
    Column("data", LargeBinary, nullable=False),
    Column("card", Text, nullable=False),
    Column("given", LargeBinary),
    Column("data_sha256", HASH, nullable=False),
    Column("chain", HASH, nullable=False),
    Column("entry_key", String(64), nullable=False),
    PrimaryKeyConstraint("job_id", "number"),
    UniqueConstraint("job_id", "entry_key"),
    Index(None, "chain"),
)
"""Append only. `data` is the job file, deflated; `given` the file that was handed in where it had to be merged."""

aside = Table(
    "aside",
    metadata,
    Column("id", ID, primary_key=True),
    Column("job_id", ID, ForeignKey("job.id"), nullable=False),
    Column("base", Integer, nullable=False),
    Column("author", Text, nullable=False),
    Column("at", TIME, nullable=False),
    Column("note", Text, nullable=False),
    Column("changes", Text, nullable=False),
    Column("clashes", Text, nullable=False),
    Column("faults", Text, nullable=False),
    Column("given", LargeBinary),
    Column("entry_key", String(64), nullable=False),
    Column("settled", String(20)),
    Column("settled_by", Text),
    Column("settled_at", TIME),
    UniqueConstraint("job_id", "entry_key"),
    Index(None, "settled"),
)
"""Entries that could not go in, kept whole."""

attachment = Table(
    "attachment",
    metadata,
    Column("id", ID, primary_key=True),
    Column("job_id", ID, ForeignKey("job.id"), nullable=False),
    Column("name", Text, nullable=False),
    Column("kind", String(80), nullable=False),
    Column("size_bytes", Integer, nullable=False),
    Column("sha256", HASH, nullable=False),
    Column("author", Text, nullable=False),
    Column("at", TIME, nullable=False),
    Column("note", Text, nullable=False),
    Column("removed_by", Text),
    Column("removed_at", TIME),
    Index(None, "job_id"),
    Index(None, "sha256"),
)
"""Photographs, scans, papers; their bytes lie in files named by their hash."""

person = Table(
    "person",
    metadata,
    Column("id", ID, primary_key=True),
    Column("name", Text, nullable=False),
    Column("name_key", Text, nullable=False),
    Column("password", Text, nullable=False),
    Column("role", String(20), nullable=False),
    Column("made_at", TIME, nullable=False),
    Column("made_by", Text, nullable=False),
    Column("changed_at", TIME, nullable=False),
    Column("changed_by", Text, nullable=False),
    Column("left_at", TIME),
    UniqueConstraint("name_key"),
)
"""Accounts. `password` is an Argon2 hash with its parameters; `left_at` is set while somebody has no access."""

session = Table(
    "session",
    metadata,
    Column("token_sha256", HASH, primary_key=True),
    Column("person_id", ID, ForeignKey("person.id"), nullable=False),
    Column("made_at", TIME, nullable=False),
    Column("seen_at", TIME, nullable=False),
    Column("ends_at", TIME, nullable=False),
    Index(None, "person_id"),
)
"""Who is signed in. Ended ones are removed."""

link = Table(
    "link",
    metadata,
    Column("id", ID, primary_key=True),
    Column("token_sha256", HASH, nullable=False),
    Column("job_id", ID, ForeignKey("job.id"), nullable=False),
    Column("areas", Text, nullable=False),
    Column("customer", Text, nullable=False),
    Column("made_at", TIME, nullable=False),
    Column("made_by", Text, nullable=False),
    Column("expires_at", TIME, nullable=False),
    Column("revoked_at", TIME),
    Column("revoked_by", Text),
    Column("uses", Integer, nullable=False),
    Column("used_at", TIME),
    UniqueConstraint("token_sha256"),
    Index(None, "job_id"),
)
"""Links for customers who measure by mail."""

shop = Table(
    "shop",
    metadata,
    Column("number", Integer, nullable=False, autoincrement=False),
    Column("base", Integer, nullable=False),
    Column("author", Text, nullable=False),
    Column("at", TIME, nullable=False),
    Column("kind", String(20), nullable=False),
    Column("note", Text, nullable=False),
    Column("changes", Text, nullable=False),
    Column("undoes", Integer),
    Column("data", LargeBinary, nullable=False),
    Column("data_sha256", HASH, nullable=False),
    Column("chain", HASH, nullable=False),
    Column("entry_key", String(64), nullable=False),
    PrimaryKeyConstraint("number"),
    UniqueConstraint("entry_key"),
)
"""Append only: every revision of the shop's settings, as those of a job."""
