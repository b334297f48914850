"""Steel as every screw, rod and bar is made of."""

from __future__ import annotations

STEEL_MPA = 205_000.0
"""Its modulus of elasticity (EN 1993-1-1 has 210 000, most handbooks of machine design 205 000)."""
