"""Undersides and islands found on the mesh, against a plain slicer: layer by layer, what lies on nothing?"""

from __future__ import annotations

import itertools

import manifold3d
import numpy as np
import pytest
import shapely
import trimesh
from shapely.geometry import Polygon
from tests.handmade import joined

from fitwright.printing.island import islands
from fitwright.printing.laid import lay
from fitwright.printing.overhang import Settings, overhangs

LAYER_MM = 0.5


def layers(mesh: trimesh.Trimesh) -> list[shapely.Geometry]:
    """Sections in the middle of every layer, from the bed up."""
    solid = manifold3d.Manifold(
        manifold3d.Mesh64(np.asarray(mesh.vertices, dtype=float), np.asarray(mesh.faces, dtype=np.uint64))
    )
    count = round(mesh.bounds[1][2] / LAYER_MM)
    return [_section(solid, (k + 0.5) * LAYER_MM) for k in range(count)]


def _section(solid: manifold3d.Manifold, height: float) -> shapely.Geometry:
    area = Polygon()
    for ring in solid.slice(height).to_polygons():
        area = area.symmetric_difference(Polygon(ring).buffer(0))
    return area


def stack(seed: int) -> trimesh.Trimesh:
    """Some boxes with whole-number corners; the first stands on the bed."""
    rng = np.random.default_rng(seed)
    made = []
    for k in range(7):
        low = rng.integers(0, 10, 3)
        low[2] = 0 if k == 0 else low[2]
        made.append(trimesh.creation.box(bounds=[low, low + rng.integers(1, 6, 3)]))
    return joined(*made)


@pytest.mark.parametrize("seed", range(25))
def test_flat_undersides_and_islands_of_random_stacks(seed: int):
    mesh = stack(seed)
    laid = lay(mesh, (0, 0, -1))
    settings = Settings(LAYER_MM, 0.42)
    sections = layers(mesh)
    hanging, born = set(), 0
    for k, (below, layer) in enumerate(itertools.pairwise(sections), start=1):
        free = layer.difference(below.buffer(LAYER_MM * 1.04, join_style="mitre"))
        if free.area > 1e-6:
            hanging.add(k * LAYER_MM)
        born += sum(not piece.buffer(-1e-6).intersects(below) for piece in getattr(layer, "geoms", [layer]))
    found = {round(o.height_mm, 6) for o in overhangs(laid, settings)}
    assert hanging <= found
    # A ledge narrower than the slicer's tolerance of 45 deg cannot be: corners are whole numbers.
    assert found <= hanging
    assert (len(islands(laid, LAYER_MM)) > 0) == (born > 0)


@pytest.mark.parametrize("slope_deg", [30.0, 40.0, 43.0, 46.0, 50.0, 70.0])
@pytest.mark.parametrize("seed", [1, 2])
def test_sloping_undersides_of_turned_wedges(slope_deg: float, seed: int):
    """An underside of this slope on a foot, turned about the vertical: found exactly where layers step out too far."""
    reach = 12.0 / np.tan(np.radians(slope_deg))
    profile = Polygon([(0, 0), (10, 0), (10, 6), (10 + reach, 18), (10 + reach, 20), (0, 20)])
    mesh = trimesh.creation.extrude_polygon(profile, 15.0)
    mesh.apply_transform(trimesh.transformations.rotation_matrix(np.pi / 2, (1, 0, 0)))
    mesh.apply_transform(trimesh.transformations.rotation_matrix(np.random.default_rng(seed).uniform(0, 6), (0, 0, 1)))
    sections = layers(mesh)
    step = LAYER_MM * np.tan(np.radians(46.0))
    pairs = itertools.pairwise(sections)
    unsupported = any(layer.difference(below.buffer(step, join_style="mitre")).area > 1e-3 for below, layer in pairs)
    assert unsupported == (slope_deg < 44.0)
    assert bool(overhangs(lay(mesh, (0, 0, -1)), Settings(LAYER_MM, 0.42))) == unsupported
