"""Choice: which discs, in which order, and why not the others."""
