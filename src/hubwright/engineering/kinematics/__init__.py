"""Where the wheel goes: hard points, measured motion, and how far it travels."""
