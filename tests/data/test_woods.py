"""Woods, their screws and hoses: figures typed a second time where one was read, names as people say them."""

import pytest

from fitwright.data.carried import HEAVIEST, hose_kinds, hose_weight
from fitwright.data.fasteners import fastener
from fitwright.data.woods import all_wood_screws, wood, wood_screw, woods
from fitwright.errors import DataError


@pytest.mark.parametrize(
    ("name", "gravity"), [("SPF", 0.42), ("Douglas fir", 0.50), ("southern yellow pine", 0.55), ("red oak", 0.67)]
)
def test_gravities_of_a_published_comparison(name, gravity):
    """A comparison of lag screws in four species, after NDS table 12.3.3A."""
    row = wood(name)
    assert (row.gravity, row.status) == (gravity, "confirmed")
    assert row.needs_pilot is (gravity > 0.5)


def test_every_wood_is_in_the_range_of_the_formulae():
    for row in woods().values():
        assert 0.31 <= row.gravity <= 0.73
        assert 0.0 < row.withdrawal_share <= 1.0
        assert (row.kind in ("board", "chipboard")) is (row.board_mm == 18)


def test_unknown_wood():
    with pytest.raises(DataError, match="oke"):
        wood("oke")


@pytest.mark.parametrize(
    ("said", "name"),
    [
        ("No. 8", "No. 8"), ("#8", "No. 8"), ("No. 10 wood screw", "No. 10"), ("4.5 mm", "4.5 mm"), ("5 mm", "5.0 mm"),
        ("8 mm coach", "8 mm coach"), ("coach screw 8 mm", "8 mm coach"), ("1/4 in lag", "1/4 in coach"),
        ('3/8" lag bolt', "3/8 in coach"), ("6.0 mm", "6.0 mm"),
    ],
)  # fmt: skip
def test_names(said, name):
    assert wood_screw(said).name == name


@pytest.mark.parametrize("said", ["M6", "7 mm coach", "1/2 in lag", "nail", "", "6 mm of coach"])
def test_what_is_no_wood_screw(said):
    with pytest.raises(DataError, match=r"no wood screw is called .*; known: No. 6, No. 8"):
        wood_screw(said)


def test_screws_agree_with_the_tables_of_screws():
    for row in all_wood_screws():
        assert 0.5 < row.core_mm / row.major_mm < 0.85
        if row.kind != "coach":
            other = fastener(f"{row.name} wood" if row.name.startswith("No.") else row.name)
            assert other.major_mm == row.major_mm
            assert row.head_mm is None
        else:
            assert row.hole_mm and row.washer_d2_mm and row.head_mm
            assert row.hole_mm > row.major_mm


def test_number_ten_of_a_solved_example():
    """American Wood Council's solved examples: No. 10, root 0.152 in, 80 ksi."""
    row = wood_screw("No. 10")
    assert row.core_mm == pytest.approx(0.152 * 25.4, abs=1e-3)
    assert row.bending_mpa == pytest.approx(80 * 6.894757, rel=5e-3)


def test_hundred_millimetres():
    """Common practice: light polyurethane 0.5-0.7, ribbed PVC 0.4-0.5 kg/m."""
    assert 0.5 <= hose_weight(100, "PU").weight_kg_m <= 0.7
    assert 0.4 <= hose_weight(100, "PVC").weight_kg_m <= 0.5
    assert hose_weight(100).kind == "light polyurethane"
    assert hose_weight(101.6, "pu").weight_kg_m == pytest.approx(0.7 * 1.016)


def test_parts_of_a_light_hose():
    """0.4 mm of polyurethane (1.2 g/cm3, a third overlaps), 2 mm steel wire every 20 mm: about 0.6 kg/m."""
    film = 3.1416 * 100 * 0.4 * 1000 * 1.33 * 1.2e-6
    wire = 50 * 3.1416 * 100 * 3.1416 * 7.85e-6
    assert hose_weight(100, "PU").weight_kg_m == pytest.approx(film + wire, rel=0.2)


@pytest.mark.parametrize("kind", [*hose_kinds(), HEAVIEST])
def test_thicker_is_heavier(kind):
    weights = [hose_weight(float(d), kind).weight_kg_m for d in range(20, 260, 3)]
    assert weights == sorted(weights)
    assert hose_weight(110.0, kind).between


def test_no_such_hose():
    with pytest.raises(DataError, match="kind of hose"):
        hose_weight(100, "garden hose")
    with pytest.raises(DataError, match="0 mm inside does not exist"):
        hose_weight(0.0)
