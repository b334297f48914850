"""Cylinders, cones and ruled faces that something was cut into: the kernel's triangles, their diagonals chosen anew.

Where a lip or a hole ends in such a face the kernel joins points that lie some degrees apart round it, and the mesh
leaves the surface by twenty times the chord. Of the two diagonals of a quadrilateral the one that strays less is
taken; what still strays is divided at its middle, on the surface. Edges at the face's boundary stay as they are.
"""

from __future__ import annotations

import cmath
import math
from dataclasses import dataclass, field
from typing import Any

import numpy as np
from numpy.typing import NDArray
from OCP.BRepAdaptor import BRepAdaptor_Surface
from OCP.GeomAbs import GeomAbs_SurfaceType
from OCP.gp import gp_Pnt, gp_Vec

Points = NDArray[np.float64]
Indices = NDArray[np.int64]
Pair = tuple[int, int]

SLACK = 1.2
"""The kernel's own edges stray up to so many times the chord; only more than that is mended."""
LEAST_AREA = 1e-7
"""Triangles keep more than this of the square of the edge between them, flat in the face's own (u, v)."""
LOOKED_AT = 0.5
"""Edges that stray by less than this share of the chord stay as they are."""
FACES_ALIKE = 0.9
"""Least cosine between a new triangle and the quadrilateral that it is half of: no folds where (u, v) is uneven."""
PASSES = 12
"""Rounds of dividing: each halves what strays twice over."""

_TURNED = (GeomAbs_SurfaceType.GeomAbs_Cylinder, GeomAbs_SurfaceType.GeomAbs_Cone)
_SPLINE = GeomAbs_SurfaceType.GeomAbs_BSplineSurface


@dataclass
class Net:
    """The triangles of one face while they change: corners in space and in (u, v) [mm], who owns which edge."""

    surface: Any
    points: list[Points]
    flat: list[complex]
    scale: complex
    triangles: list[list[int]]
    least_mm: float
    """Edges that stray by less stay."""
    turned: list[complex] | None = None
    """On a cylinder or cone: each corner's place across its axis [mm], times the cosine of the cone's half angle."""
    owner: dict[Pair, int] = field(default_factory=dict)
    known: dict[Pair, float] = field(default_factory=dict)

    def __post_init__(self) -> None:
        for number in range(len(self.triangles)):
            self._own(number)

    def _own(self, number: int) -> None:
        a, b, c = self.triangles[number]
        self.owner[a, b] = self.owner[b, c] = self.owner[c, a] = number

    def inner(self) -> list[Pair]:
        """Edges with a triangle on either side, each once."""
        return [(a, b) for a, b in self.owner if a < b and (b, a) in self.owner]

    def stray(self, a: int, b: int) -> float:
        """How far the middle of an edge lies from the surface [mm]."""
        if self.turned is not None:
            one, other = self.turned[a], self.turned[b]
            return (abs(one) + abs(other) - abs(one + other)) / 2
        pair = (a, b) if a < b else (b, a)
        if pair not in self.known:
            middle, normal = self.on_surface((self.flat[a] + self.flat[b]) / 2)
            self.known[pair] = abs(float((middle - (self.points[a] + self.points[b]) / 2) @ normal))
        return self.known[pair]

    def on_surface(self, place: complex) -> tuple[Points, Points]:
        """The point at a place of (u, v) [mm], and the unit normal there."""
        point, along_u, along_v = gp_Pnt(), gp_Vec(), gp_Vec()
        self.surface.D1(place.real / self.scale.real, place.imag / self.scale.imag, point, along_u, along_v)
        normal = np.array(along_u.Crossed(along_v).Coord())
        return np.array(point.Coord()), normal / max(math.sqrt(float(normal @ normal)), 1e-12)

    def third(self, a: int, b: int) -> int:
        """The corner across the edge from a to b, on its left."""
        found = self.triangles[self.owner[a, b]]
        return found[(found.index(a) + 2) % 3]

    def flips(self, a: int, b: int) -> list[Pair]:
        """Take the other diagonal where it strays less; the four edges round it are to be looked at again."""
        c, d, far = self.third(a, b), self.third(b, a), self.stray(a, b)
        if far < self.least_mm or self.stray(c, d) > 0.999 * far or (c, d) in self.owner or (d, c) in self.owner:
            return []
        if not self._is_convex(a, d, b, c) or not self._lies_flat(a, d, b, c):
            return []
        one, other = self.owner.pop((a, b)), self.owner.pop((b, a))
        self.triangles[one], self.triangles[other] = [c, a, d], [d, b, c]
        self._own(one)
        self._own(other)
        return [(a, d), (d, b), (b, c), (c, a)]

    def _is_convex(self, *corners: int) -> bool:
        """Whether all corners of a quadrilateral turn the same way, none of them straight on."""
        p = [self.flat[k] for k in corners]
        areas = [_area(p[k - 1], p[k], p[(k + 1) % 4]) for k in range(4)]
        least = LEAST_AREA * max(abs(p[0] - p[2]), abs(p[1] - p[3])) ** 2
        return min(areas) > least or max(areas) < -least

    def _lies_flat(self, a: int, d: int, b: int, c: int) -> bool:
        """Whether the triangles on either side of the edge from c to d face nearly the same way in space, too."""
        p, across = self.points, self.points[d] - self.points[c]
        one, other = _cross(p[a] - p[c], across), _cross(across, p[b] - p[c])
        both = one + other
        size = math.sqrt(float(both @ both))
        return all(float(k @ both) > FACES_ALIKE * size * math.sqrt(float(k @ k)) > 0.0 for k in (one, other))

    def divide(self, a: int, b: int) -> None:
        """Put a corner on the surface at the middle of an edge."""
        c, d, place, new = self.third(a, b), self.third(b, a), (self.flat[a] + self.flat[b]) / 2, len(self.points)
        self.points.append(self.on_surface(place)[0])
        self.flat.append(place)
        if self.turned is not None:
            one, other = self.turned[a], self.turned[b]
            self.turned.append((abs(one) + abs(other)) / 2 * cmath.exp(1j * place.real / self.scale.real))
        one, other = self.owner.pop((a, b)), self.owner.pop((b, a))
        self.triangles[one], self.triangles[other] = [a, new, c], [b, new, d]
        self.triangles += [[new, b, c], [new, a, d]]
        for number in (one, other, len(self.triangles) - 2, len(self.triangles) - 1):
            self._own(number)


def mended(
    face: Any, triangulation: Any, points: Points, triangles: Indices, within_mm: float
) -> tuple[Points, Indices]:
    """Corners and triangles (not yet turned to face out) of a face, the same where nothing strays too far from it."""
    surface = BRepAdaptor_Surface(face)
    if not _is_ours(surface) or not triangulation.HasUVNodes() or len(triangles) < 2:
        return points, triangles
    nodes = map(triangulation.UVNode, range(1, triangulation.NbNodes() + 1))
    places = np.array([p.Coord() for p in nodes], dtype=np.float64)
    turned = _turned(surface, places) if surface.GetType() in _TURNED else None
    if turned is not None and not _any_strays(turned, triangles, SLACK * within_mm):
        return points, triangles
    scale = _scale(surface, places)
    flat = [complex(u * scale.real, v * scale.imag) for u, v in places.tolist()]
    net = Net(
        surface,
        list(points),
        flat,
        scale,
        triangles.tolist(),
        LOOKED_AT * within_mm,
        None if turned is None else turned.tolist(),
    )
    strays = {pair: net.stray(*pair) for pair in net.inner()}
    if max(strays.values(), default=0.0) <= SLACK * within_mm:
        return points, triangles
    _settle(net, net.inner())
    for _ in range(PASSES):
        far = [pair for pair in net.inner() if net.stray(*pair) > SLACK * within_mm]
        if not far:
            break
        _divide_all(net, far)
    return np.array(net.points), np.array(net.triangles, dtype=np.int64)


def _divide_all(net: Net, far: list[Pair]) -> None:
    """Divide edges, the worst first, and choose the diagonals round each anew."""
    for a, b in sorted(far, key=lambda pair: (-net.stray(*pair), pair)):
        if (a, b) in net.owner and (b, a) in net.owner:
            c, d = net.third(a, b), net.third(b, a)
            net.divide(a, b)
            _settle(net, [(a, d), (d, b), (b, c), (c, a)])


def _settle(net: Net, pairs: list[Pair]) -> None:
    """Flip until nothing is to be gained; every flip makes the sum of what strays less, so that this ends."""
    queue = list(reversed(pairs))
    while queue:
        a, b = queue.pop()
        if (a, b) in net.owner and (b, a) in net.owner:
            queue += net.flips(a, b)


def _is_ours(surface: Any) -> bool:
    kind = surface.GetType()
    return kind in _TURNED or (kind == _SPLINE and 1 in (surface.UDegree(), surface.VDegree()))


def _any_strays(turned: NDArray[np.complex128], triangles: Indices, within_mm: float) -> bool:
    """Whether the middle of any edge leaves the cylinder or cone by more."""
    one, other = turned[triangles], turned[np.roll(triangles, 1, axis=1)]
    return bool(((np.abs(one) + np.abs(other) - np.abs(one + other)) / 2 > within_mm).any())


def _turned(surface: Any, places: Points) -> NDArray[np.complex128]:
    """For each (u, v) of a cylinder or cone the place across its axis, times the cosine of its half angle."""
    if surface.GetType() == GeomAbs_SurfaceType.GeomAbs_Cylinder:
        radii = np.full(len(places), surface.Cylinder().Radius())
    else:
        cone = surface.Cone()
        radii = (cone.RefRadius() + places[:, 1] * math.sin(cone.SemiAngle())) * math.cos(cone.SemiAngle())
    found: NDArray[np.complex128] = radii * np.exp(1j * places[:, 0])
    return found


def _scale(surface: Any, places: Points) -> complex:
    """How many mm a step of u and of v is, in the middle of the face."""
    u, v = (places.min(axis=0) + places.max(axis=0)) / 2
    point, along_u, along_v = gp_Pnt(), gp_Vec(), gp_Vec()
    surface.D1(float(u), float(v), point, along_u, along_v)
    return complex(max(along_u.Magnitude(), 1e-9), max(along_v.Magnitude(), 1e-9))


def _area(a: complex, b: complex, c: complex) -> float:
    return ((b - a).conjugate() * (c - a)).imag


def _cross(a: Points, b: Points) -> Points:
    """The vector product, without the library's overhead for single vectors."""
    (x, y, z), (p, q, r) = a.tolist(), b.tolist()
    return np.array([y * r - z * q, z * p - x * r, x * q - y * p])
