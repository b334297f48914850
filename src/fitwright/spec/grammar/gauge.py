"""A fit gauge as the YAML says it."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Mapping
from functools import partial
from typing import Annotated, ClassVar, Literal

from pydantic import Field

from fitwright.spec.faults import Fault, FaultError, shown
from fitwright.spec.grammar.base import Forms, gather, under
from fitwright.spec.grammar.joints import Sized
from fitwright.spec.grammar.measured import HoseName, Measured, PipeInside, PipeOutside
from fitwright.spec.grammar.parts import PartKeys
from fitwright.spec.grammar.sections import MeasuredSection
from fitwright.spec.grammar.values import Context, Count, Length, Words
from fitwright.spec.size import Size

KINDS = ("rings", "plugs", "sizes")
STEPS = Count(5, 9)
STEP = Length(0.02, 5.0, auto=True)
CALIBRATED = Length(10.0, 300.0)
MOST_SIZES, APART_MM = 12, 1.0
_WHICH = "a gauge is for one thing: rings go over a pipe, plugs go into a hole or hose, sizes measure the printer"


class _Gauged(Sized):
    """What a gauge is made round: one size, of something round and straight."""

    def sized_sense(self) -> Iterator[Fault]:
        if self.size.outline is not None:
            found = "a section that is not round"
            yield Fault((self.size_key,), found, "a diameter", "a gauge is turned, and so is what it fits")
        elif self.size.further_mm is not None and self.size_key != "pipe":
            found = "a port that tapers"
            yield Fault((self.size_key,), found, "one diameter", "give the one at its end; a gauge steps straight")


class RingsKeys(_Gauged):
    """Bores that go over a pipe or port."""

    example: ClassVar[str] = "{over: 107.1}"
    meant: ClassVar[Mapping[str, str]] = {"into": "rings go over: write over, or `plugs: {into: ...}`"}
    over: MeasuredSection | None = Field(
        None, description="Outside of what they go over, in the file's units: a diameter, measured in any way."
    )
    pipe: PipeOutside | None = Field(
        None, description="The pipe they go over by its name, such as EN 1401 DN 110; mm and inches are in the name."
    )

    def ways(self) -> dict[str, Size | None]:
        return {"over": self.over, "pipe": self.pipe}


class PlugsKeys(_Gauged):
    """Outsides that go into a hole, pipe or hose."""

    example: ClassVar[str] = "{into: 100.3}"
    meant: ClassVar[Mapping[str, str]] = {"over": "plugs go into: write into, or `rings: {over: ...}`"}
    into: MeasuredSection | None = Field(
        None, description="Inside of what they go into, in the file's units: a diameter, measured in any way."
    )
    pipe: PipeInside | None = Field(
        None, description="The pipe whose inside they go into, by its name; mm and inches are in the name."
    )
    hose_inside: Measured | None = Field(
        None, description="Inside diameter of the hose, about, in the file's units; the gauge tells it."
    )
    hose: HoseName | None = Field(
        None, description="The hose by its name, such as 4 in; mm and inches are in the name."
    )

    def ways(self) -> dict[str, Size | None]:
        return {"into": self.into, "pipe": self.pipe, "hose_inside": self.hose_inside, "hose": self.hose}


def _read_sizes(value: object, context: Context) -> tuple[float, ...]:
    if not isinstance(value, list) or not 2 <= len(value) <= MOST_SIZES:
        hint = "each makes a ring whose hole has this size"
        raise FaultError([Fault((), shown(value), f"a list of 2 to {MOST_SIZES} sizes, such as [20, 40, 60]", hint)])
    sizes = gather([under((i,), partial(CALIBRATED.read, one, context)) for i, one in enumerate(value)])
    order = sorted(range(len(sizes)), key=lambda i: float(sizes[i]))
    for one, other in itertools.pairwise(order):
        if sizes[other] - sizes[one] < APART_MM:
            found = f"{shown(value[other])} beside {shown(value[one])}"
            raise FaultError([Fault((other,), found, f"sizes that differ by {APART_MM:g} mm or more")])
    return tuple(sizes[i] for i in order)


SizesValue = Annotated[tuple[float, ...], Forms(_read_sizes, list[Annotated[float, CALIBRATED]])]


class FitGaugeKeys(PartKeys):
    """Rings or plugs that step through a size, each with its value on it."""

    example: ClassVar[str] = "{part: fit_gauge, rings: {over: 107.1}}"
    filled: ClassVar[tuple[str, ...]] = (*PartKeys.filled, "steps", "step", "form", "height", "marks")
    meant: ClassVar[Mapping[str, str]] = {
        **PartKeys.meant,
        **dict.fromkeys(("over", "socket", "ring"), "write rings: {over: ...}"),
        **dict.fromkeys(("into", "spigot", "plug"), "write plugs: {into: ...}"),
        **dict.fromkeys(("hose_inside", "hose", "hose_tail"), "write plugs: {hose_inside: ...}"),
        "pipe": "write rings: {pipe: ...} for its outside, plugs: {pipe: ...} for its inside",
        **dict.fromkeys(("size", "diameter"), "write rings: {over: ...}, plugs: {into: ...}, or sizes: [...]"),
        **dict.fromkeys(("count", "number"), "write steps"),
        **dict.fromkeys(("increment", "pitch"), "write step"),
        **dict.fromkeys(("mark", "labels"), "write marks"),
        **dict.fromkeys(
            ("end_a", "end_b"), "a gauge has no ends: write rings or plugs, or `fitwright gauge PART.yaml`"
        ),
    }
    part: Annotated[Literal["fit_gauge"], Words(("fit_gauge",))] = Field(description="The family: fit_gauge; no unit.")
    rings: RingsKeys | None = Field(
        None, description="Bores that go over a pipe or port; a map, lengths in the file's units."
    )
    plugs: PlugsKeys | None = Field(
        None, description="Outsides that go into a hole, pipe or hose; a map, lengths in the file's units."
    )
    sizes: SizesValue | None = Field(
        None,
        description="Rings whose hole and outside have a known size, to measure the printer with: a list of holes, in "
        "the file's units.",
    )
    steps: Annotated[int, STEPS] = Field(7, description="How many rings or plugs. A whole number, 7 if absent.")
    step: Annotated[float | None, STEP] = Field(
        None,
        description="From one to the next, on the diameter, in the file's units; so that all fits are in if absent.",
    )
    fit: Annotated[Literal["slide", "snug", "press", "glue"] | None, Words(("slide", "snug", "press", "glue"))] = Field(
        None, description="Only round this fit: slide, snug, press or glue; no unit. All of them if absent."
    )
    height: Annotated[float | None, Length(2.4, 30.0, auto=True)] = Field(
        None,
        description="How high each ring, plug or step is, in the file's units; 3 mm a step, 6 mm a ring if absent.",
    )
    form: Annotated[Literal["auto", "separate", "stepped"], Words(("auto", "separate", "stepped"))] = Field(
        "auto", description="separate pieces, or one stepped piece; no unit. auto: separate where the bed holds them."
    )
    marks: Annotated[Literal["size", "allowance"] | None, Words(("size", "allowance"))] = Field(
        None,
        description="What stands on each: its size, or the allowance to write into the joint; no unit. "
        "If absent: size for a hose, else allowance.",
    )

    @property
    def kind(self) -> str:
        """The one kind given."""
        return next(kind for kind in KINDS if getattr(self, kind) is not None)

    @property
    def gauged(self) -> RingsKeys | PlugsKeys | None:
        """What it is made round; None for a set of sizes."""
        return self.rings or self.plugs

    def sense(self, context: Context) -> Iterator[Fault]:
        given = [kind for kind in KINDS if getattr(self, kind) is not None]
        if not given:
            yield Fault(
                ("rings",), "nothing", "one of rings, plugs, sizes", f"{_WHICH}: such as {RingsKeys.example}", at="key"
            )
        elif len(given) > 1:
            yield Fault((given[1],), f"{given[0]} and {given[1]} together", "one of them", _WHICH, at="key")
        elif self.sizes is not None:
            yield from self._set_sense()
        if self.envelope.keep_clear or self.envelope.stay_inside:
            yield Fault(("envelope",), "an envelope round a gauge", "none", "a gauge is used in the hand", at="key")

    def _set_sense(self) -> Iterator[Fault]:
        """A set of sizes says itself how many there are and how far apart."""
        for key in ("steps", "step", "fit", "marks"):
            if key in self.model_fields_set and getattr(self, key) not in (None, "size"):
                yield Fault(
                    (key,), f"{key} beside sizes", "one of the two", f"delete {key}: sizes says it all", at="key"
                )
        if self.form == "stepped":
            hint = "a caliper must reach both faces of each"
            yield Fault(("form",), "stepped beside sizes", "separate | auto", hint)

    def open_keys(self) -> tuple[str, ...]:
        """A set of sizes has neither steps nor marks to fill in."""
        left = super().open_keys()
        return tuple(k for k in left if self.sizes is None or k not in ("steps", "step", "marks", "form"))
