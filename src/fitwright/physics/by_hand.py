"""What people do to a part by hand [N], where nobody measured it: common practice, no source."""

from __future__ import annotations

HAND_N = 50.0
"""A firm push or pull with one hand: a hose pushed in, a part held on to while it is fitted."""
SNAG_N = 150.0
"""Somebody walks into a hose, or a cart catches it: once, from any direction."""
