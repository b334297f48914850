"""Reading an STL that stands for a neighbour or a housing, and saying what is wrong with it."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import trimesh

from fitwright.errors import BuildError

REPAIR = "Repair or simplify it in the program it came from, or describe it with boxes and round bars"


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
    if mesh.volume < 0.0:
        return "is inside out (its triangles face inwards). Turn its normals round and save it again"
    if mesh.volume == 0.0:
        return f"encloses no volume. {REPAIR}"
    return _fault_of_pieces(mesh)


def _open_edges(mesh: trimesh.Trimesh) -> int:
    _, count = np.unique(mesh.edges_sorted, axis=0, return_counts=True)
    return int((count != 2).sum())


def _fault_of_pieces(mesh: trimesh.Trimesh) -> str:
    """A piece that is inside out is a cavity when it lies inside another, and a fault when it stands alone."""
    pieces = mesh.split(only_watertight=False)
    hollow = [p for p in pieces if p.volume < 0.0]
    full = [p for p in pieces if p.volume > 0.0]
    for cavity in hollow:
        low, high = cavity.bounds
        if not any((p.bounds[0] <= low).all() and (p.bounds[1] >= high).all() for p in full):
            return "has a piece that is inside out and lies inside no other. Turn its normals round and save it again"
    return ""
