"""The flange plate: a flat plate with openings and bolt holes, printed or cut from sheet, and the gasket behind it."""

from __future__ import annotations

from fitwright.part import Part
from fitwright.parts.plate.bodies import plate_body
from fitwright.parts.plate.faces import printed_face
from fitwright.parts.plate.flats import pieces
from fitwright.parts.plate.loads import load_cases, load_faces, supports
from fitwright.parts.plate.matched import filled
from fitwright.parts.plate.words import (
    plate_assumed,
    plate_cautions,
    plate_dimensions,
    plate_facts,
    plate_hardware,
)
from fitwright.spec.air_run import suction_of
from fitwright.spec.models import FlangePlateSpec


def build_flange_plate(spec: FlangePlateSpec) -> Part:
    """The part; RefusalError names the key where flange, gasket and plate do not go together."""
    spec = filled(spec)
    flat = pieces(spec)
    bearing = flat[0] if flat[0].name == "plate" else None
    washers = [pattern.holes.washer_d_mm for pattern in spec.patterns for _ in pattern.holes.points]
    faces = load_faces(bearing, washers) if bearing is not None else ()
    return Part(
        name=spec.name,
        family=spec.part,
        bodies=tuple(plate_body(piece, spec) for piece in flat),
        dimensions=plate_dimensions(flat),
        section_at_mm=flat[0].model.thickness_mm / 2,
        facts=plate_facts(spec, flat),
        assumed=plate_assumed(spec),
        cautions=plate_cautions(spec),
        templates=tuple(printed_face(piece) for piece in flat if piece.name == "plate" and spec.plate == "printed"),
        hardware=plate_hardware(spec),
        load_faces=faces,
        loads=load_cases(bearing, faces, suction_of(spec), spec.units) if bearing is not None else (),
        supports=supports(faces),
    )
