"""Check `features`: a cut that did nothing and a boss that is missing are named, whatever the number of holes says."""

from __future__ import annotations

import math

import pytest
from cadquery import Shape, Solid, Vector, Workplane
from kernel_solids import body, box, faults, rod, run, s_bend, tube, turned

from fitwright.checks.features import check
from fitwright.part import Feature

BORE = rod(20, 61, y=-0.5)
GROOVE = turned([(19, 20), (21.5, 20), (21.5, 24), (19, 24)])
BEAD = turned([(25, 40), (26, 41), (25, 42)])


def declared(*features: tuple[str, str, Shape]) -> tuple[Feature, ...]:
    return tuple(Feature(name, kind, tool) for name, kind, tool in features)  # type: ignore[arg-type]


def test_all_as_declared() -> None:
    made = tube(20, 25, 60).cut(GROOVE).fuse(BEAD)
    features = declared(("bore", "cut", BORE), ("groove", "cut", GROOVE), ("bead", "boss", BEAD))
    found = run(check, body(made, 1, features=features))
    assert [f.severity for f in found] == ["pass"] and found[0].value == 3.0


def test_forgotten_groove_and_bead_are_named_with_their_volumes() -> None:
    """The genus is blind to both. Groove left: pi (21.5^2 - 20^2) 4; bead: Pappus, a triangle of 1 mm2 at 25 1/3."""
    features = declared(("bore", "cut", BORE), ("end_a cord groove", "cut", GROOVE), ("end_b bead", "boss", BEAD))
    found = run(check, body(tube(20, 25, 60), 1, features=features))
    assert [f.place.split(",")[0] for f in found] == ["end_a cord groove", "end_b bead"]
    assert found[0].value == pytest.approx(math.pi * (21.5**2 - 20**2) * 4)
    assert found[1].value == pytest.approx(2 * math.pi * (25 + 1 / 3) * 1.0)
    assert all(f.blocks for f in found)


def test_plug_instead_of_a_pipe() -> None:
    """Chained workplane calls returned the outer solid without its passage, silently (own trial)."""
    passage, shell = s_bend(60, 200, 50, 0), s_bend(60, 200, 53, 0)
    assert faults(run(check, body(shell, 1, features=declared(("passage", "cut", passage))))) != []
    assert faults(run(check, body(shell.cut(passage), 1, features=declared(("passage", "cut", passage))))) == []


@pytest.mark.parametrize("short", [0.001, 0.1])
def test_cut_that_stops_a_micron_short(short: float) -> None:
    """A radius 1 micron too small leaves a valid skin, pi (20^2 - 19.999^2) 60 = 7.5 mm3."""
    made = tube(20 - short, 25, 60)
    assert len(faults(run(check, body(made, 1, features=declared(("bore", "cut", BORE)))))) == 1


def test_holes_drilled_beside_the_part() -> None:
    """Drilling on a moved plate hits nothing and raises nothing (CadQuery issue 961)."""
    plate = Workplane(box(100, 0, 0, 160, 40, 6))
    drilled = plate.faces(">Z").workplane(origin=(0, 0, 6)).pushPoints([(-20, 0), (20, 0)]).hole(5).val()
    missed = [Solid.makeCylinder(2.5, 7, Vector(x, 0, -0.5)) for x in (-20, 20)]
    meant = [Solid.makeCylinder(2.5, 7, Vector(130 + x, 20, -0.5)) for x in (-20, 20)]
    features = declared(*((f"as drilled {k}", "cut", tool) for k, tool in enumerate(missed)))
    assert [f.split(" did")[0] for f in faults(run(check, body(drilled, features=features)))] == [
        "as drilled 0",
        "as drilled 1",
    ]
    features = declared(*((f"as meant {k}", "cut", tool) for k, tool in enumerate(meant)))
    found = run(check, body(drilled, features=features))
    assert [f.value for f in found] == pytest.approx([math.pi * 2.5**2 * 6] * 2)


def test_hollow_that_did_nothing() -> None:
    """Known kernel fault (CadQuery issue 476): a 20 mm box hollowed by 11 is valid, closed, and solid."""
    lump = Workplane("XY").box(20, 20, 20).faces("<Z").shell(-11).val()
    tool = box(-1, -1, -11, 1, 1, 8)
    assert len(faults(run(check, body(lump, features=declared(("hollow", "cut", tool)))))) == 1


def test_empty_tool_did_nothing() -> None:
    nothing = box(0, 0, 0, 1, 1, 1).cut(box(-1, -1, -1, 2, 2, 2))
    for kind in ("cut", "boss"):
        found = faults(run(check, body(tube(20, 25, 60), 1, features=declared(("slit", kind, nothing)))))
        assert found == ["slit did nothing: its tool solid is empty"]


def test_boss_that_is_half_there() -> None:
    """Half the bead's volume is missing."""
    half = BEAD.cut(box(0, 30, -40, 40, 50, 40))
    found = run(check, body(tube(20, 25, 60).fuse(half), 1, features=declared(("bead", "boss", BEAD))))
    assert found[0].value == pytest.approx(math.pi * (25 + 1 / 3) * 1.0)


def test_nothing_declared_is_said() -> None:
    found = run(check, body(tube(20, 25, 60), 1))
    assert found[0].message == "no cuts or bosses are declared"
