"""Bodies and specs made by hand, so that the checks are tried without any family or YAML."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import cadquery as cq
import numpy as np
import trimesh

from fitwright.mesh import BodyMesh
from fitwright.part import Body, FitSurface, Part, Pose, StandIn
from fitwright.spec.models import Material

ON_MINUS_Z = (Pose("flat side down", (0.0, 0.0, -1.0)),)


def spec(**changes: Any) -> Any:
    """What the checks ask of a spec: a 220 x 220 x 240 printer with 0.2 layers, PETG, no envelope."""
    printer = dict(bed_x_mm=220.0, bed_y_mm=220.0, bed_z_mm=240.0, line_mm=0.42, layer_mm=0.2)
    printer |= {"scatter_rel": 0.002, "scatter_abs_mm": 0.1, "oval_rel": 0.0, "calibration": None}
    printer |= changes.pop("printer", {})
    material = dict(name="PETG", density_g_cm3=1.27, strain_limit=0.02, softening_c=75.0, service_c=65.0)
    material |= dict(modulus_mpa=2000.0, strength_mpa=44.0, strength_across_mpa=25.0) | changes.pop("material", {})
    given = dict(
        printer=SimpleNamespace(**printer),
        material=Material.model_validate(material),
        envelope=SimpleNamespace(keep_clear=(), stay_inside=()),
        near_heat_c=None,
        near_heat_said="",
        ends={},
        source_file="",
        sizes={},
    )
    return SimpleNamespace(**(given | changes))


def part(
    mesh: trimesh.Trimesh | None = None,
    poses: tuple[Pose, ...] = ON_MINUS_Z,
    stand_ins: tuple[StandIn, ...] = (),
    fits: tuple[FitSurface, ...] = (),
) -> tuple[Part, dict[str, BodyMesh]]:
    """A part of one body with this mesh; its exact solid is not looked at by these checks."""
    made = trimesh.creation.box((10, 10, 10)) if mesh is None else mesh
    body = Body("body", cq.Solid.makeBox(1, 1, 1), 0, 2.4, poses, fits=fits)
    return Part("try", "reducer", (body,), stand_ins), {
        "body": BodyMesh(made, float(made.volume) if made.is_volume else 0.0)
    }


def turned(profile: list[tuple[float, float]], sections: int = 180) -> trimesh.Trimesh:
    """A closed (r, z) profile, counter-clockwise, turned about z."""
    return trimesh.creation.revolve(np.array([*profile, profile[0]], dtype=float), sections=sections)


def box(low: tuple[float, float, float], high: tuple[float, float, float]) -> trimesh.Trimesh:
    """A box between two corners."""
    return trimesh.creation.box(bounds=[low, high])


def cut(one: trimesh.Trimesh, *others: trimesh.Trimesh) -> trimesh.Trimesh:
    """One without the others."""
    return trimesh.boolean.difference([one, *others], engine="manifold")


def joined(*meshes: trimesh.Trimesh) -> trimesh.Trimesh:
    """All in one."""
    return trimesh.boolean.union(list(meshes), engine="manifold")
