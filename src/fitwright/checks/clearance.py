"""Check `clearance`: do the part and what is fitted to it clash, and do they keep to the space declared for them?

A clash is common volume, never a gap of nothing. A stand-in's seat, where it is meant to touch, is cut off it first and
judged by fit.result.
"""

from __future__ import annotations

import itertools
from collections.abc import Mapping
from typing import TYPE_CHECKING

from fitwright.checks import envelope, moving
from fitwright.checks.clearance_words import Words, words_for
from fitwright.checks.housings import Housings
from fitwright.checks.things import Thing, bodies_of, finding, finer, in_words, never_together, stand_ins_of, unseated
from fitwright.finding import Finding, Severity
from fitwright.mesh import BodyMesh
from fitwright.mesh_distance import Gap, common
from fitwright.part import Part
from fitwright.place import words

if TYPE_CHECKING:
    from fitwright.spec.models import PartBase

DEEP = 0.05
"""Two bought things that share more of the smaller one than this cannot both be there; of less, one can be turned."""


def check(part: Part, meshes: Mapping[str, BodyMesh], spec: PartBase) -> list[Finding]:
    """Stand-ins against bodies and against each other, then everything against the envelope.

    Where something of the part moves, in every position, and as the room that it passes through.
    """
    findings: list[Finding] = []
    bodies = bodies_of(part, meshes, findings)
    stand_ins = stand_ins_of(part, findings)
    if part.motion is None:
        findings += _clashes(bodies, stand_ins, words_for(part))
    else:
        mechanism = moving.Mechanism.of(part, part.motion, bodies, stand_ins)
        findings += moving.clashes(mechanism)
        bodies, stand_ins = mechanism.in_all_positions()
    housings, ways = Housings(bodies), words_for(part)
    for obstacle in spec.envelope.keep_clear:
        findings += envelope.keep_clear(obstacle, [*bodies, *stand_ins], housings, ways)
        findings += housings.notes(obstacle, inside=False)
    for obstacle in spec.envelope.stay_inside:
        findings += envelope.stay_inside(obstacle, bodies, housings, ways)
        findings += housings.notes(obstacle, inside=True)
    return findings or [finding("pass", "", None, None, "whole part", "nothing is declared to keep clear of")]


def _clashes(bodies: list[Thing], stand_ins: list[Thing], ways: Words) -> list[Finding]:
    name = bodies[0].name if bodies else ""
    found = [f for body in bodies for thing in stand_ins if (f := _body_clash(body, thing, ways))]
    for one, other in itertools.combinations(stand_ins, 2):
        if (
            one.source
            and other.source
            and one.source.seats_in != other.source.seats_in
            and not never_together(one, other)
        ):
            found += _stand_in_clash(one, other, name, ways)
    if found or not stand_ins:
        return found
    names = ", ".join(sorted({thing.name for thing in stand_ins}, key=_in_order))
    return [finding("pass", name, None, None, "whole part", f"no clash with {names}")]


def _in_order(name: str) -> tuple[str, int]:
    """`bolt 2` before `bolt 10`."""
    words, _, number = name.rpartition(" ")
    return (words, int(number)) if number.isdigit() else (name, 0)


def _body_clash(body: Thing, thing: Thing, ways: Words) -> Finding | None:
    if common(body.solid, unseated(thing)) is None:
        return None
    clash = common(body.solid, unseated(finer(thing)))
    if clash is None:
        return None
    joint = thing.source.seats_in if thing.source else ""
    message = f"{thing.called} and the part take the same room: {in_words(clash.common_mm3)} in common"
    advice = ways.clash.format(thing=thing.called, joint=joint)
    place = f"{joint}, at {words(_middle(clash))}"
    if thing.room_only:
        message = f"the part stands in {thing.called}: {in_words(clash.common_mm3)} in common"
        advice = ways.room.format(thing=thing.called, joint=joint)
        return finding("warn", body.name, clash.common_mm3, 0.0, place, message, advice, "mm3")
    return finding("fail", body.name, clash.common_mm3, 0.0, place, message, advice, "mm3")


def _stand_in_clash(one: Thing, other: Thing, name: str, ways: Words) -> list[Finding]:
    if common(one.solid, other.solid) is None:
        return []
    one, other = finer(one), finer(other)
    clash = common(one.solid, other.solid)
    if clash is None or one.source is None or other.source is None:
        return []
    share = clash.common_mm3 / min(one.solid.volume(), other.solid.volume())
    room_only = one.room_only or other.room_only
    severity: Severity = "fail" if share > DEEP and not room_only else "warn"
    message = f"{one.called} and {other.called} take the same room: {in_words(clash.common_mm3)} in common"
    advice = ways.things
    advice += "" if severity == "fail" else " It may be enough to turn one of them, or to fit them in turn."
    place = f"{one.source.seats_in} and {other.source.seats_in}, at {words(_middle(clash))}"
    return [finding(severity, name, clash.common_mm3, 0.0, place, message, advice, "mm3")]


def _middle(gap: Gap) -> list[float]:
    low, high = gap.clash or ((0.0,) * 3, (0.0,) * 3)
    return [(a + b) / 2 for a, b in zip(low, high, strict=True)]
