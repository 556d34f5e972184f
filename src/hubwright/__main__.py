"""``python -m hubwright``."""

from hubwright.cli import run

run()
