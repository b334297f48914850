"""What a part's YAML means once read: mm, degrees, every default filled in. Builders and checks read these.

`grammar` holds the same as the YAML says it; `resolve` leads from there to here.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

from pydantic import Field

from fitwright.spec.envelope import BarObstacle as BarObstacle
from fitwright.spec.envelope import BoxObstacle as BoxObstacle
from fitwright.spec.envelope import ConeObstacle as ConeObstacle
from fitwright.spec.envelope import Envelope as Envelope
from fitwright.spec.envelope import MeshObstacle as MeshObstacle
from fitwright.spec.envelope import Obstacle as Obstacle
from fitwright.spec.envelope import PlaneObstacle as PlaneObstacle
from fitwright.spec.halves import Halves as Halves
from fitwright.spec.halves import HalvesBolts as HalvesBolts
from fitwright.spec.halves import HalvesLap as HalvesLap
from fitwright.spec.joints import Clamp as Clamp
from fitwright.spec.joints import End as End
from fitwright.spec.joints import Fit as Fit
from fitwright.spec.joints import Flange as Flange
from fitwright.spec.joints import Holes as Holes
from fitwright.spec.joints import HoseTail as HoseTail
from fitwright.spec.joints import Joint as Joint
from fitwright.spec.joints import Kind as Kind
from fitwright.spec.joints import Meant as Meant
from fitwright.spec.joints import Place as Place
from fitwright.spec.joints import Plain as Plain
from fitwright.spec.joints import Rectangle as Rectangle
from fitwright.spec.joints import Round as Round
from fitwright.spec.joints import Screws as Screws
from fitwright.spec.joints import Socket as Socket
from fitwright.spec.joints import Spigot as Spigot
from fitwright.spec.learned import Learned as Learned
from fitwright.spec.size import Size as Size


class Calibration(Meant):
    """Where a printer's profile comes from: its file, the day, how many gauges of which sizes [mm], which filament.

    `like`: the row of the tables that gave what was not measured. Empty, 0 or None: the file does not say.
    """

    file: str
    like: str = ""
    measured: str = ""
    gauges: int = 0
    material: str = ""
    smallest_mm: float | None = None
    largest_mm: float | None = None
    changed: tuple[str, ...] = ()
    """Keys that the part's own YAML says otherwise."""


class Printer(Meant):
    """Bed, nozzle and how the printer misses: a printed diameter scatters by `scatter_rel` x d + `scatter_abs_mm`.

    Where x and y print apart, `scale_xy` is the mean of `scale_x` and `scale_y`, and `scatter_rel` holds half of their
    difference as well: a round comes out oval by so much either way.
    """

    name: str
    bed_x_mm: float = Field(gt=0)
    bed_y_mm: float = Field(gt=0)
    bed_z_mm: float = Field(gt=0)
    nozzle_mm: float = Field(0.4, gt=0)
    line_mm: float = Field(0.42, gt=0)
    layer_mm: float = Field(0.2, gt=0)
    scatter_rel: float = Field(0.002, ge=0)
    scatter_abs_mm: float = Field(0.1, ge=0)
    scale_xy: float = Field(1.0, gt=0)
    scale_x: float | None = Field(None, gt=0)
    scale_y: float | None = Field(None, gt=0)
    hole_offset_mm: float = 0.0
    outside_offset_mm: float = 0.0
    small_hole_add_mm: float = Field(0.2, ge=0)
    status: str = "common practice"
    calibration: Calibration | None = None

    @property
    def oval_rel(self) -> float:
        """Half the difference of the scales along x and y: how far a diameter departs from its mean, as a ratio."""
        return 0.0 if self.scale_x is None or self.scale_y is None else abs(self.scale_x - self.scale_y) / 2


class Material(Meant):
    """A filament as printed; `strength_mpa` in the layer, `strength_across_mpa` between layers.

    `soft`: it stretches over a pipe, grips and comes back; `strain_limit` is the hoop strain that it bears for good.
    """

    name: str
    density_g_cm3: float = Field(gt=0)
    modulus_mpa: float = Field(gt=0)
    strength_mpa: float = Field(gt=0)
    strength_across_mpa: float = Field(gt=0)
    strain_limit: float = Field(gt=0)
    soft: bool = False
    service_c: float
    status: str = "memory"
    note: str = ""


class Air(Meant):
    """The air that flows through, and from which end."""

    flow_m3_s: float = Field(gt=0)
    from_end: Literal["end_a", "end_b"]


class PartBase(Meant):
    """What every part has. None: the family decides. `places` leads from a YAML key to its line and column."""

    part: str
    name: str
    units: Literal["mm", "in"] = "mm"
    source_file: str
    wall_mm: float = Field(gt=0)
    printer: Printer
    material: Material
    envelope: Envelope = Envelope()
    near_heat_c: float | None = None
    defaulted: tuple[str, ...] = ()
    places: Mapping[str, tuple[int, int]] = Field(default_factory=dict, repr=False)

    @property
    def ends(self) -> Mapping[str, End]:
        """The mouths of the part by their YAML key; none where it has none."""
        return {}

    @property
    def sizes(self) -> Mapping[str, Size]:
        """The measured or catalogued sizes by the YAML path of what says them."""
        return {}

    @property
    def thickest_wall_mm(self) -> float:
        """The thickest wall [mm] that is printed as lines alone."""
        return self.wall_mm


class AdapterSpec(PartBase):
    """What all adapters share."""

    part: Literal["reducer", "offset_adapter"]
    end_a: End
    end_b: End
    length_mm: float | None = None
    half_angle_deg: float | None = None
    air: Air | None = None
    halves: Halves | None = None

    @property
    def ends(self) -> Mapping[str, End]:
        return {"end_a": self.end_a, "end_b": self.end_b}

    @property
    def sizes(self) -> Mapping[str, Size]:
        sized = {f"{key}.{end.kind}": getattr(end.joint, "size", None) for key, end in self.ends.items()}
        return {key: size for key, size in sized.items() if size is not None}

    @property
    def thickest_wall_mm(self) -> float:
        joints = [end.joint for end in self.ends.values()]
        return max([self.wall_mm, *(j.wall_mm for j in joints if isinstance(j, HoseTail | Spigot) and j.wall_mm)])


class Slit(Meant):
    """A slit along the whole sleeve. `width_mm` None: as the fit's spread needs; `band_mm` 0: no band of its own."""

    width_mm: float | None = None
    band_mm: float = Field(13.0, ge=0)
    closed_by: Literal["band", "hose clamp", "none"] = "band"
    seal: Literal["tape", "foam"] | None = None


class ReducerSpec(AdapterSpec):
    """Two ends in line."""

    part: Literal["reducer"] = "reducer"
    line: Literal["coaxial", "level", "nested"] = "coaxial"
    eccentricity: Place | None = None
    slit: Slit | None = None


class OffsetAdapterSpec(AdapterSpec):
    """Two ends whose axes are apart, or at an angle, or both; `bend_radius_mm` None: as large as there is room for.

    `offset` None: a plain elbow, whose one bend gives it. `turns` is the direction to which end_b's axis turns by the
    angle (its size means nothing); None: towards the offset.
    """

    part: Literal["offset_adapter"] = "offset_adapter"
    offset: Place | None = None
    angle_deg: float = Field(0.0, ge=0, le=90)
    turns: Place | None = None
    clock_deg: float = 0.0
    bend_radius_mm: float | None = None


class GaugeStep(Meant):
    """One size of a gauge: what stands on it, and the diameter that it is meant to measure once printed.

    `outside_mm` is given where both faces of a ring are of a known size.
    """

    mark: str
    printed_mm: float = Field(gt=0)
    outside_mm: float | None = None


class FitGaugeSpec(PartBase):
    """Rings that go over a pipe, plugs that go into a hole or hose, or a set of sizes to measure the printer with.

    `steps` rise. `bought_mm` is the size that the allowances are counted from, `key` the YAML path that said it;
    `form` and `height_mm` None: as there is room on the bed. A set of `sizes` is modelled as marked: no compensation.
    """

    part: Literal["fit_gauge"] = "fit_gauge"
    kind: Literal["rings", "plugs", "sizes"]
    key: str
    bought: Literal["pipe", "hole", "hose", ""] = ""
    bought_mm: float | None = None
    steps: tuple[GaugeStep, ...]
    marks: Literal["size", "allowance"] = "size"
    form: Literal["separate", "stepped"] | None = None
    height_mm: float | None = None
    for_end: str = ""
    """The end of the part that it was made for; "": it stands for itself."""
    learned: Learned | None = None
    """What earlier prints taught of its face: the size error is taken off as from a joint; the rest is not used."""

    @property
    def calibrates(self) -> bool:
        """Whether it is there to measure the printer, and so must show what the printer does of itself."""
        return self.kind == "sizes"


PartSpec = ReducerSpec | OffsetAdapterSpec | FitGaugeSpec
