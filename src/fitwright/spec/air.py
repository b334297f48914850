"""The air through an adapter as meant: flow [m3/s], where it comes in, what it carries, what draws it."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from fitwright.spec.joints import Meant


class Fan(Meant):
    """Points (flow [m3/s], suction [Pa]) of a fan's curve; `label`: only its two ends are known."""

    points: tuple[tuple[float, float], ...] = Field(min_length=2)
    label: bool = False


class AirHose(Meant):
    """The hose of the run: inside and length [mm], its quarter turns, its kind, and what the air comes in by.

    `entry` None: not told, and not counted.
    """

    inside_mm: float = Field(gt=0)
    length_mm: float = Field(gt=0)
    bends: int = Field(default=0, ge=0)
    kind: str = "ribbed hose"
    entry: str | None = None


class Air(Meant):
    """The air that flows through, and from which end. `flow_m3_s` None: `fan` and `hose` give it."""

    flow_m3_s: float | None = Field(default=None, gt=0)
    from_end: Literal["end_a", "end_b"]
    dust: str | None = None
    fan: Fan | None = None
    hose: AirHose | None = None
