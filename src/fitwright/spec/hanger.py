"""What the YAML of a hose hanger means: mm, N, kg, everything filled in that does not depend on geometry.

Stand before the hanger, the hose running away from you: x right, y away along the hose, z up. The origin is on the axis
of the hose (of several: the middle between the outermost) at the hanger's front face. The body is a profile in the x-z
plane, extruded along y over `width_mm`. None means: the family works it out.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Literal

from pydantic import Field, model_validator

from fitwright.spec.joints import Holes, Meant
from fitwright.spec.part_base import PartBase
from fitwright.spec.size import Size

Side = Literal["up", "left", "right", "down"]
MountKind = Literal["joist_side", "joist_underside", "flat", "strut", "t_slot", "holes", "cable_tie", "rod", "batten"]
Head = Literal["pan", "washer", "hex", "countersunk"]
Dust = Literal["chips", "shavings", "fine"]


SADDLE_MM = 38.0
"""A narrower support cuts into a flexible hose (ADC Flexible Duct Performance & Installation Standards, 5th ed., 4.6:
1 1/2 in)."""
BESIDE_STRAP_MM = 10.0
"""A saddle is so much wider than its strap: the slot's play, and 4 mm on either side (common practice, no source)."""


class Carried(Meant):
    """The hose or pipe: `size` is its outside (of a ribbed hose over the ribs).

    `inside_mm`: of a hose, what it is called by. `squeezed_mm`: how narrow it goes when it is pressed flat by hand.
    `kg_per_m`: its own weight, empty, where it was weighed. `key`: YAML path of the size.
    """

    kind: Literal["hose", "pipe"]
    size: Size
    inside_mm: float | None = None
    squeezed_mm: float | None = None
    kg_per_m: float | None = None
    hose_kind: str = "heaviest"
    """As data.carried names it; `heaviest`: not known."""
    pipe_of: str = "PVC"
    """What a pipe is made of, as in physics.carried.PIPE_DENSITY_KG_M3; its wall is in `size.wall_mm` where known."""
    key: str = "hose.over_ribs"


class HungByRun(Meant):
    """The load that a hose run puts on this hanger: `at_mm` its place in the run, forces in N, half full.

    `down_n` and `level_n` are there for good; `one_side_n` is the level pull of one side when the other is taken off.
    """

    file: str
    hanger: int
    label: str
    at_mm: tuple[float, float, float]
    down_n: float
    level_n: float
    one_side_n: float
    turn_deg: float


class Wood(Meant):
    """What wood screws go into: `name` in the table of woods; its width across the edge and its depth [mm].

    Of a joist: its narrow and its tall side. Of a board, wall or batten's face: `wide_mm` is its thickness.
    """

    name: str = "spruce"
    wide_mm: float = Field(default=38.0, gt=0)
    deep_mm: float | None = None


class WoodScrews(Meant):
    """Screws of a mount. `size` None: 5.0 mm, thinner in a thin board; `count` None: two; `long_mm` None: as needed."""

    size: str | None = None
    head: Head = "pan"
    count: int | None = None
    long_mm: float | None = None


class Batten(Meant):
    """A bought batten over two joists that carries the hanger where no joist is.

    `near_mm`, `far_mm`: from the hose's axis to the two fixing points, right positive. Both on one side: the far one is
    lifted.
    """

    near_mm: float
    far_mm: float
    wide_mm: float = Field(default=58.0, gt=0)
    thick_mm: float = Field(default=38.0, gt=0)


class HangerMount(Meant):
    """Where and how the hanger is held. `side`: where the surface lies, seen along the hose.

    `axis_mm`: from that surface to the axis of the hose; None: as near as it fits. `along`: the joist, strut, rail or
    bar runs along the hose (True) or across it. `drop_mm`: by a threaded rod, from what
    carries the rod to the hose's axis.
    """

    kind: MountKind = "joist_side"
    side: Side = "left"
    axis_mm: float | None = None
    along: bool = True
    wood: Wood = Wood()
    screws: WoodScrews = WoodScrews()
    bolt: str = "M8"
    """Of strut, T-slot, rod and swivel."""
    slot_mm: float | None = None
    """Width of the slot of a T-slot rail; of a strut as standardised."""
    holes: Holes | None = None
    """Given screw holes, from the middle of the hanger (hose's axis, half its width away): right is along u of the
    surface (see parts/hanger/placed.py), up is away along the hose."""
    bar_mm: float | None = None
    tie_wide_mm: float = 7.6
    tie_thick_mm: float = 1.9
    drop_mm: float | None = None
    batten: Batten | None = None


class Strap(Meant):
    """A strap with a hook-and-loop or buckle, through slots at both lips of a saddle [mm]."""

    wide_mm: float = Field(default=25.0, gt=0)
    thick_mm: float = Field(default=3.0, gt=0)


def strap_wide_mm(kind: str, side: str, opens_deg: float | None) -> float:
    """A strap where nobody said how wide: 25 mm, and a saddle's width where a hose hangs in it."""
    turn = (180.0 if side == "up" else 0.0) if opens_deg is None else opens_deg
    return SADDLE_MM if kind == "hose" and turn % 360.0 else 25.0


class ClampBy(Meant):
    """What closes a split clamp: two screws with nuts, or a band round both halves."""

    kind: Literal["screws", "band"] = "screws"
    screw: str = "M5"
    band_mm: float = Field(default=13.0, gt=0)
    gap_mm: float = Field(default=2.0, ge=0)
    """Between the halves when they lie on the pipe, on each side."""


class HoseHangerSpec(PartBase):
    """A saddle, open hook or split clamp on a mount.

    `opens_deg`: to where saddle, hook or clamp opens, clockwise from up; None: as style and mount want it.
    `throat_mm`: clear width of a hook's opening. `arm_mm`: thickness of the arms round the hose. `above`: what is below
    the hanger. `second_fixing`: an eye for a line to a point of its own. `spacing_mm`: to the next hanger.
    `travel_mm`: the hanger rides along (x, y, z) on a machine.
    """

    part: Literal["hose_hanger"] = "hose_hanger"
    carried: Carried
    style: Literal["saddle", "hook", "clamp"] = "saddle"
    count: int = Field(default=1, ge=1, le=8)
    apart_mm: float | None = None
    mount: HangerMount = HangerMount()
    mount_key: str = "mount"
    """YAML path of the mount's map."""
    width_mm: float = Field(default=44.0, gt=0)
    arm_mm: float | None = None
    opens_deg: float | None = None
    throat_mm: float | None = None
    strap: Strap = Strap()
    clamp: ClampBy = ClampBy()
    swivel: bool = False
    above: Literal["people", "cutter", "nothing"] | None = None
    second_fixing: bool | None = None
    spacing_mm: float = Field(default=1200.0, gt=0)
    elbow_mm: float | None = None
    """Distance to the next elbow, where one is near."""
    dust: Dust = "shavings"
    travel_mm: tuple[float, float, float] | None = None
    hung: HungByRun | None = None
    """Its load, where a hose run says it; else by `spacing_mm`."""

    @model_validator(mode="before")
    @classmethod
    def _strap_that_carries(cls, data: Any) -> Any:
        """Strap and width of a saddle, where they are not given."""
        if not isinstance(data, dict) or data.get("style", "saddle") != "saddle" or "strap" in data:
            return data
        mount, carried = data.get("mount") or HangerMount(), data.get("carried")
        if not isinstance(mount, HangerMount) or not isinstance(carried, Carried):
            return data
        wide = strap_wide_mm(carried.kind, mount.side, data.get("opens_deg"))
        least = max(cls.model_fields["width_mm"].default, wide + BESIDE_STRAP_MM)
        return {"width_mm": least, **data, "strap": Strap(wide_mm=wide)}

    @property
    def sizes(self) -> Mapping[str, Size]:
        return {self.carried.key: self.carried.size}

    @property
    def overhead(self) -> bool:
        """Whether what it carries hangs: everything but a shelf."""
        return self.mount.side != "down"

    @property
    def eye(self) -> bool:
        """Whether it gets an eye for a second fixing."""
        return self.overhead if self.second_fixing is None else self.second_fixing
