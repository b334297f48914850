"""How the bracket goes on the gate, in words."""

from __future__ import annotations

from typing import Literal

from fitwright.parts.gate.plan import GatePlan
from fitwright.spec.models import GateBracketSpec

_NAMES = {
    "rods": {"yoke": "yoke", "nose": "nose plate"},
    "one_piece": {"yoke": "bracket", "nose": "bracket"},
    "board": {"yoke": "gate foot", "nose": "nose foot"},
}


def printed(plan: GatePlan, what: Literal["yoke", "nose"]) -> str:
    """What is printed there: `nose plate`, `bracket`, `nose foot`."""
    return "yoke" if plan.beside is not None else _NAMES[plan.frame.kind][what]


def grip(plan: GatePlan, spec: GateBracketSpec) -> str:
    """The yoke, by whatever name, on the gate's body."""
    mount, yoke = spec.gate.mount, printed(plan, "yoke")
    slots = plan.frame.kind == "one_piece"
    if mount.screws is not None:
        where = "in the middle of their slots" if slots else "tight"
        return (
            f"Blade shut. Take the gate's two own screws out, push the ears of the {yoke} over the body from the "
            f"blade's side, and put the long {mount.screws.size} screws in from above, washers under heads and nuts, "
            f"{where}."
        )
    if mount.kind == "clamp":
        where = "5 mm or so off the body's edge" if slots else "up to the body's edge"
        return (
            f"Blade shut. Push the ears of the {yoke} over the body from the blade's side, {where}; the {mount.size} "
            "screws pass beside the body: washers under heads and nuts, left and right in turn, hand-tight."
        )
    return (
        f"Blade shut. Push the {yoke} against the body, its half rings against the pipe stubs above and below. A hose "
        "clamp opened round each stub, its band through the slit behind the half ring; tighten both in turn."
    )


def on_blade(plan: GatePlan) -> str:
    """The coupling on the blade's edge, by its pin or its jaw."""
    at = plan.coupling
    pulled = "Pull the blade half out by hand: there it is reached from above and below. "
    if at.jaw is not None:
        return (
            f"{pulled}Coupling from below, the blade's edge against it; jaw on top, its heels on the coupling's "
            f"ledges: two {at.jaw.screw} screws "
            "with washers from above, nuts below. First loose; blade home and out, so that the rod finds its line; "
            "then tight."
        )
    return (
        f"{pulled}Fork of the coupling over the blade's edge; the pin, an {at.pin} screw, with a washer from above "
        "through fork and blade, washer and locking nut below. Not tight: the fork must move on the blade."
    )
