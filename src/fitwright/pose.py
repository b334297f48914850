"""The way a body is laid on the bed: every declared pose is tried, the one that prints best is chosen."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import TYPE_CHECKING

import numpy as np

from fitwright.mesh import BodyMesh
from fitwright.part import Body, Pose
from fitwright.printing.base import Base, base
from fitwright.printing.island import Island, islands
from fitwright.printing.laid import Array, Laid, lay
from fitwright.printing.limits import RANK
from fitwright.printing.overhang import Overhang, Settings, overhangs
from fitwright.printing.plan import PlanFit, best_turn, outline

if TYPE_CHECKING:
    from trimesh import Trimesh

    from fitwright.spec.models import Printer

AS_BUILT = (Pose("end_a on the bed", (0.0, -1.0, 0.0)), Pose("end_b on the bed", (0.0, 1.0, 0.0)))
"""Tried for a body that declares no pose."""


@dataclass(frozen=True)
class PoseChoice:
    """A body as it will be printed, and what was found about it in that pose.

    `rotation` (4, 4) takes part coordinates to the bed's: z = 0 on the bed, the outline's box centred on x = y = 0,
    turned so that it fits. `others` are the poses that were tried and are worse.
    """

    pose: Pose
    rotation: Array
    plan: PlanFit
    height_mm: float
    overhangs: tuple[Overhang, ...]
    islands: tuple[Island, ...]
    base: Base
    others: tuple[str, ...] = ()

    @property
    def name(self) -> str:
        """The pose in words."""
        return self.pose.name

    @property
    def matrix(self) -> Array:
        """The rotation and move, under the name that exports use."""
        return self.rotation


@dataclass(frozen=True)
class _Bed:
    """What of a printer decides how a part is laid on it."""

    x_mm: float
    y_mm: float
    z_mm: float
    layer_mm: float
    line_mm: float


def choose_pose(body: Body, mesh: BodyMesh, printer: Printer) -> PoseChoice:
    """The pose with least trouble: fits, no islands, least bad overhang, least height, most on the bed; in that order.

    The check, the export and the report all ask; the answer is worked out once.
    """
    bed = _Bed(printer.bed_x_mm, printer.bed_y_mm, printer.bed_z_mm, printer.layer_mm, printer.line_mm)
    return _chosen(mesh.mesh, body.poses or AS_BUILT, bed)


@lru_cache(maxsize=4)
def _chosen(mesh: Trimesh, poses: tuple[Pose, ...], bed: _Bed) -> PoseChoice:
    tried = [_try(pose, mesh, bed) for pose in poses]
    best = min(tried, key=lambda choice: _trouble(choice, bed))
    return replace(best, others=tuple(choice.pose.name for choice in tried if choice is not best))


def _try(pose: Pose, mesh: Trimesh, bed: _Bed) -> PoseChoice:
    laid = lay(mesh, pose.down)
    plan = best_turn(outline(laid.points_mm), bed.x_mm, bed.y_mm)
    hanging = islands(laid, bed.layer_mm)
    held = tuple(o for o in overhangs(laid, Settings(bed.layer_mm, bed.line_mm)) if o.held)
    return PoseChoice(pose, _matrix(laid, plan), plan, laid.height_mm, held, hanging, base(laid, bed.layer_mm))


def _trouble(choice: PoseChoice, bed: _Bed) -> tuple[float, ...]:
    fits = choice.plan.fits and choice.height_mm <= bed.z_mm
    by_rank = [sum(o.area_mm2 for o in choice.overhangs if RANK[o.grade] == rank) for rank in (2, 1)]
    return (float(not fits), float(len(choice.islands)), *by_rank, round(choice.height_mm, 2), -choice.base.area_mm2)


def _matrix(laid: Laid, plan: PlanFit) -> Array:
    c, s = math.cos(plan.turn_rad), math.sin(plan.turn_rad)
    turn = np.eye(4)
    turn[:2, :2] = [[c, -s], [s, c]]
    turn[:2, 3] = -plan.centre_mm[0], -plan.centre_mm[1]
    matrix = np.asarray(turn @ laid.matrix)
    matrix.setflags(write=False)
    return matrix
