"""What a flange plate bears: suction behind a shut gate and for good, a hand once, held at its bolts."""

from __future__ import annotations

from collections.abc import Sequence

from fitwright.frame import Frame
from fitwright.loads import LoadCase, LoadFace, Support
from fitwright.parts.plate.flats import Piece
from fitwright.physics.by_hand import HAND_N
from fitwright.spec.suction import Suction
from fitwright.units import Units, format_area

KEY = "thickness"
AWAY, TOWARD = (0.0, 1.0, 0.0), (0.0, -1.0, 0.0)


def load_faces(piece: Piece, washers_mm: Sequence[float]) -> tuple[LoadFace, ...]:
    """Its front, and on it the disc under each bolt's washer, whose diameter is given [mm]."""
    flat, frame = piece.model, piece.frame
    left, low, right, high = flat.outline.bounds_mm
    front = LoadFace(f"{piece.name} front", piece.name, "flat", frame, (left, right), (low, high))
    discs = []
    for k, (hole, washer) in enumerate(zip(flat.holes, washers_mm, strict=True), start=1):
        there = Frame(frame.point(hole.at[0], 0.0, hole.at[1]), frame.inward, frame.right)
        half = -washer / 2, washer / 2
        discs.append(LoadFace(f"{piece.name} washer {k}", piece.name, "flat", there, half, half, disc_mm=washer))
    return (front, *discs)


def supports(faces: tuple[LoadFace, ...]) -> tuple[Support, ...]:
    """Each bolt holds under its washer, both ways; where the flange behind it ends, nobody knows."""
    return tuple(Support(one.name, "washer") for one in faces if one.disc_mm)


def load_cases(piece: Piece, faces: tuple[LoadFace, ...], pull: Suction, units: Units) -> tuple[LoadCase, ...]:
    """Suction on all that is plate, once and for good, and a hand; none where nothing holds it by bolts."""
    front, *discs = faces
    if not discs:
        return ()
    held = tuple(one.name for one in discs)
    area = piece.model.area_mm2
    sucked = [
        LoadCase(
            f"suction of {said}",
            piece.name,
            front.name,
            pa * 1e-6 * area,
            (AWAY,),
            held,
            lasting=lasting,
            why=f"{pull.words(units)}, on {format_area(area, units)} of plate",
            key=KEY,
        )
        for pa, lasting, said in pull.cases(units)
    ]
    why = "a hand's push while it is fitted"
    hand = LoadCase("hand", piece.name, front.name, HAND_N, (AWAY, TOWARD), held, why=why, key=KEY)
    return *sucked, hand
