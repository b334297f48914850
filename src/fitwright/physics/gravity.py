"""Standard gravity."""

from __future__ import annotations

GRAVITY = 9.80665
"""m/s2 (ISO 80000-3)."""
