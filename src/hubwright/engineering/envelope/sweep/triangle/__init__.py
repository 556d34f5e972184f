"""Smallest signed distance of one triangle from the package."""
