"""Flange plates: what they take over from a flange, flat pieces, bodies, loads and words."""
