"""Doubt that travels with a number: bands from low through nominal to high."""
