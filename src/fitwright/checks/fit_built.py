"""Check `fit.built`: is each round face and screw hole on the finished mesh what it was meant to be?

Each face is cut at several depths outside its lead-ins, a circle is fitted to every section and compared with the
intended diameter at that very depth (a taper read at the wrong depth hides or invents an error). A face that is not
found fails.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping

import numpy as np
import trimesh

from fitwright.checks import outlines
from fitwright.checks.rounds import WINDOW_MM, Cone, Section, sections
from fitwright.finding import Finding
from fitwright.mesh import BodyMesh
from fitwright.part import Body, FitSurface, Frame, HoleFit, Part, RoundSize, Vec
from fitwright.place import words
from fitwright.tolerances import TOLERANCES

CODE = "fit.built"
STATIONS = 15
"""Sections per face: a groove or a row of holes spoils a few of them, never most."""
MARGIN = 0.02
"""The outermost sections lie this share of the length inside the ends, clear of the edges' own facets."""
LEAST_COVERAGE = 0.5
"""A section counts where half of its circle is there; slits and holes take less."""
BESIDE_RIDGE = 0.85
"""... or this share of what a helical ridge leaves of the circle."""
LEAST_FOUND = 0.6
"""A face counts as found where this share of its sections do, and the two outermost among them."""
HOLE_LEAST_FOUND = 0.2
"""A hole may start outside a curved face and end in a cavity: this share of its length must be a full hole."""
TAPER_DEG = 0.15
"""A half angle further off than this fails even where a short face hides it within the diameter limit."""
REBUILD = "This is a fault of the build, not of your numbers; report it."


def check(part: Part, meshes: Mapping[str, BodyMesh], spec: object = None) -> list[Finding]:
    """One finding for each fit surface, each hole and each face of a known size of each body."""
    findings = []
    for body in part.bodies:
        finished = meshes.get(body.name)
        if finished is None or len(finished.mesh.faces) == 0:
            findings.append(_finding(body, "whole body", None, None, "not checked: it has no mesh", ["no mesh"]))
            continue
        findings += [_surface(body, finished.mesh, fit) for fit in body.fits]
        findings += [_hole(body, finished.mesh, hole) for hole in body.holes]
        findings += [_round(body, finished.mesh, one) for one in body.rounds]
    return findings


def _surface(body: Body, mesh: trimesh.Trimesh, fit: FitSurface) -> Finding:
    """Judge one fit surface."""
    window = min(WINDOW_MM, fit.ridge_height_mm / 2.0) if fit.ridge_height_mm else WINDOW_MM
    cone = Cone(fit.frame, fit.kind, fit.s0_mm, fit.s1_mm, fit.d0_mm, fit.d1_mm, window)
    least = min(LEAST_COVERAGE, BESIDE_RIDGE * (1.0 - fit.ridge_share)) * fit.turn_share
    cut = outlines.sections(mesh, fit, cone, _depths(cone)) if fit.about else sections(mesh, cone, _depths(cone))
    shown = _shown(cut, cone, fit.cord_groove_depth_mm, least)
    ends_seen = len(shown) > 1 and min(_depths(cone)) == shown[0].s_mm and max(_depths(cone)) == shown[-1].s_mm
    found = shown if ends_seen and len(shown) >= LEAST_FOUND * STATIONS else []
    middle = fit.frame.point(0.0, (fit.s0_mm + fit.s1_mm) / 2.0, 0.0)
    return _judge(body, fit.name, f"{fit.name}, near {words(middle)}", cone, found)


def _round(body: Body, mesh: trimesh.Trimesh, one: RoundSize) -> Finding:
    """Judge one face of a known size, ends and all."""
    cone = Cone(one.frame, one.kind, one.s0_mm, one.s1_mm, one.d_mm, one.d_mm, turn_deg=one.turn_deg)
    least = LEAST_COVERAGE * cone.turn_share
    shown = _shown(sections(mesh, cone, _depths(cone)), cone, 0.0, least)
    middle = one.frame.point(0.0, (one.s0_mm + one.s1_mm) / 2.0, 0.0)
    found = shown if len(shown) == STATIONS else []
    return _judge(body, one.name, f"{one.name}, near {words(middle)}", cone, found)


def _hole(body: Body, mesh: trimesh.Trimesh, hole: HoleFit) -> Finding:
    """Judge one screw hole or pilot: diameter, place and direction of its axis."""
    frame = Frame(hole.start, hole.direction, _across(hole.direction))
    cone = Cone(frame, "hole", 0.0, hole.length_mm, hole.d_mm, hole.d_mm)
    shown = [s for s in _shown(sections(mesh, cone, _depths(cone)), cone, 0.0) if s.coverage > 0.9]
    found = shown if len(shown) >= HOLE_LEAST_FOUND * STATIONS else []
    return _judge(body, hole.name, f"{hole.name}, near {words(hole.start)}", cone, found)


def _judge(body: Body, name: str, place: str, cone: Cone, found: list[Section]) -> Finding:
    """Compare the sections that were found with what was meant."""
    if not found:
        size = f"{cone.d0_mm:.2f}" + ("" if cone.d0_mm == cone.d1_mm else f" to {cone.d1_mm:.2f}")
        message = f"{name} of {size} mm was not found on the finished part"
        return _finding(body, place, None, cone.d0_mm, message, ["not found"])
    worst = max(found, key=lambda s: abs(s.d_mm - cone.d_mm(s.s_mm)))
    faults = list(_faults(found, cone))
    measured = f"{name} measures {worst.d_mm:.2f} mm where {cone.d_mm(worst.s_mm):.2f} mm was meant"
    rounded = f"round within {max(s.out_of_round_mm for s in found):.3f} mm"
    message = "; ".join([measured, *(faults or [rounded])])
    return _finding(body, place, worst.d_mm, cone.d_mm(worst.s_mm), message, faults)


def _faults(found: list[Section], cone: Cone) -> Iterator[str]:
    """What is wrong with the sections, each fault in words."""
    limit = TOLERANCES.fit_mm
    apart = max(abs(s.d_mm - cone.d_mm(s.s_mm)) for s in found)
    if apart > limit:
        yield f"off by {apart:.3f} mm"
    aside = max(math.hypot(s.right_mm, s.up_mm) for s in found)
    if aside > limit:
        yield f"its axis is {aside:.3f} mm aside"
    uneven = max(s.out_of_round_mm for s in found)
    if uneven > limit:
        yield f"out of round by {uneven:.3f} mm"
    if (tilt := _taper_error_deg(found, cone)) > TAPER_DEG:
        yield f"its half angle is off by {tilt:.2f} deg"


def _taper_error_deg(found: list[Section], cone: Cone) -> float:
    """Half angle of the cone through the sections less the intended one [deg]; 0 where they lie too close to tell."""
    depths = np.array([s.s_mm for s in found])
    if len(found) < 3 or np.ptp(depths) < 2.0:
        return 0.0
    growth = float(np.polyfit(depths, [s.d_mm for s in found], 1)[0])
    return abs(math.degrees(math.atan(growth / 2.0) - math.atan(cone.growth / 2.0)))


def _shown(cut: list[Section | None], cone: Cone, groove_mm: float, least: float = LEAST_COVERAGE) -> list[Section]:
    """Sections where enough of the circle is there, less those that show the floor of the declared cord groove."""
    seen = [s for s in cut if s is not None and s.coverage >= least]
    if groove_mm <= 0.0:
        return seen
    floor = 2.0 * groove_mm if cone.kind == "hole" else -2.0 * groove_mm
    return [s for s in seen if abs(s.d_mm - cone.d_mm(s.s_mm) - floor) > 2.0 * TOLERANCES.fit_mm]


def _depths(cone: Cone) -> list[float]:
    """Where a face is cut [mm from the mouth]."""
    length = cone.s1_mm - cone.s0_mm
    shares = np.linspace(MARGIN, 1.0 - MARGIN, STATIONS)
    return [cone.s0_mm + float(share) * length for share in shares]


def _across(direction: Vec) -> Vec:
    """Any unit vector at right angles to a direction."""
    along = np.array(direction)
    least = np.eye(3)[np.abs(along).argmin()]
    side = np.cross(along, least)
    x, y, z = (float(c) for c in side / np.linalg.norm(side))
    return (x, y, z)


def _finding(
    body: Body, place: str, value: float | None, meant: float | None, message: str, faults: list[str]
) -> Finding:
    if faults:
        return Finding(CODE, "fail", body.name, value, meant, "mm", place, message, REBUILD)
    return Finding(CODE, "pass", body.name, value, meant, "mm", place, message)
