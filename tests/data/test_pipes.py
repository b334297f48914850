"""Pipe, duct and hose sizes against an independent library, and spot values typed a second time from other places."""

import fluids.piping as piping
import pytest

from fitwright.data.sizes import all_rows, hose, pipe


@pytest.mark.parametrize(
    ("series", "nominals", "outsides", "walls"),
    [
        ("ASTM D1785 Sch 40", piping.NPS_D1785, piping.S40o_D1785, piping.S40t_D1785),
        ("ASTM D2665 DWV", piping.NPS_D2665, piping.SPVCo_D2665, piping.SPVCt_D2665),
    ],
)
def test_inch_pipe_against_the_fluids_library(series, nominals, outsides, walls):
    """fluids 1.x, `fluids.piping` [mm, rounded to 0.01 to 0.1 there]; it copies the tables of the ASTM standards."""
    ours = [row for row in all_rows() if row.series == series]
    theirs = {nominal: (od, wall) for nominal, od, wall in zip(nominals, outsides, walls, strict=True)}
    assert ours
    for row in ours:
        od, wall = theirs[row.nominal_in]
        assert row.od_mm == pytest.approx(od, abs=0.011), row.words
        assert row.wall_mm == pytest.approx(wall, abs=0.011), row.words


@pytest.mark.parametrize(
    ("words", "od_in", "wall_in"),
    [
        # ASTM D1785 Table 1 / D2665 Table 1, nominal pipe size outsides as in ASME B36.10M
        ("ASTM D1785 Sch 40 1.5 in", 1.900, 0.145),
        ("ASTM D1785 Sch 40 2.5 in", 2.875, 0.203),
        ("ASTM D1785 Sch 40 4 in", 4.500, 0.237),
        ("ASTM D1785 Sch 40 5 in", 5.563, 0.258),
        ("ASTM D1785 Sch 40 8 in", 8.625, 0.322),
        ("ASTM D2665 DWV 3 in", 3.500, 0.216),
        ("ASTM D2661 ABS DWV 4 in", 4.500, 0.237),
        # ASTM D2729 Table 1 (from memory, agreeing with its socket table and pipe stiffness)
        ("ASTM D2729 3 in", 3.250, 0.070),
        ("ASTM D2729 4 in", 4.215, 0.075),
        ("ASTM D2729 6 in", 6.275, 0.100),
        # ASTM D3034 Table 1; wall = outside / 35
        ("ASTM D3034 SDR 35 4 in", 4.215, 4.215 / 35),
        ("ASTM D3034 SDR 35 6 in", 6.275, 6.275 / 35),
        ("ASTM D3034 SDR 35 8 in", 8.400, 8.400 / 35),
    ],
)
def test_inch_spot_values(words, od_in, wall_in):
    row = pipe(words)
    assert row.od_mm == pytest.approx(od_in * 25.4, abs=0.006)
    assert row.wall_mm == pytest.approx(wall_in * 25.4, abs=0.02)


@pytest.mark.parametrize(
    ("words", "outside", "wall"),
    [
        ("EN 1401-1 SN4 110", (110.0, 110.0, 110.3), 3.2),  # EN 1401-1 dimension table; tolerance from memory
        ("EN 1401-1 SN8 160", (160.0, 160.0, 160.4), 4.7),
        ("EN 1401-1 SN4 200", (200.0, 200.0, 200.5), 4.9),
        ("EN 1451-1 PP 110", (110.0, 110.0, 110.4), 2.7),  # from memory
        ("EN 1329-1 50", (50.0, 50.0, 50.2), 3.0),  # from memory
        ("AS/NZS 1260 DN 100", (110.0, 110.0, 110.4), 3.0),  # from memory
        ("BS 4514 soil 82", (82.4, 82.4, 82.7), 3.2),  # from memory
    ],
)
def test_metric_spot_values(words, outside, wall):
    row = pipe(words)
    assert row.face("outside") == pytest.approx(outside)
    assert row.wall_mm == wall


@pytest.mark.parametrize(
    ("nominal", "inside_plus", "fitting_least", "fitting_greatest"),
    [(63, 0.5, 61.8, 62.3), (125, 0.5, 123.8, 124.3), (160, 0.6, 158.7, 159.3), (250, 0.8, 248.5, 249.3)],
)
def test_duct_spot_values(nominal, inside_plus, fitting_least, fitting_greatest):
    """EN 1506: inside 0/+, male fittings -0.7/-1.2 to -1.5 (a duct-maker's tolerance table)."""
    assert pipe(f"{nominal} duct", face="inside").face("inside") == pytest.approx(
        (nominal, nominal, nominal + inside_plus)
    )
    least, greatest = pipe(f"{nominal} male fitting").face("outside")[1:]
    assert (least, greatest) == pytest.approx((fitting_least, fitting_greatest))


def test_a_male_fitting_always_enters_its_duct():
    for row in all_rows():
        if row.series == "EN 1506 male fitting":
            duct = pipe(f"EN 1506 duct {row.nominal}", face="inside")
            assert duct.inside_least_mm - row.od_greatest_mm >= 0.7 - 1e-9


@pytest.mark.parametrize(
    ("inches", "entrance_in", "bottom_in", "depth_in"),
    [(2, 2.264, 2.245, 0.75), (3, 3.271, 3.245, 1.5), (4, 4.235, 4.210, 1.75), (6, 6.305, 6.270, 3.0)],
)
def test_sewer_sockets(inches, entrance_in, bottom_in, depth_in):
    """ASTM D2729-96a Table 4, in inches; the pipe's outside is the bottom + 0.005 in."""
    row = pipe(f"ASTM D2729 fitting socket {inches} in", face="inside")
    assert row.inside_mm == pytest.approx(entrance_in * 25.4, abs=0.01)
    assert row.further_mm == pytest.approx(bottom_in * 25.4, abs=0.01)
    assert row.apart_mm == pytest.approx(depth_in * 25.4, abs=0.01)
    assert pipe(f"ASTM D2729 {inches} in").od_mm == pytest.approx((bottom_in + 0.005) * 25.4, abs=0.01)


def test_hose_is_named_by_its_inside():
    assert hose("4 in").face("inside") == pytest.approx((101.6, 101.6, 103.1))
    assert hose("100 mm").face("inside") == pytest.approx((100.0, 100.0, 101.5))


def test_every_range_encloses_its_nominal_and_walls_fit_inside():
    for row in all_rows():
        for face in ("outside", "inside"):
            triple = row.face(face)
            assert triple is None or 0 < triple[1] <= triple[0] <= triple[2], row.words
        assert row.face("outside") or row.face("inside"), row.words
        if row.kind == "pipe" and row.wall_mm:
            assert row.inside_mm == pytest.approx(row.od_mm - 2 * row.wall_mm, abs=2e-3), row.words


def test_unknown_tolerance_is_half_a_percent():
    row = pipe("2 in central vacuum")
    assert row.tolerance_status == "assumed"
    assert row.face("outside") == pytest.approx((50.8, 50.546, 51.054))


@pytest.mark.parametrize(
    ("nominal", "average_in"),
    [(1.5, 1.592), (2, 2.049), (3, 3.042), (4, 3.998), (6, 6.031), (8, 7.942)],
)
def test_usual_inside_is_the_average_that_makers_publish(nominal, average_in):
    """Average insides of Schedule 40 PVC pipe as pipe makers print them (from memory)."""
    usual, least, greatest = pipe(f"ASTM D1785 {nominal} in", face="inside").face("inside")
    assert usual == pytest.approx(average_in * 25.4, abs=0.1)
    assert least < usual < greatest
