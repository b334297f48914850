"""Check `airflow`: how the air goes through: least section, edges that face it, speed, loss. It only ever warns.

Sections are measured on the finished mesh; speeds and losses are reckoned along the legs that the part declares, which
must agree with those sections.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from fitwright.airway import Leg, Station, along
from fitwright.checks.passage import measured_mm2
from fitwright.finding import Finding
from fitwright.mesh import BodyMesh
from fitwright.part import Part
from fitwright.place import words

if TYPE_CHECKING:
    from fitwright.spec.models import Air, PartBase

SECTION, STEP, CONE = "airflow.section", "airflow.step", "airflow.cone"
MEANT = 0.02
"""Share by which a section may differ from what the airway says of it, as in the check `passage`."""
CHOKED = 0.60
"""Less of the narrower end's area than this costs more than one velocity pressure of it: 0.5 (1 - a) / a^2 going in and
(1 / a - 1)^2 coming out (abrupt contraction and Borda) are 1.0 together at 0.60."""
EDGE = 0.20
"""An edge that covers more of the section than this catches stringy chips (common practice, no source)."""
FINE = ("wood flour", "sanding dust")
"""Dusts that hang on no edge."""
WIDENING_DEG = 15.0
"""Half angle beyond which air tears off a wall that draws back (7-15 deg is the usual range for low loss)."""


def check(part: Part, meshes: Mapping[str, BodyMesh], spec: PartBase) -> list[Finding]:
    """Sections and edges always; speed, loss and fan where the YAML tells of the air."""
    if not part.airway:
        return []
    name, air = part.bodies[0].name, _air(spec)
    legs = along(part.airway, air.from_end if air else "end_a")
    found = [*_sections(name, part.airway, meshes), *_steps(name, legs, air), *_cones(name, legs, air)]
    if air is None:
        return found
    from fitwright.checks.airflow_loss import loss_findings  # fluids is slow to import: only where air is told
    from fitwright.checks.airflow_speed import speed_findings

    run, losses = loss_findings(name, legs, air, spec.units)
    return [*found, *speed_findings(name, legs, run, air, spec.units), *losses]


def _air(spec: PartBase) -> Air | None:
    air: Air | None = getattr(spec, "air", None)
    return air


def _sections(body: str, legs: Sequence[Leg], meshes: Mapping[str, BodyMesh]) -> list[Finding]:
    """The least section as it was measured; each that is not what the airway says."""
    measured = [(leg, at, measured_mm2(meshes, at)) for leg in legs for at in leg.sections]
    wrong = [(leg, at, a) for leg, at, a in measured if a is None or abs(a / at.area_mm2 - 1.0) > MEANT]
    open_ones = [(a, leg.name) for leg, _, a in measured if a is not None]
    least, where = min(open_ones or [(leg.least_mm2, leg.name) for leg in legs if leg.kind != "step"])
    by_what = "" if open_ones else ", as it was modelled: a slit leaves no closed ring to measure"
    return [*(_not_as_told(body, *one) for one in wrong[:3]), _least(body, legs, least, f"{where}{by_what}")]


def _not_as_told(body: str, leg: Leg, at: Station, area: float | None) -> Finding:
    found = "is not closed all round" if area is None else f"measures {area:.0f} mm2"
    message = f"{leg.name} {found} where {at.area_mm2:.0f} mm2 were meant: speed and loss below do not hold there"
    advice = "This is a fault of the build, not of your numbers; report it."
    return Finding(SECTION, "warn", body, area, at.area_mm2, "mm2", words(at.frame.origin), message, advice)


def _least(body: str, legs: Sequence[Leg], least: float, where: str) -> Finding:
    """The least section against both ends, the narrower one first."""
    ends = sorted(zip((legs[0].area_mm2[0], legs[-1].area_mm2[1]), outsides(legs), strict=True))
    limit = CHOKED * ends[0][0]
    message = f"{least:.0f} mm2 at {where}: " + ", ".join(f"{100 * least / end:.0f} % of {what}" for end, what in ends)
    if least >= limit:
        return Finding(SECTION, "pass", body, least, limit, "mm2", where, message)
    advice = "A thinner wall, a shallower stop, or the other kind of joint there leaves more: a socket goes round."
    return Finding(SECTION, "warn", body, least, limit, "mm2", where, message, advice)


def outsides(legs: Sequence[Leg]) -> tuple[str, str]:
    """What the air comes from and goes into, in words: `end_a's pipe`, `end_b's mouth`."""
    return _outside(legs[0]), _outside(legs[-1])


def _outside(leg: Leg) -> str:
    end = leg.name.partition(" ")[0]
    end = end if end.startswith("end_") else "the sleeve"
    if leg.kind != "step":
        return f"{end}'s bore"
    if "tail" in leg.name:
        return f"{end}'s hose"
    return f"{end}'s port" if "spigot" in leg.name else f"{end}'s pipe"


def _steps(body: str, legs: Sequence[Leg], air: Air | None) -> list[Finding]:
    """The worst of the edges that face the air, all named; both ways where nobody said whence it comes."""
    steps = [leg for leg in legs if leg.kind == "step"]
    if not steps:
        return [Finding(STEP, "pass", body, 0.0, None, "mm", "", "no edge stands in the air: nothing bought is told")]
    if air is None:
        worst = max(steps, key=_covered)
        said = "; ".join(
            f"{_edge(leg)} faces air that comes in at {'end_a' if leg.facing else 'end_b'}" for leg in steps
        )
        return [Finding(STEP, "pass", body, worst.edge_mm, _limit_mm(worst), "mm", worst.name, said)]
    met = sorted((leg for leg in steps if leg.facing), key=_covered, reverse=True)
    behind = [leg for leg in steps if not leg.facing]
    lee = f"behind the flow: {_named(behind)}" if behind else ""
    if not met:
        return [Finding(STEP, "pass", body, 0.0, None, "mm", "", f"no edge faces the air; {lee}")]
    return [_met(body, met, lee, air)]


def _met(body: str, met: Sequence[Leg], lee: str, air: Air) -> Finding:
    """Edges that face the air, the worst first."""
    worst = met[0]
    said = [f"{_named(met)} face{'s' if len(met) == 1 else ''} the air", lee]
    if _covered(worst) <= EDGE or air.dust in FINE:
        message = "; ".join(words for words in said if words)
        return Finding(STEP, "pass", body, worst.edge_mm, _limit_mm(worst), "mm", worst.name, message)
    also = f"; so does {_named(met[1:])}" if met[1:] else ""
    message = (
        f"it faces the air and covers {100 * _covered(worst):.0f} % of the section: stringy chips hang on it{also}"
    )
    return Finding(STEP, "warn", body, worst.edge_mm, _limit_mm(worst), "mm", worst.name, message, _cure(worst))


def _limit_mm(leg: Leg) -> float:
    """Height of the edge that would cover as much as is borne."""
    return max(leg.hydraulic_mm) / 2 * (1.0 - math.sqrt(1.0 - EDGE))


def _covered(leg: Leg) -> float:
    """Share of the wider section that the edge covers."""
    return 1.0 - min(leg.area_mm2) / max(leg.area_mm2)


def _edge(leg: Leg) -> str:
    taken = f", {leg.taken}" if leg.taken else ""
    return f"{leg.name} ({leg.edge_mm:.2f} mm{taken})"


def _named(legs: Sequence[Leg]) -> str:
    return " and ".join(map(_edge, legs))


def _cure(leg: Leg) -> str:
    if "pipe's edge" in leg.name:
        return "A higher stop (socket.stop) covers the pipe's edge; or chamfer the pipe inside."
    if "shoulder" in leg.name:
        return "A lower stop (socket.stop) stands less far into the air."
    kind = "hose_tail" if "tail" in leg.name else "spigot"
    return (
        f"A thinner wall there ({kind}.wall) makes it lower; a socket, which goes round the outside, has no such edge."
    )


def _cones(body: str, legs: Sequence[Leg], air: Air | None) -> list[Finding]:
    cones = [leg for leg in legs if leg.kind == "cone"]
    return [_cone(body, leg, air) for leg in cones]


def _cone(body: str, leg: Leg, air: Air | None) -> Finding:
    """A cone's half angle; where air widens in it, against what its walls hold."""
    (d0, d1), mean = leg.hydraulic_mm, mean_half_angle_deg(leg)
    steep = f", {leg.half_angle_deg:.1f} deg at its steepest" if leg.half_angle_deg > mean + 0.1 else ""
    way = ("widens" if d1 > d0 else "narrows") if air else "leads over"
    message = f"{leg.name}: half angle {mean:.1f} deg{steep}; it {way} from {d0:.0f} to {d1:.0f} mm, no step"
    if not air or d1 <= d0 or mean <= WIDENING_DEG:
        return Finding(CONE, "pass", body, mean, WIDENING_DEG if air and d1 > d0 else None, "deg", leg.name, message)
    message += ": the air tears off its wall"
    return Finding(
        CONE, "warn", body, mean, WIDENING_DEG, "deg", leg.name, message, "A longer part, or half_angle: auto."
    )


def mean_half_angle_deg(leg: Leg) -> float:
    """Half angle [deg] of the coaxial cone between the same areas over the same length."""
    d0, d1 = (math.sqrt(4.0 * area / math.pi) for area in leg.area_mm2)
    return math.degrees(math.atan2(abs(d1 - d0) / 2, leg.length_mm))
