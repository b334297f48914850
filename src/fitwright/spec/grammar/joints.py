"""An end and its joints, as the YAML says them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Annotated, ClassVar, Literal

from pydantic import Field

from fitwright.spec.faults import Fault
from fitwright.spec.grammar.base import Grammar
from fitwright.spec.grammar.flange import FlangeKeys
from fitwright.spec.grammar.measured import HoseName, Measured, PipeInside, PipeOutside
from fitwright.spec.grammar.ridge import BondKeys, RidgeKeys
from fitwright.spec.grammar.screws import ClampKeys, ScrewsKeys
from fitwright.spec.grammar.sections import MeasuredSection
from fitwright.spec.grammar.values import Angle, Context, Length, Text, Words
from fitwright.spec.joints import JOINT_KINDS
from fitwright.spec.size import Size

FIT = Words(
    ("slide", "snug", "press", "glue", "stretch"),
    (
        *(("slip", "slide"), ("sliding", "slide"), ("loose", "slide"), ("tight", "snug"), ("interference", "press")),
        *(("stretchy", "stretch"), ("soft", "stretch"), ("elastic", "stretch"), ("rubber", "stretch")),
    ),
)
Fit = Annotated[Literal["slide", "snug", "press", "glue", "stretch"] | None, FIT]
DEPTH, ALLOWANCE, LEAD_IN = Length(5.0, 200.0, auto=True), Length(-1.0, 8.0, signed=True), Length(0.0, 5.0, auto=True)
STRETCHED = Length(-40.0, 8.0, signed=True)
"""A soft cuff may be made this much smaller; what a rigid one may be, the whole part tells."""
TAPER, STOP, CORD, WALL = Angle(0.0, 5.0, auto=True), Length(0.0, 20.0), Length(1.5, 20.0), Length(0.8, 20.0)
LEAD_IN_SAYS = "How much the mouth opens, in radius, in the file's units; 0.8 mm at most if absent, 0 for none."
TAPER_SAYS = "Half angle of the taper, in degrees; 0.5 on snug joints over 80 mm if absent, else 0."
FIT_SAYS = (
    "How it holds: slide, snug, press, glue or, in a soft material, stretch; no unit. "
    "If absent: stretch in a soft material, else snug over 80 mm and slide below."
)
ALLOWANCE_SAYS = "How much looser the print is, on the diameter, in the file's units; stands in place of the fit."
DEPTH_SAYS = "How far the bought part goes in or on, in the file's units; 0.4 x diameter, 25 to 60 mm, if absent."
_WHICH_FACE = "which face was measured? over: the outside of what it goes over; into: the inside of what it goes into"
_FACE_WORDS = dict.fromkeys(("diameter", "dia", "d", "od", "id", "size", "outside", "inside", "measured"), _WHICH_FACE)


class Sized(Grammar):
    """A joint whose size is measured, or named; one of `ways`."""

    def ways(self) -> dict[str, Size | None]:
        """Key -> size, for each way that this joint knows."""
        raise NotImplementedError

    @property
    def size(self) -> Size:
        """The one size given."""
        return next(size for size in self.ways().values() if size is not None)

    @property
    def size_key(self) -> str:
        """The key that it was given under."""
        return next(key for key, size in self.ways().items() if size is not None)

    def sense(self, context: Context) -> Iterator[Fault]:
        ways = self.ways()
        given = [key for key, size in ways.items() if size is not None]
        if not given:
            first = next(iter(ways))
            yield Fault((first,), "nothing", " or ".join(ways), f"measure it and add `{first}:`", at="key")
        elif len(given) > 1:
            found = f"{given[0]} and {given[1]} together"
            yield Fault(
                (given[1],), found, f"{given[0]} or {given[1]}", f"a reading beats a table: keep {given[0]}", at="key"
            )
        else:
            yield from self.sized_sense()

    def sized_sense(self) -> Iterator[Fault]:
        """What is wrong although there is one size."""
        return iter(())


class _PushFit(Sized):
    """What sockets and spigots share."""

    filled: ClassVar[tuple[str, ...]] = ("fit", "depth", "lead_in", "taper", "stop")
    fit: Fit = Field(None, description=FIT_SAYS)
    allowance: Annotated[float | None, STRETCHED] = Field(None, description=ALLOWANCE_SAYS)
    depth: Annotated[float | None, DEPTH] = Field(None, description=DEPTH_SAYS)
    lead_in: Annotated[float | None, LEAD_IN] = Field(None, description=LEAD_IN_SAYS)
    taper: Annotated[float | None, TAPER] = Field(None, description=TAPER_SAYS)
    screws: ScrewsKeys | None = Field(
        None, description="Radial screws that hold it; a map of count and size (no unit)."
    )
    cord: Annotated[float | None, CORD] = Field(
        None, description="Diameter of a foam cord that seals the gap, in the file's units; none if absent."
    )

    def sized_sense(self) -> Iterator[Fault]:
        if self.size.outline is not None:
            yield from self._section_sense()
        if self.taper and self.size.further_mm is not None:
            found = "taper beside a port that tapers by itself"
            yield Fault(("taper",), found, "one of the two", "delete taper: the joint follows the port")

    def _section_sense(self) -> Iterator[Fault]:
        """Flat sides do not stretch round a hoop as a ring does."""
        if self.taper:
            yield Fault(("taper",), "a taper on a section that is not round", "none", "delete taper")
        if self.fit == "press":
            yield Fault(("fit",), "press on a section that is not round", "slide | snug | glue", "flat sides give way")

    def open_keys(self) -> tuple[str, ...]:
        """An allowance stands in place of the fit, which then is not ours to fill in."""
        return tuple(key for key in super().open_keys() if key != "fit" or self.allowance is None)


class SocketKeys(_PushFit):
    """The print goes over a pipe or port."""

    example: ClassVar[str] = "{over: 107.1}"
    meant: ClassVar[Mapping[str, str]] = {
        **_FACE_WORDS,
        "into": "a socket goes over: write over, or `spigot: {into: ...}`",
    }
    over: MeasuredSection | None = Field(
        None, description="Outside of what it goes over, in the file's units: a diameter or a section."
    )
    pipe: PipeOutside | None = Field(
        None, description="The pipe it goes over by its name, such as EN 1401 DN 110; mm and inches are in the name."
    )
    stop: Annotated[float | None, STOP] = Field(
        None, description="Height of the shoulder that stops the pipe, in the file's units; 1 mm if absent, 0 for none."
    )
    clamp: ClampKeys | None = Field(
        None, description="Slits and a band that closes them; a map, lengths in the file's units."
    )
    ridge: RidgeKeys | None = Field(
        None,
        description="A helical ridge that a hose's ribbed outside is screwed into; a map, in the file's units.",
    )

    def ways(self) -> dict[str, Size | None]:
        return {"over": self.over, "pipe": self.pipe}

    def sized_sense(self) -> Iterator[Fault]:
        yield from super().sized_sense()
        if self.size.outline is not None and self.clamp is not None:
            found = "a clamp on a section that is not round"
            yield Fault(("clamp",), found, "screws, or glue", "a band does not press on flat sides", at="key")
        if self.ridge is not None:
            yield from self._ridge_sense()

    def _ridge_sense(self) -> Iterator[Fault]:
        if self.size.outline is not None:
            found = "a ridge on a section that is not round"
            yield Fault(("ridge",), found, "none", "only a round hose is screwed in", at="key")
        for key in ("clamp", "screws", "cord"):
            if getattr(self, key) is not None:
                hint = "the ridge holds the hose, and tape or glue seals it"
                yield Fault((key,), f"{key} beside a ridge", "one of the two", f"delete {key}: {hint}", at="key")
        if self.taper or self.size.further_mm is not None:
            key = "taper" if self.taper else self.size_key
            yield Fault((key,), "a taper beside a ridge", "a parallel socket", "a hose has the same size all along")
        if self.fit in ("snug", "press"):
            yield Fault(("fit",), f"{self.fit} beside a ridge", "slide | glue", "a hose must turn to be screwed in")


class SpigotKeys(_PushFit):
    """The print goes into a pipe or port."""

    example: ClassVar[str] = "{into: 102.3}"
    meant: ClassVar[Mapping[str, str]] = {
        **_FACE_WORDS,
        "over": "a spigot goes into: write into, or `socket: {over: ...}`",
        "clamp": "slits and band are for sockets",
    }
    into: MeasuredSection | None = Field(
        None, description="Inside of what it goes into, in the file's units: a diameter or a section."
    )
    pipe: PipeInside | None = Field(
        None, description="The pipe whose inside it goes into, by its name; mm and inches are in the name."
    )
    stop: Annotated[float | None, STOP] = Field(
        None,
        description="Height of the collar at the pipe's end, in the file's units; 2 mm if absent, 0 for none.",
    )
    wall: Annotated[float | None, WALL] = Field(
        None, description="Wall of the spigot, in the file's units; the part's wall if absent."
    )

    def ways(self) -> dict[str, Size | None]:
        return {"into": self.into, "pipe": self.pipe}


class HoseTailKeys(Sized):
    """A hose goes over the print and is clamped."""

    example: ClassVar[str] = "{hose_inside: 100}"
    filled: ClassVar[tuple[str, ...]] = ("depth", "bead", "band", "wall", "allowance")
    meant: ClassVar[Mapping[str, str]] = {
        **dict.fromkeys(
            ("diameter", "dia", "d", "id", "size", "inside", "into", "over"), "write hose_inside: the hose's inside"
        ),
        **dict.fromkeys(("od", "outside", "hose_outside"), "write hose_inside: the tail goes into the hose"),
        "pipe": "a pipe takes a socket or a spigot; a hose is named under hose",
    }
    hose_inside: Measured | None = Field(None, description="Inside diameter of the hose, in the file's units.")
    hose: HoseName | None = Field(
        None, description="The hose by its name, such as 4 in; mm and inches are in the name."
    )
    depth: Annotated[float | None, DEPTH] = Field(None, description=DEPTH_SAYS)
    bead: Annotated[float, Length(0.0, 4.0)] = Field(
        1.0, description="Height of the bead that holds the hose, in the file's units; 1 mm if absent."
    )
    band: Annotated[float, Length(5.0, 40.0)] = Field(
        13.0, description="Width of the hose clamp, in the file's units; 13 mm if absent."
    )
    wall: Annotated[float | None, WALL] = Field(
        None,
        description="Wall under the hose clamp, in the file's units; 3.2 mm, the part's wall or what its band asks for "
        "if absent.",
    )
    allowance: Annotated[float, ALLOWANCE] = Field(
        0.5,
        description="How much smaller than the hose it is, on the diameter, in the file's units; 0.5 mm if absent.",
    )

    ridge: RidgeKeys | None = Field(
        None,
        description=(
            "A helical ridge that a wire-ribbed hose is screwed over, in place of the bead; a map, in the file's units."
        ),
    )
    bond: BondKeys | None = Field(
        None,
        description="A channel and a lug with a screw for the hose's bared wire; a map, lengths in the file's units.",
    )

    def ways(self) -> dict[str, Size | None]:
        return {"hose_inside": self.hose_inside, "hose": self.hose}

    def open_keys(self) -> tuple[str, ...]:
        """A ridge stands in place of the bead, and needs no band."""
        kept = super().open_keys()
        return tuple(key for key in kept if key not in ("bead", "band")) if self.ridge else kept

    @property
    def bead_mm(self) -> float:
        """Height of the bead; none beside a ridge."""
        return 0.0 if self.ridge else self.bead

    @property
    def band_mm(self) -> float:
        """Width of the hose clamp; 0 beside a ridge where none was asked for."""
        return 0.0 if self.ridge and "band" not in self.model_fields_set else self.band

    def sized_sense(self) -> Iterator[Fault]:
        if self.ridge and "bead" in self.model_fields_set:
            hint = "delete bead: a hose is screwed over the ridge, and a bead would be in its way"
            yield Fault(("bead",), "a bead beside a ridge", "one of the two", hint, at="key")
        if self.size.further_mm is not None:
            yield Fault((self.size_key,), "a hose that tapers", "one diameter", "measure the hose at its end")


class PlainKeys(Grammar):
    """A bare tube end."""

    example: ClassVar[str] = "{inside: 100}"
    filled: ClassVar[tuple[str, ...]] = ("length",)
    meant: ClassVar[Mapping[str, str]] = {**_FACE_WORDS, "inside": ""}
    inside: MeasuredSection = Field(description="Inside of the tube end, in the file's units: a diameter or a section.")
    length: Annotated[float, Length(2.0, 500.0)] = Field(
        10.0, description="Length of the bare end, in the file's units; 10 mm if absent."
    )

    def sense(self, context: Context) -> Iterator[Fault]:
        if self.inside.further_mm is not None:
            yield Fault(("inside",), "a plain end that tapers", "one diameter")


_SAY_JOINT = "say what it is: `socket: {over: ...}` goes over a pipe, `spigot: {into: ...}` goes into one"
_INSIDE = {"over": "socket", "into": "spigot", "hose_inside": "hose_tail", "inside": "plain", "holes": "flange"}


class EndKeys(Grammar):
    """One mouth of an adapter."""

    example: ClassVar[str] = "{socket: {over: 107.1}}"
    meant: ClassVar[Mapping[str, str]] = {
        **dict.fromkeys(("diameter", "dia", "d", "od", "id", "size", "outside", "pipe"), _SAY_JOINT),
        **{key: f"it goes one deeper: `{kind}: {{{key}: ...}}`" for key, kind in _INSIDE.items()},
        **dict.fromkeys(("hose", "tail", "barb"), "write `hose_tail: {hose_inside: ...}`"),
        **dict.fromkeys(("female", "cup"), "write socket"),
        **dict.fromkeys(("male", "plug"), "write spigot"),
    }
    label: Annotated[str | None, Text("a few words for the picture", 40)] = Field(
        None, description="What this end meets, in your words (collector, saw); for pictures and messages, no unit."
    )
    socket: SocketKeys | None = Field(
        None, description="The print goes over a pipe or port; lengths in the file's units."
    )
    spigot: SpigotKeys | None = Field(
        None, description="The print goes into a pipe or port; lengths in the file's units."
    )
    hose_tail: HoseTailKeys | None = Field(None, description="A hose goes over the print; lengths in the file's units.")
    flange: FlangeKeys | None = Field(None, description="A flange, bolted; lengths in the file's units.")
    plain: PlainKeys | None = Field(None, description="A bare tube end; lengths in the file's units.")

    @property
    def kind(self) -> str:
        """The word of the one joint given."""
        return next(kind for kind in JOINT_KINDS if getattr(self, kind) is not None)

    def sense(self, context: Context) -> Iterator[Fault]:
        given = [kind for kind in JOINT_KINDS if getattr(self, kind) is not None]
        if not given:
            yield Fault((), "an end without a joint", f"one of {', '.join(JOINT_KINDS)}", f"such as {self.example}")
        elif len(given) > 1:
            found = f"{given[0]} and {given[1]} together"
            yield Fault((given[1],), found, "one joint an end", f"delete {given[0]} or {given[1]}", at="key")
