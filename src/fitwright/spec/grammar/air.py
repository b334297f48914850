"""The air that flows through an adapter, as the YAML says it: how much, from where, what it carries, what draws it."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Annotated, Any, ClassVar, Literal

from pydantic import Field

from fitwright import units as u
from fitwright.spec.air import Air, AirHose, Fan
from fitwright.spec.air_losses import dust_names, entry_names, hose_names
from fitwright.spec.faults import Fault, FaultError, nearest, shown
from fitwright.spec.grammar.base import Forms, Grammar
from fitwright.spec.grammar.values import Context, Count, Flow, Length, Words, _Read
from fitwright.spec.suction import ASSUMED, PULLERS, Puller
from fitwright.spec.suction import Suction as Pull

MOST_FLOW_M3_S = 5.0
DUST_SLIPS = (
    *((word, "sanding dust") for word in ("dust", "wood dust", "fine dust", "sander dust")),
    *((word, "light shavings") for word in ("shavings", "planer shavings", "curls")),
    *((word, "sawdust") for word in ("saw dust", "saw")),
    *((word, "chips") for word in ("wood chips", "coarse chips", "planer chips")),
    ("flour", "wood flour"),
)
"""What people write for the table's words."""


HOSE_SLIPS = (
    *((word, "ribbed hose") for word in ("ribbed", "corrugated", "flexible", "flex")),
    *((word, "smooth-bore hose") for word in ("smooth", "smooth bore", "smooth hose", "smooth-bore")),
    *((word, "slack hose") for word in ("slack", "loose", "compressed")),
)
ENTRY_SLIPS = (
    *((word, "plain end") for word in ("open", "open end", "hose end", "plain", "nothing", "none")),
    *((word, "flanged end") for word in ("flange", "flanged", "flush", "plate", "box")),
    *((word, "bellmouth") for word in ("rounded", "bell", "trumpet")),
    *((word, "grinder hood tapered") for word in ("hood", "tapered", "tapered hood", "guard")),
)


@dataclass(frozen=True)
class Suction(_Read):
    """A pressure below the room's [Pa]; its unit must be written."""

    def parse(self, text: str, context: Context) -> float:
        return u.parse_pressure(text)

    def form(self, context: Context) -> str:
        return "a suction with its unit,"

    def say(self, number: float, context: Context) -> str:
        return u.format_pressure(number, context.units)

    def json_forms(self) -> list[dict[str, Any]]:
        return [{"type": "string"}]


@dataclass(frozen=True)
class RunLength(Length):
    """The length of a hose that runs through a shop: a plain number is mistaken for metres or feet, not for mm."""

    def range_hint(self, text: str, number: float, context: Context) -> str:
        try:
            plain = u.parse_number(text)
        except u.UnitError:
            return ""
        return f"did you mean {u.format_number(plain, 3)} {'m' if context.units == 'mm' else 'ft'}?"


class FanPointKeys(Grammar):
    """One point of a fan's curve."""

    example: ClassVar[str] = "{flow: 800 m^3/h, suction: 1.6 kPa}"
    meant: ClassVar[Mapping[str, str]] = {"pressure": "write suction", "vacuum": "write suction"}
    flow: Annotated[float, Flow(0.0, 2 * MOST_FLOW_M3_S)] = Field(
        description="The air flow at this point, with its unit, such as 800 m^3/h or 400 cfm."
    )
    suction: Annotated[float, Suction(0.0, 60_000.0)] = Field(
        description="The suction there, with its unit, such as 1.6 kPa or 6 inH2O."
    )


class FanKeys(Grammar):
    """What draws the air."""

    example: ClassVar[str] = "{shut_off: 2.2 kPa, free: 1500 m^3/h}"
    meant: ClassVar[Mapping[str, str]] = {
        **dict.fromkeys(("suction", "pressure", "vacuum", "lift", "static"), "write shut_off: with the inlet shut"),
        **dict.fromkeys(("flow", "airflow", "rated"), "write free: with nothing connected"),
        "curve": "write points",
    }
    shut_off: Annotated[float | None, Suction(50.0, 60_000.0)] = Field(
        None, description="Its greatest suction, with the inlet shut, with its unit, such as 2.2 kPa or 9 inH2O."
    )
    free: Annotated[float | None, Flow(0.001, 2 * MOST_FLOW_M3_S)] = Field(
        None, description="Its greatest flow, with nothing connected, with its unit, such as 1500 m^3/h or 900 cfm."
    )
    points: list[FanPointKeys] | None = Field(
        None, description="Points of its curve in place of the two: a list of flow and suction, with their units."
    )

    def sense(self, context: Context) -> Iterator[Fault]:
        if self.points is not None:
            yield from self._points_sense()
        elif self.shut_off is None:
            yield self.missing("shut_off")

    @staticmethod
    def missing(key: str) -> Fault:
        """What to say where a number of the label is not there."""
        return Fault((key,), "nothing", CURVE, f"add `{key}:`, it is on the machine's label", at="key")

    def _points_sense(self) -> Iterator[Fault]:
        points = self.points or []
        if self.shut_off is not None or self.free is not None:
            yield Fault(("points",), "points beside shut_off or free", "one of the two", "keep the points", at="key")
        if points and points[0].suction <= 0.0:
            allowed = "a suction above 0 at the least flow"
            yield Fault(("points", 0, "suction"), "0 Pa", allowed, "a fan that never sucks moves no air")
        if len(points) < 2:
            yield Fault(("points",), f"{len(points)} points", "2 points or more", "one point makes no curve")
        for k, (one, following) in enumerate(itertools.pairwise(points), start=1):
            if following.flow <= one.flow or following.suction > one.suction:
                found = f"point {k + 1} after point {k}"
                allowed = "flows that rise and suctions that fall"
                yield Fault(("points", k), found, allowed, "write them from the least flow to the greatest")

    def meant_as(self) -> Fan:
        """The curve as points [m3/s, Pa]; two numbers of a label stay two points."""
        if self.points is not None:
            return Fan(points=tuple((p.flow, p.suction) for p in self.points))
        assert self.shut_off is not None and self.free is not None
        return Fan(points=((0.0, self.shut_off), (self.free, 0.0)), label=True)

    def pull(self) -> Pull:
        """What it sucks with; of points without one at no flow, the first two are carried on to there."""
        return Pull(by="your fan", shut_pa=self._shut_pa(), when_shut="inlet shut")

    def _shut_pa(self) -> float:
        if self.points is None:
            assert self.shut_off is not None
            return self.shut_off
        one, two = self.points[:2]
        return one.suction + (one.suction - two.suction) / (two.flow - one.flow) * one.flow

    @property
    def most_m3_s(self) -> float:
        """The greatest flow [m3/s] that the curve tells."""
        return self.points[-1].flow if self.points else self.free or 0.0


def read_fan(value: object, context: Context) -> FanKeys | Puller:
    """A word for the kind of machine, or a map with its numbers."""
    if isinstance(value, dict):
        return FanKeys.read(value, context)
    word = value.strip() if isinstance(value, str) else ""
    for known in PULLERS:
        if word.casefold() == known:
            return known
    meant = PULLER_SLIPS.get(word.casefold(), "")
    hint = f"did you mean {meant}?" if meant else nearest(word, list(PULLERS))
    raise FaultError([Fault((), shown(value), f"{' | '.join(PULLERS)}, or a map such as {FanKeys.example}", hint)])


PULLER_SLIPS = {
    **dict.fromkeys(("dust collector", "chip collector", "blower"), "collector"),
    **dict.fromkeys(("vacuum", "vac", "vacuum cleaner", "wet and dry vacuum"), "shop vacuum"),
}
"""What people call them. A `dust extractor` may be either: it is not guessed."""
CURVE = "shut_off and free, or points"
FanValue = Annotated[
    FanKeys | Puller,
    Forms(read_fan, Literal["collector", "shop vacuum"] | FanKeys, "collector, shop vacuum, or a map"),
]


class AirHoseKeys(Grammar):
    """The hose of the run that the part sits in."""

    example: ClassVar[str] = "{inside: 100, length: 3 m, bends: 2}"
    meant: ClassVar[Mapping[str, str]] = {
        **dict.fromkeys(("diameter", "size", "bore"), "write inside"),
        "elbows": "write bends",
        **dict.fromkeys(("hood", "mouth", "inlet", "nozzle"), "write entry"),
        **dict.fromkeys(("type", "wall", "material"), "write kind"),
    }
    inside: Annotated[float, Length(15.0, 500.0)] = Field(description="Its inside diameter, in the file's units.")
    length: Annotated[float, RunLength(50.0, 50_000.0)] = Field(
        description="All of its length, before and behind the part, in the file's units (3 m, 10 ft)."
    )
    kind: Annotated[str, Words(hose_names(), HOSE_SLIPS)] = Field(
        "ribbed hose",
        description="What hose it is, in a word of the table; no unit; ribbed hose, pulled straight, if absent.",
    )
    entry: Annotated[str | None, Words(entry_names(), ENTRY_SLIPS)] = Field(
        None,
        description="What the air comes in by at the far end, in a word of the table; no unit; not counted if absent.",
    )
    bends: Annotated[int, Count(0, 30)] = Field(
        0, description="How many quarter turns it makes; a whole number without unit; 0 if absent."
    )


class AirKeys(Grammar):
    """The air that flows through."""

    example: ClassVar[str] = "{flow: 800 m^3/h, from: end_b, dust: chips}"
    meant: ClassVar[Mapping[str, str]] = {
        **dict.fromkeys(("material", "carries", "chips"), "write dust"),
        **dict.fromkeys(("collector", "machine", "vacuum", "blower"), "write fan"),
        **dict.fromkeys(("system", "run", "duct", "pipe"), "write hose"),
        "velocity": "write flow",
        "speed": "write flow",
    }
    flow: Annotated[float | None, Flow(0.0005, MOST_FLOW_M3_S)] = Field(
        None,
        description="The air flow with its unit, such as 800 m^3/h or 400 cfm; worked out where fan and hose stand in "
        "its place.",
    )
    from_: Annotated[Literal["end_a", "end_b"] | None, Words(("end_a", "end_b"))] = Field(
        None,
        alias="from",
        description="The end at which the air comes in: end_a or end_b; no unit. Not needed beside fan alone.",
    )
    dust: Annotated[str | None, Words(dust_names(), DUST_SLIPS)] = Field(
        None,
        description="What the air carries, in a word of the table, for the least speed that keeps it moving; no unit.",
    )
    fan: FanValue | None = Field(
        None,
        description="What draws the air: collector, shop vacuum, its label's two numbers or points of its curve, with "
        "their units; a collector if absent.",
    )
    hose: AirHoseKeys | None = Field(
        None,
        description="The hose of the run in place of the flow, which then is worked out; lengths in the file's units.",
    )

    def sense(self, context: Context) -> Iterator[Fault]:
        if self.fan is not None and not self.flows:
            return
        if self.from_ is None:
            yield Fault(
                ("from",), "nothing", "the end at which the air comes in: end_a or end_b", "add `from:`", at="key"
            )
        if self.flow is None and (self.fan is None or self.hose is None):
            allowed = "an air flow with its unit, such as 800 m^3/h, or fan and hose"
            yield Fault(("flow",), "nothing", allowed, "add `flow:`", at="key")
        if self.flow is not None and self.hose is not None:
            why = "with fan and hose the flow is worked out; a flow that was measured beats that"
            yield Fault(("hose",), "hose beside flow", "one of the two", why, at="key")
        yield from self._fan_sense(context)

    def _fan_sense(self, context: Context) -> Iterator[Fault]:
        """Whether the fan is told well enough for a flow."""
        if isinstance(self.fan, str):
            if self.flow is None and self.hose is not None:
                why = "a word tells how hard it pulls, not how much it moves: write both numbers from its label"
                yield Fault(("fan",), self.fan, f"with hose and no flow: {CURVE}", why)
            return
        if self.fan is not None and self.fan.points is None and self.fan.free is None:
            yield FanKeys.missing("free").under("fan")
        elif self.flow is not None and self.fan is not None and self.flow > self.fan.most_m3_s:
            most = u.format_flow(self.fan.most_m3_s, context.units)
            found = f"{u.format_flow(self.flow, context.units)} of a fan that moves {most} at the most"
            yield Fault(
                ("flow",), found, f"{most} or less", "a fan's free flow is what it moves with nothing connected"
            )

    @property
    def flows(self) -> bool:
        """Whether the air's way is told, or only what draws it."""
        return any(value is not None for value in (self.flow, self.from_, self.dust, self.hose))

    def pull(self) -> Pull:
        """What sucks at the part."""
        if isinstance(self.fan, FanKeys):
            return self.fan.pull()
        return ASSUMED if self.fan is None else PULLERS[self.fan]

    def meant_as(self) -> Air | None:
        """The same as the checks read it; nothing where only the fan is told."""
        if self.from_ is None:
            return None
        hose = (
            AirHose(
                inside_mm=self.hose.inside,
                length_mm=self.hose.length,
                bends=self.hose.bends,
                kind=self.hose.kind,
                entry=self.hose.entry,
            )
            if self.hose
            else None
        )
        return Air(
            flow_m3_s=self.flow,
            from_end=self.from_,
            dust=self.dust,
            fan=self.fan.meant_as() if isinstance(self.fan, FanKeys) else None,
            hose=hose,
        )


class PlateAirKeys(Grammar):
    """What sucks at a plate."""

    example: ClassVar[str] = "{fan: shop vacuum}"
    meant: ClassVar[Mapping[str, str]] = {
        **dict.fromkeys(("collector", "machine", "vacuum", "blower", "suction"), "write fan"),
        **dict.fromkeys(("flow", "from", "dust", "hose"), "a plate is only sucked at: fan alone"),
    }
    fan: FanValue = Field(
        description="What draws the air: collector, shop vacuum, or its numbers with their units, of which a plate "
        "needs shut_off alone.",
    )

    def pull(self) -> Pull:
        """What sucks at the plate."""
        return self.fan.pull() if isinstance(self.fan, FanKeys) else PULLERS[self.fan]
