"""Clearance of wheel and body: obstacles, hub poses, exact sweeps and the meridian map.

Source: a body of revolution meets a point in the meridian plane of the point (derived).
"""
