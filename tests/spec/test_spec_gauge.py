"""A fit gauge's YAML: what it means, and what is refused with file, line, key, found and allowed."""

from __future__ import annotations

import pytest

from fitwright.errors import SpecError
from fitwright.spec.load import load_text
from fitwright.spec.models import FitGaugeSpec


def spec(text: str) -> FitGaugeSpec:
    (found,) = load_text(f"part: fit_gauge\n{text}\n")
    assert isinstance(found, FitGaugeSpec)
    return found


def marks(text: str) -> list[str]:
    return [one.mark for one in spec(text).steps]


def test_two_lines_are_enough() -> None:
    """107.1 +-0.1: from 0.05 - 0.414 to 0.514 + 0.414 in seven steps of 0.25, the middle on a round number."""
    made = spec("rings: {over: 107.1}")
    assert [one.mark for one in made.steps] == ["-0.45", "-0.20", "0.05", "0.30", "0.55", "0.80", "1.05"]
    assert [one.printed_mm for one in made.steps] == [106.65, 106.9, 107.15, 107.4, 107.65, 107.9, 108.15]
    assert made.ends == {} and made.sizes == {} and "step" in made.defaulted


def test_plugs_are_smaller_where_the_allowance_is_larger() -> None:
    made = spec("plugs: {into: 100}\nfit: slide\nstep: 0.1\nsteps: 5")
    assert (made.steps[0].mark, made.steps[0].printed_mm) == ("0.7", 99.3)
    assert [one.mark for one in made.steps] == ["0.7", "0.6", "0.5", "0.4", "0.3"]


def test_a_hose_is_stepped_two_millimetres_to_both_sides() -> None:
    found = marks("plugs: {hose_inside: 100}\nsteps: 9")
    assert found[0] == "98.0" and found[-1] == "102.0"


def test_a_soft_hose_that_lies_oval_is_stepped_no_further() -> None:
    """An ellipse 104.2 x 97.9 is as long round as a circle of 101.1 (Ramanujan): pressed round, its ovality is gone."""
    found = [float(mark) for mark in marks("plugs: {hose_inside: [104.2, 97.9]}\nsteps: 9")]
    assert found[0] == pytest.approx(99.0, abs=0.1) and found[-1] == pytest.approx(103.0, abs=0.1)


def test_marks_are_in_the_files_units() -> None:
    assert marks("units: in\nrings: {over: 4.215}")[:2] == ["-0.02", "-0.01"]
    assert marks("units: in\nplugs: {hose: 4 in}\nmarks: size\nsteps: 5")[2] == "4.00"


def test_a_set_of_sizes_knows_both_faces() -> None:
    made = spec("sizes: [60, 20, 40]")
    assert [(one.mark, one.printed_mm, one.outside_mm) for one in made.steps] == [
        ("20", 20.0, 23.0),
        ("40", 40.0, 43.0),
        ("60", 60.0, 63.0),
    ]
    assert spec("sizes: [20, 40]\nwall: 2").steps[0].outside_mm == 24.0


def test_allowances_stay_where_a_joint_takes_them() -> None:
    """A joint's allowance is -1 mm or more; a wide gauge is moved up by whole steps."""
    found = [float(mark) for mark in marks("rings: {over: 60}\nstep: 0.5\nsteps: 9")]
    assert found[0] >= -1.0 and found[1] - found[0] == pytest.approx(0.5)


@pytest.mark.parametrize(
    ("text", "line", "key", "found", "allowed"),
    [
        ("steps: 7", 1, "rings", "nothing", "one of rings, plugs, sizes"),
        ("rings: {over: 60}\nplugs: {into: 60}", 3, "plugs", "rings and plugs together", "one of them"),
        ("rings: {into: 60}", 2, "rings.into", "the unknown key 'into'", "over, pipe"),
        ("rings: {}", 2, "rings.over", "nothing", "over or pipe"),
        ("plugs: {over: 60}", 2, "plugs.over", "the unknown key 'over'", "into, pipe, hose_inside, hose"),
        ("plugs: {into: 60, hose_inside: 60}", 2, "plugs.hose_inside", "into and hose_inside", "into or hose_inside"),
        ("rings: {over: {rectangle: {width: 80, height: 50}}}", 2, "rings.over", "not round", "a diameter"),
        ("rings: {over: {end: 58, further: 60, apart: 30}}", 2, "rings.over", "a port that tapers", "one diameter"),
        ("rings: {over: 60}\nsteps: 4", 3, "steps", "'4'", "from 5 to 9"),
        ("rings: {over: 60}\nsteps: 5.5", 3, "steps", "'5.5'", "a whole number"),
        ("rings: {over: 60}\nstep: 0", 3, "step", "'0'", "from 0.02 mm"),
        ("rings: {over: 60}\nfit: stretch", 3, "fit", "'stretch'", "slide | snug | press | glue"),
        ("rings: {over: 60}\nform: stepd", 3, "form", "'stepd'", "auto | separate | stepped"),
        ("rings: {over: 60}\nmarks: both", 3, "marks", "'both'", "size | allowance"),
        ("rings: {over: 60}\nheight: 1", 3, "height", "'1'", "from 2.4 mm"),
        ("plugs: {into: 20}\nstep: 3", 3, "step", "7 steps of 3 mm", "12 mm or more"),
        ("sizes: 20", 2, "sizes", "'20'", "a list of 2 to 12 sizes"),
        ("sizes: [20]", 2, "sizes", "a list", "a list of 2 to 12 sizes"),
        ("sizes: [20, 5]", 2, "sizes[2]", "'5'", "from 10 mm"),
        ("sizes: [20, 20.4]", 2, "sizes[2]", "'20.4' beside '20'", "differ by 1 mm"),
        ("sizes: [20, 40]\nsteps: 5", 3, "steps", "steps beside sizes", "one of the two"),
        ("sizes: [20, 40]\nform: stepped", 3, "form", "stepped beside sizes", "separate | auto"),
        ("end_a: {socket: {over: 60}}", 2, "end_a", "the unknown key 'end_a'", "rings"),
        ("rings: {over: 60}\nenvelope: {keep_clear: [{ceiling: 50}]}", 3, "envelope", "an envelope", "none"),
    ],
)
def test_refused(text: str, line: int, key: str, found: str, allowed: str) -> None:
    with pytest.raises(SpecError) as refused:
        spec(text)
    told = next((p for p in refused.value.problems if p.key == key), None)
    assert told, str(refused.value)
    assert (told.file, told.line) == ("part.yaml", line), str(refused.value)
    assert found in told.found and allowed in told.allowed, str(refused.value)


def test_a_forgotten_part_is_guessed_from_its_keys() -> None:
    with pytest.raises(SpecError) as refused:
        load_text("rings: {over: sixty}\n")
    assert [problem.key for problem in refused.value.problems] == ["part", "rings.over"]
