"""Is the wheel still centred: spigot, lip, nose, fits, and the run-out that follows."""
