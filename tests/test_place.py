"""Points and directions in words."""

from fitwright.place import direction, words


def test_points_in_words():
    assert words((12.04, -45, 0)) == "12.0 mm right, 45.0 mm toward, 0.0 mm up"
    assert words((-0.04, 1, -3)) == "0.0 mm right, 1.0 mm away, 3.0 mm down"


def test_directions_in_words():
    assert direction((0.1, -0.9, 0.2)) == "toward"
    assert direction((-2, 1, 1)) == "left"
    assert direction((0, 0, -1)) == "down"
