"""The passed checks as a short table: in plain words what was checked, the worst that was found, what is allowed."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Sequence

from fitwright.finding import Finding
from fitwright.report.wording import in_units, quantity
from fitwright.tolerances import TOLERANCES
from fitwright.units import Units

WORDS = {
    "solid": "sound body",
    "features": "cuts, bosses",
    "wall": "thinnest wall",
    "fit.built": "diameters",
    "fit.result": "fit",
    "flat.dxf": "drawing to cut",
    "flat.thickness": "sheet",
    "flat.area": "area",
    "flat.shape": "lines and holes",
    "flat.web": "between cuts",
    "flat.edge": "holes to edge",
    "lettering": "marks",
    "cover": "covers",
    "passage": "passage",
    "airflow": "air loses",
    "airflow.section": "least section",
    "airflow.step": "edges in the air",
    "airflow.cone": "cones",
    "airflow.speed": "air speed",
    "airflow.fan": "fan",
    "halves": "halves",
    "clearance": "neighbours",
    "hardware": "screws and nuts",
    "motion.positions": "shut and open",
    "motion.stop": "stopped by",
    "motion.engagement": "in its guides",
    "motion.overlap": "over the bore",
    "motion.play": "play",
    "motion.stack_up": "before setting",
    "motion.jamming": "jamming",
    "motion.side_load": "rod's axis",
    "motion.slot": "fork on blade",
    "motion.hole": "blade's hole",
    "motion.screws": "gate's screws",
    "motion.thrust": "thrust",
    "motion.guide": "second guide",
    "motion.spring": "spring",
    "motion.stall": "stalled",
    "motion.supply": "unregulated",
    "motion.buckling": "blade as a strut",
    "motion.air_loss": "air fails",
    "motion.pinch": "fingers",
    "motion.weight": "cylinder's weight",
    "hanger.bore": "in its bore",
    "hanger.saddle": "bears on",
    "hanger.rim": "rims",
    "hanger.throat": "opening",
    "hanger.ligament": "round the bore",
    "hanger.head": "heads",
    "hanger.fixing": "holds for good",
    "hanger.snag": "a snag",
    "hanger.wood": "in the wood",
    "hanger.rod": "drop rod",
    "hanger.uplift": "batten",
    "hanger.second_fixing": "second fixing",
    "hanger.spacing": "spacing",
    "hanger.pose": "layers",
    "stiffness": "stiffness",
    "stiffness.weight": "sag",
    "printing.bed": "bed",
    "printing.overhang": "overhangs",
    "printing.island": "layers",
    "printing.first_layer": "on the bed",
    "printing.tall": "stance",
    "printing.cost": "takes",
    "plate": "on one bed",
    "temperature": "heat",
    "strength": "strength",
    "strength.moves": "gives way",
    "strength.ring": "bands, suction",
}
"""Code -> what the check is about, for somebody who never read about it."""
TOLD_ELSEWHERE = ("fit.result", "printing.cost")
"""These say what the user needs at another place of the page: how a joint fits, what the print takes."""
_NUMBERED = re.compile(r"\b([\w ]+?) 1((?:, \1 \d+)+)\b")


def table(findings: Iterable[Finding], units: Units) -> list[tuple[str, str]]:
    """One row for each code that passed, in the order of the checks: (`thinnest wall`, `least wall 1.72 mm, ...`)."""
    groups: dict[str, list[Finding]] = {}
    for finding in findings:
        if finding.severity == "pass" and finding.code not in TOLD_ELSEWHERE:
            groups.setdefault(finding.code, []).append(finding)
    return [(WORDS.get(code, code), _row(code, group, units)) for code, group in groups.items()]


def _row(code: str, group: Sequence[Finding], units: Units) -> str:
    if code == "fit.built":
        return in_units(_diameters(group), units)
    worst = min(group, key=_room)
    words = numbered(worst.message)
    if code == "clearance":
        words = "; ".join(numbered(finding.message) for finding in group)
    elif code == "strength" and worst.limit is not None:
        words += f" ({worst.limit:g} is wanted)"
    elif len(group) > 1:
        words += f" (the least of {len(group)})"
    elif code in ("printing.first_layer", "printing.tall") and worst.limit is not None:
        limit = quantity(worst.limit, worst.unit, units)
        words += f" (at least {limit})" if code == "printing.first_layer" else f" (at most {limit})"
    return in_units(words, units)


def _diameters(group: Sequence[Finding]) -> str:
    """Built against meant: only the worst of many is worth a line."""
    worst = max(group, key=lambda finding: abs((finding.value or 0.0) - (finding.limit or 0.0)))
    faces = "face or hole" if len(group) == 1 else "faces and holes"
    least = f"within {TOLERANCES.fit_mm:g} mm of what was meant, and round"
    if worst.value is None or worst.limit is None:
        return f"{len(group)} {faces} {least}"
    name = worst.message.partition(" measures")[0]
    return f"{len(group)} {faces} {least}; worst: {name}, {worst.value:.2f} mm for {worst.limit:.2f} mm"


def _room(finding: Finding) -> float:
    """How much is left to the limit, as a share of it; a finding without numbers leaves all."""
    if finding.value is None or not finding.limit or not math.isfinite(finding.limit):
        return 1.0
    return (finding.value - finding.limit) / abs(finding.limit)


def numbered(text: str) -> str:
    """`end_a screw 1, end_a screw 2, end_a screw 3` as `end_a screw 1-3`.

    >>> numbered("no clash with end_a screw 1, end_a screw 2, end_b pipe")
    'no clash with end_a screw 1-2, end_b pipe'
    """
    return _NUMBERED.sub(lambda found: f"{found[1]} 1-{found[2].rsplit(' ', 1)[1]}", text)
