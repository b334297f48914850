"""Part and Body: what a family hands on to mesh, checks, export and report.

Coordinates, everywhere in this project after loading: x = right, y = away, z = up, in mm, seen by who stands at
`end_a` and looks into its mouth; the origin is the centre of end_a's mouth face. (x, y, z) is right-handed.
Each joint also has a frame of its own: origin at the centre of its mouth face, `inward` pointing from the mouth into
the part. A position along that axis is written `s` (0 at the mouth, growing inwards); a radius is measured from it.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Literal

from fitwright.airway import Leg as Leg
from fitwright.airway import Station as Station
from fitwright.drawing.face import Face
from fitwright.flat import Flat as Flat
from fitwright.flat import FlatHole as FlatHole
from fitwright.flat import Stock as Stock
from fitwright.frame import Frame as Frame
from fitwright.frame import Vec as Vec
from fitwright.hanging import Hanging as Hanging
from fitwright.loads import LoadCase as LoadCase
from fitwright.loads import LoadFace as LoadFace
from fitwright.loads import Support as Support
from fitwright.mechanism import Bought as Bought
from fitwright.mechanism import Fastening as Fastening
from fitwright.mechanism import Guide as Guide
from fitwright.mechanism import Motion as Motion
from fitwright.mechanism import Paper as Paper
from fitwright.mechanism import Pocket as Pocket
from fitwright.mechanism import Seat as Seat
from fitwright.mechanism import Turned as Turned
from fitwright.outline import Outline
from fitwright.section import Section

if TYPE_CHECKING:
    from cadquery import Shape, Solid


@dataclass(frozen=True)
class Feature:
    """A cut or boss declared as a tool solid, in part coordinates.

    After the build the part must share no volume with a `cut`'s tool and leave none of a `boss`'s tool outside itself.
    A boss's tool is given with all intended cuts already taken from it. `name` is in the words of the YAML
    (`end_a cord groove`, `end_b bead`).
    """

    name: str
    kind: Literal["cut", "boss"]
    tool: Shape
    by_mesh: bool = False
    """Judged on the finished mesh: where the kernel's booleans fail (a ridge, which winds: the tool is drawn in by more
    than the mesh strays), or take seconds over what is all flat (a guard's hundred slots: there the mesh is exact)."""


@dataclass(frozen=True)
class WallZone:
    """A place with a wall limit of its own (mouth lip, bead crest, groove floor), as a ring about a joint's axis.

    A wall sample belongs to the zone when either of its points has s in [s0, s1] and radius in [r0, r1] about `frame`,
    or both of them do with [r0, r1] widened by `skirt_mm` (across the foot of a low ridge, but not through the wall
    that it stands on).
    """

    name: str
    frame: Frame
    s0_mm: float
    s1_mm: float
    r0_mm: float
    r1_mm: float
    limit_mm: float
    about: Section | None = None
    """Where the joint is not round: the outline that "radius" `about_r_mm` stands for; others lie along it."""
    about_r_mm: float = 0.0
    skirt_mm: float = 0.0


@dataclass(frozen=True)
class FitSurface:
    """A round face that meets a bought part: what was meant to be built, and what it meets.

    Diameters run linearly from `d0_mm` at `s0_mm` to `d1_mm` at `s1_mm` (lead-ins excluded). `d*_mm` is the modelled
    size; `printed0_mm`, `printed1_mm` what it is meant to measure once printed (they differ by the printer profile's
    compensation). The bought part's own diameters at those two places lie between `bought_least*` and
    `bought_greatest*`; `nominal` when its joint is tapered may differ at 0 and 1.
    `engaged_mm` is how far the bought part goes in or on.
    """

    name: str
    joint: str
    frame: Frame
    kind: Literal["hole", "shaft"]
    s0_mm: float
    s1_mm: float
    d0_mm: float
    d1_mm: float
    printed0_mm: float
    printed1_mm: float
    bought_least0_mm: float
    bought_greatest0_mm: float
    bought_least1_mm: float
    bought_greatest1_mm: float
    fit: Literal["slide", "snug", "press", "glue", "stretch", "hose"]
    key: str
    """YAML path of the measurement (`end_a.socket.over`)."""
    bought: str
    """What it meets, in words (`pipe`, `hose`, `port`)."""
    seal: Literal["none", "screws and tape", "band", "cord", "hose clamp", "glue", "stretch", "tape"]
    grip: Literal["none", "screws", "band", "taper", "hose clamp", "glue", "press", "stretch", "ridge"]
    cord_mm: float = 0.0
    """Diameter of the foam cord, 0 where there is none."""
    cord_groove_depth_mm: float = 0.0
    bore_wall_mm: float = 0.0
    """Wall of the printed ring, for hoop strain."""
    about: Section | None = None
    """Where the joint is not round: the outline whose shorter side is `about_d_mm`; other sizes lie along it."""
    about_d_mm: float = 0.0
    scatter_d_mm: float = 0.0
    """The size on whose length the print's scatter depends, where it is not the diameter (the longer side)."""
    scatter_mm: float | None = None
    """Half-range within which the print misses, learned from enough prints; None: as the printer's profile says."""
    flexes: bool = False
    """True where the printed ring is slit, so that interference bends fingers and does not stretch a hoop."""
    ridge_height_mm: float = 0.0
    """Height of the helical ridge on it, 0 where there is none."""
    ridge_share: float = 0.0
    """The share of each section's circle that the ridge covers."""
    turn_share: float = 1.0
    """Share of the full turn that this body has of the face: 0.5 on one half of a part parted along its axis."""


@dataclass(frozen=True)
class HoleFit:
    """A screw hole or pilot as it was meant: a cylinder along `direction` from `start`, for fit.built."""

    name: str
    start: Vec
    direction: Vec
    length_mm: float
    d_mm: float
    key: str


@dataclass(frozen=True)
class RoundSize:
    """A round face of a known size that is no joint (a gauge's step): a cylinder from s0 to s1, for fit.built.

    `d_mm` is the modelled diameter.
    """

    name: str
    frame: Frame
    kind: Literal["hole", "shaft"]
    s0_mm: float
    s1_mm: float
    d_mm: float
    key: str
    turn_deg: tuple[float, float] | None = None
    """The sector that is there (from, to, clockwise from `up` seen along `inward`); None: the full turn."""


@dataclass(frozen=True)
class Label:
    """Raised lettering, for the check `lettering`: `text` in our block letters (shapes/lettering.py).

    `frame`: its origin is the lower left corner of the first letter on the face that it stands on, `right` runs along
    the text, `up` towards the letters' tops, `inward` into the material. A cell of a letter is `cell_mm` square; no
    stroke and no gap may be narrower than `least_mm`.
    """

    name: str
    text: str
    frame: Frame
    cell_mm: float
    relief_mm: float
    least_mm: float


@dataclass(frozen=True)
class Cover:
    """What the plate at a mouth covers: an outline in (right, up) of `frame`, and `margin_mm` beyond it all round."""

    name: str
    frame: Frame
    outline: Outline
    margin_mm: float
    key: str


@dataclass(frozen=True)
class StandIn:
    """A simple solid of a bought component, in part coordinates, with the zone where it is meant to touch the part.

    `zone` is cut off the stand-in before the clearance run (None where it touches nowhere).
    """

    name: str
    solid: Shape
    seats_in: str
    zone: Shape | None
    moving: bool = False
    """It moves as the part's motion says; modelled where the motion begins."""
    only_at: Literal["", "begin", "end"] = ""
    """It is there only at one end of the motion (what stands in the way only then); empty: always."""
    room_only: bool = False
    """Room that a hand, a tool or dust needs, and no thing; not drawn."""
    before: str = ""
    """This room is needed before what seats in this (`hose`, and so `hose 2`) is there."""


@dataclass(frozen=True)
class TryPiece:
    """A piece cut from the finished solid for the try-print: part ∩ `tool`, laid with `down` on the bed.

    `whole` is what it is cut from where that is not the body: the part before it was parted along its axis.
    """

    name: str
    tool: Shape
    down: Vec
    whole: Shape | None = None


@dataclass(frozen=True)
class Pose:
    """A way to lay the body on the bed: `down` is the part direction that points to the bed."""

    name: str
    down: Vec


@dataclass(frozen=True)
class Body:
    """One solid, printed or (`stock`) cut from sheet, with what it was meant to be.

    `solid` is in part coordinates. `genus` counts through-holes of its one shell (a tube has 1). `volume_mm3` is the
    closed form where one exists, else None.
    """

    name: str
    solid: Solid
    genus: int
    wall_mm: float
    poses: tuple[Pose, ...]
    features: tuple[Feature, ...] = ()
    wall_zones: tuple[WallZone, ...] = ()
    fits: tuple[FitSurface, ...] = ()
    holes: tuple[HoleFit, ...] = ()
    covers: tuple[Cover, ...] = ()
    rounds: tuple[RoundSize, ...] = ()
    labels: tuple[Label, ...] = ()
    tries: tuple[TryPiece, ...] = ()
    volume_mm3: float | None = None
    moving: bool = False
    """It moves as the part's motion says; modelled where the motion begins."""
    stock: Stock | None = None
    """What it is cut from where it is not printed: no pose, no filament, a DXF in place of the STL."""
    flat: Flat | None = None
    """The same as a flat drawing, for the DXF; needed where `stock` is given."""
    flat_frame: Frame | None = None
    """Where that drawing lies: (right, up) of the frame, the piece `thickness_mm` thick along `inward`."""


@dataclass(frozen=True)
class Pair:
    """What puts two halves in line: holes of both about one axis, or a peg of the first in a hole of the second.

    The axis goes through `at` (in the plane of the seam) square to that plane. Diameters are the modelled ones;
    `depth_mm` is how far each reaches from the plane.
    """

    name: str
    at: Vec
    first: Literal["hole", "peg"]
    first_d_mm: float
    second_d_mm: float
    depth_mm: float


@dataclass(frozen=True)
class Seam:
    """Where two bodies of a part meet: a plane (`frame.inward` points from the first body to the second).

    `whole_mm3` is the volume before it was parted, `added_mm3` what lips, collars and pegs add, their holes taken off.
    A lap goes `lap_mm` along the normal (negative: against it) with a gap of `gap_mm` all round.
    """

    bodies: tuple[str, str]
    frame: Frame
    whole_mm3: float
    added_mm3: float
    pairs: tuple[Pair, ...] = ()
    lap_mm: float = 0.0
    gap_mm: float = 0.0


@dataclass(frozen=True)
class Dimension:
    """A main dimension for the picture, in the plane of the section view: from point a to point b, both in part mm."""

    label: str
    a: Vec
    b: Vec
    value: float
    unit: Literal["mm", "deg"] = "mm"
    only_at: Literal["", "begin", "end"] = ""
    """Of a part that moves: the end of the motion at which it is drawn, a and b as they are then; empty: the begin."""


@dataclass(frozen=True)
class Part:
    """All that later steps need. `section_plane_right` spans the picture's section view together with `away`."""

    name: str
    family: str
    bodies: tuple[Body, ...]
    stand_ins: tuple[StandIn, ...] = ()
    dimensions: tuple[Dimension, ...] = ()
    section_across: Vec = (1.0, 0.0, 0.0)
    """Direction that, with y (away), spans the section view (the offset's direction; right where there is none)."""
    section_at_mm: float | None = None
    """The picture's section then is square to `away`, so far from the front, seen from there; None: along `away`."""
    labels: Mapping[str, Vec] = field(default_factory=dict)
    """Words for the picture and the point each names (`collector` at end_a's mouth centre)."""
    facts: Mapping[str, str] = field(default_factory=dict)
    """Lines for the report that are no findings: bend radius, half angle, area ratio, how it holds and seals."""
    passages_mm: Mapping[str, float] = field(default_factory=dict)
    """Diameter of the passage at the root of each end."""
    stations: tuple[Station, ...] = ()
    """Where the passage is measured on the finished part, from end_a's root to end_b's."""
    assumed: Mapping[str, str] = field(default_factory=dict)
    """YAML keys that were filled in, with value and reason."""
    cautions: tuple[str, ...] = ()
    seams: tuple[Seam, ...] = ()
    templates: tuple[Face, ...] = ()
    """The mouths as they are drawn 1:1 on paper, at the size that they will measure."""
    motion: Motion | None = None
    seats: tuple[Seat, ...] = ()
    hardware: tuple[Bought, ...] = ()
    fastenings: tuple[Fastening, ...] = ()
    guide: Guide | None = None
    load_faces: tuple[LoadFace, ...] = ()
    loads: tuple[LoadCase, ...] = ()
    """What it bears, on which of the named faces, and where it is held meanwhile."""
    supports: tuple[Support, ...] = ()
    """How those faces are held that are not simply fixed."""
    airway: tuple[Leg, ...] = ()
    """What the air goes through, from end_a to end_b."""
    hanging: Hanging | None = None
    papers: tuple[Paper, ...] = ()
    """Sheets that belong to the part beside its report (commissioning, cut list)."""
    one_plate: bool = False
    """The bodies lie as they are to be printed, side by side on one bed (z = 0), and are also written as one file."""

    @property
    def printed(self) -> tuple[Body, ...]:
        """The bodies that are printed: all but those cut from stock."""
        return tuple(body for body in self.bodies if body.stock is None)

    @property
    def narrower_end_mm2(self) -> float:
        """Area of the passage at the narrower of the two ends; infinite where no station is declared."""
        return min((s.area_mm2 for s in (self.stations[:1] + self.stations[-1:])), default=math.inf)
