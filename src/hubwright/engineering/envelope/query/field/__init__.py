"""How far the lines of a map are from anywhere: a grid of squared distances, and the nearest lines cell by cell."""
