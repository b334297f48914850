"""The first numbers of a bracket on a board: how high the thrust line stands, how deep the gate foot is, screws.

The board lies below the thrust line and begins at the gate's edge, where pipe stubs end. All in mm.
"""

from __future__ import annotations

import math

from fitwright.data.fasteners import FastenerRow, fastener
from fitwright.errors import RefusalError
from fitwright.parts.gate.coupling_plan import CouplingPlan
from fitwright.parts.gate.nose_hold import SPANNER_WIDE, clamp_hold, square_hold, thread_hold
from fitwright.parts.gate.nose_plan import PASS_MM, NoseEnds, NosePlan
from fitwright.physics.slide.chain import Ends
from fitwright.physics.slide.gaps import FINGER_MM
from fitwright.spec.gate_load import gate_load
from fitwright.spec.models import GateBracketSpec

SCREW = "M6"
BOARD_EDGE, PRINT_EDGE = 2.0, 1.5
"""Edge distance of a screw in diameters: in plywood or MDF, and in a print (common practice, no source)."""
LEAST_APART_MM, MOST_APART_MM = 13.5, 35.0
"""Between the two screws of a leg: their nuts' pockets leave a wall, their washers lie beside each other."""
LEG_AIM_MM = 0.09
"""What the legs alone may lift the nose by at the running force; of 0.5 in all (common practice, no source)."""
USUAL_COUPLING_KG = 0.05
JAM_ROOM_MM = 1.5
"""From the body's edge: yoke's stand-off, and room before the coupling's jam nut for a spanner."""
ONE_SPARE_MM = 3.0
"""A leg with one screw is so much deeper than its edge distances."""
AIR_MM = 0.5
UNDER_YOKE_MM = 18.0
"""From the yoke's lower edge, ear reliefs not counted, to the board: dust falls out and is brushed away."""
UNDER_BODY_MM = 5.0
WALL_MM = 8.0
"""End walls of the nose foot's tower."""
LEAST_HIGH_MM = 20.0


def board_screw() -> FastenerRow:
    """The one size that holds both feet."""
    return fastener(SCREW)


def leg_wide_mm() -> float:
    """The least width of a leg: a screw in its middle."""
    return 2 * PRINT_EDGE * board_screw().major_mm + 1.5


def foot_deep_mm(spec: GateBracketSpec, at: Ends, up_mm: float, coupling: CouplingPlan) -> float:
    """The gate foot along y: edge distances and one or two screws a leg; no deeper than lets a spanner on the jam nut.

    Two legs of depth D and width w turn by F h^2 / 2EI, I = 2 w D^3 / 12, and the nose at L goes up by L times that.
    """
    blade = spec.gate.blade.length_mm or at.blade_open_mm + LEAST_APART_MM
    force = gate_load(spec, at.blade_open_mm, blade, USUAL_COUPLING_KG).force_n
    modulus = spec.material.lasting_modulus_mpa
    cube = 3.0 * force * up_mm**2 * at.nose_face_mm / (modulus * leg_wide_mm() * LEG_AIM_MM)
    jam_nut = at.blade_shut_mm - coupling.edge_y + coupling.back_y - JAM_ROOM_MM
    wanted = min(float(math.ceil(math.cbrt(cube))), edges_mm() + MOST_APART_MM)
    return max(min(max(wanted, edges_mm() + LEAST_APART_MM), jam_nut), edges_mm() + ONE_SPARE_MM)


def edges_mm() -> float:
    """Both edge distances of a leg's screws along y: that of the board, and that of the print."""
    return (BOARD_EDGE + PRINT_EDGE) * board_screw().major_mm


def leg_screws_y(y0: float, y1: float) -> tuple[float, ...]:
    """Where a leg's screws are: two, or one where it is too short for two."""
    d = board_screw().major_mm
    first, last = y0 + BOARD_EDGE * d, y1 - PRINT_EDGE * d
    return (first, last) if last - first >= LEAST_APART_MM - 1e-6 else (max(first, (y0 + y1) / 2),)


def board_up_mm(spec: GateBracketSpec, coupling: CouplingPlan, nose: NosePlan, yoke_high: float) -> float:
    """From the board up to the thrust line: fingers go under what moves, dust under the yoke."""
    return max(
        coupling.high_mm / 2 + FINGER_MM + AIR_MM,
        yoke_high / 2 + UNDER_YOKE_MM,
        nose.open_z + WALL_MM,
        nose.high / 2 + AIR_MM,
        0.7 * spec.cylinder.body_mm + UNDER_BODY_MM,
    )


def tower_ends(spec: GateBracketSpec, rod_in_mm: float, thrust_n: float, coupling: CouplingPlan) -> NoseEnds:
    """The nose plate is no wider than what holds the cylinder: it stands on the board all along.

    RefusalError where the ports look down, where the board is.
    """
    if spec.cylinder.ports_face == "down":
        why = "its fittings and tubes would stand in the board: turn the cylinder in its hold"
        raise RefusalError("cylinder.ports", "down", "up, left or right", why)
    inner = _middle_mm(spec, thrust_n)
    if spec.hold == "nose":
        inner = max(inner, coupling.wide_mm / 2 + PASS_MM)
    return NoseEnds(inner + WALL_MM / 2, inner, inner + WALL_MM, LEAST_HIGH_MM, rod_in_mm)


def _middle_mm(spec: GateBracketSpec, thrust_n: float) -> float:
    """Half the width of what holds the cylinder."""
    if spec.hold == "nose":
        return SPANNER_WIDE * thread_hold(spec).nut_af_mm / 2 + 2.0
    if spec.hold == "clamp":
        return clamp_hold(spec, thrust_n).half_mm
    square = next((hold for deep in range(8, 56, 2) if (hold := square_hold(spec, float(deep)))), None)
    if square is None:
        raise RefusalError("hold", "front_square", "clamp", "no screw of a length that is sold holds the front cover")
    return square.apart_mm / 2 + max(PRINT_EDGE * square.d_mm, square.washer_d_mm / 2 + 1.0)
