"""Where a gate bracket drives the blade to, from faces that were measured on the finished meshes."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from fitwright.checks.motion_faces import face_y_mm, fork, seat_of
from fitwright.data.nuts import nut
from fitwright.errors import BuildError
from fitwright.frame import Vec
from fitwright.mesh import BodyMesh
from fitwright.part import Part
from fitwright.physics.slide.chain import engaged_mm
from fitwright.spec.gate import Blade, GateBracketSpec
from fitwright.spec.gate_coupling import JAM_ROOM_MM, pin_of, rod_washer
from fitwright.spec.printed import as_printed

STACK_MM = 0.5
"""The sleeve was put this near to the jam nut, or somewhere else."""
LIP_MM = 2.0
"""A blade that was not measured is taken to cover its port by so much at the far edge (common practice, no source)."""


@dataclass(frozen=True)
class Driven:
    """Blade and cylinder at both ends of the movement, all y in mm as measured.

    `shut_mm`, `open_mm`: the blade's outer edge as driven: pushed shut by the fork's floor, pulled open by its pin.
    `lost_mm`: what the rod moves between pushing and pulling. `sleeve_mm`: the sleeve's length, 0 where there is none.
    `blade_long_mm`: as measured by the user, or as the port needs it.
    """

    shut_mm: float
    open_mm: float
    lost_mm: float
    nose_face_mm: float
    sleeve_mm: float
    slot_mm: float
    stopped_shut_by: str
    stopped_open_by: str
    blade_long_mm: float
    engaged_open_mm: float

    @property
    def moved_mm(self) -> float:
        """The blade's way."""
        return self.open_mm - self.shut_mm


def driven(part: Part, meshes: Mapping[str, BodyMesh], spec: GateBracketSpec) -> Driven:
    """Both ends of the movement; BuildError where a face is missing or stands elsewhere."""
    cylinder, way = spec.cylinder, 1.0 if spec.layout == "in_line" else -1.0
    floor, nose = face_y_mm(part, meshes, "fork floor"), face_y_mm(part, meshes, "nose face")
    on_blade = fork(part, meshes, floor)
    back = face_y_mm(part, meshes, "coupling back")
    shoulder = back + way * (_nuts_mm(part, meshes, spec, back) + JAM_ROOM_MM)
    sleeve = _sleeve_mm(part, meshes)
    rod_out = nose - way * (cylinder.rod_stub_mm + cylinder.stroke_mm)
    rod_in = _rod_in_mm(spec, nose, way, sleeve)
    own = "the cylinder's own end"
    stops = (own, "the sleeve on the rod" if sleeve and rod_in != nose - way * cylinder.rod_stub_mm else own)
    at_shut, at_open = (rod_out, rod_in) if way > 0 else (rod_in, rod_out)
    lost = floor - _pulled_edge_mm(spec, floor, on_blade.hole)
    shut, opened = floor + at_shut - shoulder, floor + at_open - shoulder - lost
    long = blade_long_mm(spec)
    return Driven(
        shut_mm=shut,
        open_mm=opened,
        lost_mm=lost,
        nose_face_mm=nose,
        sleeve_mm=sleeve,
        slot_mm=on_blade.slot_mm,
        stopped_shut_by=stops[0 if way > 0 else 1],
        stopped_open_by=stops[1 if way > 0 else 0],
        blade_long_mm=long,
        engaged_open_mm=engaged_mm(long, opened, spec.gate.body.length_mm),
    )


def blade_long_mm(spec: GateBracketSpec) -> float:
    """The blade's length as measured; else so long that it covers the port's far edge by a lip, shut by hand."""
    gate = spec.gate
    return gate.blade.length_mm or gate.shut_mm + gate.port.to_edge_mm + gate.port.d_mm / 2 + LIP_MM


def pin_d_mm(blade: Blade) -> float | None:
    """Diameter of the pin through the blade's hole [mm]; None where there is no pin."""
    row = pin_of(blade)
    return row.major_mm if row else None


def _nuts_mm(part: Part, meshes: Mapping[str, BodyMesh], spec: GateBracketSpec, back_mm: float) -> float:
    """Jam nut and washer on the coupling's back; the sleeve must stand on them, or it slides there."""
    stack = nut(spec.cylinder.rod_thread, "thin").m_mm + rod_washer(spec)[0]
    if seat_of(part, "sleeve begin") is not None:
        stands = abs(face_y_mm(part, meshes, "sleeve begin") - back_mm)
        if abs(stack - stands) > STACK_MM:
            found = f"the sleeve was put {stands:.2f} mm off the coupling, its nuts are {stack:.2f} mm high"
            raise BuildError(f"not checked: {found}")
    return stack


def _sleeve_mm(part: Part, meshes: Mapping[str, BodyMesh]) -> float:
    if seat_of(part, "sleeve begin") is None and seat_of(part, "sleeve end") is None:
        return 0.0
    return abs(face_y_mm(part, meshes, "sleeve end") - face_y_mm(part, meshes, "sleeve begin"))


def _rod_in_mm(spec: GateBracketSpec, nose_mm: float, way: float, sleeve_mm: float) -> float:
    """The rod's shoulder, rod in: the cylinder's own end, or earlier, the sleeve between its nose and the jam nut."""
    own = nose_mm - way * spec.cylinder.rod_stub_mm
    if sleeve_mm <= 0.0:
        return own
    squeezed = nose_mm - way * (spec.cylinder.nose_mm + sleeve_mm - JAM_ROOM_MM)
    return min(own, squeezed) if way > 0 else max(own, squeezed)


def _pulled_edge_mm(spec: GateBracketSpec, floor_mm: float, hole: tuple[Vec, Vec] | None) -> float:
    """The blade's edge when its pin pulls, the pin's slot as it prints; its floor's place if clamped."""
    blade, pin = spec.gate.blade, pin_d_mm(spec.gate.blade)
    if pin is None or hole is None or blade.hole_mm is None or blade.hole_to_edge_mm is None:
        return floor_mm
    slot = hole[1][1] - hole[0][1]
    opened = (as_printed(slot, "hole", spec.printer) - slot) / 2
    return hole[0][1] - opened + pin + blade.hole_to_edge_mm - blade.hole_mm / 2
