"""Drawings: to-scale sections, windows on a thickness scale, gap against travel. SVG out, no script, no file, no clock."""
