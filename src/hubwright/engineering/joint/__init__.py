"""The bolted joint: what clamp a recorded torque may have left, what the interfaces need. Never a torque to use."""
