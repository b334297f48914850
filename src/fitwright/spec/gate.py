"""What a gate bracket's YAML means: gate, blade, cylinder, and how one is to move the other. All lengths in mm."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from fitwright.spec.joints import Meant
from fitwright.spec.part_base import PartBase

FrameKind = Literal["auto", "one_piece", "rods", "board"]
LayoutKind = Literal["in_line", "alongside"]
HoldKind = Literal["nose", "front_square", "clamp"]
StopKind = Literal["auto", "sleeve", "over_shut", "over_open", "none"]
MountedKind = Literal["blade_up", "blade_down", "sideways", "any"]
FarEnd = Literal["open", "closed", "unknown"]
Direction = Literal["up", "down", "left", "right"]
GuardKind = Literal["auto", "yes", "no"]


class Blade(Meant):
    """The sliding plate. `hole_mm` None: it has none, and is clamped. `hole_to_edge_mm`: hole's CENTRE to outer edge.

    `plane_mm`: its middle plane above (+) or below (-) the middle of the body. `length_mm` None: not measured.
    """

    width_mm: float = Field(gt=0)
    thickness_mm: float = Field(gt=0)
    hole_mm: float | None = None
    hole_to_edge_mm: float | None = None
    material: str = "plastic"
    modulus_mpa: float = Field(2000.0, gt=0)
    bearing_mpa: float = Field(20.0, gt=0)
    density_g_cm3: float = Field(1.2, gt=0)
    plane_mm: float = 0.0
    length_mm: float | None = None


class GateBody(Meant):
    """The gate's housing: `width_mm` across the blade, `thickness_mm` square to it.

    `length_mm`: along it (None: unknown).
    """

    width_mm: float = Field(gt=0)
    thickness_mm: float = Field(gt=0)
    length_mm: float | None = None
    far_end: FarEnd = "unknown"
    far_room_mm: float = 0.0
    """How far the blade may go beyond shut before it meets the end of its slot; 0: not known."""


class GatePort(Meant):
    """The bore that the blade shuts. `to_edge_mm`: its CENTRE from the body edge where the blade comes out.

    `stub_outside_mm`, `stub_long_mm`: the round pipe stub on the body's faces (None: none, or not measured).
    """

    d_mm: float = Field(gt=0)
    to_edge_mm: float = Field(gt=0)
    stub_outside_mm: float | None = None
    stub_long_mm: float | None = None


class GateScrews(Meant):
    """The two screws that go through the body nearest its edge: centre to centre, and from that edge."""

    across_mm: float = Field(gt=0)
    from_edge_mm: float = Field(gt=0)
    size: str = "M5"


class GateMount(Meant):
    """How it holds the gate: `screws` through the body, `clamp` over its edges, `saddle` round the port stub."""

    kind: Literal["screws", "clamp", "saddle"]
    screws: GateScrews | None = None
    """The through screws of `screws`; for `clamp`, size says which screws squeeze it."""
    size: str = "M5"
    band_mm: float = 12.0
    """Width of the hose clamp round a saddle."""


class Proud(Meant):
    """Something that stands proud of the body: a box from its edge: `across_mm` left to right, `along_mm`, `high_mm`.

    `x_mm`: its middle, right of the blade's middle; `y_mm`: its near side inwards of the body edge (positive inwards);
    `side`: on the upper or the lower face.
    """

    label: str
    x_mm: float
    y_mm: float
    across_mm: float = Field(gt=0)
    along_mm: float = Field(gt=0)
    high_mm: float = Field(gt=0)
    side: Literal["up", "down"] = "up"


class Gate(Meant):
    """A bought manual slide gate as it was measured."""

    shut_mm: float
    """The blade's outer edge beyond the body edge, shut."""
    open_mm: float
    blade: Blade
    body: GateBody
    port: GatePort
    mount: GateMount
    proud: tuple[Proud, ...] = ()
    suction_pa: float = Field(2490.89, ge=0)
    """What pulls on the shut blade: 10 in of water."""
    friction: float = Field(0.5, gt=0)
    dirt: float = Field(2.0, ge=1)
    drag_n: float | None = None
    """Pull by a spring balance; None: from suction and friction."""

    @property
    def travel_mm(self) -> float:
        """From shut to open."""
        return self.open_mm - self.shut_mm


class Spring(Meant):
    """The spring of a single-acting cylinder: which way it drives the rod, and its least and greatest force [N]."""

    drives: Literal["in", "out"]
    least_n: float = Field(gt=0)
    greatest_n: float = Field(gt=0)


READ_AS = {
    "rod_mm": "rod",
    "rod_thread_long_mm": "rod_thread_length",
    "rod_stub_mm": "rod_stub",
    "rod_flats_mm": "rod_flats",
    "nose_thread": "nose.thread",
    "nose_mm": "nose.length",
    "nose_nut_af_mm": "nose.nut",
    "nose_nut_m_mm": "nose.nut",
    "boss_d_mm": "boss.diameter",
    "square_mm": "square.apart",
    "square_screw": "square.screw",
    "square_deep_mm": "square.deep",
    "body_round_mm": "body",
    "body_square_mm": "body",
    "length_0_mm": "length",
}
"""Field of a cylinder -> key of the YAML under which a reading of it stands, where it is another word."""


class Cylinder(Meant):
    """An air cylinder, from its standard's table or from readings (names as in ISO 6432 and ISO 15552 tables).

    `rod_stub_mm`: mounting (nose) face to rod shoulder, rod in (WF, WH). `nose_mm`: what stands out of the mounting
    face towards the rod (nose thread, or the boss). `length_0_mm`: mounting face to the rear end at no stroke, so that
    the body is `length_0_mm + stroke_mm` long. `remembered`: fields whose value a table only
    remembers and beside which no reading stands (mass and tolerances decide no fit and are left out).
    """

    name: str
    standard: str
    bore_mm: float = Field(gt=0)
    stroke_mm: float = Field(gt=0)
    rod_mm: float = Field(gt=0)
    rod_thread: str
    rod_thread_long_mm: float = Field(gt=0)
    rod_flats_mm: float | None = None
    rod_stub_mm: float = Field(gt=0)
    nose_mm: float = Field(ge=0)
    nose_thread: str | None = None
    nose_nut_af_mm: float | None = None
    nose_nut_m_mm: float | None = None
    boss_d_mm: float | None = None
    square_mm: float | None = None
    """Centre to centre of the four screws of the front cover (TG)."""
    square_screw: str | None = None
    square_deep_mm: float | None = None
    body_round_mm: float | None = None
    body_square_mm: float | None = None
    length_0_mm: float = Field(gt=0)
    port: str = "M5"
    ports_face: Direction = "up"
    ports_said: bool = False
    """False: nobody said where the ports look; the cylinder may be turned in its hold."""
    mass_kg: float = Field(ge=0)
    spring: Spring | None = None
    stroke_low_mm: float = 0.0
    stroke_high_mm: float = 1.5
    """Tolerance of the stroke: stroke + low to stroke + high."""
    remembered: tuple[str, ...] = ()

    @property
    def remembered_keys(self) -> tuple[str, ...]:
        """The keys below `cylinder` under which readings of what is only remembered would stand."""
        return tuple(dict.fromkeys(self._key(name) for name in self.remembered))

    def _key(self, field: str) -> str:
        return "boss.length" if field == "nose_mm" and self.nose_thread is None else READ_AS.get(field, field)

    @property
    def body_mm(self) -> float:
        """Its widest measure across: round or square."""
        return max(self.body_round_mm or 0.0, self.body_square_mm or 0.0)

    @property
    def long_mm(self) -> float:
        """From the mounting face to its rear end."""
        return self.length_0_mm + self.stroke_mm


class GateBracketSpec(PartBase):
    """A bracket that lets an air cylinder move the blade of a manual slide gate."""

    part: Literal["gate_bracket"] = "gate_bracket"
    gate: Gate
    cylinder: Cylinder
    pressure_mpa: float = Field(0.6, gt=0)
    margin: float = Field(2.0, ge=1)
    """Thrust over drag that is asked for."""
    hold: HoldKind
    stop: StopKind = "auto"
    setting_mm: float = Field(5.0, ge=0)
    frame: FrameKind = "auto"
    layout: LayoutKind = "in_line"
    second_guide: bool = False
    guide_d_mm: float = Field(10.0, gt=0)
    """The second guide rod, alongside."""
    mounted: MountedKind = "any"
    guard: GuardKind = "auto"
    rod_size: str | None = None
    """Threaded rods of `frame: rods`; None: as needed."""
    board_thick_mm: float = Field(18.0, gt=0)
    board_material: str = "plywood"
    support_down_mm: float | None = None
    """From the thrust line down to what a second support may stand on; None: there is none."""
    tape_mm: float = Field(0.5, ge=0)
    """How well a tape reading is known, either way."""
    close_in_s: float | None = None
    """Wanted closing time; None: slow, as the commissioning sheet says."""
    doubts: tuple[str, ...] = ()
    """Readings that go badly together though they may be so, in words for the report's cautions."""
