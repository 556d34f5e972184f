"""Numbers not above the signed distance of boxes and triangles, by planes that part them from the package."""
