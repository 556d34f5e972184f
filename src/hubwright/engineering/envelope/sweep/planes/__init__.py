"""Planes that part the package from a piece of the body at many states at once.

Source: support functions of convex sets (derived).
"""
