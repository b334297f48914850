"""What a flange plate bears: the collector's suction for good, a hand once, held at its bolts."""

from __future__ import annotations

from collections.abc import Sequence

from fitwright.frame import Frame
from fitwright.loads import LoadCase, LoadFace, Support
from fitwright.parts.plate.flats import Piece
from fitwright.physics.by_hand import HAND_N
from fitwright.physics.ring import COLLECTOR_MPA

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


def load_cases(piece: Piece, faces: tuple[LoadFace, ...]) -> tuple[LoadCase, ...]:
    """Suction on all that is plate, and a hand; none where nothing holds it by bolts."""
    front, *discs = faces
    if not discs:
        return ()
    held = tuple(one.name for one in discs)
    suction = LoadCase(
        "suction",
        piece.name,
        front.name,
        COLLECTOR_MPA * piece.model.area_mm2,
        (AWAY,),
        held,
        lasting=True,
        why=f"{1000 * COLLECTOR_MPA:g} kPa on {piece.model.area_mm2 / 100:.0f} cm2 of plate, as behind a shut gate",
    )
    hand = LoadCase(
        "hand", piece.name, front.name, HAND_N, (AWAY, TOWARD), held, why="a hand's push while it is fitted"
    )
    return suction, hand
