"""What every part's YAML means, whatever its family: printer, filament, envelope, wall."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Literal

from pydantic import Field

from fitwright.physics.filament import CREEP_SHARE, SUSTAINED_SHARE, crept_mpa, share_left, sustained_mpa
from fitwright.spec.envelope import Envelope
from fitwright.spec.joints import End, Meant
from fitwright.spec.size import Size
from fitwright.spec.suction import ASSUMED, Suction


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


class Origin(Meant):
    """Where the numbers of a filament of one's own come from: its file, the day, and the row that gave the rest."""

    file: str
    like: str = ""
    measured: str = ""
    told: tuple[str, ...] = ()
    """Keys that the file says itself."""


class Material(Meant):
    """A filament as printed, at 23 C and for loads that come once; `strength_mpa` in the layer, `strength_across_mpa`
    between layers.

    `soft`: it stretches over a pipe, grips and comes back; `strain_limit` is the hoop strain that it bears for good.
    `modulus_at_service`, `strength_at_service`: the share of each that is left at `service_c`, the warmest place that
    it may stay in; at `softening_c` it sags. `creeps`: not for loads that stay, at room temperature either. Of others
    `sustained_share` of the strength lasts, and `creep_share` of the modulus is left under a load that stays.
    """

    name: str
    density_g_cm3: float = Field(gt=0)
    modulus_mpa: float = Field(gt=0)
    poisson: float = Field(0.36, ge=0, lt=0.5)
    strength_mpa: float = Field(gt=0)
    strength_across_mpa: float = Field(gt=0)
    strain_limit: float = Field(gt=0)
    soft: bool = False
    creeps: bool = False
    softening_c: float
    service_c: float
    modulus_at_service: float = Field(0.7, gt=0, le=1)
    strength_at_service: float = Field(0.6, gt=0, le=1)
    sustained_share: float = Field(SUSTAINED_SHARE, gt=0, le=1)
    creep_share: float = Field(CREEP_SHARE, gt=0, le=1)
    status: str = "memory"
    note: str = ""
    origin: Origin | None = None
    warm_c: float | None = None
    """The temperature that `at` reckoned it for; None: as the table gives it, at 23 C."""

    def modulus_share(self, temperature_c: float) -> float:
        """Share of the modulus at 23 C that is left at a temperature [C]; 1 at 23 C and below, never 0."""
        return share_left(temperature_c, self.service_c, self.softening_c, self.modulus_at_service)

    def strength_share(self, temperature_c: float) -> float:
        """Share of both strengths at 23 C that is left at a temperature [C]; 1 at 23 C and below, never 0."""
        return share_left(temperature_c, self.service_c, self.softening_c, self.strength_at_service)

    def modulus_at(self, temperature_c: float) -> float:
        """Modulus [MPa] at a temperature [C], for a load that comes once."""
        return self.modulus_share(temperature_c) * self.modulus_mpa

    def strength_at(self, temperature_c: float) -> float:
        """Strength in the layer [MPa] at a temperature [C], for a load that comes once."""
        return self.strength_share(temperature_c) * self.strength_mpa

    def at(self, temperature_c: float | None) -> Material:
        """This filament as it is in a place so warm [C]: modulus and strengths with what the warmth leaves of them.

        None (no place named) and all up to 23 C: as it is. A filament is made warm once: from one that was, its own
        temperature only is given back.

        Raises
        ------
        ValueError
            It was reckoned for another temperature already.
        """
        if temperature_c is None or temperature_c == self.warm_c:
            return self
        if self.warm_c is not None:
            raise ValueError(f"{self.name} was reckoned for {self.warm_c:g} C; ask the one of the spec")
        strength = self.strength_share(temperature_c)
        return self.model_copy(
            update={
                "modulus_mpa": self.modulus_at(temperature_c),
                "strength_mpa": strength * self.strength_mpa,
                "strength_across_mpa": strength * self.strength_across_mpa,
                "warm_c": float(temperature_c),
            }
        )

    @property
    def lasting_modulus_mpa(self) -> float:
        """Modulus [MPa] to reckon with where a load stays."""
        return crept_mpa(self.modulus_mpa, self.creep_share)

    @property
    def lasting_mpa(self) -> float:
        """Stress [MPa] in the layer that is borne for good."""
        return sustained_mpa(self.strength_mpa, self.sustained_share)

    @property
    def lasting_across_mpa(self) -> float:
        """Stress [MPa] between layers that is borne for good."""
        return sustained_mpa(self.strength_across_mpa, self.sustained_share)


class InfillOf(Meant):
    """How a print is filled: `share` of the volume, 1 solid; `walls`: how many lines run along every surface."""

    share: float = Field(1.0, gt=0, le=1)
    walls: int = Field(4, ge=1)


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
    near_heat_said: str = ""
    """Where that temperature comes from, in words; empty where the YAML gives degrees."""
    suction: Suction = ASSUMED
    infill_share: float = Field(1.0, gt=0, le=1)
    wall_lines: int | None = None
    defaulted: tuple[str, ...] = ()
    places: Mapping[str, tuple[int, int]] = Field(default_factory=dict, repr=False)

    @property
    def in_place(self) -> Material:
        """The filament as warm as the place that it is meant for."""
        return self.material.at(self.near_heat_c)

    @property
    def sized_for(self) -> Material:
        """The same, but no warmer than it stands: sizes are reckoned with it (a hotter place asks for another one)."""
        near = self.near_heat_c
        return self.material.at(None if near is None else min(near, self.material.service_c))

    @property
    def ends(self) -> Mapping[str, End]:
        """The mouths of the part by their YAML key; none where it has none."""
        return {}

    @property
    def sizes(self) -> Mapping[str, Size]:
        """The measured or catalogued sizes by the YAML path of what says them."""
        return {}

    @property
    def infill(self) -> InfillOf:
        """Infill and wall lines; where the YAML gives no lines, as many as make its thickest wall solid."""
        return InfillOf(share=self.infill_share, walls=self.wall_lines or self.solid_lines)

    @property
    def solid_lines(self) -> int:
        """Wall lines on each side that make the thickest wall solid."""
        return max(1, math.ceil(self.thickest_wall_mm / self.printer.line_mm / 2 - 1e-9))

    @property
    def thickest_wall_mm(self) -> float:
        """The thickest wall [mm] that is printed as lines alone."""
        return self.wall_mm
