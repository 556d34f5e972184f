"""The image of one triangle in the half-plane (rho, y), bounded exactly.

Source: a body of revolution meets a point in the meridian plane of the point (derived).
"""
