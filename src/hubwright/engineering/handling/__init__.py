"""What else changes when a wheel moves outboard: every figure as standard, with disc, and the difference with sign."""
