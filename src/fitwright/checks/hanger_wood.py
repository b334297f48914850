"""Findings on where a hanger's screws stand in the wood, and on a rod that a snag bends."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator

from fitwright.checks.hanger_say import Of, say
from fitwright.data.fasteners import fastener
from fitwright.data.woods import wood
from fitwright.errors import DataError
from fitwright.finding import Finding
from fitwright.hanging import Hanging, HeldBy
from fitwright.physics.machine_screws import longest_stiff_rod_mm
from fitwright.physics.wood_shear import distances, pulled_distances
from fitwright.spec.hanger import HoseHangerSpec

SPLITS_D = 2.5
"""Nearer than this many diameters to an edge a screw splits the wood whatever is drilled for it (Wood Handbook and the
commentary of NDS give 2.5 d for wood screws; from memory)."""
NEARLY = 0.9
"""A little less than EN 1995-1-1 wants is told and not warned of: a pilot is not placed better (common practice)."""
CORE = 1.226869
"""Core of a metric thread: d - 1.226869 P (ISO 724)."""


def in_wood(hanging: Hanging, spec: HoseHangerSpec) -> Iterator[Finding]:
    """Edge and mutual distances of the wood screws."""
    screws = [one for one in hanging.held if one.into == "wood"]
    for one in screws:
        yield from _edge(one)
    near = min(((math.dist(a.at, b.at), a) for a, b in itertools.combinations(screws, 2)), default=None, key=_first)
    if near is None:
        return
    apart, one = near
    least = distances(one.d_mm, pilot=True).across_mm
    if apart < least - 1e-6:
        message = f"two {one.size} screws stand {apart:.0f} mm apart in the wood: it splits between them"
        yield say("wood", "fail", Of(one.key, "", apart, least), message, f"{least:.0f} mm or more apart.")


def _first(pair: tuple[float, HeldBy]) -> float:
    return pair[0]


def _edge(one: HeldBy) -> Iterator[Finding]:
    """From its axis to the nearest edge of the wood, where that is known."""
    if one.edge_mm <= 0.0:
        return
    splits = SPLITS_D * one.d_mm
    aside, pulled = distances(one.d_mm, pilot=True, angle_deg=90.0), pulled_distances(one.d_mm)
    sideways = abs(one.direction[2]) < 0.5
    wanted = aside.edge_loaded_mm if sideways else pulled.edge_mm
    of = Of(one.name, "", one.edge_mm, splits if one.edge_mm < splits else wanted)
    words = f"{one.name} ({one.size}) stands {one.edge_mm:.1f} mm from the edge of the {one.wood or 'wood'}"
    pilot = _pilot(one)
    if one.edge_mm < splits - 1e-6:
        advice = (
            f"{splits:.0f} mm or more, {wanted:.0f} mm by EN 1995-1-1: another place, or thinner screws ({one.key})."
        )
        yield say("wood", "fail", of, f"{words}: it splits it", advice)
    elif one.edge_mm < NEARLY * wanted:
        message = f"{words}; EN 1995-1-1 wants {wanted:.0f} mm for a pull towards that edge"
        yield say("wood", "warn", of, message, f"Move it in, or take thinner screws ({one.key}); {pilot}.")
    else:
        yield say("wood", "pass", of, f"{words}, {wanted:.0f} mm are wanted; {pilot}")


def _pilot(one: HeldBy) -> str:
    try:
        must = wood(one.wood or "spruce").needs_pilot
    except DataError:
        must = True
    return "it must be drilled first" if must else "drill it first, so near to an edge it splits without"


def rods(hanging: Hanging, spec: HoseHangerSpec) -> Iterator[Finding]:
    """A rod that cannot swing is bent by what pulls at its lower end."""
    if spec.mount.drop_mm is None:
        return
    for one in hanging.held:
        if one.into != "rod":
            continue
        try:
            row = fastener(one.size)
        except DataError:
            continue
        core = row.major_mm - CORE * (row.pitch_mm or 0.0)
        most = longest_stiff_rod_mm(hanging.snag_n, core)
        of = Of("mount.drop", "", spec.mount.drop_mm, most)
        if spec.mount.drop_mm <= most:
            yield say(
                "fixing", "pass", of, f"a snag of {hanging.snag_n:.0f} N does not bend the {one.size} rod for good"
            )
            continue
        message = f"a snag of {hanging.snag_n:.0f} N bends {spec.mount.drop_mm:.0f} mm of {one.size} rod for good"
        advice = (
            f"Let it swing at its top (an eye nut), brace it, or keep it under {most:.0f} mm; it does not fall at once."
        )
        yield say("rod", "warn", of, message, advice)
