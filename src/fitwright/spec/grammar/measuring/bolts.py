"""`measure: bolts`: a bolt pattern from distances between its holes."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Annotated, Any, ClassVar, Literal

from pydantic import Field, GetJsonSchemaHandler
from pydantic_core import CoreSchema

from fitwright.spec.faults import Fault, FaultError, shown
from fitwright.spec.grammar.base import Forms, Grammar, gather, under
from fitwright.spec.grammar.measuring.base import MeasureKeys, as_written
from fitwright.spec.grammar.screws import SCREW
from fitwright.spec.grammar.values import YES_NO, Context, Count, Length, Words
from fitwright.spec.nodes import Value
from fitwright.units import format_length

Kind = Literal["centre", "outer", "inner", "far_edge", "near_edge"]
DISTANCE = Length(2.0, 1500.0)
HOLE = Length(1.0, 60.0)
RIM = Length(0.2, 1500.0)
MOST = 16
HOLE_SHARE: Mapping[Kind, float] = {"centre": 0.0, "outer": 1.0, "inner": -1.0, "far_edge": 0.5, "near_edge": -0.5}
"""How many hole diameters a reading has more than the distance of the centres."""
_PAIR = re.compile(r"\s*([1-9][0-9]?)\s*[-\u2010-\u2013]\s*([1-9][0-9]?)\s*")
_WORD = re.compile(r"opening\s*-\s*([0-9]+)")
_PAIR_WORDS = "two hole numbers with a dash between: 1-2"


@dataclass(frozen=True)
class Said:
    """One reading [mm] and the edges that it was taken by."""

    value_mm: float
    kind: Kind = "centre"


@dataclass(frozen=True)
class Regular(Words):
    """auto, yes or no; YAML's true and false are yes and no."""

    words: tuple[str, ...] = ("auto", "yes", "no")

    def __get_pydantic_json_schema__(self, core: CoreSchema, handler: GetJsonSchemaHandler) -> dict[str, Any]:
        return {"anyOf": [{"type": "boolean"}, {"enum": list(self.words)}]}

    def _validate(self, value: object) -> str:
        meant = YES_NO.get(value.strip().casefold()) if isinstance(value, str) else None
        return super()._validate(value) if meant is None else ("yes" if meant else "no")


def _lengths(value: object, context: Context, length: Length) -> tuple[float, ...]:
    """One reading, or a list of readings of the same thing."""
    if not isinstance(value, list):
        return (_length(value, context, length),)
    if not 1 <= len(value) <= 20:
        raise FaultError([Fault((), shown(value), "1 to 20 readings")])
    made: list[float] = gather([under((k,), _reader(one, context, length)) for k, one in enumerate(value)])
    return tuple(made)


def _reader(value: object, context: Context, length: Length) -> Callable[[], float]:
    return lambda: _length(value, context, length)


def _length(value: object, context: Context, length: Length) -> float:
    number = length.read(value, context)
    assert number is not None
    return number


def _some(length: Length) -> Forms:
    """A reading, or a list of readings."""
    one = Annotated[float, length]
    return Forms(lambda value, context: _lengths(value, context, length), one | list[one], "a length or a list of them")


Distances = Annotated[tuple[float, ...], _some(DISTANCE)]
Holes = Annotated[tuple[float, ...], _some(HOLE)]
Rims = Annotated[tuple[float, ...], _some(RIM)]
_EDGES: dict[str, str] = {
    **dict.fromkeys(("outside", "over", "out", "outer_edges"), "write outer: over the outer edges of both holes"),
    **dict.fromkeys(("inside", "in", "inner_edges"), "write inner: between the inner edges of both holes"),
    **dict.fromkeys(("edge", "far"), "write far_edge (or near_edge): which edge of the second hole"),
    "near": "write near_edge",
    **dict.fromkeys(("centre", "center", "centres", "centers"), "a plain number is centre to centre"),
}


class ByEdges(Grammar):
    """A distance taken by the holes' edges, as a caliper does it."""

    example: ClassVar[str] = "{outer: 77.1}"
    meant: ClassVar[Mapping[str, str]] = _EDGES
    outer: Distances | None = Field(
        None, description="Over the outer edges of both holes, in the file's units: centre distance + hole."
    )
    inner: Distances | None = Field(
        None, description="Between the inner edges of both holes, in the file's units: centre distance - hole."
    )
    far_edge: Distances | None = Field(
        None, description="From the first one's centre to the far edge of the second, in the file's units: + 1/2 hole."
    )
    near_edge: Distances | None = Field(
        None, description="From the first one's centre to the near edge of the second, in the file's units: - 1/2 hole."
    )

    def sense(self, context: Context) -> Iterator[Fault]:
        if not self.model_fields_set:
            yield Fault((), "an empty map", f"a map such as {self.example}")

    def said(self) -> tuple[Said, ...]:
        """Every reading in it."""
        kinds: tuple[Kind, ...] = ("outer", "inner", "far_edge", "near_edge")
        return tuple(Said(value, kind) for kind in kinds for value in getattr(self, kind) or ())


class ByRim(Grammar):
    """From the opening's rim to a hole's edge."""

    example: ClassVar[str] = "{near_edge: 14.3}"
    meant: ClassVar[Mapping[str, str]] = {**_EDGES, "inner": "write near_edge", "outer": "write far_edge"}
    near_edge: Rims | None = Field(
        None, description="From the rim to the hole's near edge, in the file's units: what is left between them."
    )
    far_edge: Rims | None = Field(None, description="From the rim over the hole to its far edge, in the file's units.")

    def sense(self, context: Context) -> Iterator[Fault]:
        if not self.model_fields_set:
            yield Fault((), "an empty map", f"a map such as {self.example}")

    def said(self) -> tuple[Said, ...]:
        """Every reading in it."""
        kinds: tuple[Kind, ...] = ("near_edge", "far_edge")
        return tuple(Said(value, kind) for kind in kinds for value in getattr(self, kind) or ())


def _readings(value: object, context: Context, length: Length, edges: type[ByEdges] | type[ByRim]) -> tuple[Said, ...]:
    """A reading, a map by edges, or a list of either."""
    if isinstance(value, list):
        if not 1 <= len(value) <= 20:
            raise FaultError([Fault((), shown(value), "1 to 20 readings of one distance")])

        def one(k: int, entry: object) -> Callable[[], tuple[Said, ...]]:
            return under((k,), lambda: _readings(entry, context, length, edges))

        made: list[tuple[Said, ...]] = gather([one(k, entry) for k, entry in enumerate(value)])
        return tuple(said for group in made for said in group)
    if isinstance(value, dict):
        return edges.read(value, context).said()
    try:
        return (Said(_length(value, context, length)),)
    except FaultError as error:
        hint = f"by the holes' edges: {edges.example}"
        raise FaultError(Fault(f.path, f.found, f.allowed, f.hint or hint) for f in error.faults) from None


def _pairs(value: object, context: Context) -> dict[tuple[int, int], tuple[Said, ...]]:
    """`{1-2: 70.5, 2-3: {outer: 77.1}}` by pairs of hole numbers."""
    if not isinstance(value, dict):
        raise FaultError([Fault((), shown(value), "a map such as {1-2: 70.5, 2-3: {outer: 77.1}}")])

    def one(key: str, entry: object) -> Callable[[], tuple[tuple[int, int], tuple[Said, ...]]]:
        return under((key,), lambda: (_pair(key), _readings(entry, context, DISTANCE, ByEdges)))

    made: dict[tuple[int, int], tuple[Said, ...]] = {}
    for pair, said in gather([one(key, entry) for key, entry in value.items()]):
        made[pair] = (*made.get(pair, ()), *said)
    return made


def _pair(key: str) -> tuple[int, int]:
    match = _PAIR.fullmatch(key)
    if not match:
        raise FaultError([Fault((), f"the key {shown(key)}", _PAIR_WORDS, at="key")])
    first, second = int(match[1]), int(match[2])
    if first == second:
        raise FaultError([Fault((), f"hole {first} twice", "two different holes", at="key")])
    return first, second


def _from_rim(value: object, context: Context) -> dict[int, tuple[Said, ...]]:
    """`{1: 24.8, 2: {near_edge: 21.5}}` by hole numbers."""
    if not isinstance(value, dict):
        raise FaultError([Fault((), shown(value), "a map such as {1: 24.8, 2: 25.1, 4: {near_edge: 21.5}}")])

    def one(key: str, entry: object) -> Callable[[], tuple[int, tuple[Said, ...]]]:
        return under((key,), lambda: (_hole(key), _readings(entry, context, RIM, ByRim)))

    return dict(gather([one(key, entry) for key, entry in value.items()]))


def _hole(key: str) -> int:
    if not re.fullmatch(r"[1-9][0-9]?", key.strip()):
        raise FaultError([Fault((), f"the key {shown(key)}", "the number of a hole: 1", at="key")])
    return int(key)


def _level(value: object, context: Context) -> tuple[int, int]:
    if not isinstance(value, str):
        raise FaultError([Fault((), shown(value), _PAIR_WORDS)])
    try:
        return _pair(value)
    except FaultError as error:
        raise FaultError(Fault((), shown(value), f.allowed) for f in error.faults) from None


_Readable = Annotated[float, DISTANCE] | ByEdges
_Rimmed = Annotated[float, RIM] | ByRim


_BETWEEN = Forms(_pairs, dict[str, _Readable | list[_Readable]], "a map of hole numbers")
_FROM = Forms(_from_rim, dict[str, _Rimmed | list[_Rimmed]], "a map of hole numbers")
_EVEN = Forms(
    lambda value, context: _readings(value, context, DISTANCE, ByEdges),
    _Readable | list[_Readable],
    "a length, a map by edges, or a list of them",
)


class OpeningKeys(Grammar):
    """The round opening between the holes: its rim to three or more of them tells where its centre is."""

    example: ClassVar[str] = "{diameter: 100, from: {1: 24.8, 2: 25.1, 4: 24.9}}"
    diameter: Distances = Field(description="Its diameter, in the file's units; a reading or a list of readings.")
    from_: Annotated[dict[int, tuple[Said, ...]], _FROM] = Field(
        alias="from",
        description="From its rim, the shortest way, to the centres of holes, in the file's units; or by edges.",
    )

    def sense(self, context: Context) -> Iterator[Fault]:
        if len(self.from_) < 3:
            yield Fault(("from",), f"{len(self.from_)} holes", "3 holes or more, not all in one line")


class BoltsKeys(MeasureKeys):
    """Where the holes of a flange are, from distances between them."""

    example: ClassVar[str] = "{measure: bolts, holes: 4, between: {1-2: 80, 2-3: 60, 3-4: 80, 4-1: 60, 1-3: 100}}"
    meant: ClassVar[Mapping[str, str]] = {
        **dict.fromkeys(("count", "bolts", "number"), "write holes: how many there are"),
        **dict.fromkeys(("diameter", "hole_diameter", "d"), "write hole: the diameter of the holes"),
        **dict.fromkeys(("distances", "pairs", "distance"), "write between"),
        **dict.fromkeys(("spacing", "pitch", "neighbours"), "write adjacent: from one hole to the next"),
        **dict.fromkeys(("pcd", "bolt_circle"), "write circle"),
        **dict.fromkeys(("opposite", "diagonal"), "write across: from a hole to the one opposite"),
        **dict.fromkeys(("tool", "instrument"), "write with: caliper or tape"),
        **dict.fromkeys(("top", "first_at"), "write up: the hole that is straight up"),
        "even": "write regular: yes",
    }
    measure: Annotated[Literal["bolts"], Words(("bolts",))] = Field(description="The kind: bolts; no unit.")
    holes: Annotated[int, Count(2, MOST)] = Field(
        description="How many. A whole number; they are 1, 2, 3 ... going clockwise as you look at the face."
    )
    hole: Holes | None = Field(
        None, description="Their diameter, in the file's units; readings in a list. Needed where edges were read."
    )
    between: Annotated[dict[tuple[int, int], tuple[Said, ...]], _BETWEEN] | None = Field(
        None, description="Distances by hole numbers, centre to centre or by edges, in the file's units."
    )
    regular: Annotated[Literal["auto", "yes", "no"], Regular()] = Field(
        "auto",
        description="Whether they are spaced evenly on a circle: yes, no, or auto: as the readings say (no unit).",
    )
    adjacent: Annotated[tuple[Said, ...], _EVEN] | None = Field(
        None, description="Evenly spaced: from any hole to the next, in the file's units, or by edges."
    )
    across: Annotated[tuple[Said, ...], _EVEN] | None = Field(
        None, description="Evenly spaced, even count: from a hole to the one opposite, in the file's units."
    )
    circle: Distances | None = Field(
        None, description="Evenly spaced: the circle's diameter where it is known, in the file's units."
    )
    opening: OpeningKeys | None = Field(
        None, description="The opening, where the pattern is to be placed about its centre; a map, in the file's units."
    )
    size: Annotated[str, SCREW] | None = Field(
        None, description="The bolt by its name (no unit beside it): M6; what fits the holes if absent."
    )
    up: Annotated[int | None, Count(1, MOST)] = Field(
        None, description="The hole that stands straight above the middle. A whole number, its number; 1 if absent."
    )
    level: Annotated[tuple[int, int], Forms(_level, str, "two hole numbers")] | None = Field(
        None, description="Two holes that stand level, the left one first, by their numbers (no unit): 1-2."
    )
    face: Annotated[Literal["machine", "flange"], Words(("machine", "flange"), (("part", "flange"),))] = Field(
        "machine",
        description="What you looked at: the machine that it goes on, or an old flange's mating face; no unit.",
    )
    with_: Annotated[Literal["caliper", "tape"], Words(("caliper", "tape"), (("rule", "tape"),))] = Field(
        "caliper", alias="with", description="What it was read with: caliper or tape; no unit."
    )

    @classmethod
    def from_words(cls, words: Sequence[str]) -> dict[str, Value]:
        """`1-2=80` and `opening-1=24.8` go where they belong; `2-3=outer:77.1`; a key again is a further reading."""
        nested: dict[tuple[str, ...], list[Value]] = {}
        others = []
        for word in words:
            key, equals, value = word.partition("=")
            path = _nest(key.strip()) if equals else None
            if path:
                nested.setdefault(path, []).append(_by_edge(key.strip(), value))
            else:
                others.append(word)
        made = super().from_words(others)
        for path, values in nested.items():
            spot = made
            for step in path[:-1]:
                inner = spot.setdefault(step, {})
                if not isinstance(inner, dict):
                    allowed = "distances by hole numbers: 1-2=80 2-3=60"
                    raise FaultError([Fault((step,), f"{step}={inner} beside {'-'.join(path[1:])}=", allowed)])
                spot = inner
            spot[path[-1]] = values[0] if len(values) == 1 else values
        return made

    @classmethod
    def words_example(cls) -> str:
        return "holes=4 1-2=80 2-3=60 3-4=80 4-1=60 1-3=100"

    def sense(self, context: Context) -> Iterator[Fault]:
        yield from self._numbers()
        if self.hole is None and any(said.kind != "centre" for said in self._every()):
            yield Fault(("hole",), "nothing, but readings by edges", "the holes' diameter", "add `hole:`", at="key")
        yield from self._apart(context)
        even = [key for key in ("adjacent", "across", "circle") if getattr(self, key) is not None]
        if even and self.regular == "no":
            yield Fault((even[0],), f"{even[0]} beside regular: no", "readings under between", "delete one", at="key")
        if not even and not self.between:
            says = "distances such as {1-2: 80, 2-3: 60}; or adjacent, where they are spaced evenly"
            yield Fault(("between",), "nothing", says, "add `between:`", at="key")
        if self.across is not None and self.holes % 2:
            yield from self._odd()
        if self.up is not None and self.level is not None:
            yield Fault(("level",), "up and level together", "one of them", "delete one", at="key")

    def _apart(self, context: Context) -> Iterator[Fault]:
        """Holes that would overlap."""
        hole = sum(self.hole) / len(self.hole) if self.hole else 0.0
        for pair, group in (self.between or {}).items():
            for said in group:
                apart = said.value_mm - HOLE_SHARE[said.kind] * hole
                if apart <= hole:
                    found, own = (format_length(max(mm, 0.0), context.units) for mm in (apart, hole))
                    key = ("between", f"{pair[0]}-{pair[1]}")
                    small = context.units == "mm" and said.value_mm < hole
                    hint = "holes overlap" + ("; is the reading in inches? write its unit" if small else "")
                    yield Fault(key, f"centres {found} apart", f"more than the holes' diameter, {own}", hint)

    def _odd(self) -> Iterator[Fault]:
        over = self.holes // 2 + 1
        yield Fault(
            ("across",),
            f"across for {self.holes} holes: none is opposite another",
            "an even number of holes, or adjacent: from one hole to the next",
            f"a reading to a hole farther round goes under between: `1-{over}: {{far_edge: ...}}` with regular: yes",
            at="key",
        )

    def _numbers(self) -> Iterator[Fault]:
        """Holes that are not there."""
        named: list[tuple[tuple[str | int, ...], int]] = []
        for pair in self.between or {}:
            named += [(("between", f"{pair[0]}-{pair[1]}"), k) for k in pair]
        named += [(("opening", "from", str(k)), k) for k in (self.opening.from_ if self.opening else {})]
        named += [(("up",), self.up)] if self.up else []
        named += [(("level",), k) for k in self.level or ()]
        for path, k in named:
            if k > self.holes:
                yield Fault(path, f"hole {k}", f"holes 1 to {self.holes}")

    def _every(self) -> Iterator[Said]:
        for group in (self.between or {}).values():
            yield from group
        for group in self.opening.from_.values() if self.opening else ():
            yield from group
        yield from (*(self.adjacent or ()), *(self.across or ()))


def _nest(key: str) -> tuple[str, ...] | None:
    """Where a word's key belongs; None where it is an ordinary one."""
    if _PAIR.fullmatch(key):
        return "between", key
    if match := _WORD.fullmatch(key):
        return "opening", "from", match[1]
    if key == "opening":
        return "opening", "diameter"
    return (key,) if key in ("hole", "adjacent", "across", "circle") else None


def _by_edge(key: str, value: str) -> Value:
    """`outer:77.1` as `{outer: 77.1}`; anything else as it is written."""
    edge, colon, length = value.partition(":")
    return {edge.strip(): length.strip()} if colon and edge.strip().isidentifier() else as_written(key, value)
