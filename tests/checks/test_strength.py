"""Check `strength` on bars made by hand: against closed forms, and seen failing in each of its ways."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import cadquery as cq
import pytest
from tests.whole import spec_of

from fitwright.checks import strength, strength_run
from fitwright.checks.strength_say import warm_words
from fitwright.checks.strength_tasks import brep_text, tasks
from fitwright.finding import Finding
from fitwright.frame import Frame
from fitwright.loads import LoadCase, LoadFace
from fitwright.mesh import mesh_body
from fitwright.part import Body, Part, Pose
from fitwright.physics.elastic.task import Answer, Effort, Elastic, Infill, Task
from fitwright.physics.elasticity import analyse

SPEC = spec_of("part: reducer\nend_a: {socket: {over: 107.1}}\nend_b: {hose_tail: {hose_inside: 100}}\n")
LONG, WIDE, FORCE = 100.0, 20.0, 30.0
FIXED = LoadFace("wall end", "bar", "flat", Frame((0, 0, 0), (1, 0, 0), (0, 1, 0)), (-10, 10), (-50, 50))
FREE = LoadFace("free end", "bar", "flat", Frame((LONG, 0, 0), (-1, 0, 0), (0, 1, 0)), (-10, 10), (-50, 50))
DOWN = LoadCase("weight", "bar", "free end", FORCE, ((0.0, 0.0, -1.0),), ("wall end",), key="thickness")


def bar(high_mm: float, lies: tuple[float, float, float] = (0.0, 1.0, 0.0)) -> Part:
    """A cantilever along x, 100 long, 20 wide; on its side, so that the layers run along it."""
    solid = cq.Workplane().box(LONG, WIDE, high_mm).translate((LONG / 2, 0, 0)).val()
    body = Body("bar", solid, 0, high_mm, (Pose("on its side", lies),))  # type: ignore[arg-type]
    return Part("bar", "flange_plate", (body,), load_faces=(FIXED, FREE), loads=(DOWN,))


def found(part: Part, spec: object = SPEC) -> list[Finding]:
    return strength.check(part, {body.name: mesh_body(body) for body in part.bodies}, spec)  # type: ignore[arg-type]


@cache
def of_bar(high_mm: float, **changes: object) -> Finding:
    (one,) = [f for f in found(bar(high_mm)) if f.code == "strength"]
    return one


def test_a_cantilevers_factor_is_that_of_beam_theory() -> None:
    """Strength b h^2 / 6 F L of what is left beside the fixed end, where half a wall does not count."""
    high = 8.0
    expected = SPEC.material.strength_mpa * WIDE * high**2 / (6.0 * FORCE * (LONG - high / 2))
    assert of_bar(high).severity == "pass" and "settled" not in of_bar(high).message
    assert of_bar(high).value == pytest.approx(expected, rel=0.06)  # beside the fixed end the section cannot narrow


def test_half_the_thickness_bears_a_quarter_and_fails() -> None:
    whole, half = of_bar(6.0), of_bar(3.0)
    assert whole.value and half.value and half.value == pytest.approx(whole.value / 4.0, rel=0.08)
    assert half.severity == "fail" and half.place == "thickness" and "more thickness" in half.advice
    assert "weight down: safety factor" in half.message and "in the layers" in half.message


def test_layers_across_the_pull_are_weaker() -> None:
    """As beam theory says, with the strength between layers in place of that along them."""
    high = 6.0
    (upright,) = found(bar(high, (1.0, 0.0, 0.0)))
    expected = SPEC.material.strength_across_mpa * WIDE * high**2 / (6.0 * FORCE * (LONG - high / 2))
    assert upright.value == pytest.approx(expected, rel=0.06)
    assert "between the layers" in upright.message and "layers run along the load" in upright.advice


def test_a_lasting_load_may_use_a_quarter_and_moves_twice_as_far() -> None:
    part = replace(bar(6.0), loads=(replace(DOWN, lasting=True, limit_mm=1.0),))
    lasting, moves = found(part)
    once = of_bar(6.0)
    assert lasting.value and once.value and lasting.value == pytest.approx(once.value / 4.0, rel=0.01)
    inertia = WIDE * 6.0**3 / 12.0
    sag = FORCE * LONG**3 / (3.0 * 0.5 * SPEC.material.modulus_mpa * inertia)
    assert moves.code == "strength.moves" and moves.severity == "warn"
    assert moves.value == pytest.approx(sag, rel=0.03)


def test_sparse_infill_is_weaker_unless_its_walls_make_it_solid() -> None:
    def of(**changes: object) -> float:
        part, spec = bar(8.0), SPEC.model_copy(update=changes)
        (given,) = tasks(part, {body.name: mesh_body(body) for body in part.bodies}, spec)
        (one,) = strength.judged(part, spec, given, analyse(replace(given, effort=Effort(refinements=1))))
        return float(one.value or 0.0)

    solid = of(infill_share=1.0)
    assert of(infill_share=0.2, wall_lines=20) == pytest.approx(solid, rel=1e-6)
    # a 20 x 8 bar whose skin of 1.26 mm alone bears: 1 - 17.48 x 5.48^3 / (20 x 8^3) of the moment
    skin = 1.0 - 17.48 * 5.48**3 / (20.0 * 8.0**3)
    hollow = of(infill_share=0.1, wall_lines=3)
    assert 0.7 * skin * solid < hollow < 0.97 * solid


def test_a_warm_place_leaves_less() -> None:
    warm = SPEC.model_copy(update={"near_heat_c": SPEC.material.service_c})
    (one,) = found(bar(8.0), warm)
    assert one.value == pytest.approx((of_bar(8.0).value or 0) * SPEC.material.strength_at_service, rel=0.01)
    assert f"; at {SPEC.material.service_c:g} C, where 55 % of its strength is left" in one.message
    assert " C, where" not in of_bar(8.0).message


def test_how_warm_it_was_judged_is_said_in_the_files_units_and_only_where_it_counts() -> None:
    """PETG keeps 1 - 0.45 x (44 - 23) / (65 - 23) = 77.5 % at 44 C, which is 111 F; all of it at 23 C."""
    assert warm_words(SPEC) == warm_words(SPEC.model_copy(update={"near_heat_c": 20.0})) == ""
    warm = SPEC.model_copy(update={"near_heat_c": 44.0, "units": "in"})
    assert warm_words(warm) == "; at 111 F, where 78 % of its strength is left"


def test_what_is_missing_or_floats_is_not_analysed() -> None:
    lost = replace(FREE, frame=Frame((LONG + 5, 0, 0), (-1, 0, 0), (0, 1, 0)))
    for part in (replace(bar(8.0), load_faces=(FIXED, lost)), replace(bar(8.0), load_faces=(FIXED,))):
        (one,) = found(part)
        assert one.severity == "warn" and "not analysed" in one.message and "free end" in one.message and one.advice


def test_a_shape_that_is_not_closed_is_not_analysed() -> None:
    (open_face,) = cq.Workplane().rect(10, 10).extrude(5).faces(">Z").vals()
    body = replace(bar(8.0).bodies[0], solid=open_face)  # type: ignore[arg-type]
    answer = analyse(task(brep_text(body)))
    assert not answer.cases and "could not be meshed" in answer.why


def task(brep: str, **changes: object) -> Task:
    elastic = Elastic(2000.0, 0.36, 44.0, 25.0)
    made = Task("bar", brep, 8.0, (FIXED, FREE), (), (DOWN,), elastic, infill=Infill(), effort=Effort(refinements=0))
    return replace(made, **changes)  # type: ignore[arg-type]


def test_nonsense_for_a_shape_is_not_analysed() -> None:
    assert not analyse(task("no shape at all")).cases
    assert "no face is called" in analyse(replace(task(brep_text(bar(8.0).bodies[0])), faces=(FIXED,))).why


def test_a_mesh_that_misses_the_solids_volume_is_not_analysed() -> None:
    answer = analyse(task(brep_text(bar(8.0).bodies[0]), volume_mm3=17_000.0))
    assert not answer.cases and "17000" in answer.why


def test_a_child_that_dies_or_hangs_costs_the_analysis_only(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(strength_run, "PROGRAM", "fitwright.no_such_program")
    (one,) = found(bar(8.0))
    assert one.severity == "warn" and "not analysed: its process ended with code 1" in one.message
    monkeypatch.setattr(strength_run, "PROGRAM", "timeit")  # any that goes on for a while
    with strength_run.running([task("")]) as at_work:
        (late,) = at_work.answers(time_limit_s=0.0).values()
    assert isinstance(late, Answer) and "not finished" in late.why


def test_what_is_left_out_is_said() -> None:
    (one,) = strength.left_out(bar(8.0))
    assert one.severity == "warn" and "--quick" in one.message
    assert strength.left_out(replace(bar(8.0), loads=())) == []


def test_a_part_without_loads_says_nothing() -> None:
    assert found(replace(bar(8.0), loads=())) == []


def test_what_is_too_large_to_be_refined_says_so_where_it_matters() -> None:
    """The whole budget of unknowns is spent on the first mesh."""
    part = bar(6.0)
    given = task(brep_text(part.bodies[0]), wall_mm=6.0, effort=Effort(unknowns=10))
    (near,) = strength.judged(part, SPEC, given, analyse(given))
    assert near.value and near.value < 5.0 and "too large for a finer mesh" in near.message
    light = replace(given, cases=(replace(DOWN, force_n=1.0),))
    (far,) = strength.judged(part, SPEC, light, analyse(light))
    assert far.value and far.value > 5.0 and "too large" not in far.message


def test_bodies_are_shared_out_and_none_is_lost() -> None:
    """The longest alone, the short ones together; each once, and never more children than bodies."""
    whole = [task("x" * size, body=str(size)) for size in (100, 400, 200, 90)]
    shares = [[int(one.body) for one in own] for own in strength_run.shared_out(whole, 2)]
    assert shares == [[400], [200, 100, 90]]
    assert [len(own) for own in strength_run.shared_out(whole[:1], 2)] == [1] and not strength_run.shared_out([], 2)
    with strength_run.running(whole) as at_work:
        answers = at_work.answers()
    assert list(answers) == ["100", "400", "200", "90"] and all(
        "could not be meshed" in a.why for a in answers.values()
    )
