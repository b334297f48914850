"""What is said of hose runs: the findings that users need, their numbers, files and picture."""

from __future__ import annotations

import io
import json
import math

import pytest
from PIL import Image

from fitwright.finding import Finding
from fitwright.report.hose_run import moving, row
from fitwright.report.hose_run.files import report_json, report_text, told_text
from fitwright.report.hose_run.picture import picture_png
from fitwright.report.hose_run.say import RunAnswer
from fitwright.spec.run_file import run_of_text

HOSE = "hose: {over_ribs: 108.4, inside: 100, kind: light polyurethane}\n"
GANTRY = (
    "hose_run: moving_head\nhose: {over_ribs: 77.4, inside: 70, kind: ribbed PVC}\n"
    "port: {at: {right: -700, away: 400, up: 1500}, faces: up, label: wall port}\n"
    "hangers: [{at: {right: 600, away: 400, up: 2400}, runs: turns, label: hook}]\n"
    "head: {at: {up: 1150}, travel: {right: 1200, away: 800, up: 120}, faces: up, holds: 40 N, label: shoe}\n"
    "keep_above: 950\n"
)


def of(text: str) -> RunAnswer:
    run = run_of_text(text, "shed.yaml")
    return (row.answered(run) if run.kind == "row" else moving.answered(run))[0]


def found(answer: RunAnswer, code: str, severity: str) -> list[Finding]:
    return [one for one in answer.findings if one.code == code and one.severity == severity]


def test_a_good_row_and_the_same_with_its_spacing_doubled() -> None:
    good = of(
        f"hose_run: row\n{HOSE}from: {{at: {{up: 2100}}}}\n"
        "hangers: [{at: {right: 1200, up: 2100}}]\nto: {at: {right: 2400, up: 2100}}\n"
    )
    assert good.good and {one.severity for one in good.findings} == {"pass"}
    bad = of(f"hose_run: row\n{HOSE}count: 3\nspacing: 2400\n")
    (sag,) = found(bad, "hose.sag", "fail")
    # drawn no tighter it sags four times as far: 4 x 50 mm, twice as much as the rule gives 2.4 m
    assert sag.value == pytest.approx(4 * 50.0, rel=0.02) and sag.limit == pytest.approx(2 * 50.0, rel=1e-3)
    assert "at most 1200 mm apart: 1 more hanger" in sag.advice and "and 1 more alike" in sag.message
    assert found(bad, "hose.spacing", "warn") and not bad.good
    assert len(found(bad, "hose.end", "warn")) == 2


def test_over_three_metres_even_the_loosest_rule_stops() -> None:
    answer = of(f"hose_run: row\n{HOSE}count: 2\nspacing: 3100\npull: 400 N\n")
    assert found(answer, "hose.spacing", "fail") and not found(answer, "hose.sag", "fail")


def test_a_row_that_hangs_into_the_way() -> None:
    answer = of(f"hose_run: row\n{HOSE}count: 3\nspacing: 1200\nup: 2100\nkeep_above: 2000\n")
    low = found(answer, "hose.low", "fail")
    assert len(low) == 2 and low[0].value == pytest.approx(2100 - 50 - 54.2, abs=0.2)


def test_a_hanger_that_is_lifted_and_a_clamp_that_is_pulled() -> None:
    answer = of(
        f"hose_run: row\n{HOSE}pull: 60 N\nfrom: {{at: {{up: 2500}}}}\n"
        "hangers: [{at: {right: 1000, up: 1900}}]\nto: {at: {right: 2000, up: 2500}}\n"
    )
    assert found(answer, "hose.lift", "warn") and len(found(answer, "hose.end", "warn")) == 2


def test_the_gantry_works_and_stays_inside_its_sweep() -> None:
    answer = of(
        GANTRY + "stay_within: {from: {right: -750, away: -250, up: 900}, to: {right: 1400, away: 1050, up: 2500}}\n"
    )
    assert answer.good
    (within,) = found(answer, "hose.within", "pass")
    # the tightest side, straight: 50 mm to the left of the port, less half of the hose
    assert "counted in plan by straight lines" in within.message and "may come out by" in within.message
    assert within.value == pytest.approx(50.0 - 77.4 / 2, abs=0.5)
    (length,) = found(answer, "hose.length", "pass")
    assert "3081 mm to 3184 mm" in length.message


def test_slack_that_bows_out_of_the_sweep() -> None:
    """1500 of hose from the hook to the shoe high and near: chord sqrt(400^2 + 1130^2) = 1198.7, an arc with
    sin b / b = 0.799, b = 1.135 and r = 661; its middle 200 in, 661 - 661 cos b x 1130 / 1198.7 = 397 out."""
    answer = of(
        GANTRY + "stay_within: {from: {right: -950, away: -150, up: 900}, to: {right: 1500, away: 950, up: 2500}}\n"
    )
    (within,) = found(answer, "hose.within", "warn")
    b = 1.135
    assert math.sin(b) / b == pytest.approx(1198.7 / 1500, abs=1e-3)
    radius = 1500 / (2 * b)
    bows = radius - radius * math.cos(b) * 1130 / 1198.7
    assert within.value == pytest.approx(150.0 - (bows - 200.0) - 77.4 / 2, abs=1.5)
    # nothing of it is farther from both ends together than 1500: sqrt(1500^2 - 1130^2) / 2 = 493.2 from the middle
    assert f"pushed by up to {493.2 - 200 + 38.75 - 150:.0f} mm toward" in within.message
    assert "counted in plan by straight lines" in within.message and within.advice


def test_slack_that_leaves_the_sweep() -> None:
    answer = of(GANTRY + "stay_within: {from: {up: 1000}, to: {up: 2500}}\n")
    (within,) = found(answer, "hose.within", "fail")
    # 1500 of hose, right below the hook: (1500 - 1250) / 2 and half of the hose below the shoe at 1150
    assert within.value == pytest.approx(1150.0 - 125.0 - 77.4 / 2 - 1000.0, abs=0.2) and "low" in within.message


def test_a_hose_too_short_for_the_far_corner() -> None:
    answer = of(GANTRY + "length: 3000\n")
    (reach,) = found(answer, "hose.reach", "fail")
    # 3000 - 1612 of hose for 1465.2 with its bends
    assert reach.value == pytest.approx(-(1465.2 - 1388.0), abs=0.2) and "too short by 77 mm" in reach.message
    (length,) = found(answer, "hose.length", "fail")
    assert "Cut 3081 mm to 3184 mm" in length.advice
    assert not answer.good


def test_drag_that_pulls_off_a_magnetic_shoe_asks_for_strain_relief_in_newtons() -> None:
    """Just long enough to reach: the pull in the low corners is beyond half of what the magnet holds."""
    answer = of(GANTRY + "length: 3079\n")
    (pull,) = found(answer, "hose.pull", "fail")
    assert pull.limit == 20.0 and pull.value is not None and pull.value > 20.0
    assert "Strain relief" in pull.advice and f"bears {pull.value:.1f} N for good" in pull.advice
    assert f"{2 * pull.value:.1f} N in jerks" in pull.advice


def test_too_much_hose_drags() -> None:
    answer = of(GANTRY + "length: 3400\n")
    (drag,) = found(answer, "hose.drag", "fail")
    assert drag.value == pytest.approx(1150.0 - (3400 - 1612 - 1250) / 2 - 77.4 / 2, abs=0.2)
    assert "600 mm right, 400 mm away, 1150 mm up" in drag.message


def test_where_no_length_works_another_place_is_named() -> None:
    """A hook at the side of a wide travel: what reaches the far side drags at the near one."""
    answer = of(GANTRY.replace("right: 600, away: 400, up: 2400", "right: -200, away: 400, up: 2400"))
    (length,) = found(answer, "hose.length", "fail")
    assert "no length works" in length.message and "hangs too low" in length.message
    assert "With hook at" in length.advice and "towards the middle of the travel" in length.advice
    right, away, up = (float(word.split()[0]) for word in length.advice.partition("With hook at ")[2].split(", ")[:3])
    moved = GANTRY.replace("right: 600, away: 400, up: 2400", f"right: {right}, away: {away}, up: {up}")
    assert of(moved).good


def test_without_a_hanger_one_above_the_middle_is_named() -> None:
    bare = "\n".join(line for line in GANTRY.splitlines() if not line.startswith("hangers")) + "\n"
    (length,) = found(of(bare), "hose.length", "fail")
    assert "A swivelling hanger above the travel works" in length.advice


def test_a_heavy_hose_folds_where_its_slack_has_to_go() -> None:
    """Ends at one height, 200 mm apart at the near end, 1400 at the far one: the slack is a loop of 100 radius."""
    answer = of(
        f"hose_run: moving_head\n{HOSE}port: {{at: {{right: -200, up: 1500}}, faces: up}}\n"
        "head: {at: {up: 1500}, travel: {right: 1200}, faces: up}\nlength: 1900\n"
    )
    (fold,) = found(answer, "hose.fold", "fail")
    assert fold.value == pytest.approx(100.0, abs=0.5) and fold.limit == pytest.approx(150.0)
    assert "kinks with the head left" in fold.message


TROLLEY = (
    "hose_run: moving_head\nunits: in\nhose: {over_ribs: 4 3/8, inside: 4, kind: PU}\n"
    "port: {at: {right: -40, away: 12, up: 80}, faces: right}\n"
    "hangers: [{at: {right: -10, away: 12, up: 96}, rail_to: {right: 60, up: 96, away: 12}}]\n"
    "head: {at: {up: 42}, travel: {right: 48, away: 24, up: 4}, faces: up}\nkeep_above: 36\n"
)


def test_a_trolley_serves_what_a_fixed_hanger_does_not() -> None:
    fixed = TROLLEY.replace(", rail_to: {right: 60, up: 96, away: 12}", ", runs: turns")
    assert of(TROLLEY).good and not of(fixed).good


@pytest.mark.parametrize("text", [GANTRY, TROLLEY, f"hose_run: row\n{HOSE}count: 4\nspacing: 1500\nkeep_above: -300\n"])
def test_files_and_picture(text: str) -> None:
    run = run_of_text(text, "shed.yaml")
    answer, solved = row.answered(run) if run.kind == "row" else moving.answered(run)
    told = json.loads(report_json(answer))
    assert told["schema_version"] == 1 and told["good"] == answer.good and told["hose_run"] == run.kind
    assert len(told["held"]) == len(run.stations) and told["length_mm"] > 0
    assert sum(one["length_mm"] for one in told.get("pieces", told.get("spans"))) == pytest.approx(
        told["length_mm"], abs=1e-3
    )
    words = report_text(answer)
    assert told_text(answer) in words and "second fixing" in words and all(key in words for key in run.assumed)
    assert not any(word in words for word in ("inf", "nan", "None"))
    if run.units == "in":
        assert " mm" not in told_text(answer)
    picture = picture_png(answer, solved)
    assert picture == picture_png(answer, solved)
    with Image.open(io.BytesIO(picture)) as image:
        image.load()
        colours = image.convert("RGB").getcolors(1 << 24)
        assert image.size == (1600, 900) and colours and len(colours) > 20


def test_every_finding_that_is_not_good_says_what_to_do() -> None:
    texts = [GANTRY + "length: 3000\n", GANTRY + "length: 3400\n", f"hose_run: row\n{HOSE}count: 3\nspacing: 2400\n"]
    for answer in map(of, texts):
        for one in answer.findings:
            assert one.message and (one.severity == "pass") == (one.advice == ""), one
            assert one.value is None or math.isfinite(one.value)


def test_hangers_at_just_four_feet_keep_to_the_rule() -> None:
    """ADC 4.6: 4 ft are permitted; half an inch a foot is 2 in."""
    answer = of(
        "hose_run: row\nunits: in\nhose: {over_ribs: 4 3/8, inside: 4, kind: PU}\nfrom: {at: {up: 84}}\n"
        "hangers: [{at: {right: 48, up: 84}}]\nto: {at: {right: 96, up: 84}}\nkeep_above: 70\n"
    )
    assert {one.severity for one in answer.findings} == {"pass"} and " 4 in inside" in answer.headline
    (low,) = found(answer, "hose.low", "pass")
    assert low.value == pytest.approx((84 - 2 - 4.375 / 2) * 25.4, abs=0.5)
    assert not any(cell.endswith(" m") for line in answer.tables[0].rows for cell in line)


def test_a_steep_span_asks_for_more_pull_and_a_hanger() -> None:
    """w L^2 sqrt(1 + s^2) / 8 H, L 1123, s 2050 / 1123: H for 41.7 mm a metre is 2.08 times that of the level."""
    answer = of(f"hose_run: row\n{HOSE}from: {{at: {{up: 2133}}}}\nhangers: [{{at: {{right: 1123, up: 83}}}}]\n")
    (sag,) = found(answer, "hose.sag", "fail")
    empty = 0.70 * 9.80665e-3
    wanted = empty * 1123.0 * math.hypot(1.0, 2050 / 1123) / (8 * 0.0417)
    told = float(sag.advice.partition("empty hose with ")[2].split()[0])
    assert told == pytest.approx(wanted, rel=0.02) and ": 1 more hanger in" in sag.advice


def test_a_piece_that_is_too_short_counts_into_what_to_cut() -> None:
    """900 of hose from the port to the hook, 1581.1 + 24.3 without a kink: the whole run asks for what it lacks."""
    answer = of(GANTRY.replace("label: hook", "label: hook, length: 900") + "length: 1200\n")
    (length,) = found(answer, "hose.length", "fail")
    assert "3075 mm to" in length.advice and not found(answer, "hose.fold", "pass")
    assert "any length" not in told_text(answer) and "no end" not in told_text(answer)


def test_a_piece_that_stands_still_kinks_at_its_port() -> None:
    """1599 of hose to the hook, the straight line 1581.1: a bend of 57 deg makes of 18 mm no more than 77 mm radius and
    a little (Euler's elastica); 105 takes 24.3 mm."""
    answer = of(GANTRY.replace("label: hook", "label: hook, length: 1599"))
    (fold,) = found(answer, "hose.fold", "fail")
    turn = math.radians(57.0)
    by_hand = (1599 - 1581.14) / (4 * math.sin(turn / 2) * (1 - math.cos(turn / 2)))
    assert fold.value == pytest.approx(by_hand, rel=0.1) and fold.place == "wall port to hook" and fold.limit == 105.0
    wanted = float(fold.advice.removeprefix("Give it ").split()[0])
    assert 1581.14 + 24.3 <= wanted <= 1620.0
    assert of(GANTRY.replace("label: hook", f"label: hook, length: {wanted:.0f}")).good


def test_its_pull_counts_its_bends() -> None:
    """Just with room for its bends a piece pulls more than the limp line of the same length, and says from to."""
    answer = of(GANTRY.replace("label: hook", "label: hook, length: 1606"))
    (still,) = answer.numbers["still"]
    low, high = still["level_pull_n"]
    # limp: 24.9 mm of slack; soft: 9.2, the arc of 105 takes 15.7: H goes with 1 / sqrt(slack)
    limp = 17.2 * math.sqrt((1599 - 1581.14) / (1606 - 1581.14))
    assert high == pytest.approx(limp * math.sqrt(24.86 / 9.16), rel=0.05) and low < high
    assert any("N to " in cell for row in answer.tables[1].rows for cell in row)
    assert answer.numbers["held"][0]["level_n"] == pytest.approx(high)


def test_a_clamp_that_a_stiff_hose_pulls() -> None:
    """6.5 kg/m instead of 0.85 pull 7.6 times as much as the usual one: over 100 N, which the length that is
    worked out keeps to."""
    heavy = GANTRY.replace("kind: ribbed PVC", "kind: ribbed PVC, weight: 6 kg").replace("holds: 40 N, ", "")
    answer = of(heavy.replace("label: hook", "label: hook, length: 1607"))
    ends = found(answer, "hose.end", "warn")
    assert not found(of(heavy), "hose.end", "warn")
    assert ends and ends[0].unit == "N" and ends[0].value is not None and ends[0].value > 100.0
    assert "pulls level with" in ends[0].message and "a strap" in ends[0].advice


def test_a_hose_that_was_measured_and_bends_by_its_own_weight() -> None:
    """A soft one droops 500 of 600: by its weight it turns at the upright port more tightly than it may, whatever its
    length; a stiff one droops 60 and does not."""
    soft = of(GANTRY + "droop: {juts: 600, hangs: 500}\n")
    (warned,) = [one for one in found(soft, "hose.fold", "warn") if one.place == "wall port to hook"]
    assert "by its own weight" in warned.message and "Strap it" in warned.advice and soft.good
    stiff = of(GANTRY + "droop: {juts: 600, hangs: 30}\n")
    assert [one for one in found(stiff, "hose.fold", "pass") if one.place == "wall port to hook"]
    assert "as its droop says" in stiff.tables[1].title and "droop" not in stiff.run.assumed
    assert "not measured" in of(GANTRY).tables[1].title and "droop" in of(GANTRY).run.assumed


def test_no_room_between_port_and_hook() -> None:
    answer = of(
        GANTRY.replace("{right: 600, away: 400, up: 2400}, runs: turns", "{right: -640, away: 400, up: 1400}, runs: up")
    )
    (bend,) = found(answer, "hose.bend", "fail")
    assert "no room to bend" in bend.message and not answer.good


def test_a_piece_straight_up_is_not_called_kinked() -> None:
    """2 m straight up with a fiftieth of slack: limp it would lie doubled on its port, a hose stands and bows."""
    answer = of(
        "hose_run: moving_head\nhose: {over_ribs: 78, inside: 70, kind: ribbed PVC}\n"
        "port: {at: {up: 300}, faces: up, label: floor}\n"
        "hangers: [{at: {up: 2300}, runs: up, label: eye}, {at: {right: 500, up: 2400}, runs: turns, label: hook}]\n"
        "head: {at: {right: 200, away: -300, up: 1100}, travel: {right: 600, away: 600, up: 100}, faces: up}\n"
    )
    assert answer.good and [one.place for one in found(answer, "hose.fold", "pass")] == ["floor to eye", "eye to hook"]
    told = run_of_text(GANTRY.replace("ribbed PVC", "vacuum cleaner hose"))
    assert told.hose.words.startswith("vacuum cleaner hose 70 mm inside")


def test_the_advice_where_nothing_works_speaks_in_the_files_units() -> None:
    answer = of(TROLLEY.replace("travel: {right: 48, away: 24, up: 4}", "travel: {right: 500, away: 300, up: 4}"))
    (length,) = found(answer, "hose.length", "fail")
    assert "from 19.7 in lower" in length.advice and "a longer rail" in length.advice
    # what does not reach anywhere is not praised for its bends
    assert not found(answer, "hose.fold", "pass")


def test_hangers_nearer_than_the_hose_is_thick_are_not_advised() -> None:
    (sag,) = found(of(f"hose_run: row\n{HOSE}count: 3\nspacing: 900\nsag: 300\n"), "hose.sag", "fail")
    assert sag.advice.startswith("Draw the empty hose with")
