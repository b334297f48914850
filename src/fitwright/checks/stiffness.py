"""Check `stiffness`: how far does the cylinder's nose move and tilt when it pushes, and does the coupling bear that?

Closed forms over sections that are measured on the finished bodies.
"""

from __future__ import annotations

from collections.abc import Mapping

from fitwright.checks.motion_axis import axes
from fitwright.checks.motion_chain import driven
from fitwright.checks.motion_faces import face_y_mm, seat_of
from fitwright.checks.motion_load import load
from fitwright.checks.stiffness_frames import Push, on_board, on_rods, one_piece
from fitwright.errors import BuildError
from fitwright.finding import Finding
from fitwright.mesh import BodyMesh
from fitwright.part import Part
from fitwright.physics.slide.frames import LIMIT_DEG, LIMIT_MM, Movement
from fitwright.spec.gate import GateBracketSpec
from fitwright.spec.part_base import PartBase

CODE = "stiffness"
LASTING = 0.5
"""A plastic under lasting load gives about twice as much as at once (common practice, no source)."""
MARGIN = 1.25
"""Less than this to the limit warns."""


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
    moved = _movement(part, meshes, spec, on.force_n)
    nose = seat_of(part, "nose face")
    assert nose is not None
    words = (
        f"at {on.force_n:.0f} N the cylinder's nose moves {moved.moves_mm:.2f} mm and tilts {moved.tilt_deg:.2f} deg"
    )
    share = max(moved.moves_mm / LIMIT_MM, moved.tilt_deg / LIMIT_DEG)
    by_tilt = moved.tilt_deg / LIMIT_DEG >= moved.moves_mm / LIMIT_MM
    value, limit, unit = (moved.tilt_deg, LIMIT_DEG, "deg") if by_tilt else (moved.moves_mm, LIMIT_MM, "mm")
    advice = f"{LIMIT_MM} mm and {LIMIT_DEG} deg are allowed: frame: rods, a stiffer material, or less pressure."
    if share > 1.0:
        return [Finding(CODE, "fail", nose.body, value, limit, unit, "frame", words, advice)]
    if share * MARGIN > 1.0:
        return [Finding(CODE, "warn", nose.body, value, limit, unit, "frame", f"{words}: hardly stiff enough", advice)]
    return [Finding(CODE, "pass", nose.body, value, limit, unit, "frame", words)]


def _movement(part: Part, meshes: Mapping[str, BodyMesh], spec: GateBracketSpec, force_n: float) -> Movement:
    """By the kind of frame, as the bodies show it."""
    nose, yoke, cylinder = seat_of(part, "nose face"), seat_of(part, "yoke face"), spec.cylinder
    if nose is None or yoke is None:
        raise BuildError("not checked: no body of the part names its nose face and its yoke face")
    axis = axes(part, meshes, spec).cylinder
    carried = spec.support_down_mm is not None or any(body.name.startswith("support") for body in part.bodies)
    way = 1.0 if spec.layout == "in_line" else -1.0
    mass = 0.0 if carried else cylinder.mass_kg
    push = Push(force_n, LASTING * spec.material.modulus_mpa, mass, way * cylinder.long_mm / 2)
    nose_y = face_y_mm(part, meshes, "nose face")
    if spec.frame == "board":
        return on_board(part, meshes, spec, axis, push)
    if nose.body == yoke.body:
        return one_piece(meshes[nose.body].mesh, face_y_mm(part, meshes, "yoke face"), nose_y, axis, push)
    return on_rods(part, meshes, nose_y, axis, push)
