"""The ways to say a diameter, against closed forms and published tables; and what people run into with sizes."""

from __future__ import annotations

import math
import statistics

import pytest
from yaml_cases import HOSE_END, PIPE_END, end_a, loaded, only, refused

from fitwright.spec.models import Size


def over(text: str, units: str = "mm") -> Size:
    spec = loaded(
        f"part: reducer\nunits: {units}\nend_a: {{socket: {{over: {text}}}}}\n{HOSE_END.replace('100', '4 in')}"
    )
    assert spec.end_a.socket
    return spec.end_a.socket.size


def test_one_reading() -> None:
    size = over("107.1")
    assert (size.nominal_mm, size.status, size.source) == (107.1, "reading", "one reading")
    # +-0.1 mm by hand: common practice, no source
    assert (size.least_mm, size.greatest_mm) == pytest.approx((107.0, 107.2))


def test_readings_give_mean_spread_and_ovality() -> None:
    readings = [110.2, 111.5, 109.1, 110.6]
    size = over(str(readings))
    assert size.nominal_mm == pytest.approx(statistics.fmean(readings))
    assert size.ovality_mm == pytest.approx(111.5 - 109.1)
    standard_error = statistics.stdev(readings) / math.sqrt(4)  # the textbook definition
    assert size.greatest_mm - size.nominal_mm == pytest.approx(2 * standard_error)
    assert size.source == "4 readings"


def test_readings_that_agree_are_no_better_than_the_caliper() -> None:
    size = over("[110.0, 110.0, 110.0]")
    assert (size.least_mm, size.greatest_mm, size.ovality_mm) == pytest.approx((109.9, 110.1, 0.0))


def test_a_circumference_is_pi_times_the_diameter() -> None:
    size = over("{circumference: 347}")
    assert size.nominal_mm == pytest.approx(347 / math.pi)
    assert (size.greatest_mm - size.least_mm, size.status) == (pytest.approx(0.6), "reading")


@pytest.mark.parametrize(
    ("tolerance", "least", "greatest"),
    [("0.3", 109.7, 110.3), ("+0.3/0", 110.0, 110.3), ("0/-0.5", 109.5, 110.0), ("±0.2", 109.8, 110.2)],
)
def test_a_catalogue_keeps_its_tolerance(tolerance: str, least: float, greatest: float) -> None:
    size = over(f'{{catalogue: 110, tolerance: "{tolerance}"}}')
    assert (size.nominal_mm, size.least_mm, size.greatest_mm) == pytest.approx((110.0, least, greatest))
    assert size.status == "catalogue"


def test_a_tapered_port_is_measured_at_its_end_and_further_along() -> None:
    size = over("{end: 58.4, further: [60.1, 60.3], apart: 30}")
    assert (size.nominal_mm, size.further_mm, size.apart_mm) == (58.4, pytest.approx(60.2), 30.0)
    assert size.half_angle_deg == pytest.approx(math.degrees(math.atan(0.9 / 30)))


def test_a_tapered_port_takes_any_form_of_measurement_at_both_ends() -> None:
    size = over("{end: {circumference: 314.16}, further: {catalogue: 102, tolerance: +0.4/0}, apart: 2 in}")
    assert size.nominal_mm == pytest.approx(100.0, abs=0.001)
    assert (size.further_mm, size.apart_mm) == (102.0, 50.8)
    assert size.greatest_mm - size.nominal_mm == pytest.approx(0.4)  # the wider of the two spreads
    assert size.source == "circumference and catalogue"


def test_inches_in_every_form() -> None:
    assert over("4 7/32", "in").nominal_mm == pytest.approx((4 + 7 / 32) * 25.4)
    assert over("[4.21, 4.22]", "in").nominal_mm == pytest.approx(4.215 * 25.4)
    assert over("107.1 mm", "in").nominal_mm == 107.1
    assert over("{catalogue: 4.5, tolerance: 0.009}", "in").greatest_mm == pytest.approx(4.509 * 25.4)


@pytest.mark.parametrize(
    ("text", "key", "words"),
    [
        ("[110.2, 110.5, x]", "over[3]", "no number"),
        ("[110.2, 101.1, 122.4]", "over[3]", "readings within 10 %"),
        ("[110.2, 11.05]", "over[2]", "a length from"),
        ("[]", "over", "1 to 50 readings"),
        ("[[110]]", "over[1]", "a reading such as"),
        ("{}", "over", "one reading (107.1)"),
        ("{catalogue: 110}", "over.tolerance", "how much it may differ"),
        ("{catalogue: 110, tolerance: +0.3/+0.1}", "over.tolerance", "a tolerance such as"),
        ("{circumfrence: 347}", "over.circumfrence", "did you mean circumference?"),
        ("{end: 58, further: 60}", "over.apart", "how far apart"),
        ("{end: 58, further: 90, apart: 20}", "over.further", "at most 15 deg"),
        ("{end: {end: 3}, further: 60, apart: 20}", "over.end", "one reading"),
        ("107 bar", "over", "unknown unit"),
        ("4 in sewer-and-drain", "over", "goes under `pipe:`"),
        ("4", "over", "did you mean 4 in?"),
        ("4000", "over", "316.5 mm"),
        ("0", "over", "19.5 mm"),
    ],
)
def test_what_is_no_diameter(text: str, key: str, words: str) -> None:
    problem = refused(end_a(f"{{socket: {{over: {text}}}}}"))[0]
    assert problem.key == f"end_a.socket.{key}"
    assert words in f"{problem.allowed} {problem.hint}"


def test_millimetres_in_an_inch_file_are_suspected() -> None:
    problem = only(f"part: reducer\nunits: in\nend_a: {{socket: {{over: 110}}}}\n{HOSE_END.replace('100', '4')}")
    assert problem.hint == "did you mean 110 mm?"
    assert "0.768 in" in problem.allowed


# ---- sizes by name: ASTM D2729 (socket table 4 and stiffness), ASTM D1785, EN 1401-1, EN 1506


def test_a_pipe_by_name_is_its_outside_for_a_socket_and_its_inside_for_a_spigot() -> None:
    socket = loaded(end_a("{socket: {pipe: EN 1401 DN 110}}")).end_a.socket
    assert socket and socket.size.nominal_mm == 110.0  # EN 1401-1: outside 110, wall 3.2
    spigot = loaded(end_a("{spigot: {pipe: EN 1401 DN 110 SN 4}}")).end_a.spigot
    assert spigot and spigot.size.least_mm < spigot.size.nominal_mm < 110.0 - 2 * 3.2 < spigot.size.greatest_mm
    duct = loaded(end_a("{spigot: {pipe: EN 1506 duct 125}}")).end_a.spigot
    assert duct and duct.size.nominal_mm == 125.0  # EN 1506 ducts are named by their inside


def test_a_remembered_row_says_so() -> None:
    socket = loaded(end_a("{socket: {pipe: EN 1451 110}}")).end_a.socket
    assert socket and socket.size.status == "memory" and socket.size.source.startswith("table EN 1451-1")


def test_four_inches_alone_name_different_things() -> None:
    """4 in thin-wall pipe is 107.06 mm outside (ASTM D2729), Schedule 40 is 114.3 (ASTM D1785): 7.2 mm apart."""
    problem = only(end_a("{socket: {pipe: 4 in}}"))
    assert problem.key == "end_a.socket.pipe"
    assert "different things" in problem.found
    assert "107.06 mm" in problem.allowed and "114.3 mm" in problem.allowed
    assert "`over:`" in problem.hint


def test_thin_wall_and_schedule_40_are_two_sockets() -> None:
    sizes = []
    for pipe in ("4 in sewer-and-drain", "4 in schedule 40"):
        socket = loaded(end_a(f"{{socket: {{pipe: {pipe}}}}}")).end_a.socket
        assert socket
        sizes.append(socket.size.nominal_mm)
    assert sizes == pytest.approx([4.215 * 25.4, 4.5 * 25.4], abs=0.01)


def test_a_hundred_millimetres_is_not_four_inches() -> None:
    inch = loaded(f"part: reducer\n{PIPE_END}end_b: {{hose_tail: {{hose: 4 in}}}}\n").end_b.hose_tail
    metric = loaded(f"part: reducer\n{PIPE_END}end_b: {{hose_tail: {{hose: 100 mm}}}}\n").end_b.hose_tail
    assert inch and metric
    assert inch.size.nominal_mm - metric.size.nominal_mm == pytest.approx(1.6)
    # a 101.6 spigot in a 100 socket is an interference of 1.6 mm, and no allowance
    problem = only(end_a("{spigot: {into: 100, allowance: -1.6}}"))
    assert problem.key == "end_a.spigot.allowance" and "-1 mm" in problem.allowed


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("4 in sewr", "did you mean"),
        ("17 in sewer-and-drain", "there are"),
        ("elephant", "fitwright sizes"),
        ("100 hose", "hose"),
    ],
)
def test_names_that_no_table_knows(name: str, words: str) -> None:
    problem = only(end_a(f"{{socket: {{pipe: {name}}}}}"))
    assert problem.key == "end_a.socket.pipe" and words in problem.hint


# ---- what people run into, restated


def test_two_builders_bore_the_same_pipe_differently_so_the_reading_decides() -> None:
    """4-1/4 in and 4-3/16 in for one pipe whose outside is 4.215 in: each reading is taken as it is."""
    assert over("4-1/4 in").nominal_mm == pytest.approx(107.95)
    assert over("4-3/16 in").nominal_mm == pytest.approx(106.3625)


@pytest.mark.parametrize("key", ["diameter", "od", "id", "size"])
def test_a_bare_diameter_is_answered_with_the_two_words_to_choose_from(key: str) -> None:
    for text in (f"{{{key}: 100}}", f"{{socket: {{{key}: 100}}}}", f"{{spigot: {{{key}: 100}}}}"):
        problem = only(end_a(text))
        assert problem.key.endswith(key)
        assert "over" in problem.hint and "into" in problem.hint


def test_the_wrong_face_is_explained() -> None:
    assert "write over, or `spigot: {into: ...}`" in only(end_a("{socket: {into: 100}}")).hint
    assert "write into, or `socket: {over: ...}`" in only(end_a("{spigot: {over: 100}}")).hint
    assert "write hose_inside" in only(end_a("{hose_tail: {over: 100}}")).hint
    assert "`socket: {over: ...}`" in only(end_a("{over: 100}")).hint


def test_a_coupling_1_mm_loose_is_a_slide_socket_with_that_allowance() -> None:
    """1.94 in inside on a pipe of 1.9 in: 1.0 mm on the diameter."""
    socket = loaded(end_a("{socket: {over: 1.9 in, allowance: 0.04 in}}")).end_a.socket
    assert socket and socket.allowance_mm == pytest.approx(1.016)
    assert socket.size.nominal_mm == pytest.approx(48.26)


def test_a_hose_a_quarter_inch_too_large_is_a_sleeve() -> None:
    spec = loaded("part: reducer\nline: nested\nend_a: {socket: {over: 4 in}}\nend_b: {spigot: {into: 4 1/4 in}}\n")
    assert spec.part == "reducer" and spec.line == "nested"
    sizes = [end.joint.size.nominal_mm for end in (spec.end_a, spec.end_b)]  # type: ignore[union-attr]
    assert (sizes[1] - sizes[0]) / 2 == pytest.approx(3.175)


@pytest.mark.parametrize(("bore", "outside"), [("101.6", "102.5"), ("101.6", "101.6"), ("110", "100")])
def test_no_room_for_a_sleeve(bore: str, outside: str) -> None:
    text = f"part: reducer\nline: nested\nend_a: {{socket: {{over: {bore}}}}}\nend_b: {{spigot: {{into: {outside}}}}}\n"
    problem = only(text)
    assert (problem.line, problem.key) == (3, "end_a.socket")
    assert "0.8 mm or more" in problem.allowed


def test_a_soft_hose_pressed_oval_is_read_twice() -> None:
    tail = loaded(f"part: reducer\n{PIPE_END}end_b: {{hose_tail: {{hose_inside: [34.0, 36.2]}}}}\n").end_b.hose_tail
    assert tail and tail.size.nominal_mm == pytest.approx(35.1) and tail.size.ovality_mm == pytest.approx(2.2)


def test_each_end_needs_its_own_reading() -> None:
    problem = only("part: reducer\nend_a: {socket: {over: 35}}\n")
    assert problem.key == "end_b" and problem.found == "nothing" and "add `end_b:`" in problem.hint


def test_an_elbow_into_a_hole_of_3_7_8_inches_gets_a_taper() -> None:
    spigot = loaded(end_a("{spigot: {into: 3 7/8 in}}")).end_a.spigot
    assert spigot and spigot.size.nominal_mm == pytest.approx(98.425)
    assert (spigot.fit, spigot.taper_deg) == ("snug", 0.5)


def test_slip_is_called_slide_here_and_150_to_152_is_an_allowance_of_2() -> None:
    assert only(end_a("{socket: {over: 150, fit: slip}}")).hint == "did you mean slide?"
    spec = loaded(end_a("{socket: {over: 150, fit: slide, allowance: 2, screws: {count: 3, size: No. 8}}}"))
    socket = spec.end_a.socket
    assert socket and (socket.fit, socket.allowance_mm, socket.taper_deg) == ("slide", 2.0, 0.0)
    # about 0.85 x the major diameter of 4.166 mm: common practice, no source
    assert socket.screws and socket.screws.pilot_d_mm == pytest.approx(0.85 * 4.166, abs=0.02)


def test_a_tapered_nozzle_is_two_diameters_and_a_length() -> None:
    socket = loaded(end_a("{socket: {over: {end: 31.2, further: 33.0, apart: 25}}}")).end_a.socket
    assert socket and (socket.fit, socket.taper_deg, socket.depth_mm) == ("snug", 0.0, 25.0)
    problem = only(end_a("{socket: {over: {end: 31.2, further: 33.0, apart: 25}, taper: 1}}"))
    assert problem.key == "end_a.socket.taper"
