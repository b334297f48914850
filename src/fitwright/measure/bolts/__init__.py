"""A bolt pattern from distances between its holes: places, how sure they are, wrong readings, shape."""

from fitwright.measure.bolts.pattern import Opening as Opening
from fitwright.measure.bolts.pattern import Pattern as Pattern
