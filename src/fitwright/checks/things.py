"""What the clearance check looks at: bodies and stand-ins as closed meshes."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import lru_cache

import manifold3d
import numpy as np
from numpy.typing import NDArray
from trimesh import Trimesh

from fitwright.checks.swept import swept
from fitwright.errors import BuildError
from fitwright.finding import Finding, Severity
from fitwright.frame import Vec
from fitwright.mesh import BodyMesh, mesh_shape, to_manifold
from fitwright.part import Motion, Part, StandIn
from fitwright.tolerances import TOLERANCES

Points = NDArray[np.float64]

CODE = "clearance"
TOOL_ROOM = "driver line"
"""Stand-ins whose name says this are room for a tool and no thing: it must be free once, not always."""
ROOM_ONLY = (TOOL_ROOM, "hose bend")
"""These are room and no thing: where it is taken, another tool, order of work or bend may do."""


@dataclass(frozen=True)
class Thing:
    """A body or a stand-in: as a closed mesh whose facets stray from the true surface by no more than `chord_mm`."""

    name: str
    mesh: Trimesh
    solid: manifold3d.Manifold
    chord_mm: float
    source: StandIn | None = None
    body_called: str = "the part"
    """What messages call it if it is a body."""
    when: str = ""
    """Where of its motion it stands, in words: `shut`, `53 of 106 mm open`."""
    rest: Thing | None = None
    """Of the room that a moving thing passes through: the thing where its motion begins."""
    motion: Motion | None = None
    moved_by: Vec | None = None
    """How far it was moved from where it is modelled."""

    @property
    def room_only(self) -> bool:
        """True for room that a tool or a hose needs: where it is taken, another tool or order of work may do."""
        return self.source is not None and any(word in self.name for word in ROOM_ONLY)

    @property
    def tool_room(self) -> bool:
        """True for room that a hand tool needs only when it is used."""
        return self.source is not None and TOOL_ROOM in self.name

    @property
    def called(self) -> str:
        """What messages call it: `the part`, `the end_a pipe`, `the gate blade (open)`."""
        when = f" ({self.when})" if self.when else ""
        if self.source is None:
            return self.body_called + when
        joint = self.source.seats_in
        return (f"the {self.name}" if joint in self.name else f"the {self.name} at {joint}") + when

    def at(self, share: float) -> Thing:
        """A moving thing, or what stands for its way, after this share (0 to 1) of its motion."""
        if self.motion is None:
            return self
        still, by = self.rest or self, self.motion.shift(share)
        mesh = still.mesh.copy()
        mesh.apply_translation(by)
        when = position(self.motion, share)
        return replace(still, mesh=mesh, solid=still.solid.translate(by), when=when, motion=None, moved_by=by)

    @property
    def points(self) -> Points:
        """Corners of the mesh."""
        return np.asarray(self.mesh.vertices, dtype=np.float64)


def position(motion: Motion, share: float) -> str:
    """Where of its motion a thing is: `shut`, `open`, `half way, 53 of 106 mm open`."""
    if share <= 1e-6:
        return motion.begin
    if share >= 1.0 - 1e-6:
        return motion.end
    middle = "half way, " if abs(share - 0.5) < 0.125 else ""
    return f"{middle}{share * motion.travel_mm:.0f} of {motion.travel_mm:.0f} mm {motion.end}"


def on_its_way(thing: Thing, motion: Motion) -> Thing:
    """The room that a thing passes through from the beginning of the motion to its end, as a thing of its own."""
    solid = swept(thing.solid, motion.shift(1.0))
    mesh = solid.to_mesh64()
    corners, faces = np.asarray(mesh.vert_properties)[:, :3], np.asarray(mesh.tri_verts, dtype=np.int64)
    passed = Trimesh(corners, faces, process=False, validate=False)
    return replace(thing, mesh=passed, solid=solid, rest=thing, motion=motion, when="on its way")


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
        called = "the part" if part.motion is None else f"the {body.name.replace('_', ' ')}"
        try:
            solid = to_manifold(finished.mesh)
            found.append(Thing(body.name, finished.mesh, solid, finished.chord_mm, body_called=called))
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


@lru_cache(maxsize=256)
def _meshed(stand_in: StandIn, chord_mm: float) -> Thing:
    """Kept, since two checks ask for the same; its mesh is not to be moved."""
    mesh = mesh_shape(stand_in.solid, chord_mm, TOLERANCES.stand_in_angle_rad)
    return Thing(stand_in.name, mesh, to_manifold(mesh), chord_mm, stand_in)


def finer(thing: Thing) -> Thing:
    """A stand-in meshed as finely as a body: asked for only where the coarse one leaves a doubt."""
    if thing.source is None or thing.chord_mm <= TOLERANCES.mesh_chord_mm:
        return thing
    if thing.rest is not None and thing.motion is not None:
        return on_its_way(finer(thing.rest), thing.motion)
    fine = _meshed(thing.source, TOLERANCES.mesh_chord_mm)
    if thing.moved_by is None:
        return fine
    mesh, solid = fine.mesh.copy(), fine.solid.translate(thing.moved_by)
    mesh.apply_translation(thing.moved_by)
    return replace(fine, mesh=mesh, solid=solid, when=thing.when, moved_by=thing.moved_by)


def unseated(thing: Thing) -> manifold3d.Manifold:
    """A stand-in without the zone where it is meant to touch."""
    if thing.source is None or thing.source.zone is None:
        return thing.solid
    return thing.solid - to_manifold(mesh_shape(thing.source.zone, thing.chord_mm, TOLERANCES.stand_in_angle_rad))


def never_together(one: Thing, other: Thing) -> bool:
    """Whether the one is only needed before the other is there."""
    pairs = ((one.source, other.source), (other.source, one.source))
    return any(a and b and a.before and b.seats_in.startswith(a.before) for a, b in pairs)


def in_words(volume_mm3: float) -> str:
    """A volume without false accuracy."""
    return f"{volume_mm3:.2g} mm3" if volume_mm3 < 10 else f"{volume_mm3:.0f} mm3"
