"""A hose tail: a printed ring over which a hose is pushed and clamped."""

from __future__ import annotations

import math
from dataclasses import dataclass

from fitwright.frame import Frame
from fitwright.shapes.bond import BondSizes, channel, lug, pilot
from fitwright.shapes.joint import JointShape, Tool, Zone, crest_zone, ridge_zone, to_root
from fitwright.shapes.profile import hump, upper_envelope
from fitwright.shapes.ridge import RidgeSizes
from fitwright.shapes.solids import ring

RAMP_DEG = 20.0
"""Slope of the bead's front, up which the hose is pushed (common practice, no source)."""
BEAD_FLAT_MM = 1.0
COLLAR_MM = 2.0
"""The hose stops here, and the root is stiff against the clamp band (a band at 800 N presses with 1.3 MPa)."""
COLLAR_FLAT_MM = 3.0
MOUTH_DROP_MM = 0.6
"""The mouth is this much smaller in radius than the land, so that the hose finds its way."""


@dataclass(frozen=True)
class HoseTailSizes:
    """All in mm. `outside_d`: the land under the clamp; `bead`: height of the bead (radial).

    A `ridge` stands on the land; with a `bond` the channel and the lug are cut and raised.
    """

    outside_d: float
    depth: float
    bead: float
    wall: float
    root_wall: float
    ridge: RidgeSizes | None = None
    bond: BondSizes | None = None

    @property
    def land_from(self) -> float:
        """Where the clamp land begins, behind the bead [mm]."""
        return self.bead_crest + BEAD_FLAT_MM + self.bead

    @property
    def bead_crest(self) -> float:
        """Where the bead's crest begins [mm]."""
        return (self.bead + MOUTH_DROP_MM) / math.tan(math.radians(RAMP_DEG))

    @property
    def passage_r(self) -> float:
        """The bore: a full wall under the land."""
        return self.outside_d / 2 - self.wall


def hose_tail(sizes: HoseTailSizes, frame: Frame, name: str) -> JointShape:
    """Bead with a gentle front and a 45 deg back, clamp land, hose stop and stiff root, straight bore."""
    r, s1 = sizes.outside_d / 2, sizes.bead_crest
    bead_r = r + sizes.bead
    front = ((0.0, r - MOUTH_DROP_MM), (s1, bead_r), (s1 + BEAD_FLAT_MM, bead_r), (sizes.land_from, r))
    collar = hump(sizes.depth + COLLAR_MM, sizes.depth + COLLAR_MM + COLLAR_FLAT_MM, r + COLLAR_MM, r)
    straight_to = max(collar[-1][0], sizes.bond.end if sizes.bond else 0.0)
    root_s, slope = to_root(r, straight_to, sizes.passage_r + sizes.root_wall, sizes.wall)
    outer = upper_envelope([(*front, (straight_to, r), *slope), collar])
    bead_line = [(sizes.land_from, r), (s1 + BEAD_FLAT_MM, bead_r), (s1, bead_r)]
    foot = s1 - sizes.bead / math.tan(math.radians(RAMP_DEG))
    least = min(sizes.wall, sizes.bond.wall) if sizes.bond else sizes.wall  # under the channel and beside it
    lip = min(sizes.wall - MOUTH_DROP_MM, least)
    zones = [Zone(f"{name} mouth lip", -0.1, s1, 0.0, bead_r + 9.0, lip)]
    zones.append(crest_zone(f"{name} hose stop", collar, least))
    bosses = [Tool(f"{name} hose stop", ring(list(collar), frame))]
    if sizes.bead > 0:
        bead = ((foot, r), *reversed(bead_line))
        bosses.append(Tool(f"{name} bead", ring(list(bead), frame)))
        zones.append(crest_zone(f"{name} bead", bead, least))
    if sizes.ridge:
        zones.append(ridge_zone(sizes.ridge, name, least))
    bonds = (lug(sizes.bond, frame, name),) if sizes.bond else ()
    return JointShape(
        ((0.0, sizes.passage_r), (root_s, sizes.passage_r)),
        outer,
        root_s,
        sizes.depth,
        fit=(sizes.land_from, sizes.outside_d, sizes.depth, sizes.outside_d),
        ring_bosses=(*bosses, *bonds),
        bosses=bonds,
        cuts=(channel(sizes.bond, frame, name),) if sizes.bond else (),
        blind=(pilot(sizes.bond, frame, name),) if sizes.bond else (),
        ridge=sizes.ridge,
        zones=tuple(zones),
    )
