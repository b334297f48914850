"""Hose runs as YAML: everything wrong is told at once, with its place; other kinds of file are told apart."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from fitwright.errors import SpecError
from fitwright.spec.load import load_file, load_text
from fitwright.spec.run_file import run_of_file, run_of_text
from fitwright.spec.text_file import kind_of

HOSE = "hose: {over_ribs: 108.4, inside: 100, kind: light polyurethane}\n"
ROW = f"hose_run: row\n{HOSE}count: 3\nspacing: 1200\n"
MOVING = (
    f"hose_run: moving_head\n{HOSE}port: {{at: {{right: -700, up: 1500}}, faces: up}}\n"
    "hangers: [{at: {right: 600, up: 2600}, runs: turns}]\n"
    "head: {at: {up: 1100}, travel: {right: 1200, up: 100}, faces: up}\n"
)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("hose_run: rwo\n" + HOSE, ["1:11: hose_run: found 'rwo'; allowed: row | moving_head. did you mean row?"]),
        (HOSE, ["hose_run: found nothing", "add `hose_run:` at the top"]),
        ("part: reducer\n", ["part: found a part", "fitwright build"]),
        ("measure: circle\n", ["found readings", "fitwright measure FILE"]),
        (f"hose_run: row\n{HOSE}", ["hangers: found nothing"]),
        (f"hose_run: row\n{HOSE}count: 3\n", ["spacing: found nothing; allowed: hangers, or count and spacing"]),
        (ROW.replace("3", "1"), ["count: found '1'", "from 2 to 60"]),
        (ROW + "pull: 20 N\nsag: 40\n", ["6:1: sag: found pull and sag together; allowed: one of the two"]),
        (ROW + "pull: 20\n", ["5:7: pull: found '20'", "write the unit"]),
        (
            ROW + "hangers: [{at: {up: 3}}, {at: {right: 500, up: 3}}]\n",
            ["count beside hangers", "spacing beside hangers"],
        ),
        (f"hose_run: row\n{HOSE}hangers: [{{at: {{up: 3}}}}]\n", ["hangers: found one hanger and nothing else"]),
        (
            f"hose_run: row\n{HOSE}hangers: [{{at: {{up: 3}}}}, {{at: {{up: 900}}}}]\n",
            ["hangers[2].at: found a place above, below or at the one before; allowed: 20 mm or more to the side"],
        ),
        (
            "hose_run: row\nhose: {inside: 100}\ncount: 3\nspacing: 1200\n",
            ["hose.inside: found only its inside, 100 mm"],
        ),
        (
            ROW + "keep_above: 2 furlongs\nfloor: 3\n",
            ["keep_above: found '2 furlongs'", "floor: found the unknown key"],
        ),
        (MOVING.replace("faces: up}\nhangers", "faces: sideways}\nhangers"), ["port.faces: found 'sideways'"]),
        (MOVING.replace("{right: 1200, up: 100}", "{right: 0}"), ["head.travel: found a travel of 0"]),
        (MOVING.replace("faces: up}\n", "faces: up, holds: 30}\n", 1), ["port.holds: found the unknown key 'holds'"]),
        (MOVING.replace("runs: turns", "runs: maybe"), ["hangers[1].runs: found 'maybe'", "turns"]),
        (MOVING.replace("runs: turns", "rail_to: {right: 600, up: 2600}"), ["rail_to: found a rail without length"]),
        (
            MOVING.replace("[{at", "[{at: {right: 90, up: 2000}, rail_to: {right: 400, up: 2000}}, {at"),
            ["hangers[1].rail_to: found a trolley that is not the last"],
        ),
        (MOVING.replace("{right: 600, up: 2600}", "{right: -700, up: 1500}"), ["hangers[1].at: found the same place"]),
        (MOVING + "stay_within: {from: {right: 3}, to: {up: 3}}\n", ["from names right, to names up"]),
        (MOVING.replace("right: 600", "right: 600, left: 3"), ["hangers[1].at.left: found right and left together"]),
        (MOVING + "trolley: yes\n", ["trolley: found the unknown key 'trolley'", "write hangers, a list"]),
        (MOVING + "name: '...'\n", ["name: found '...'; allowed: a name with at least one plain letter"]),
        # a hose of 108.4 and its doubt, bent about less than half of that, would run into itself
        (
            MOVING + "bend_radius: 50\n",
            ["6:14: bend_radius: found 50 mm; allowed: 54.25 mm or more, half of the hose's outside. it counts at"],
        ),
        (ROW + "bend_radius: 50\n", ["bend_radius: found 50 mm; allowed: 54.25 mm or more"]),
        (MOVING + "droop: {juts: 600}\n", ["droop.hangs: found nothing"]),
        (
            MOVING + "droop: {juts: 600, hangs: 580}\n",
            ["6:27: droop.hangs: found 580 mm of droop, 600 mm jutting out; allowed: 12 mm to 540 mm. let less of it"],
        ),
        (MOVING + "droop: {juts: 600, hangs: 3}\n", ["droop.hangs: found 3 mm of droop", "let more of it jut out"]),
        (MOVING + "droop: {over: 600, hangs: 90}\n", ["droop.over: found the unknown key", "write juts"]),
        (MOVING + "stiffness: 3\n", ["stiffness: found the unknown key", "write droop"]),
        # lengths in inches in a file that counts in mm: 71 in are 71 mm, less than the hose's 108.4 and 0.1 of doubt
        (
            MOVING.replace("{right: 600, up: 2600}", "{right: -660, up: 1560}"),
            [
                "4:16: hangers[1].at: found a place 72.11 mm from the port; allowed: 108.5 mm or more: the hose is so"
                " thick. plain numbers count as mm: if they are inches, add `units: in`"
            ],
        ),
        (
            MOVING.replace("head: {at: {up: 1100}", "head: {at: {right: -100, up: 2520}, label: shoe"),
            ["5:12: head.at: found the same place as hanger 1"],
        ),
        (
            MOVING.replace("head: {at: {up: 1100}", "head: {at: {up: 2400}"),
            ["head.at: found a place 100 mm from hanger 1; allowed: 108.5 mm or more"],
        ),
        (
            MOVING.replace("{right: 1200, up: 100}", "{right: 48, away: -32, up: 5}"),
            [
                "head.travel: found a travel of 48 mm at most; allowed: 108.5 mm or more in some direction: the hose is"
                " so thick. plain numbers count as mm: if they are inches, add `units: in`"
            ],
        ),
        (
            MOVING.replace("runs: turns", "rail_to: {right: 670, up: 2600}"),
            ["hangers[1].rail_to: found a rail of 70 mm at most; allowed: 108.5 mm or more in some direction"],
        ),
        (
            MOVING.replace("runs: turns", "rail_to: {right: -700, up: 1580}"),
            ["hangers[1].rail_to: found a place 80 mm from the port"],
        ),
        (ROW.replace("1200", "105"), ["spacing: found a place 105 mm from the hanger before it; allowed: 108.5 mm"]),
        (
            f"hose_run: row\nunits: in\n{HOSE.replace('108.4, inside: 100', '4.3, inside: 4')}"
            "from: {at: {up: 84}}\nhangers: [{at: {right: 48, up: 84}}, {at: {right: 4, up: 84}}]\n",
            [
                "hangers[2].at: found a place 4 in from `from`; allowed: 4.3",
                "plain numbers in this file count as inches",
            ],
        ),
    ],
)
def test_what_is_wrong_is_named(text: str, says: list[str]) -> None:
    with pytest.raises(SpecError) as caught:
        run_of_text(text, "shed.yaml")
    for words in says:
        assert words in str(caught.value)
    assert all(one.startswith("shed.yaml:") for one in str(caught.value).splitlines())


def test_a_place_just_as_far_away_as_the_hose_is_thick_is_let_through() -> None:
    """3, 4, 5: 66 and 88 make 110, more than 108.4 with its doubt; 64 and 85.33 make 106.7."""
    run = run_of_text(MOVING.replace("{right: 600, up: 2600}", "{right: -634, up: 1588}"))
    assert math.dist(run.stations[0].at, run.stations[1].at) == pytest.approx(110.0)
    with pytest.raises(SpecError, match=r"106\.66 mm from the port"):
        run_of_text(MOVING.replace("{right: 600, up: 2600}", "{right: -636, up: 1585.33}"))


def test_a_travel_that_is_long_in_one_direction_only_is_enough() -> None:
    run = run_of_text(MOVING.replace("{right: 1200, up: 100}", "{up: 120}"))
    assert run.head is not None and len(run.head.box.corners()) == 2


def test_all_faults_at_once() -> None:
    text = (
        MOVING.replace("up: 1500", "up: far").replace("faces: up}\nhangers", "faces: x}\nhangers")
        + "dust: mud\nbend_radius: 3\n"
    )
    with pytest.raises(SpecError) as caught:
        run_of_text(text, "shed.yaml")
    assert [one.key for one in caught.value.problems] == ["port.at.up", "port.faces", "dust", "bend_radius"]
    assert [one.line for one in caught.value.problems] == [3, 3, 6, 7]


def test_a_row_as_meant() -> None:
    run = run_of_text(ROW + "up: 2100\nfrom: {at: {right: -900, up: 2000}, label: port}\n", "planer hose.yaml")
    assert run.name == "planer-hose" and [one.label for one in run.stations] == [
        "port",
        "hanger 1",
        "hanger 2",
        "hanger 3",
    ]
    assert run.hangers[2].at == (2400.0, 0.0, 2100.0)
    # 0.70 kg/m of the table and 250 kg/m3 x half of 100 mm; 1.5 x 100 (common practice)
    assert run.hose.full_n_mm == pytest.approx((0.70 + 250 * math.pi / 8 * 0.01) * 9.80665e-3, rel=1e-3)
    assert run.hose.radius_mm == pytest.approx(150.0)
    assert {"pull", "bend_radius", "hose.weight", "dust"} == set(run.assumed)


def test_a_spring_balance_on_the_empty_hose_sets_the_shape() -> None:
    run = run_of_text(ROW + "pull: 20 N\n")
    assert run.parameter_mm == pytest.approx(20.0 / (0.70 * 9.80665e-3), rel=1e-3)


def test_sag_of_the_longest_span_sets_the_shape() -> None:
    """w L^2 / 8 f: the parabola, 0.3 % off at this sag."""
    run = run_of_text(ROW + "sag: 30\n")
    assert run.parameter_mm == pytest.approx(1200.0**2 / (8 * 30.0), rel=3e-3)


def test_a_moving_head_as_meant() -> None:
    run = run_of_text(
        MOVING.replace("travel: {right: 1200", "travel: {left: 1200")
        + "stay_within: {from: {up: 100}, to: {up: 2900}}\n"
    )
    assert run.head is not None and run.within is not None
    assert run.head.box.low == (-1200.0, 0.0, 1100.0) and run.head.box.high == (0.0, 0.0, 1200.0)
    assert run.head.arrives == (0.0, 0.0, -1.0) and run.head.most_pull_n == 50.0
    assert run.within.low == (-math.inf, -math.inf, 100.0) and run.within.high[2] == 2900.0


def test_stiffness_by_a_droop() -> None:
    """50 of 600: a beam's w L^4 / 8 y, a quarter more and less; else 6 to 12 diameters jut out."""
    usual, told = run_of_text(MOVING), run_of_text(MOVING + "droop: {juts: 600, hangs: 50}\n")
    empty = 0.70 * 9.80665e-3
    soft, stiff = told.hose.stiff_n_mm2
    assert math.sqrt(soft * stiff) == pytest.approx(empty * 600.0**4 / (8 * 50), rel=0.03) and told.hose.stiff_known
    assert usual.hose.stiff_n_mm2[0] == pytest.approx(empty * (3 * 108.5) ** 3, rel=0.01) and not usual.hose.stiff_known
    assert "droop" in usual.assumed and "droop" not in told.assumed


def test_inches() -> None:
    run = run_of_text("hose_run: row\nunits: in\nhose: {over_ribs: 4 3/8, inside: 4}\ncount: 3\nspacing: 48\nup: 84\n")
    assert run.units == "in" and run.stations[1].at == pytest.approx((1219.2, 0.0, 2133.6))


def test_it_is_no_part_and_is_told_so(tmp_path: Path) -> None:
    path = tmp_path / "run.yaml"
    path.write_text(ROW)
    assert kind_of(path) == "hose_run" and run_of_file(path).kind == "row"
    with pytest.raises(SpecError, match="this file holds a hose run: run `fitwright hose FILE`"):
        load_file(path)


HANGER = "part: hose_hanger\nhose: {over_ribs: 108.4, inside: 100}\n"


def hanger(folder: Path, line: str):  # type: ignore[no-untyped-def]
    (spec,) = load_text(HANGER + line, str(folder / "hanger.yaml"))
    return spec


def test_a_hanger_takes_its_load_from_a_row(tmp_path: Path) -> None:
    """1.68 kg/m over 1.2 m and 2.0 m: half of both, 16.5 N/m x 1.6 m; drawn alike, nothing level is left."""
    (tmp_path / "run.yaml").write_text(
        f"hose_run: row\n{HOSE}hangers: [{{at: {{up: 1}}}}, "
        "{at: {right: 1200, up: 1}, label: joist}, {at: {right: 3200, up: 1}}]\n"
    )
    for word in ("2", "joist"):
        hung = hanger(tmp_path, f"run: {{file: run.yaml, hanger: {word}}}\n").hung
        assert hung.hanger == 2 and hung.label == "joist" and hung.at_mm == (1200.0, 0.0, 1.0)
        assert hung.down_n == pytest.approx(1.682 * 9.80665 * 1.6, rel=0.02)
        assert hung.level_n == pytest.approx(0.0, abs=1e-6) and hung.one_side_n == pytest.approx(59.5, abs=0.2)
    first = hanger(tmp_path, "run: {file: run.yaml, hanger: 1}\n").hung
    assert first.level_n == first.one_side_n == pytest.approx(59.5, abs=0.2)


@pytest.mark.parametrize(
    ("line", "says"),
    [
        ("run: {file: gone.yaml, hanger: 1}", "3:13: run.file: found 'gone.yaml': No such file or directory"),
        ("run: {file: run.yaml, hanger: 9}", "run.hanger: found '9'; allowed: a hanger of run.yaml: 1 (hanger 1), 2"),
        ("run: {file: run.yaml}", "run.hanger: found nothing"),
        ("run: {file: bad.yaml, hanger: 1}", "run.file: found bad.yaml, whose line 1 is wrong: spacing: found nothing"),
        (
            "run: {file: thin.yaml, hanger: 1}",
            "run.file: found thin.yaml, whose hose is 60.1 mm over its ribs, 108.5 mm here",
        ),
        ("run: {file: short.yaml, hanger: 1}", "in which the hose is too short in some place of the head"),
        (
            "run: {file: kinks.yaml, hanger: 1}",
            "run.file: found kinks.yaml, in which the hose folds before its last hanger; allowed: a run that works",
        ),
        ("run: {file: lifts.yaml, hanger: 2}", "run.hanger: found 2, which the hose lifts by"),
        ("run: {file: run.yaml, hanger: 1}\nspacing: 900", "spacing: found spacing and run together"),
        ("run: run.yaml", "run: found 'run.yaml'; allowed: a map such as {file: runs/gantry_run.yaml, hanger: 1}"),
    ],
)
def test_a_run_that_does_not_fit_is_named(line: str, says: str, tmp_path: Path) -> None:
    (tmp_path / "run.yaml").write_text(ROW)
    (tmp_path / "bad.yaml").write_text(f"hose_run: row\n{HOSE}count: 3\n")
    (tmp_path / "thin.yaml").write_text(ROW.replace("108.4, inside: 100", "60, inside: 50"))
    (tmp_path / "short.yaml").write_text(MOVING + "length: 2000\n")
    # 1703 straight from port to hanger: 19 mm of slack do not turn a 100 mm hose out of an upright port
    (tmp_path / "kinks.yaml").write_text(MOVING.replace("runs: turns", "runs: turns, length: 1722"))
    (tmp_path / "lifts.yaml").write_text(
        f"hose_run: row\n{HOSE}hangers: "
        "[{at: {up: 900}}, {at: {right: 900, up: 1}}, {at: {right: 1800, up: 900}}]\n"
    )
    with pytest.raises(SpecError) as caught:
        hanger(tmp_path, line + "\n")
    assert says in str(caught.value)
