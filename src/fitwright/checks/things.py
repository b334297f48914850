"""What the clearance check looks at: bodies and stand-ins as closed meshes."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import manifold3d
import numpy as np
from numpy.typing import NDArray
from trimesh import Trimesh

from fitwright.errors import BuildError
from fitwright.finding import Finding, Severity
from fitwright.mesh import BodyMesh, mesh_shape, to_manifold
from fitwright.part import Part, StandIn
from fitwright.tolerances import TOLERANCES

Points = NDArray[np.float64]

CODE = "clearance"
ROOM_ONLY = "driver line"
"""Stand-ins whose name says this are room and no thing."""


@dataclass(frozen=True)
class Thing:
    """A body or a stand-in: as a closed mesh whose facets stray from the true surface by no more than `chord_mm`."""

    name: str
    mesh: Trimesh
    solid: manifold3d.Manifold
    chord_mm: float
    source: StandIn | None = None

    @property
    def room_only(self) -> bool:
        """True for room that a hand tool needs: where it is taken, another tool or order of work may do."""
        return self.source is not None and ROOM_ONLY in self.name

    @property
    def called(self) -> str:
        """What messages call it: `the part`, `the end_a pipe`."""
        if self.source is None:
            return "the part"
        joint = self.source.seats_in
        return f"the {self.name}" if joint in self.name else f"the {self.name} at {joint}"

    @property
    def points(self) -> Points:
        """Corners of the mesh."""
        return np.asarray(self.mesh.vertices, dtype=np.float64)


def finding(
    severity: Severity,
    name: str,
    value: float | None,
    limit: float | None,
    place: str,
    message: str,
    advice: str = "",
    unit: str = "mm",
) -> Finding:
    """A finding of this check about the body `name` (empty: the whole part)."""
    unit = unit if value is not None or limit is not None else ""
    return Finding(CODE, severity, name, value, limit, unit, place, message, advice)


def bodies_of(part: Part, meshes: Mapping[str, BodyMesh], findings: list[Finding]) -> list[Thing]:
    """The bodies whose mesh is sound; a finding for each that is not."""
    found = []
    for body in part.bodies:
        finished = meshes[body.name]
        try:
            found.append(Thing(body.name, finished.mesh, to_manifold(finished.mesh), finished.chord_mm))
        except BuildError as error:
            findings.append(finding("fail", body.name, None, None, "whole body", str(error)))
    return found


def stand_ins_of(part: Part, findings: list[Finding]) -> list[Thing]:
    """The stand-ins, meshed coarsely; a finding for each that is not sound."""
    found = []
    for stand_in in part.stand_ins:
        try:
            found.append(_meshed(stand_in, TOLERANCES.stand_in_chord_mm))
        except BuildError as error:
            findings.append(finding("fail", "", None, None, stand_in.name, f"{stand_in.name}: {error}"))
    return found


def _meshed(stand_in: StandIn, chord_mm: float) -> Thing:
    mesh = mesh_shape(stand_in.solid, chord_mm, TOLERANCES.stand_in_angle_rad)
    return Thing(stand_in.name, mesh, to_manifold(mesh), chord_mm, stand_in)


def finer(thing: Thing) -> Thing:
    """A stand-in meshed as finely as a body: asked for only where the coarse one leaves a doubt."""
    if thing.source is None or thing.chord_mm <= TOLERANCES.mesh_chord_mm:
        return thing
    return _meshed(thing.source, TOLERANCES.mesh_chord_mm)


def unseated(thing: Thing) -> manifold3d.Manifold:
    """A stand-in without the zone where it is meant to touch."""
    if thing.source is None or thing.source.zone is None:
        return thing.solid
    return thing.solid - to_manifold(mesh_shape(thing.source.zone, thing.chord_mm, TOLERANCES.stand_in_angle_rad))


def in_words(volume_mm3: float) -> str:
    """A volume without false accuracy."""
    return f"{volume_mm3:.2g} mm3" if volume_mm3 < 10 else f"{volume_mm3:.0f} mm3"
