"""How the tables came to be what they are, one step per file; run by Alembic when a cupboard is opened."""
