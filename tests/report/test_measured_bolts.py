"""`fitwright measure bolts`: what it says, the lines that a flange takes, and what it refuses, with its place."""

from __future__ import annotations

import math
import re
from pathlib import Path

import numpy as np
import pytest
import yaml

from fitwright.cli.main import main
from fitwright.errors import SpecError
from fitwright.measure.bolts.readings import HOLE_SHARE
from fitwright.measure.bolts.solve import laid_on
from fitwright.report.measured.answer import Answer
from fitwright.report.measured.bolt_readings import pattern_of
from fitwright.report.measured.bolts import answer
from fitwright.spec.grammar.measuring import bolts
from fitwright.spec.grammar.screws import HolesKeys
from fitwright.spec.grammar.values import Context
from fitwright.spec.load import load_text
from fitwright.spec.measure_file import asked_of_file, asked_of_text, asked_of_words
from fitwright.spec.nodes import read

ROOT = Path(__file__).parents[2]
Captured = pytest.CaptureFixture[str]
RECTANGLE = "holes=4 1-2=80 2-3=60 3-4=80 4-1=60 1-3=100 2-4=100 size=M6"
PART = """part: reducer
end_a:
  flange:
    opening: 60
    {holes}
end_b: {{hose_tail: {{hose_inside: 50}}}}
"""
UNEVEN = np.array([(-40.0, 28.0), (41.0, 33.0), (52.0, -8.0), (38.0, -30.0), (-36.0, -25.0)])


def words(text: str) -> Answer:
    return answer(asked_of_words("bolts", text.split()))


def uneven(more: str = "") -> str:
    """A file of exact distances between uneven holes."""
    lines = [
        f"  {a + 1}-{b + 1}: {np.linalg.norm(UNEVEN[a] - UNEVEN[b]):.9f}" for a in range(5) for b in range(a + 1, 5)
    ]
    return "measure: bolts\nholes: 5\nsize: M6\n" + more + "between:\n" + "\n".join(lines) + "\n"


def holes_of(made: Answer, units: str = "mm") -> HolesKeys:
    """The lines for the YAML, read as a flange reads them."""
    tree = read(made.yaml, "answer")
    assert not tree.faults and isinstance(tree.value, dict)
    return HolesKeys.read(tree.value["holes"], Context(units))  # type: ignore[arg-type]


@pytest.mark.parametrize(
    "text",
    [
        RECTANGLE,
        "holes=5 adjacent=70.5 size=M6",
        "holes=6 across=130 size=M6 level=1-2",
        "holes=3 1-2=80 2-3=70 1-3=60 hole=6.6",
        "holes=2 1-2=outer:86.6 hole=6.6",
    ],
)
def test_its_lines_load_in_a_part(text: str) -> None:
    made = words(text)
    assert made.good
    (spec,) = load_text(PART.format(holes=made.yaml.replace("\n", "\n    ")), "part.yaml")
    assert spec.end_a.joint.holes is not None  # type: ignore[union-attr]


def test_an_even_circle_gives_count_and_circle() -> None:
    made = words("holes=5 adjacent=70.5 size=M6")
    assert yaml.safe_load(made.yaml) == {"holes": {"count": 5, "circle": 119.94, "size": "M6"}}
    assert round(70.5 / math.sin(math.pi / 5), 2) == 119.94


def test_right_on_the_machine_is_left_in_the_flanges_mouth() -> None:
    """Stand at end_a and look into its mouth: your back is to the machine, whose face you looked at to measure."""
    seen = np.array(pattern_of(asked_of_text(uneven("level: 1-2\n"), "x.yaml")).places)
    placed = np.array(
        [(p.right_mm, p.up_mm) for p in holes_of(answer(asked_of_text(uneven("level: 1-2\n"), "x.yaml"))).places()]
    )
    assert np.allclose(placed, seen * [-1, 1], atol=0.006)
    old = holes_of(answer(asked_of_text(uneven("level: 1-2\nface: flange\n"), "x.yaml"))).places()
    assert np.allclose([(p.right_mm, p.up_mm) for p in old], seen, atol=0.006)


def test_the_pattern_for_a_template_is_as_seen_on_the_face() -> None:
    pattern = pattern_of(asked_of_text(uneven("hole: 6.6\n"), "x.yaml"))
    places = np.array(pattern.places)
    assert np.max(np.abs(laid_on(places, UNEVEN) - UNEVEN)) < 1e-7
    x, y = (places - places.mean(axis=0)).T
    assert np.sum(x * np.roll(y, -1) - y * np.roll(x, -1)) < 0  # clockwise
    assert pattern.hole_mm == 6.6 and pattern.opening is None and pattern.count == 5


def test_words_and_file_give_the_same_and_inches_are_inches() -> None:
    made = words("units=in holes=4 hole=0.266 1-2=3.125 2-3=2.5 3-4=3.125 4-1=2.5 1-3=4.002 2-4=4.002")
    holes = holes_of(made, "in")
    assert holes.size == "1/4 in"
    assert max(p.right_mm for p in holes.places()) == pytest.approx(3.125 / 2 * 25.4, abs=0.02)
    assert "3.125 in (1 to 2)" in made.text


def test_a_key_again_is_a_further_reading_of_the_same() -> None:
    asked = asked_of_words("bolts", "holes=2 1-2=80.1 1-2=79.9 2-1=outer:86.6 hole=6.5 hole=6.7".split())
    assert pattern_of(asked).circle_mm == pytest.approx(80.0, abs=1e-6)


def test_the_example_with_a_slip_names_it(capsys: Captured) -> None:
    assert main(["measure", str(ROOT / "configs/measure/lid_bolts.yaml")]) == 1
    said = capsys.readouterr().out
    assert "SUSPECT 2-4 over outer edges" in said and "should be near 111.9 mm" in said
    assert "# without 2-4" in said


def test_the_clean_example_is_an_even_circle(capsys: Captured) -> None:
    assert main(["measure", str(ROOT / "configs/measure/inlet_bolts.yaml")]) == 0
    assert "holes: {count: 5, circle: 120, size: M6}" in capsys.readouterr().out


def test_nothing_is_given_where_it_is_open_which_reading_is_wrong() -> None:
    made = words("holes=4 1-2=83 2-3=60.1 3-4=80 4-1=61 1-3=102 2-4=100 size=M6")
    assert not made.good and "cannot tell it from" in made.text and made.yaml == ""
    hopeless = words("holes=4 1-2=80 2-3=60 3-4=80 4-1=60 size=M6 regular=yes")
    assert not hopeless.good and hopeless.yaml == ""


def test_only_one_slip_leaves_a_rectangle() -> None:
    made = words(RECTANGLE.replace("1-3=100", "1-3=98"))
    assert not made.good and "but only without 1-3 are the holes a rectangle" in " ".join(made.text.split())
    assert made.yaml.startswith("# without 1-3")


def test_nothing_is_given_where_the_mirror_image_is_open() -> None:
    made = words("holes=4 size=M6 1-2=80 2-4=60 3-4=80 3-1=60 1-4=100 2-3=100")
    assert not made.good and made.yaml == "" and "mirror image fits as well" in made.text


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("holes=3 hole=6.6 regular=yes 1-2=75.75 1-3=75.88 2-3=far_edge:90.02", "2-3 to far edge 90.02 79.12"),
        (RECTANGLE + " with=tape", "read with a tape: coarse holes (7 mm, ISO 273)"),
        ("holes=4 1-2=71.3 2-3=70.1 3-4=71.4 4-1=70.2 size=M6 regular=yes", "or file them to slots"),
        ("holes=4 1-2=80 2-3=60 3-4=80 4-1=60 size=M6 regular=yes", "or are the holes not evenly spaced?"),
        ("holes=3 1-2=80 2-3=70 1-3=60 hole=6.6", "size M6 is what holes of 6.6 mm are drilled for"),
        ("holes=3 1-2=80 2-3=70 1-3=60", "no lines for the YAML without a bolt"),
        ("holes=3 1-2=80 2-3=70 1-3=60 hole=40", "no bolt of our tables goes with holes of 40 mm"),
        ("holes=3 1-2=12 2-3=12 1-3=12 size=M6", "a flange would not take these holes"),
        ("holes=3 1-2=80 2-3=70 1-3=60 size=M6", "read each again and write both"),
        ("holes=4 1-2=80 2-3=60 3-4=80 4-1=60 1-3=100 size=M6", "read 2-4 (centre to centre, near 100 mm) too"),
        ("holes=3 1-2=50 2-3=60 1-3=110.1 size=M6", "lay a straight edge along the row"),
        ("holes=4 1-2=70.7 2-3=70.8 3-4=70.6 4-1=72 1-3=100 2-4=99 size=M6", "cannot tell it from"),
    ],
)
def test_what_is_to_be_known_is_said(text: str, said: str) -> None:
    assert said in " ".join(words(text).text.split())


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("holes=3 1-2=50 2-3=60 1-3=170", "between.1-3: found 170 mm from centre to centre; allowed: at most 110 mm"),
        ("holes=3 1-2=50 2-3=60 1-3=170", "1-2 50 mm + 2-3 60 mm. a triangle of these three cannot be"),
        ("holes=4 1-2=80 2-3=60 3-4=80 4-1=60 1-3=170 2-4=100", "1-3 is wrong: 170 mm should be near 100 mm"),
        ("holes=5 across=130", "across: found across for 5 holes: none is opposite another"),
        ("holes=6 across=130 adjacent=70.5", "across for a circle of 130 mm, adjacent for one of 141 mm"),
        ("holes=5 circle=130 adjacent=70.5", "circle for a circle of 130 mm, adjacent for one of 119.94 mm"),
        ("holes=5 adjacent=70.5 regular=no", "adjacent: found adjacent beside regular: no"),
        ("holes=4 1-2=80 2-3=60", "between: found 2 readings for 4 holes: hole 3 and hole 4 can still move"),
        ("holes=4 1-2=80 2-3=60", "read 1-4, 3-4 and 1-3 as well; or say regular: yes"),
        ("holes=4 1-2=80 1-9=60", "between.1-9: found hole 9; allowed: holes 1 to 4"),
        ("holes=4 1-1=80", "between.1-1: found hole 1 twice"),
        ("holes=4 1-2=outer:80", "hole: found nothing, but readings by edges"),
        ("holes=4 1-2=edge:80 hole=6", "write far_edge (or near_edge)"),
        ("holes=4 1-2=x", "between.1-2: found 'x'"),
        ("holes=3 hole=6.6 1-2=outer:5 2-3=60 1-3=70", "between.1-2: found centres 0 mm apart; allowed: more than the"),
        ("holes=16 1-2=30 2-3=30 3-4=30", "14 of them can still move"),
        ("holes=17 adjacent=30", "holes: found '17'; allowed: a whole number from 2 to 16"),
        ("holes=4", "between: found nothing"),
        ("holes=4 adjacent=70 up=1 level=1-2", "level: found up and level together"),
        ("holes=4 adjacent=70 level=12", "level: found '12'; allowed: two hole numbers with a dash between: 1-2"),
        ("holes=4 adjacent=70 up=5", "up: found hole 5; allowed: holes 1 to 4"),
        ("holes=4 adjacent=70 opening=50 opening-1=20", "opening.from: found 1 holes; allowed: 3 holes or more"),
        ("holes=4 adjacent=70 pcd=100", "write circle"),
        ("holes=4 adjacent=70 with=laser", "with: found 'laser'; allowed: caliper | tape"),
        ("holes=4 70 80", "measure: found '70'"),
    ],
)
def test_what_cannot_be_is_refused_by_key(text: str, said: str, capsys: Captured) -> None:
    assert main(["measure", "bolts", *text.split()]) == 2
    assert said in capsys.readouterr().err


def test_a_refusal_in_a_file_names_line_and_column() -> None:
    text = "measure: bolts\nholes: 3\nbetween:\n  1-2: 50\n  2-3: 60\n  3-1: 170\n"
    with pytest.raises(SpecError, match=r"lid\.yaml:6:8: between\.3-1: found 170 mm"):
        answer(asked_of_text(text, "lid.yaml"))


def test_a_misspelt_pair_names_its_place() -> None:
    text = "measure: bolts\nholes: 3\nbetween:\n  1-2: 50\n  2/3: 60\n"
    with pytest.raises(SpecError, match=r"lid\.yaml:5:3: between\.2/3: found the key '2/3'"):
        asked_of_text(text, "lid.yaml")


def test_the_opening_stands_in_the_middle_of_the_answer() -> None:
    pattern = pattern_of(asked_of_file(ROOT / "configs/measure/lid_bolts.yaml"))
    assert pattern.opening is not None and pattern.origin == "the opening's centre"
    assert pattern.opening.diameter_mm == pytest.approx(60.0, abs=0.1)


PAGE = (ROOT / "docs/measuring/bolts.md").read_text(encoding="utf-8")
SHOWN = re.findall(r"```sh\nfitwright ([^\n]*)\n```\n\n```text\n(.*?)\n```", PAGE, re.DOTALL)


@pytest.mark.parametrize(("command", "said"), SHOWN, ids=[command for command, _ in SHOWN])
def test_the_page_shows_what_is_said(
    command: str, said: str, capsys: Captured, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(ROOT)
    main(command.split())
    captured = capsys.readouterr()
    assert (captured.out + captured.err).rstrip() == said


def test_whatever_is_read_is_answered_or_refused_in_words() -> None:
    """Readings at random, most of them senseless: an Answer or a SpecError, whose text has numbers and no nan."""
    random = np.random.default_rng(12)
    kinds = ("", "", "", "outer:", "inner:", "far_edge:", "near_edge:")
    for _ in range(60):
        count = int(random.integers(2, 7))
        text = [f"holes={count}", "hole=6.6", random.choice(["regular=yes", "regular=no", "regular=auto"])]
        for a in range(1, count + 1):
            for b in range(a + 1, count + 1):
                if random.random() < 0.85:
                    text.append(f"{a}-{b}={random.choice(kinds)}{random.uniform(20, 120):.1f}")
        if random.random() < 0.4 and count > 2:
            text += ["opening=50", *(f"opening-{k}={random.uniform(5, 60):.1f}" for k in range(1, count + 1))]
        try:
            made = words(" ".join(text))
        except SpecError as error:
            assert "nan" not in str(error)
        else:
            assert "nan" not in made.text and "inf" not in made.text and ("holes:" in made.yaml or not made.yaml)


def test_grammar_and_numbers_agree_on_what_edges_add() -> None:
    assert dict(bolts.HOLE_SHARE) == HOLE_SHARE
