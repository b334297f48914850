"""Obstacles in words: walls, boxes, round bars, cones and meshes that the part keeps clear of or stays inside of."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import replace
from pathlib import Path as FilePath
from typing import Annotated, ClassVar, Literal, TypedDict

from pydantic import Field

from fitwright.frame import Vec
from fitwright.spec import envelope as e
from fitwright.spec.faults import Fault, FaultError, Path, dotted, shown
from fitwright.spec.grammar.base import Forms, Grammar, best_form
from fitwright.spec.grammar.places import REACH, PointValue
from fitwright.spec.grammar.values import Context, Length, Number, Text, Words, YesNo
from fitwright.units import format_length

DIRECTIONS: dict[str, Vec] = {
    "right": (1.0, 0.0, 0.0),
    "left": (-1.0, 0.0, 0.0),
    "away": (0.0, 1.0, 0.0),
    "toward": (0.0, -1.0, 0.0),
    "up": (0.0, 0.0, 1.0),
    "down": (0.0, 0.0, -1.0),
}
Side = Annotated[Literal["up", "down", "left", "right", "away", "toward"], Words(tuple(DIRECTIONS))]
BAR_D = Length(1.0, 3000.0)
_REACH = Annotated[float, REACH]


class _Shared(TypedDict):
    key: str
    clearance_mm: float
    label: str | None


class ObstacleKeys(Grammar):
    """What all obstacles share."""

    example: ClassVar[str] = "{wall: up, at: 90}"
    clearance: Annotated[float, Length(0.0, 500.0)] = Field(
        e.CLEARANCE_MM, description="Gap to keep, in the file's units; 2 mm if absent."
    )
    label: Annotated[str | None, Text("a few words", 40)] = Field(
        None, description="What it is, in your words, for pictures and messages; no unit."
    )

    def shared(self) -> _Shared:
        """Its part of every obstacle; the key is known only from where it stands."""
        return {"key": "", "clearance_mm": self.clearance, "label": self.label}

    def obstacle(self) -> e.Obstacle:
        """The plain shape."""
        raise NotImplementedError

    def plane(self, side: str, at: float) -> e.PlaneObstacle:
        """A flat face `at` mm out in a direction; its free side is towards the part."""
        x, y, z = DIRECTIONS[side]
        normal = (0.0 - x, 0.0 - y, 0.0 - z)
        return e.PlaneObstacle(point=(x * at + 0.0, y * at + 0.0, z * at + 0.0), normal=normal, **self.shared())


class WallKeys(ObstacleKeys):
    """A flat wall in a direction."""

    example: ClassVar[str] = "{wall: up, at: 90}"
    wall: Side = Field(description="On which side of you it is: up, down, left, right, away or toward; no unit.")
    at: _REACH = Field(description="How far it is from the centre of end_a's mouth, in the file's units.")

    def obstacle(self) -> e.Obstacle:
        return self.plane(self.wall, self.at)


class FloorKeys(ObstacleKeys):
    """A floor or bench top below."""

    example: ClassVar[str] = "{floor: 120}"
    floor: _REACH = Field(description="How far below the centre of end_a's mouth, in the file's units.")

    def obstacle(self) -> e.Obstacle:
        return self.plane("down", self.floor)


class CeilingKeys(ObstacleKeys):
    """A ceiling or underside above."""

    example: ClassVar[str] = "{ceiling: 200}"
    ceiling: _REACH = Field(description="How far above the centre of end_a's mouth, in the file's units.")

    def obstacle(self) -> e.Obstacle:
        return self.plane("up", self.ceiling)


def read_direction(value: object, context: Context) -> Vec:
    """A unit vector from `{right: 1, up: 1}`."""
    x, y, z = DirectionKeys.read(value, context).parts()
    length = math.sqrt(x * x + y * y + z * z)
    return (x / length, y / length, z / length)


_PART = Number(-1e6, 1e6, signed=True)


class DirectionKeys(Grammar):
    """A direction as parts along right, up and away."""

    example: ClassVar[str] = "{right: 1, up: 1, away: 0}"
    right: Annotated[float, _PART] = Field(0.0, description="Part to the right; a plain number, no unit.")
    up: Annotated[float, _PART] = Field(0.0, description="Part upwards; a plain number, no unit.")
    away: Annotated[float, _PART] = Field(0.0, description="Part away from you; a plain number, no unit.")

    def parts(self) -> Vec:
        """(right, away, up)."""
        return self.right, self.away, self.up

    def sense(self, context: Context) -> Iterator[Fault]:
        if max(abs(part) for part in self.parts()) < 1e-6:
            yield Fault((), "a direction of no length", f"a map such as {self.example}")


class PlaneKeys(ObstacleKeys):
    """Any flat face, for experts."""

    example: ClassVar[str] = "{point: {up: 90}, normal: {up: -1}}"
    point: PointValue = Field(description="A point on the face, lengths in the file's units.")
    normal: Annotated[Vec, Forms(read_direction, DirectionKeys)] = Field(
        description="The direction out of the obstacle into the free side; plain numbers without unit."
    )

    def obstacle(self) -> e.Obstacle:
        return e.PlaneObstacle(point=self.point, normal=self.normal, **self.shared())


class BoxSides(Grammar):
    """The six faces of a box, each as far out in its direction."""

    example: ClassVar[str] = "{left: 120, right: -100, down: 50, up: 80, toward: 0, away: 200}"
    left: _REACH = Field(description="How far to the left its left face is, in the file's units.")
    right: _REACH = Field(description="How far to the right its right face is, in the file's units.")
    down: _REACH = Field(description="How far down its lower face is, in the file's units.")
    up: _REACH = Field(description="How far up its upper face is, in the file's units.")
    toward: _REACH = Field(description="How far towards you its near face is, in the file's units.")
    away: _REACH = Field(description="How far away its far face is, in the file's units.")

    def sense(self, context: Context) -> Iterator[Fault]:
        for low, high in (("left", "right"), ("down", "up"), ("toward", "away")):
            a, b = getattr(self, low), getattr(self, high)
            if -a >= b:
                left, right = format_length(a, context.units), format_length(b, context.units)
                found = f"{low}: {left} and {high}: {right}, a box of no width"
                hint = f"each word is how far its face is out in that direction: a box {low} of you has {high}: -{low}"
                yield Fault((high,), found, f"{high} above {format_length(-a, context.units)}", f"{hint} + width")


class BoxKeys(ObstacleKeys):
    """A box."""

    example: ClassVar[str] = f"{{box: {BoxSides.example}}}"
    box: BoxSides = Field(description="Its six faces, lengths in the file's units.")

    def obstacle(self) -> e.Obstacle:
        b = self.box
        low, high = (0.0 - b.left, 0.0 - b.toward, 0.0 - b.down), (b.right, b.away, b.up)
        return e.BoxObstacle(low=low, high=high, **self.shared())


class _Ends(Grammar):
    from_: PointValue = Field(alias="from", description="Centre of its one end, lengths in the file's units.")
    to: PointValue = Field(description="Centre of its other end, lengths in the file's units.")

    def sense(self, context: Context) -> Iterator[Fault]:
        if math.dist(self.from_, self.to) < 1.0:
            yield Fault(("to",), "the same place as from", "two ends at least 1 mm apart")


class BarSides(_Ends):
    """A round bar, pipe or shaft."""

    example: ClassVar[str] = "{from: {up: 0}, to: {up: 200}, diameter: 33}"
    diameter: Annotated[float, BAR_D] = Field(description="Its diameter, in the file's units.")


class BarKeys(ObstacleKeys):
    """A round bar."""

    example: ClassVar[str] = f"{{round_bar: {BarSides.example}}}"
    round_bar: BarSides = Field(description="A round bar, pipe or shaft; lengths in the file's units.")

    def obstacle(self) -> e.Obstacle:
        b = self.round_bar
        return e.BarObstacle(start=b.from_, end=b.to, d_mm=b.diameter, **self.shared())


class ConeSides(_Ends):
    """A round bar of changing diameter."""

    example: ClassVar[str] = "{from: {away: 0}, to: {away: 80}, diameter_from: 60, diameter_to: 90}"
    diameter_from: Annotated[float, Length(0.0, 3000.0)] = Field(description="Diameter at `from`, in the file's units.")
    diameter_to: Annotated[float, Length(0.0, 3000.0)] = Field(description="Diameter at `to`, in the file's units.")

    def sense(self, context: Context) -> Iterator[Fault]:
        yield from super().sense(context)
        if max(self.diameter_from, self.diameter_to) < 1.0:
            yield Fault(("diameter_to",), "a cone of no width", "one of the two diameters 1 mm or more")


class ConeKeys(ObstacleKeys):
    """A cone."""

    example: ClassVar[str] = f"{{cone: {ConeSides.example}}}"
    cone: ConeSides = Field(description="A cone or tapered housing; lengths in the file's units.")

    def obstacle(self) -> e.Obstacle:
        c = self.cone
        ends = (c.diameter_from, c.diameter_to)
        return e.ConeObstacle(start=c.from_, end=c.to, d_start_mm=ends[0], d_end_mm=ends[1], **self.shared())


_MESH_FILES = "an STL, OBJ or STEP file (.stl, .obj, .step, .stp)"


def _mesh_name(text: str) -> str:
    if not text.casefold().endswith((*e.MESH_NAMES, *e.STEP_NAMES)):
        raise FaultError([Fault((), shown(text), f"the name of {_MESH_FILES}, such as housing.step")])
    return text


class MeshKeys(ObstacleKeys):
    """A file from a CAD program: STL, OBJ or STEP."""

    example: ClassVar[str] = "{mesh: housing.step, at: {away: 40}}"
    mesh: Annotated[str, Text(f"the name of {_MESH_FILES}", 300, _mesh_name)] = Field(
        description=f"{_MESH_FILES[0].upper()}{_MESH_FILES[1:]}, its path seen from the YAML file; no unit."
    )
    at: PointValue = Field((0.0, 0.0, 0.0), description="Where its origin goes, in the file's units; 0 if absent.")
    mesh_units: Annotated[str | None, Words(tuple(e.MESH_UNITS_MM))] = Field(
        None,
        description="What the numbers in an STL or OBJ are in, whatever `units` says: mm | cm | m | in; mm if absent. "
        "A STEP says so itself.",
    )
    repair: Annotated[bool, YesNo()] = Field(
        False, description="yes mends a broken mesh (holes up to 10 mm across are filled) and says what was done."
    )

    def sense(self, context: Context) -> Iterator[Fault]:
        if not (FilePath(context.folder) / self.mesh).is_file():
            found, hint = f"{self.mesh!r}, which is not there", f"looked in {context.folder}"
            yield Fault(("mesh",), found, f"{_MESH_FILES}, its path seen from the YAML file", hint)
        if self.mesh_units is not None and self.mesh.casefold().endswith(e.STEP_NAMES):
            found, hint = shown(self.mesh_units), "a STEP file says itself what it is in"
            yield Fault(("mesh_units",), found, "this key beside an STL or OBJ only: take it out", hint, at="key")

    def obstacle(self) -> e.Obstacle:
        return e.MeshObstacle(path=self.mesh, at=self.at, units=self.mesh_units, repair=self.repair, **self.shared())


_FORMS: dict[str, type[ObstacleKeys]] = {
    "wall": WallKeys,
    "floor": FloorKeys,
    "ceiling": CeilingKeys,
    "box": BoxKeys,
    "round_bar": BarKeys,
    "cone": ConeKeys,
    "mesh": MeshKeys,
    "point": PlaneKeys,
    "normal": PlaneKeys,
}
_ALLOWED = "a map with one of wall, floor, ceiling, box, round_bar, cone, mesh, or point and normal"


def read_obstacle(value: object, context: Context) -> ObstacleKeys:
    """One obstacle, told by the key that only its kind has."""
    form = best_form(value, _FORMS) if isinstance(value, dict) else None
    if form is None:
        raise FaultError([Fault((), shown(value), _ALLOWED, f"such as {ObstacleKeys.example}")])
    made = form.read(value, context)
    assert isinstance(made, ObstacleKeys)
    return made


_Any = WallKeys | FloorKeys | CeilingKeys | PlaneKeys | BoxKeys | BarKeys | ConeKeys | MeshKeys
ObstacleValue = Annotated[ObstacleKeys, Forms(read_obstacle, _Any)]


class EnvelopeKeys(Grammar):
    """The space declared for the part."""

    example: ClassVar[str] = "{keep_clear: [{wall: up, at: 90}]}"
    meant: ClassVar[Mapping[str, str]] = {
        "obstacles": "write keep_clear",
        "avoid": "write keep_clear",
        "inside": "write stay_inside",
    }
    keep_clear: list[ObstacleValue] = Field(
        [], max_length=40, description="A list of what the part must keep clear of; lengths in the file's units."
    )
    stay_inside: list[ObstacleValue] = Field(
        [], max_length=40, description="A list of what the part must stay inside of; lengths in the file's units."
    )

    def meant_as(self, folder: str) -> e.Envelope:
        """Plain shapes, each with its key; mesh paths seen from where the program runs."""
        lists: list[tuple[e.Obstacle, ...]] = []
        for key in ("keep_clear", "stay_inside"):
            found = getattr(self, key)
            lists.append(tuple(_placed(one.obstacle(), ("envelope", key, i), folder) for i, one in enumerate(found)))
        return e.Envelope(*lists)


def _placed(obstacle: e.Obstacle, path: Path, folder: str) -> e.Obstacle:
    if isinstance(obstacle, e.MeshObstacle):
        return replace(obstacle, key=dotted(path), path=str(FilePath(folder) / obstacle.path))
    return replace(obstacle, key=dotted(path))
