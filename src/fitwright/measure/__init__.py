"""Readings in, sizes out: plain numbers, no YAML, no CAD, no tables of its own (what they hold is passed in)."""
