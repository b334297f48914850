"""Saddle, open hook and split clamp, as the YAML says them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import partial
from typing import Annotated, Any, ClassVar, Literal

from pydantic import Field

from fitwright.data.fasteners import fastener
from fitwright.spec.faults import Fault, FaultError, nearest, shown
from fitwright.spec.grammar.base import Forms, Grammar
from fitwright.spec.grammar.screws import SCREW
from fitwright.spec.grammar.values import YES_NO, Angle, Context, Length, YesNo

STRAP_WIDE = Length(10.0, 60.0)
_TURN = Angle(-360.0, 360.0, signed=True)
WAYS_DEG = {"up": 0.0, "right": 90.0, "down": 180.0, "left": 270.0}
"""To where it opens, clockwise from up, seen along the hose [deg]."""
_PLACES = (("top", "up"), ("above", "up"), ("bottom", "down"), ("below", "down"), ("side", "right"))


def read_opens(value: object, context: Context) -> float:
    """A direction as degrees clockwise from up, seen along the hose."""
    word = value.strip() if isinstance(value, str) else ""
    if word in WAYS_DEG:
        return WAYS_DEG[word]
    meant = dict(_PLACES).get(word.casefold()) or _nearest_way(word, context)
    hint = f"did you mean {meant}?" if meant else nearest(word, list(WAYS_DEG))
    raise FaultError([Fault((), shown(value), " | ".join(WAYS_DEG), hint)])


def _nearest_way(word: str, context: Context) -> str:
    """The direction that an angle was meant to say; empty where it is none."""
    try:
        turned = _TURN.read(word, context)
    except FaultError:
        return ""
    assert turned is not None  # no `auto`
    return min(WAYS_DEG, key=lambda way: abs((WAYS_DEG[way] - turned + 180.0) % 360.0 - 180.0))


OpensValue = Annotated[float, Forms(read_opens, Literal["up", "right", "down", "left"], "up, right, down, left")]
OPENS_SAYS = "To where it opens, seen along the hose: up, right, down or left; no unit. {} if absent."


class StrapKeys(Grammar):
    """The strap over a saddle."""

    example: ClassVar[str] = "{width: 25, thickness: 3}"
    filled: ClassVar[tuple[str, ...]] = ("width", "thickness")
    width: Annotated[float | None, STRAP_WIDE] = Field(
        None, description="Its width, in the file's units; 25 mm if absent, 38 mm where it carries the hose."
    )
    thickness: Annotated[float, Length(0.5, 6.0)] = Field(
        3.0, description="Its thickness where it goes through the slot, in the file's units; 3 mm if absent."
    )


def read_strap(value: object, context: Context) -> StrapKeys:
    """Its width, or a map."""
    if isinstance(value, dict):
        return StrapKeys.read(value, context)
    STRAP_WIDE.read(value, context)
    return StrapKeys.read({"width": value}, context)


StrapValue = Annotated[StrapKeys, Forms(read_strap, Annotated[float, STRAP_WIDE] | StrapKeys, "its width, or a map")]


class HangerSaddleKeys(Grammar):
    """A saddle under the hose with a strap over it."""

    example: ClassVar[str] = "{strap: 25}"
    filled: ClassVar[tuple[str, ...]] = ("strap", "opens")
    meant: ClassVar[Mapping[str, str]] = {
        **dict.fromkeys(
            ("throat", "gap", "opening"), "a saddle is open by half; a throat is a hook's: hook: {throat: ...}"
        ),
        **dict.fromkeys(("band", "tie", "velcro", "belt"), "write strap"),
        **dict.fromkeys(("screws", "bolts"), "screws close a clamp: clamp: {screws: M5}"),
        **dict.fromkeys(("width", "wide"), "width stands at the top; strap has a width of its own"),
    }
    strap: StrapValue | None = Field(
        None,
        description="The strap: its width, or a map, in the file's units; 25 mm if absent, 38 mm where it carries the "
        "hose (under a ceiling).",
    )
    opens: OpensValue | None = Field(None, description=OPENS_SAYS.format("Up; under a ceiling down"))


class HangerHookKeys(Grammar):
    """An open hook, through whose throat the hose is pushed."""

    example: ClassVar[str] = "{throat: 90, opens: right}"
    filled: ClassVar[tuple[str, ...]] = ("throat", "opens")
    meant: ClassVar[Mapping[str, str]] = {
        **dict.fromkeys(("gap", "mouth", "opening", "clear"), "write throat"),
        **dict.fromkeys(("direction", "towards", "side"), "write opens"),
        **dict.fromkeys(("strap", "band"), "a strap is a saddle's: saddle: {strap: 25}"),
    }
    throat: Annotated[float | None, Length(5.0, 300.0, auto=True)] = Field(
        None,
        description="Clear width of the opening, lip to lip, in the file's units; as what it holds needs if absent.",
    )
    opens: OpensValue | None = Field(None, description=OPENS_SAYS.format("Up; under a ceiling sideways"))

    def sense(self, context: Context) -> Iterator[Fault]:
        if self.opens == WAYS_DEG["down"]:
            hint = "the weight would press the hose out"
            yield Fault(("opens",), "a hook that opens downwards", "up | right | left", hint)


class HangerClampKeys(Grammar):
    """A clamp of two halves round the pipe."""

    example: ClassVar[str] = "{screws: M5}"
    filled: ClassVar[tuple[str, ...]] = ("screws", "gap")
    meant: ClassVar[Mapping[str, str]] = {
        **dict.fromkeys(("screw", "bolt", "bolts", "size"), "write screws: M5"),
        **dict.fromkeys(("strap", "tie", "hose_clamp"), "write band: its width"),
        **dict.fromkeys(("throat", "opening"), "a throat is a hook's: hook: {throat: ...}"),
        **dict.fromkeys(("opens", "split"), "a clamp is parted through the axis, along the surface: delete it"),
    }
    screws: Annotated[str | None, SCREW] = Field(
        None, description="The two screws that close it, with nuts: M5, 1/4 in (its unit is in it); M5 if absent."
    )
    band: Annotated[float | None, Length(5.0, 40.0)] = Field(
        None, description="Or a band round both halves: its width, in the file's units."
    )
    gap: Annotated[float, Length(0.0, 10.0)] = Field(
        2.0, description="Between the halves on each side, so that they grip, in the file's units; 2 mm if absent."
    )

    def sense(self, context: Context) -> Iterator[Fault]:
        if self.screws is not None and self.band is not None:
            yield Fault(("band",), "screws and band together", "one of the two", "delete one", at="key")
        elif self.screws is not None and not fastener(self.screws).nut_af_mm:
            found = f"{self.screws}, whose nut is not in our tables"
            yield Fault(("screws",), found, "a machine screw: M3 to M12, No. 6 to 1/2 in")

    def open_keys(self) -> tuple[str, ...]:
        """A band needs no screws."""
        left = super().open_keys()
        return tuple(key for key in left if key != "screws" or self.band is None)


def _yes_or_map(keys: type[Any], value: object, context: Context) -> Any:
    """`yes` is the style with all that it fills in."""
    if isinstance(value, str):
        if YES_NO.get(value.strip().casefold()):
            return keys.read({}, context)
        raise FaultError([Fault((), shown(value), f"yes, or a map such as {keys.example}", _instead(value, keys))])
    return keys.read(value, context)


def _instead(value: str, keys: type[Grammar]) -> str:
    if nearest(value.strip(), ["yes"]):
        return "did you mean yes?"
    if value.strip().casefold() in YES_NO:
        return "delete the line, or name the style that you want: saddle, hook or clamp"
    key = next(iter(keys.model_fields))
    return f"did you mean {{{key}: {value.strip()[:20]}}}?"


_SAYS = "yes, or a map"
_YES = Annotated[bool, YesNo()]
SaddleValue = Annotated[HangerSaddleKeys, Forms(partial(_yes_or_map, HangerSaddleKeys), _YES | HangerSaddleKeys, _SAYS)]
HookValue = Annotated[HangerHookKeys, Forms(partial(_yes_or_map, HangerHookKeys), _YES | HangerHookKeys, _SAYS)]
ClampValue = Annotated[HangerClampKeys, Forms(partial(_yes_or_map, HangerClampKeys), _YES | HangerClampKeys, _SAYS)]
