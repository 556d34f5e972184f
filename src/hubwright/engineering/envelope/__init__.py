"""Clearance of wheel and body: obstacles, hub poses, exact sweeps and the meridian map."""
