"""What a part's YAML means once read: mm, degrees, every default filled in. Builders and checks read these.

`grammar` holds the same as the YAML says it; `resolve` leads from there to here.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

from pydantic import Field

from fitwright.spec.air import Air as Air
from fitwright.spec.air import AirHose as AirHose
from fitwright.spec.air import Fan as Fan
from fitwright.spec.envelope import BarObstacle as BarObstacle
from fitwright.spec.envelope import BoxObstacle as BoxObstacle
from fitwright.spec.envelope import ConeObstacle as ConeObstacle
from fitwright.spec.envelope import Envelope as Envelope
from fitwright.spec.envelope import MeshObstacle as MeshObstacle
from fitwright.spec.envelope import Obstacle as Obstacle
from fitwright.spec.envelope import PlaneObstacle as PlaneObstacle
from fitwright.spec.gate import GateBracketSpec as GateBracketSpec
from fitwright.spec.halves import Halves as Halves
from fitwright.spec.halves import HalvesBolts as HalvesBolts
from fitwright.spec.halves import HalvesLap as HalvesLap
from fitwright.spec.hanger import HoseHangerSpec as HoseHangerSpec
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
from fitwright.spec.part_base import Calibration as Calibration
from fitwright.spec.part_base import Material as Material
from fitwright.spec.part_base import Origin as Origin
from fitwright.spec.part_base import PartBase as PartBase
from fitwright.spec.part_base import Printer as Printer
from fitwright.spec.plate import FlangePlateSpec as FlangePlateSpec
from fitwright.spec.plate import Opening as Opening
from fitwright.spec.plate import PlatePattern as PlatePattern
from fitwright.spec.plate import PlateStock as PlateStock
from fitwright.spec.size import Size as Size


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


PartSpec = ReducerSpec | OffsetAdapterSpec | FitGaugeSpec | GateBracketSpec | HoseHangerSpec | FlangePlateSpec
