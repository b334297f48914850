"""Keys that say what a filament is: in a part, and in a profile of your own."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Annotated, Any, ClassVar

from pydantic import Field

from fitwright.spec.faults import Fault
from fitwright.spec.grammar.base import Grammar
from fitwright.spec.grammar.values import Number, Pressure, Temperature, YesNo
from fitwright.spec.models import Material

SOFT_LEAST = 0.02
"""A material that bears less hoop strain than this for good is not soft (common practice, no source)."""
_FIELDS = {
    **{key: f"{key}_mpa" for key in ("modulus", "strength", "strength_across")},
    **{key: f"{key}_c" for key in ("softening", "service")},
    "density": "density_g_cm3",
}


class MaterialSettings(Grammar):
    """What a filament is. What was not measured keeps its ratio to what was, as in the row that it is like."""

    meant: ClassVar[Mapping[str, str]] = {
        "type": "write like: PETG",
        **dict.fromkeys(("flexible", "flex", "elastic", "rubber"), "write soft: yes"),
        **dict.fromkeys(("stretch", "strain"), "write strain_limit: the stretch it bears for good, 0.05 for 5 %"),
        **dict.fromkeys(("tg", "hdt", "glass", "softens"), "write softening: the temperature at which it gets soft"),
        **dict.fromkeys(("e", "stiffness", "youngs", "young"), "write modulus"),
        **dict.fromkeys(("tensile", "yield", "ultimate"), "write strength"),
        **dict.fromkeys(("strength_z", "layer", "adhesion"), "write strength_across: between the layers"),
    }
    soft: Annotated[bool | None, YesNo()] = Field(
        None, description="Whether it stretches over a pipe and comes back (rubber-like): yes or no, no unit."
    )
    creeps: Annotated[bool | None, YesNo()] = Field(
        None, description="Whether it goes slack under a load that stays, in a room already: yes or no, no unit."
    )
    density: Annotated[float | None, Number(0.5, 3.0)] = Field(None, description="Density in g/cm3, a plain number.")
    modulus: Annotated[float | None, Pressure(1.0, 20000.0)] = Field(
        None, description="Elastic modulus, with its unit (MPa)."
    )
    poisson: Annotated[float | None, Number(0.0, 0.49)] = Field(None, description="Poisson's ratio, no unit.")
    strength: Annotated[float | None, Pressure(1.0, 300.0)] = Field(
        None, description="Strength in the layer, with its unit (MPa)."
    )
    strength_across: Annotated[float | None, Pressure(0.5, 300.0)] = Field(
        None, description="Strength between layers, with its unit (MPa)."
    )
    strain_limit: Annotated[float | None, Number(0.0005, 0.5)] = Field(
        None, description="Hoop strain allowed for good, as a ratio without unit (0.005)."
    )
    softening: Annotated[float | None, Temperature(20.0, 300.0)] = Field(
        None, description="Where it gets soft, in deg C or with its unit; 10 K above `service` where only that is said."
    )
    service: Annotated[float | None, Temperature(20.0, 300.0)] = Field(
        None, description="Warmest place it may stay in, in deg C or with its unit."
    )
    modulus_at_service: Annotated[float | None, Number(0.05, 1.0)] = Field(
        None, description="Share of its modulus that is left at `service`, no unit."
    )
    strength_at_service: Annotated[float | None, Number(0.05, 1.0)] = Field(
        None, description="Share of its strengths that is left at `service`, no unit."
    )
    sustained_share: Annotated[float | None, Number(0.05, 1.0)] = Field(
        None, description="Share of its strength that it bears for good, no unit."
    )
    creep_share: Annotated[float | None, Number(0.05, 1.0)] = Field(
        None, description="Share of its modulus that is left under a load that stays, no unit."
    )

    def told(self) -> tuple[str, ...]:
        """The keys of these that are written, as the YAML calls them."""
        return tuple(key for key in MaterialSettings.model_fields if getattr(self, key) is not None)

    def changed(self, base: Material) -> Material:
        """The filament `base` with what is written here, and what hangs on that."""
        values: dict[str, Any] = base.model_dump()
        written = {key: getattr(self, key) for key in self.told()}
        values |= {_FIELDS.get(key, key): value for key, value in written.items()}
        stronger = values["strength_mpa"] / base.strength_mpa
        if "strength_across" not in written:
            values["strength_across_mpa"] = stronger * base.strength_across_mpa
        if "strain_limit" not in written and not values["soft"]:
            values["strain_limit"] = stronger * base.modulus_mpa / values["modulus_mpa"] * base.strain_limit
        margin = base.softening_c - base.service_c
        if "service" in written and "softening" not in written:
            values["softening_c"] = values["service_c"] + margin
        if "softening" in written and "service" not in written:
            values["service_c"] = values["softening_c"] - margin
        return Material.model_validate(values)

    def faults(self, made: Material) -> Iterator[Fault]:
        """What does not go together in the filament that came of it."""
        if made.soft and made.strain_limit < SOFT_LEAST:
            at = "strain_limit" if self.strain_limit is not None else "soft"
            found = f"a soft filament that bears a strain of {made.strain_limit:g}"
            yield Fault((at,), found, f"strain_limit: {SOFT_LEAST:g} or more (0.05 is usual for 95 Shore A)")
        if made.strength_across_mpa > made.strength_mpa:
            found = f"{made.strength_across_mpa:g} MPa, above strength"
            hint = "between its layers no print is stronger than along them: are the two swapped?"
            yield Fault(("strength_across",), found, f"at most {made.strength_mpa:g} MPa", hint)
        if made.service_c > made.softening_c:
            at = "service" if self.service is not None else "softening"
            found = f"service at {made.service_c:g} C, above softening"
            yield Fault((at,), found, f"service: at most {made.softening_c:g} C; 10 K less is usual")
