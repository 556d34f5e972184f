"""The cupboard: jobs with their whole history, photographs and scans, on SQLite or PostgreSQL."""
