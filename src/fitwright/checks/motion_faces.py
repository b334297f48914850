"""The faces that a gate bracket's movement hangs on, measured on the finished meshes by lines through them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
import trimesh
from numpy.typing import NDArray

from fitwright.errors import BuildError
from fitwright.frame import Vec
from fitwright.mesh import BodyMesh
from fitwright.part import Part, Seat

FOUND_WITHIN_MM = 15.0
"""A face that lies further than this from where it was meant to be counts as not there."""
ON_EDGE = 1e-9
BESIDE_MM = (0.0113, 0.0171)
"""A line goes so much beside the point that it was asked through: faces are parted along their middles."""
SAME_MM = 1e-6
SLOT_STEPS = 7
PIN_WITHIN_MM, PIN_STEP_MM = 15.0, 0.25
JAW = "jaw"
"""The upper jaw is a body of its own where the blade is clamped."""
JAW_MM = 2.0
"""How far inside a jaw of the fork its pin hole is looked for."""


@dataclass(frozen=True)
class Crossings:
    """Where a line meets a mesh: `at_mm` along it in rising order; `enters` True where it goes into the material."""

    at_mm: NDArray[np.float64]
    enters: NDArray[np.bool_]


@dataclass(frozen=True)
class Fork:
    """The fork on the blade: its slot's least width, upper jaw's face, pin hole's low and high corner (or None)."""

    slot_mm: float
    upper_z_mm: float
    hole: tuple[Vec, Vec] | None


def crossings(mesh: trimesh.Trimesh, start: Vec, along: Vec) -> Crossings:
    """Every place where the whole line through `start` along the unit vector `along` meets the mesh."""
    corner = np.asarray(mesh.triangles, dtype=np.float64)
    direction = np.asarray(along, dtype=np.float64)
    u, v = corner[:, 1] - corner[:, 0], corner[:, 2] - corner[:, 0]
    across = np.cross(direction, v)
    det = np.einsum("ij,ij->i", u, across)
    flat = np.abs(det) < 1e-14
    safe = np.where(flat, 1.0, det)
    to_start = np.asarray(start, dtype=np.float64) - corner[:, 0]
    a = np.einsum("ij,ij->i", to_start, across) / safe
    turned = np.cross(to_start, u)
    b = turned @ direction / safe
    met = ~flat & (a >= -ON_EDGE) & (b >= -ON_EDGE) & (a + b <= 1.0 + ON_EDGE)
    far = np.einsum("ij,ij->i", v, turned)[met] / safe[met]
    order = np.argsort(far)
    far, enters = far[order], (det[met] > 0.0)[order]
    new = np.ones(len(far), dtype=np.bool_)
    new[1:] = (np.diff(far) > SAME_MM) | (enters[1:] != enters[:-1])
    return Crossings(far[new], enters[new])


def seat_of(part: Part, name: str) -> Seat | None:
    """The declared face of this name; None where the part has none."""
    return next((seat for seat in part.seats if seat.name == name), None)


def face_y_mm(part: Part, meshes: Mapping[str, BodyMesh], name: str) -> float:
    """y of a declared face as it was built: the place nearest to the declared one where the body begins.

    Raises
    ------
    BuildError
        No such face is declared, or there is none within 15 mm of where it was meant to be.
    """
    seat = seat_of(part, name)
    if seat is None:
        raise BuildError(f"not checked: no body of the part names its {name}")
    if seat.body not in meshes:
        raise BuildError(f"not checked: the {name} belongs to a body {seat.body} that the part does not have")
    if abs(seat.out[1]) < 0.999:
        raise BuildError(f"not checked: the {name} does not look along the movement")
    x, y, z = seat.at
    into = (-seat.out[0], -seat.out[1], -seat.out[2])
    found = crossings(meshes[seat.body].mesh, (x + BESIDE_MM[0], y, z + BESIDE_MM[1]), into)
    near = found.at_mm[found.enters]
    if len(near) == 0 or np.abs(near).min() > FOUND_WITHIN_MM:
        raise BuildError(f"not checked: the {name} of {seat.body} is not where it was meant to be")
    return y + float(near[np.argmin(np.abs(near))]) * into[1]


def fork(part: Part, meshes: Mapping[str, BodyMesh], floor_y_mm: float) -> Fork:
    """The fork's slot and pin hole, measured on the body that has the fork's floor."""
    seat = seat_of(part, "fork floor")
    assert seat is not None
    mesh = meshes[seat.body].mesh
    if JAW in meshes:
        mesh = trimesh.util.concatenate([mesh, meshes[JAW].mesh])
    slot, upper = _slot(mesh, seat.at[0], floor_y_mm)
    return Fork(slot, upper, _pin_hole(mesh, seat.at[0], floor_y_mm, upper + JAW_MM))


def _slot(mesh: trimesh.Trimesh, x_mm: float, floor_y_mm: float) -> tuple[float, float]:
    """Least gap between the jaws, and the upper jaw's lower face, over a grid of lines square to the blade."""
    low, high = mesh.bounds
    half = 0.9 * min(x_mm - low[0], high[0] - x_mm)
    widths, uppers = [], []
    for x in x_mm + np.linspace(-half, half, SLOT_STEPS) + BESIDE_MM[0]:
        for y in np.linspace(low[1], floor_y_mm, SLOT_STEPS + 2)[1:-1] + BESIDE_MM[1]:
            found = crossings(mesh, (float(x), float(y), 0.0), (0.0, 0.0, 1.0))
            above = found.at_mm[found.enters & (found.at_mm > 0.0)]
            below = found.at_mm[~found.enters & (found.at_mm < 0.0)]
            if len(above) and len(below):
                widths.append(float(above[0] - below[-1]))
                uppers.append(float(above[0]))
    if not widths:
        raise BuildError("not checked: the coupling has no fork round the blade's plane")
    return min(widths), min(uppers)


def _pin_hole(mesh: trimesh.Trimesh, x_mm: float, floor_y_mm: float, z_mm: float) -> tuple[Vec, Vec] | None:
    """The gap in the upper jaw between the fork's tip and its floor: lowest and highest corner over lines along y."""
    found = [
        (x, *gap)
        for x in x_mm + np.arange(-PIN_WITHIN_MM, PIN_WITHIN_MM, PIN_STEP_MM) + BESIDE_MM[0]
        if (gap := _gap_along_y(mesh, float(x), floor_y_mm, z_mm)) is not None
    ]
    if not found:
        return None
    xs, lows, highs = (np.array(column) for column in zip(*found, strict=True))
    return (float(xs.min()), float(lows.min()), z_mm), (float(xs.max()), float(highs.max()), z_mm)


def _gap_along_y(mesh: trimesh.Trimesh, x_mm: float, floor_y_mm: float, z_mm: float) -> tuple[float, float] | None:
    found = crossings(mesh, (x_mm, 0.0, z_mm), (0.0, 1.0, 0.0))
    enters = found.at_mm[found.enters]
    for leaves in found.at_mm[~found.enters]:
        again = enters[enters > leaves]
        if len(again) and again[0] < floor_y_mm + JAW_MM:
            return float(leaves), float(again[0])
    return None
