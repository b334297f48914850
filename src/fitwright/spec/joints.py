"""The joints of an end as meant: every default filled in, mm and degrees, frozen and strictly checked."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Literal, Self

from pydantic import BaseModel, ConfigDict, Field, model_validator

from fitwright.outline import Outline
from fitwright.section import Section
from fitwright.spec.learned import Learned
from fitwright.spec.size import Size

Fit = Literal["slide", "snug", "press", "glue", "stretch"]
Kind = Literal["socket", "spigot", "hose_tail", "flange", "plain"]


class Meant(BaseModel):
    """Base of all that a spec holds: frozen, no unknown fields, no conversion, no NaN or infinity."""

    model_config = ConfigDict(
        frozen=True,
        extra="forbid",
        strict=True,
        allow_inf_nan=False,
        validate_default=True,
        revalidate_instances="never",
    )

    def model_copy(self, *, update: Mapping[str, Any] | None = None, deep: bool = False) -> Self:
        """A copy with some fields changed, which are checked as if it were made anew (pydantic does not)."""
        same = super().model_copy(deep=deep)
        fields = {name: getattr(same, name) for name in type(self).model_fields}
        return type(self).model_validate({**fields, **(update or {})})


@dataclass(frozen=True)
class Place:
    """A place in the plane of a mouth face [mm] from its axis."""

    right_mm: float
    up_mm: float


class Clamp(Meant):
    """Slits in a socket and the land for a band round them."""

    slits: int = Field(4, ge=2, le=12)
    band_mm: float = Field(13.0, gt=0)


class Screws(Meant):
    """Screws from outside into the bought part; `pilot_d_mm` is the hole in the print.

    `first_at_deg` (clockwise from up) None: where there is room.
    """

    count: int = Field(3, ge=1, le=12)
    size: str
    pilot_d_mm: float = Field(gt=0)
    first_at_deg: float | None = None


class Ridge(Meant):
    """A helical ridge that winds as the ribs of a hose do; `turns` None: as many as the depth holds."""

    pitch_mm: float = Field(gt=0)
    hand: Literal["left", "right"]
    wire_mm: float = Field(gt=0)
    height_mm: float | None = None
    turns: float | None = None


class Bond(Meant):
    """A lug with a pilot for `screw`, and a channel to it for a hose's bared wire; clock angle from up."""

    screw: str
    wire_mm: float = Field(gt=0)
    at_deg: float = 0.0
    major_mm: float = Field(gt=0)
    pilot_d_mm: float = Field(gt=0)
    seat_d_mm: float = Field(gt=0)
    head_k_mm: float = Field(ge=0)


class Socket(Meant):
    """Goes over a pipe or port. `lead_in_mm` and `stop_mm` are radial, `allowance_mm` is on the diameter.

    `flare_mm`: how much the outside swells (radial) round the mouth of a soft cuff, whose lead-in needs the room.
    """

    size: Size
    fit: Fit
    depth_mm: float = Field(gt=0)
    lead_in_mm: float = Field(ge=0)
    taper_deg: float = Field(ge=0)
    stop_mm: float = Field(1.0, ge=0)
    flare_mm: float = Field(default=0.0, ge=0)
    allowance_mm: float | None = None
    clamp: Clamp | None = None
    screws: Screws | None = None
    cord_mm: float | None = None
    ridge: Ridge | None = None
    learned: Learned | None = None


class Spigot(Meant):
    """Goes into a pipe or port. `stop_mm` is the height of its collar."""

    size: Size
    fit: Fit
    depth_mm: float = Field(gt=0)
    lead_in_mm: float = Field(ge=0)
    taper_deg: float = Field(ge=0)
    stop_mm: float = Field(2.0, ge=0)
    allowance_mm: float | None = None
    wall_mm: float | None = None
    screws: Screws | None = None
    cord_mm: float | None = None
    learned: Learned | None = None


class HoseTail(Meant):
    """A hose is pushed over it and clamped, or screwed over its ridge; `size` is the hose's inside.

    `band_mm` 0: no clamp.
    """

    size: Size
    depth_mm: float = Field(gt=0)
    bead_mm: float = Field(1.0, ge=0)
    band_mm: float = Field(13.0, ge=0)
    wall_mm: float = Field(3.2, gt=0)
    allowance_mm: float = 0.5
    ridge: Ridge | None = None
    bond: Bond | None = None
    learned: Learned | None = None


@dataclass(frozen=True)
class Round:
    """A round flange [mm]."""

    d_mm: float


@dataclass(frozen=True)
class Rectangle:
    """A rectangular flange [mm]; `corner_mm` is the radius of its corners."""

    width_mm: float
    height_mm: float
    corner_mm: float = 0.0


class Holes(Meant):
    """Bolt holes: centres, the bolt's name, the hole from ISO 273 / ASME B18.2.8, and the room its hardware needs.

    `first_at_deg` counts clockwise from up, as seen by somebody who looks into the mouth. Nut sizes are 0 where the
    standards give none; a missing washer counts as the head.
    """

    points: tuple[Place, ...] = Field(min_length=2)
    size: str
    hole_d_mm: float = Field(gt=0)
    count: int = Field(ge=2)
    circle_mm: float | None = None
    first_at_deg: float = 0.0
    clearance: Literal["fine", "medium", "coarse"] = "medium"
    head_d_mm: float
    head_k_mm: float
    washer_d_mm: float
    washer_h_mm: float
    nut_af_mm: float
    nut_m_mm: float


class Flange(Meant):
    """A flange, bolted or (without `holes`) glued, taped or clamped over what it `covers` and `margin_mm` beyond.

    `outline` None: round, as the pattern and what is covered need; `opening_mm` None: the other end's passage.
    """

    holes: Holes | None = None
    outline: Round | Rectangle | Outline | None = None
    covers: Outline | None = None
    margin_mm: float = Field(default=5.0, gt=0)
    opening_mm: float | None = None
    opening: Section | None = None
    """Where the opening is not round; `opening_mm` then is its shorter side."""
    thickness_mm: float = Field(6.0, gt=0)
    gussets: int | None = None
    gasket_cord_mm: float | None = None
    washers: bool = True
    nut_pockets: bool = False


class Plain(Meant):
    """A bare tube end with the given inside."""

    inside: Size
    length_mm: float = Field(10.0, gt=0)

    @property
    def size(self) -> Size:
        """Its inside, under the name that the other joints use."""
        return self.inside


Joint = Socket | Spigot | HoseTail | Flange | Plain


class End(Meant):
    """One mouth of an adapter: exactly one joint, and what it meets in the user's words."""

    label: str | None = None
    socket: Socket | None = None
    spigot: Spigot | None = None
    hose_tail: HoseTail | None = None
    flange: Flange | None = None
    plain: Plain | None = None

    @model_validator(mode="after")
    def _exactly_one(self) -> End:
        if sum(getattr(self, kind) is not None for kind in JOINT_KINDS) != 1:
            raise ValueError("an end has exactly one joint")
        return self

    @property
    def kind(self) -> Kind:
        """The joint's word in the YAML."""
        return next(kind for kind in JOINT_KINDS if getattr(self, kind) is not None)

    @property
    def joint(self) -> Joint:
        """The joint itself."""
        joint: Joint = getattr(self, self.kind)
        return joint


JOINT_KINDS: tuple[Kind, ...] = ("socket", "spigot", "hose_tail", "flange", "plain")
