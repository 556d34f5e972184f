"""The image of one triangle in the half-plane (rho, y), bounded exactly."""
