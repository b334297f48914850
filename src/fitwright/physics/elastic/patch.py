"""A named face on the mesh: which part of the boundary it is, and the forces that act on it, as numpy arrays."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from fitwright.frame import Frame, Vec
from fitwright.loads import LoadFace
from fitwright.physics.elastic.meshed import NotAnalysedError
from fitwright.physics.elastic.space import Space

Array = NDArray[np.float64]
LEAST_AREA_MM2 = 0.5
"""A face of which less is found on the solid is not there."""
LEAST_PRESSED = 0.1
"""Where a force presses with less than this share of the face, it does not press: it hangs on it by friction."""
ALIGNED = 0.5
"""Cosine: what looks further away than 60 deg from the face's own direction is another face."""


@dataclass(frozen=True)
class Patch:
    """A face as found: `weights` (n,) integrals of the scalar functions over it, `axis` into the material or along it.

    `normals` (n, 3) into the material at each function's place.
    """

    name: str
    space: Space
    weights: Array
    axis: Vec
    normals: Array
    indicator: Any
    closed: bool = False
    """All round an axis."""

    @property
    def area_mm2(self) -> float:
        """Sum of the vertices' weights (times its share, where it was weighed)."""
        return float(self.weights[: self.space.vertices].sum())

    @property
    def middle(self) -> Array:
        """Centroid [mm]."""
        return np.asarray(self.weights @ self.space.place / self.area_mm2)

    def weighed(self, share: Array) -> Patch:
        """The same, where each place counts by a share (n,)."""
        return replace(self, weights=self.weights * share)

    def pressed_along(self, direction: Vec) -> Patch:
        """Weighed by how a force along `direction` presses into the material: max(0, cosine); whole where it cannot.

        A hose in a clamp pushes on the side that it is pulled to, and not on the other.
        """
        pressed = self.weighed(np.maximum(self.normals @ np.asarray(direction), 0.0))
        return pressed if pressed.area_mm2 > LEAST_PRESSED * self.area_mm2 else self

    def spread(self, direction: Vec) -> Array:
        """A force of 1 N along `direction`, spread over the face, (3, n)."""
        return np.outer(np.asarray(direction), self.weights / self.area_mm2)

    def couple(self, moment: Array) -> Array:
        """A moment [N mm] about its middle with no resultant, as a traction that is linear in place, (3, n)."""
        away = self.space.points - self.middle
        modes = [np.cross(axis, away).T * self.weights for axis in np.eye(3)]
        modes = [
            mode - np.outer(mode[:, : self.space.vertices].sum(axis=1), self.weights / self.area_mm2) for mode in modes
        ]
        gram = np.array([self.moment(mode) for mode in modes]).T
        shares = np.linalg.lstsq(gram, moment, rcond=1e-9)[0]
        made = sum(share * mode for share, mode in zip(shares, modes, strict=True))
        return np.asarray(made)

    def moment(self, forces: Array) -> Array:
        """Moment [N mm] of a force vector (3, n) about the middle, exact for the curved elements."""
        resultant = forces[:, : self.space.vertices].sum(axis=1)
        return np.asarray(np.cross(self.space.place, forces.T).sum(axis=0) - np.cross(self.middle, resultant))

    def pressed(self, pressure_mpa: float) -> Array:
        """A pressure along the true normal, into the material, (3, n)."""
        import ngsolve

        into = -1.0 * ngsolve.specialcf.normal(3)
        form = ngsolve.LinearForm(self.space.displacement)
        form += self.indicator * into * self.space.displacement.TestFunction() * ngsolve.ds(bonus_intorder=4)
        form.Assemble()
        made = self.space.by_component(pressure_mpa * np.array(form.vec.FV().NumPy()))
        return self._balanced(made) if self.closed else made

    def _balanced(self, forces: Array) -> Array:
        """Without what pushes aside or tips: of a pressure all round, it comes of elements that its edge cuts."""
        net = forces[:, : self.space.vertices].sum(axis=1)
        aside = net - (net @ np.asarray(self.axis)) * np.asarray(self.axis)
        made = forces - np.outer(aside, self.weights / self.area_mm2)
        return made - self.couple(self.moment(made))

    def along(self, displacement: Array, direction: Array) -> float:
        """Mean movement [mm] of the face along a direction; `displacement` (3, n)."""
        return float((direction @ displacement) @ self.weights / self.area_mm2)


def found(face: LoadFace, space: Space) -> Patch:
    """The face on the mesh.

    Raises
    ------
    NotAnalysedError
        There is no such face on the solid.
    """
    indicator = indicator_of(face)
    weights = space.weights(indicator)
    area = float(weights[: space.vertices].sum())
    if area < LEAST_AREA_MM2:
        raise NotAnalysedError(f"the face {face.name!r} was not found on it ({area:.2g} mm2)")
    axis = face.frame.inward
    closed = face.kind == "round" and face.turn_deg[1] - face.turn_deg[0] >= 360.0 - 1e-9
    return Patch(face.name, space, weights, axis, _normals(face, space), indicator, closed)


def indicator_of(face: LoadFace) -> Any:
    """1 on the face, 0 elsewhere on the boundary, as a function of place and outward normal."""
    import ngsolve

    normal = ngsolve.specialcf.normal(3)
    right, s, up = (_along(face.frame, axis) for axis in (face.frame.right, face.frame.inward, face.frame.up))
    if face.kind == "flat":
        looks = -sum(normal[k] * face.frame.inward[k] for k in range(3))
        inside = [_within(right, face.right_mm), _within(up, face.up_mm)] if any((*face.right_mm, *face.up_mm)) else []
        if face.disc_mm:
            inside.append(_positive(face.disc_mm**2 / 4.0 - right * right - up * up))
        return _all([_within(s, (-face.near_mm, face.near_mm)), _positive(looks - ALIGNED), *inside])
    r = ngsolve.sqrt(right * right + up * up)
    along = sum(normal[k] * face.frame.inward[k] for k in range(3))
    shell = _within(r, (face.r_mm - face.near_mm, face.r_mm + face.near_mm))
    return _all([shell, _within(s, face.s_mm), _positive(1.0 - ALIGNED - along * along), *_sector(face, right, up)])


def _sector(face: LoadFace, right: Any, up: Any) -> list[Any]:
    """Within the angles: nearer to their middle than half of what they span."""
    low, high = face.turn_deg
    if high - low >= 360.0 - 1e-9:
        return []
    import ngsolve

    middle, half = math.radians((low + high) / 2.0), math.radians((high - low) / 2.0)
    c, s = math.cos(middle), math.sin(middle)
    toward = up * c + right * s  # turned so that the middle lies at `up`
    aside = right * c - up * s
    return [_positive(half - ngsolve.atan2(ngsolve.sqrt(aside * aside), toward))]


def _normals(face: LoadFace, space: Space) -> Array:
    """Into the material at each function's place: along the axis, or out of or towards the axis of a round face."""
    frame = face.frame
    if face.kind == "flat":
        return np.tile(np.asarray(frame.inward), (len(space.points), 1))
    away = space.points - np.asarray(frame.origin)
    axis = np.asarray(frame.inward)
    radial = away - np.outer(away @ axis, axis)
    unit = radial / np.maximum(np.linalg.norm(radial, axis=1), 1e-9)[:, None]
    return np.asarray(unit * _outward_sign(face, space))


def _outward_sign(face: LoadFace, space: Space) -> float:
    """+1 where the material lies outside of the round face (a bore), -1 where inside (a shaft)."""
    import ngsolve

    normal = ngsolve.specialcf.normal(3)
    right, up = (_along(face.frame, axis) for axis in (face.frame.right, face.frame.up))
    r = ngsolve.sqrt(right * right + up * up)
    across = sum(normal[k] * (face.frame.right[k] * right + face.frame.up[k] * up) / (r + 1e-9) for k in range(3))
    return -1.0 if float(space.weights(indicator_of(face) * across)[: space.vertices].sum()) > 0.0 else 1.0


def _along(frame: Frame, axis: Vec) -> Any:
    import ngsolve

    place = (ngsolve.x, ngsolve.y, ngsolve.z)
    return sum((place[k] - frame.origin[k]) * axis[k] for k in range(3))


def _within(value: Any, span: tuple[float, float]) -> Any:
    return _positive((value - span[0]) * (span[1] - value))


def _positive(value: Any) -> Any:
    import ngsolve

    return ngsolve.IfPos(value, 1.0, 0.0)


def _all(conditions: list[Any]) -> Any:
    made = conditions[0]
    for one in conditions[1:]:
        made = made * one
    return made
