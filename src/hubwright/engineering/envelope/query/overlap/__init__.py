"""Whether a point lies inside an outline, and how deep the lines of a map reach into it."""
