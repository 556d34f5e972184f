"""The tree of triangles walked with a list of states.

Source: branch and bound (derived).
"""
