"""What a flange plate bears: the collector's suction for good, a hand once, held at its bolts."""

from __future__ import annotations

from collections.abc import Sequence

from fitwright.frame import Frame
from fitwright.part import LoadCase, LoadFace
from fitwright.parts.plate.flats import Piece

SUCTION_PA = 3000.0
"""A collector pulling at a blocked duct: 12 in of water (common practice, no source)."""
HAND_N = 50.0
"""A push with the hand while it is fitted (common practice, no source)."""
AWAY, TOWARD = (0.0, 1.0, 0.0), (0.0, -1.0, 0.0)


def load_faces(piece: Piece, washers_mm: Sequence[float]) -> tuple[LoadFace, ...]:
    """Its front, and the rim of each bolt hole; of a slot the square under its washer, whose diameter is given [mm]."""
    flat, frame = piece.model, piece.frame
    left, low, right, high = flat.outline.bounds_mm
    front = LoadFace(f"{piece.name} front", piece.name, "flat", frame, (left, right), (low, high))
    rims = []
    for k, (hole, washer) in enumerate(zip(flat.holes, washers_mm, strict=True)):
        there = Frame(frame.point(hole.at[0], 0.0, hole.at[1]), frame.inward, frame.right)
        if hole.long_mm:
            half = (-washer / 2, washer / 2)
            rims.append(LoadFace(f"{piece.name} slot {k + 1}", piece.name, "flat", there, half, half))
            continue
        name, deep = f"{piece.name} bolt hole {k + 1}", (0.0, flat.thickness_mm)
        rims.append(LoadFace(name, piece.name, "round", there, r_mm=hole.d_mm / 2, s_mm=deep))
    return (front, *rims)


def load_cases(piece: Piece, faces: tuple[LoadFace, ...]) -> tuple[LoadCase, ...]:
    """Suction on all that is plate, and a hand; none where nothing holds it by bolts."""
    front, *rims = faces
    if not rims:
        return ()
    held = tuple(one.name for one in rims)
    area_m2 = piece.model.area_mm2 * 1e-6
    suction = LoadCase(
        "suction",
        piece.name,
        front.name,
        SUCTION_PA * area_m2,
        (AWAY,),
        held,
        lasting=True,
        why=f"{SUCTION_PA / 1000:g} kPa on {piece.model.area_mm2 / 100:.0f} cm2 of plate, as behind a shut gate",
    )
    hand = LoadCase(
        "hand", piece.name, front.name, HAND_N, (AWAY, TOWARD), held, why="a hand's push while it is fitted"
    )
    return suction, hand
