"""Reading an STL that stands for a neighbour or a housing, and saying what is wrong with it."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import trimesh
from numpy.typing import NDArray
from scipy.sparse import coo_array
from scipy.sparse.csgraph import connected_components

from fitwright.errors import BuildError

REPAIR = "Repair or simplify it in the program it came from, or describe it with boxes and round bars"

NOTHING_MM3 = 1e-6
"""Less than this is rounding."""


def read(path: Path) -> trimesh.Trimesh:
    """The mesh in the file, sound: closed, wound consistently, right side out, with a volume.

    Raises
    ------
    BuildError
        The file is missing, unreadable, empty, open, or inside out; with the cure. A broken mesh answers any question
        about distance with "far away" (manifold issues 186, 765), so it is never used.
    """
    if not path.is_file():
        raise BuildError(f"there is no file {path}; put it beside the YAML file, or correct the path")
    try:
        mesh = trimesh.load_mesh(path)
    except (ValueError, KeyError, IndexError, TypeError, OSError, NotImplementedError) as error:
        raise BuildError(f"{path.name} cannot be read ({error}); save it again as a binary STL in mm") from error
    if not isinstance(mesh, trimesh.Trimesh) or len(mesh.faces) == 0:
        raise BuildError(f"{path.name} holds no triangles; save it again as a binary STL in mm")
    fault = _fault(mesh)
    if fault:
        raise BuildError(f"{path.name} {fault}")
    return mesh


def _fault(mesh: trimesh.Trimesh) -> str:
    if not np.isfinite(mesh.vertices).all():
        return f"has corners that are no numbers. {REPAIR}"
    if not mesh.is_watertight:
        return f"is not closed ({_open_edges(mesh)} edges without a neighbour). {REPAIR}"
    if not mesh.is_winding_consistent:
        return f"has triangles that face different ways. {REPAIR}"
    volume = float(_volumes(mesh).sum())
    if abs(volume) <= NOTHING_MM3:
        return f"encloses no volume. {REPAIR}"
    if volume < 0.0:
        return "is inside out (its triangles face inwards). Turn its normals round and save it again"
    return _fault_of_pieces(mesh)


def _open_edges(mesh: trimesh.Trimesh) -> int:
    _, count = np.unique(mesh.edges_sorted, axis=0, return_counts=True)
    return int((count != 2).sum())


def _fault_of_pieces(mesh: trimesh.Trimesh) -> str:
    """A piece that is inside out is a cavity when it lies inside another, and a fault when it stands alone."""
    piece = _pieces(mesh)
    corners = mesh.triangles
    volume = np.bincount(piece, _volumes(mesh))
    if (volume >= 0.0).all():
        return ""
    low, high = np.full((len(volume), 3), np.inf), np.full((len(volume), 3), -np.inf)
    np.minimum.at(low, piece, corners.min(axis=1))
    np.maximum.at(high, piece, corners.max(axis=1))
    full = volume > 0.0
    for k in np.flatnonzero(volume < 0.0):
        if not ((low[full] <= low[k]) & (high[full] >= high[k])).all(axis=1).any():
            return "has a piece that is inside out and lies inside no other. Turn its normals round and save it again"
    return ""


def _volumes(mesh: trimesh.Trimesh) -> NDArray[np.float64]:
    """Signed volume between each face and the mesh's first corner; their sum is what the mesh encloses."""
    corners = mesh.triangles - mesh.vertices[0]
    return np.asarray(np.einsum("nd,nd->n", corners[:, 0], np.cross(corners[:, 1], corners[:, 2])) / 6.0)


def _pieces(mesh: trimesh.Trimesh) -> NDArray[np.int64]:
    """For each face the number of the connected piece that it belongs to."""
    edges = np.concatenate([mesh.faces[:, [0, 1]], mesh.faces[:, [1, 2]]])
    size = (len(mesh.vertices), len(mesh.vertices))
    graph = coo_array((np.ones(len(edges), dtype=np.int8), (edges[:, 0], edges[:, 1])), shape=size)
    _, label = connected_components(graph, directed=False)
    return np.asarray(np.unique(label[mesh.faces[:, 0]], return_inverse=True)[1], dtype=np.int64)
