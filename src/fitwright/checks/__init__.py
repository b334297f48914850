"""All checks, in the order of the report: each looks at the finished solid or mesh, reports, and never repairs."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from fitwright.checks import (
    airflow,
    clearance,
    cover,
    features,
    fit_built,
    fit_result,
    flat,
    halves,
    hanger,
    hardware,
    lettering,
    motion,
    passage,
    plate,
    printing,
    solid,
    stiffness,
    strength_ring,
    temperature,
    wall,
)
from fitwright.finding import Finding
from fitwright.mesh import BodyMesh
from fitwright.part import Part
from fitwright.spec.models import PartBase

Check = Callable[[Part, Mapping[str, BodyMesh], PartBase], list[Finding]]

CHECKS: tuple[tuple[str, Check], ...] = (
    ("solid", solid.check),
    ("features", features.check),
    ("wall", wall.check),
    ("fit.built", fit_built.check),
    ("fit.result", fit_result.check),
    ("flat", flat.check),
    ("lettering", lettering.check),
    ("cover", cover.check),
    ("passage", passage.check),
    ("airflow", airflow.check),
    ("halves", halves.check),
    ("clearance", clearance.check),
    ("hardware", hardware.check),
    ("motion", motion.check),
    ("hanger", hanger.check),
    ("stiffness", stiffness.check),
    ("strength.ring", strength_ring.ring_findings),
    ("printing", printing.check),
    ("plate", plate.check),
    ("temperature", temperature.check),
)

CODES = (*(code for code, _ in CHECKS), "strength")
"""Strength stands apart: it runs in a child beside the others (see pipeline.py)."""
