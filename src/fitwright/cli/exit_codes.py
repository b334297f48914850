"""What the command answers to the shell."""

GOOD = 0
BLOCKED = 1
"""A check blocks a part, or it could not be made."""
BAD_INPUT = 2
INTERRUPTED = 130
"""By custom 128 + the number of the signal that Ctrl-C sends."""
