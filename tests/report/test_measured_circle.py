"""`measure circle` as its user sees it: what is said, the line for the part, which a part reads, what is refused."""

from __future__ import annotations

import math
import re
from pathlib import Path

import pytest

from fitwright.cli.main import main
from fitwright.report.measured.circle import answer
from fitwright.spec.joints import Socket
from fitwright.spec.load import load_text
from fitwright.spec.measure_file import asked_of_text, asked_of_words

ROOT = Path(__file__).parents[2]
Captured = pytest.CaptureFixture[str]
JOINTS = {"over": "socket", "into": "spigot", "hose_inside": "hose_tail"}


def ask(text: str) -> tuple[str, str, bool]:
    """Text (unwrapped), YAML and whether it is good, of a measuring file's lines after its first."""
    found = answer(asked_of_text(f"measure: circle\n{text}", "port.yaml"))
    return re.sub(r"\n +", " ", found.text), found.yaml, found.good


def joint_of(lines: str, units: str = "mm") -> Socket:
    """The joint of a part that has these lines in it, whatever the units of its file."""
    key = lines.partition(":")[0]
    inside = ", ".join(lines.splitlines())
    end_b = "{plain: {inside: 30 mm}}"
    [spec] = load_text(f"part: reducer\nunits: {units}\nend_a: {{{JOINTS[key]}: {{{inside}}}}}\nend_b: {end_b}\n")
    joint = spec.end_a.joint
    return joint  # type: ignore[return-value]


def test_three_readings() -> None:
    text, yaml, good = ask("readings: [110.2, 110.5, 109.9]\noutside: yes\n")
    assert good and yaml == "over: [110.2, 110.5, 109.9]"
    assert "diameter 110.2 mm, give or take 0.35 mm (3 readings)" in text  # 2 x 0.3 / sqrt 3
    assert "three-lobed form reads the same" in text
    assert joint_of(yaml).size.nominal_mm == pytest.approx(110.2)


def test_ovality_and_where() -> None:
    text, yaml, good = ask("readings: [149.2, 150.9, 150.6, 148.9]\nangles: [0, 45, 90, 135]\noutside: yes\n")
    a, b = (149.2 - 150.6) / 2, (150.9 - 148.9) / 2  # the closed form for four even directions
    assert good and f"by {2 * math.hypot(a, b):.2f} mm" in text
    assert f"at {math.degrees(math.atan2(b, a)) / 2 % 180:.1f} deg" in text
    assert "fit: slide" in yaml and joint_of(yaml).fit == "slide"
    assert "if it is stiff" in text and "tape round it" in text


def test_uneven_directions_give_the_fitted_form() -> None:
    """Three of four readings stand near the widest place: their mean would be 0.75 mm too large."""
    angles = [0, 15, 30, 100]
    readings = [round(100 + 2 * math.cos(2 * math.radians(a - 10)), 3) for a in angles]
    text, yaml, good = ask(f"readings: {readings}\nangles: {angles}\noutside: yes\n")
    size = joint_of(yaml).size
    assert good and size.nominal_mm == pytest.approx(100.0, abs=0.02)
    assert size.ovality_mm == pytest.approx(4.0, abs=0.05)
    assert "diameter 100 mm" in text


@pytest.mark.parametrize(("turn", "units"), [("outside", "mm"), ("inside", "mm"), ("outside", "in"), ("inside", "in")])
@pytest.mark.parametrize(
    "ways",
    [
        "readings: [4.01 in, 4.02 in, 4.03 in]",
        "circumference: 12.66 in",
        "chord: [80 mm, 82 mm]\nheight: [20 mm, 21.2 mm]",
        "points: [{right: 51 mm}, {up: 51 mm}, {left: 51 mm}, {down: 51 mm}, {right: 36 mm, up: 36 mm}]",
    ],
    ids=lambda ways: ways.partition(":")[0],
)
def test_the_line_is_read_alike_by_a_part_in_any_units(ways: str, turn: str, units: str) -> None:
    _, yaml, good = ask(f"units: {units}\n{turn}: yes\n{ways}\n")
    assert good
    if units == "in":
        assert joint_of(yaml, "in").size.nominal_mm == pytest.approx(joint_of(yaml, "mm").size.nominal_mm)
    assert 100 < joint_of(yaml, units).size.nominal_mm < 104


def test_soft_hose_is_taken_once_round() -> None:
    text, yaml, good = ask("readings: [110, 90]\nsoft: yes\ninside: yes\n")
    assert good and yaml.startswith("hose_inside: {circumference: ")
    h = (10 / 100) ** 2 / 1.0
    ramanujan = math.pi * 100 * (1 + 3 * h / (10 + math.sqrt(4 - 3 * h)))
    assert float(yaml.split()[-1].rstrip("}")) == pytest.approx(ramanujan, abs=0.01)
    assert "part: fit_gauge" in text and "the plain mean is 100 mm" in text


def test_tape_and_caliper_agree_or_contradict() -> None:
    """Barbier and Cauchy: the mean diameter of a convex form is its length round by pi."""
    assert ask("readings: [60.1, 60.0, 60.3]\ncircumference: 189\n")[2]
    text, yaml, good = ask("readings: [60.1, 60.0, 60.3]\ncircumference: 192\n")
    assert not good and not yaml and "contradict" in text


def test_a_tape_stands_for_a_soft_thing_that_was_read_once() -> None:
    text, yaml, good = ask("readings: 110.4\ncircumference: [347, 347.5]\nsoft: yes\ninside: yes\n")
    assert good and yaml == "hose_inside: {circumference: 347.25}" and "diameter 110.53 mm" in text


def test_two_directions_do_not_say_where() -> None:
    assert "read a third" in ask("readings: [60, 60.4]\nangles: [0, 90]\n")[0]


def test_the_slip_is_named_and_nothing_to_paste_is_given() -> None:
    text, yaml, good = ask("readings: [60, 60.1, 60.05, 61.4, 60.0]\n")
    assert not good and not yaml
    assert "reading 4, 61.4 mm" in text and "without it the diameter is 60.04 mm" in text


def test_a_traced_rim() -> None:
    points = ", ".join(
        f"{{right: {54 * math.cos(t) + 10:.3f}, up: {54 * math.sin(t) - 4:.3f}}}"
        for t in [math.radians(a) for a in range(0, 360, 30)]
    )
    text, yaml, good = ask(f"points: [{points}]\noutside: yes\n")
    assert good and "diameter 108 mm" in text and "centre at right 10 mm, up -4 mm" in text
    assert joint_of(yaml).size.nominal_mm == pytest.approx(108.0, abs=0.02)
    assert "three-lobed" not in text and "round, as far as these points show" in text


def test_three_lobes_are_seen_on_a_tracing() -> None:
    radius = {a: 50 + 0.8 * math.cos(3 * math.radians(a)) for a in range(0, 360, 20)}
    points = ", ".join(
        f"{{right: {r * math.cos(math.radians(a)):.3f}, up: {r * math.sin(math.radians(a)):.3f}}}"
        for a, r in radius.items()
    )
    text, _, good = ask(f"points: [{points}]\n")
    assert good and "three-lobed: 1.6 mm" in text and "needs 101.6 mm" in text


@pytest.mark.parametrize(
    ("lines", "said"),
    [
        ("chord: 60\nheight: 3\n", "the radius is uncertain by 6.92 mm, allowed 3.03 mm"),
        ("points: [{right: 50}, {right: 49.6, up: 5}, {right: 48, up: 13}]\n", "too short an arc"),
        ("readings: 37\nsoft: yes\n", "one reading of something soft says little"),
        ("circumference: [347, 351]\n", "the tape readings differ by 1.27 mm"),
    ],
)
def test_what_leaves_the_size_open_gives_no_line(lines: str, said: str) -> None:
    text, yaml, good = ask(lines)
    assert not good and not yaml and said in text


@pytest.mark.parametrize(
    ("lines", "said"),
    [
        ("label: x\n", "port.yaml:1:1: readings: found nothing; allowed: readings, circumference, points, or chord"),
        ("readings: [60, 61, 75]\n", "port.yaml:2:20: readings[3]: found 75 mm beside 60 mm, 61 mm"),
        ("readings: [90, 30]\nsoft: yes\n", "readings[2]: found 30 mm beside 90 mm; allowed: readings of one hose"),
        ("circumference: [347, 348, 430]\n", "port.yaml:2:27: circumference[3]: found 430 mm beside 347 mm"),
        ("angles: [0, 60]\ncircumference: 347\n", "port.yaml:2:1: angles: found angles without readings"),
        ("readings: [60, 61, 60]\nangles: [0, 60]\n", "port.yaml:3:9: angles: found 2 for 3 readings"),
        ("readings: [60, 61, 60]\nangles: [0, 180, 360]\n", "port.yaml:3:9: angles: found 1 different direction"),
        ("chord: 60\n", "height: found nothing; allowed: a height for each chord"),
        ("height: 6\n", "chord: found nothing; allowed: a chord for each height"),
        ("chord: [60, 70]\nheight: 6\n", "port.yaml:3:9: height: found 1 for 2 chords"),
        ("chord: 60\nheight: 31\n", "port.yaml:3:9: height: found 31 mm over a chord of 60 mm; allowed: at most half"),
        ("points: [{right: 5}, {up: 3}]\n", "port.yaml:2:9: points: found a list of 2; allowed: 3 to 200 points"),
        ("points: [{right: 5}, {up: 3}, {upp: 3}]\n", "points[3].upp: found the unknown key 'upp'"),
        ("points: [{right: 5}, {right: 7}, {right: 9}]\n", "port.yaml:2:9: points: found points on a straight line"),
        ("points: 5\n", "port.yaml:2:9: points: found '5'; allowed: a list of at least 3 points"),
        ("points: 5\n", "points stand in a file"),
        ("readings: 60\npoints: [{right: 5}, {up: 3}, {left: 3}]\n", "points: found readings and points; allowed: one"),
        ("readings: 60\nchord: 50\nheight: 5\n", "chord: found readings and chord"),
        ("chord: 50\nheight: 5\nsoft: yes\n", "port.yaml:4:7: soft: found soft with chord"),
        ("readings: 60\ninside: yes\noutside: yes\n", "port.yaml:3:9: inside: found inside and outside together"),
        ("readings: []\n", "port.yaml:2:11: readings: found a list of 0; allowed: 1 to 50 readings"),
        ("readings: [60, [61]]\n", "port.yaml:2:16: readings[2]: found a list of 1"),
        ("readings: {circumference: 347}\n", "port.yaml:2:11: readings: found a map with circumference"),
        ("reading: 60\n", "did you mean readings?"),
        (
            "readings: [60, 4]\n",
            "readings[2]: found '4'; allowed: a length from 19.5 mm to 316.5 mm. did you mean 4 in?",
        ),
    ],
    ids=lambda value: value[:30],
)
def test_what_must_be_refused(
    lines: str, said: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: Captured
) -> None:
    monkeypatch.chdir(tmp_path)
    Path("port.yaml").write_text(f"measure: circle\n{lines}")
    assert main(["measure", "port.yaml"]) == 2
    out, err = capsys.readouterr()
    assert said in err and not out and "Traceback" not in err


def test_lists_on_the_command_line() -> None:
    found = answer(asked_of_words("circle", ["60.1", "60.9", "60.4", "angles=[0, 60,120]", "outside=yes"]))
    assert "3 readings with their angles" in found.text and joint_of(found.yaml).size.nominal_mm == pytest.approx(
        60.467, abs=0.01
    )


def test_too_large_for_a_part_is_said() -> None:
    text, yaml, good = ask("chord: 250\nheight: 60\n")
    assert good and not yaml and "diameter 320.42 mm" in text and "ends are made for 19.5 mm to 316.5 mm" in text


def shown(page: str) -> list[tuple[str, str]]:
    """Each command of a page with the output shown under it."""
    text = (ROOT / page).read_text(encoding="utf-8")
    return re.findall(r"```sh\n(fitwright measure [^\n]+)\n```\n\n```text\n(.*?)```", text, re.DOTALL)


@pytest.mark.parametrize(
    ("command", "output"), [*shown("docs/measuring/circle.md"), *shown("docs/measuring/sleeve.md")]
)
def test_the_pages_show_what_the_command_says(
    command: str, output: str, monkeypatch: pytest.MonkeyPatch, capsys: Captured
) -> None:
    monkeypatch.chdir(ROOT)
    main(command.replace("'", "").split()[1:])
    assert capsys.readouterr().out == output


def test_the_pages_show_something() -> None:
    assert len(shown("docs/measuring/circle.md")) >= 4 and len(shown("docs/measuring/sleeve.md")) >= 3
