"""Verdicts: sums from engineering and limits from rules become findings and windows."""
