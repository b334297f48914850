"""Check `stiffness`: how far does the cylinder's nose move and tilt when it pushes, and does the coupling bear that?

Closed forms over sections that are measured on the finished bodies.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from fitwright.checks.motion_axis import axes
from fitwright.checks.motion_chain import driven
from fitwright.checks.motion_faces import face_y_mm, seat_of
from fitwright.checks.motion_load import load
from fitwright.checks.stiffness_beside import beside
from fitwright.checks.stiffness_frames import Given, Push, gate_body, on_board, on_rods, one_piece
from fitwright.finding import Finding
from fitwright.mesh import BodyMesh
from fitwright.part import Part
from fitwright.physics.slide.frames import LIMIT_DEG, LIMIT_MM, Movement
from fitwright.spec.gate import GateBracketSpec
from fitwright.spec.part_base import PartBase

CODE, WEIGHT = "stiffness", "stiffness.weight"
MARGIN = 1.1
"""Less than this to the limit warns."""
SAGS = 4.0
"""What sags by more than so many times the limit takes more than the coupling's play (common practice, no source)."""


def check(part: Part, meshes: Mapping[str, BodyMesh], spec: PartBase) -> list[Finding]:
    """Movement and tilt of the nose face at running force; none for parts that are no gate brackets.

    Raises
    ------
    BuildError
        A face, hole or section that it hangs on was not found on the finished bodies.
    """
    if not isinstance(spec, GateBracketSpec):
        return []
    on = load(part, meshes, spec, driven(part, meshes, spec))
    nose = seat_of(part, "nose face")
    assert nose is not None
    if spec.layout == "alongside":  # drag and the guide's couple balance on the gate: running force decides
        drag, axis = on.drag.greatest_n, axes(part, meshes, spec).cylinder
        push = (drag, on.toll * drag, spec.material.lasting_modulus_mpa)
        return [_thrust(beside(part, meshes, spec, axis, push), on.toll * drag, nose.body)]
    given = _given(part, meshes, spec, on.force_n)
    return [_thrust(given.thrust, on.force_n, nose.body), *_weight(given.weight, part, spec, nose.body)]


def _thrust(moved: Movement, force_n: float, body: str) -> Finding:
    words = f"at {force_n:.0f} N the cylinder's nose {_moves(moved)}"
    share, numbers = _worst(moved)
    advice = f"{LIMIT_MM} mm and {LIMIT_DEG} deg are allowed: frame: rods, a stiffer material, or less pressure."
    if share > 1.0:
        return Finding(CODE, "fail", body, *numbers, "frame", words, advice)
    if share * MARGIN > 1.0:
        return Finding(CODE, "warn", body, *numbers, "frame", f"{words}: only just stiff enough", advice)
    return Finding(CODE, "pass", body, *numbers, "frame", words)


def _weight(moved: Movement, part: Part, spec: GateBracketSpec, body: str) -> Iterator[Finding]:
    """Level, the cylinder's weight bends the frame all the time; a support takes it, upright it does not."""
    carried = spec.support_down_mm is not None or any(one.name.startswith("support") for one in part.bodies)
    if carried or spec.mounted in ("blade_up", "blade_down") or spec.frame == "board":
        return
    words = f"lying level, the cylinder's weight ({spec.cylinder.mass_kg:.2f} kg) alone: its nose {_moves(moved)}"
    share, numbers = _worst(moved)
    if share <= 1.0:
        yield Finding(WEIGHT, "pass", body, *numbers, "cylinder", words)
        return
    advice = "Give it a second support (support), or say mounted: blade_up or blade_down if it stands upright."
    yield Finding(WEIGHT, "fail" if share > SAGS else "warn", body, *numbers, "cylinder", words, advice)


def _moves(moved: Movement) -> str:
    return f"moves {moved.moves_mm:.2f} mm and tilts {moved.tilt_deg:.2f} deg"


def _worst(moved: Movement) -> tuple[float, tuple[float, float, str]]:
    """The greater share of its limit, with value, limit and unit."""
    both = ((moved.moves_mm, LIMIT_MM, "mm"), (abs(moved.tilt_deg), LIMIT_DEG, "deg"))
    worst = max(both, key=lambda one: one[0] / one[1])
    return worst[0] / worst[1], worst


def _given(part: Part, meshes: Mapping[str, BodyMesh], spec: GateBracketSpec, force_n: float) -> Given:
    """By the kind of frame, as the bodies show it."""
    nose, cylinder = seat_of(part, "nose face"), spec.cylinder
    assert nose is not None
    axis = axes(part, meshes, spec).cylinder
    way = 1.0 if spec.layout == "in_line" else -1.0
    push = Push(force_n, spec.material.lasting_modulus_mpa, cylinder.mass_kg, way * cylinder.long_mm / 2)
    nose_y, mesh = face_y_mm(part, meshes, "nose face"), meshes[nose.body].mesh
    if spec.frame == "board":
        return on_board(part, meshes, spec, axis, push)
    if mesh is gate_body(part, meshes):
        return one_piece(mesh, nose_y, axis, push)
    return on_rods(part, meshes, nose_y, axis, push)
