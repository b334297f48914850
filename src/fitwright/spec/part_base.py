"""What every part's YAML means, whatever its family: printer, filament, envelope, wall."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

from pydantic import Field

from fitwright.spec.envelope import Envelope
from fitwright.spec.joints import End, Meant
from fitwright.spec.size import Size


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
