"""Sums. No limits in here, no text, no files: numbers in, numbers out, each formula with its source."""
