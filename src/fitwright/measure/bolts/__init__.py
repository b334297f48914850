"""A bolt pattern from distances between its holes: places, how sure they are, wrong readings, shape."""
