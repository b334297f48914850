"""What the report says of an end for wire-ribbed hose: how it is screwed on, and where its wire is bonded."""

from __future__ import annotations

from fitwright.parts.ends import PlacedEnd
from fitwright.parts.hose_end import tail_land_mm
from fitwright.physics.bond_room import channel_depth_mm
from fitwright.spec.models import HoseTail, Socket


def clamp_middle_mm(land_from: float, joint: HoseTail) -> float:
    """Where the middle of a tail's hose clamp lies [mm from the mouth]: behind a ridge, where there is one."""
    return joint.depth_mm - tail_land_mm(joint) / 2 if joint.ridge else (land_from + joint.depth_mm) / 2


def ridge_holding(end: PlacedEnd, joint: HoseTail | Socket, clamp: str) -> str:
    """How a ridged end holds and seals, which way the hose turns, and how much ridge there is."""
    ridge, said = end.shape.ridge, joint.ridge
    assert ridge is not None and said is not None
    where = "over" if isinstance(joint, HoseTail) else "into"
    way = "clockwise" if said.hand == "right" else "counter-clockwise"
    size = (
        f"{said.hand}-hand, pitch {said.pitch_mm:.2f} mm, {ridge.turns:.1f} turns, "
        f"{ridge.section.height_mm:.2f} mm high"
    )
    if isinstance(joint, HoseTail) and joint.band_mm:
        seal = f"sealed by a hose clamp on the land behind it{clamp}"
    else:
        seal = "sealed by glue" if isinstance(joint, Socket) and joint.fit == "glue" else "tape the seam to seal it"
    return f"held by its ridge ({size}): turn the hose {way}, seen from the hose, to screw it {where}; {seal}"


def bonding(end: PlacedEnd) -> dict[str, str]:
    """The line about the bonding lug, where there is one."""
    joint = end.plan.end.joint
    if not isinstance(joint, HoseTail) or joint.bond is None:
        return {}
    bond, key = joint.bond, end.plan.key
    assert end.shape.fit is not None
    outside_r = end.shape.fit[1] / 2
    wall = outside_r - end.shape.passage_r_mm
    under = wall - channel_depth_mm(bond.wire_mm)
    words = (
        f"lay the hose's bared wire in the channel and under a {bond.screw} screw at {bond.at_deg:g} deg from up, and "
        f"connect it to the machine's earthed metal; local rules decide. The tail's wall is {wall:.2f} mm, so that "
        f"{under:.2f} mm stay under the channel"
    )
    return {f"{key} bonding": words}
