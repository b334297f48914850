"""How much of a declared face is on a finished mesh: facets in its plane, or on its cylinder, that look out of it."""

from __future__ import annotations

import math

import numpy as np
import shapely
import trimesh

from fitwright.loads import LoadFace

NEAR_MM = 0.05
LOOKS = 0.99
"""Cosine between a flat face's normal and a facet's."""


def share(face: LoadFace, mesh: trimesh.Trimesh) -> float:
    """Found over declared area."""
    return _flat(face, mesh) if face.kind == "flat" else _round(face, mesh)


def _flat(face: LoadFace, mesh: trimesh.Trimesh) -> float:
    """Exactly: each facet clipped to the outline."""
    frame = face.frame
    axes = np.array([frame.right, frame.up, frame.inward]).T
    there = (mesh.triangles - np.array(frame.origin)) @ axes
    on = (np.abs(there[:, :, 2]) < NEAR_MM).all(axis=1) & (mesh.face_normals @ np.array(frame.inward) < -LOOKS)
    outline = outline_of(face)
    return float(
        shapely.area(shapely.intersection(shapely.polygons(there[on][:, :, :2]), outline)).sum() / outline.area
    )


def outline_of(face: LoadFace) -> shapely.Polygon:
    """Of a flat face, in its right and up."""
    box = shapely.box(face.right_mm[0], face.up_mm[0], face.right_mm[1], face.up_mm[1])
    return box if not face.disc_mm else box & shapely.Point(0.0, 0.0).buffer(face.disc_mm / 2, quad_segs=64)


def _round(face: LoadFace, mesh: trimesh.Trimesh) -> float:
    """Of finer facets, those whose middles lie on it."""
    frame = face.frame
    corners = mesh.vertices - np.array(frame.origin)
    off = np.abs(np.linalg.norm(np.cross(corners, np.array(frame.inward)), axis=1) - face.r_mm) < NEAR_MM
    mesh = mesh.submesh([off[mesh.faces].all(axis=1)], append=True)
    for _ in range(4):
        mesh = mesh.subdivide()
    away = mesh.triangles_center - np.array(frame.origin)
    right, up, s = (away @ np.array(v) for v in (frame.right, frame.up, frame.inward))
    r, turn, (low, high) = np.hypot(right, up), np.degrees(np.arctan2(right, up)), face.turn_deg
    on = (np.abs(r - face.r_mm) < 2 * NEAR_MM) & (s > face.s_mm[0]) & (s < face.s_mm[1])
    on &= ((turn - low) % 360.0) <= high - low
    normals = mesh.face_normals
    outwards = ((normals @ np.array(frame.right)) * right + (normals @ np.array(frame.up)) * up) / np.maximum(r, 1e-9)
    on &= np.abs(outwards) > 0.9
    whole = face.r_mm * math.radians(high - low) * (face.s_mm[1] - face.s_mm[0])
    return float(mesh.area_faces[on].sum() / whole)
