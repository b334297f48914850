"""Points, directions and local frames, as plain numbers."""

from __future__ import annotations

from dataclasses import dataclass

Vec = tuple[float, float, float]


@dataclass(frozen=True)
class Frame:
    """A place with directions: `inward` and `right` are unit vectors at right angles."""

    origin: Vec
    inward: Vec
    right: Vec

    @property
    def up(self) -> Vec:
        """The third direction: right x inward (x right, y away gives z up)."""
        (a, b, c), (d, e, f) = self.right, self.inward
        return (b * f - c * e, c * d - a * f, a * e - b * d)

    def point(self, right: float, s: float, up: float) -> Vec:
        """The point at these distances [mm] along right, inward and up, in part coordinates."""
        o, r, n, u = self.origin, self.right, self.inward, self.up
        return (
            o[0] + right * r[0] + s * n[0] + up * u[0],
            o[1] + right * r[1] + s * n[1] + up * u[1],
            o[2] + right * r[2] + s * n[2] + up * u[2],
        )
