"""Gates at random for the yoke: every mount, blade off the middle, obstacles, metric and inch screws."""

from __future__ import annotations

import random

from tests.gate_specs import BORE_16, BORE_20, BORE_32, gate_bracket

from fitwright.spec.gate import Blade, Gate, GateBody, GateBracketSpec, GateMount, GatePort, GateScrews, Proud

SCREWS = ("M4", "M5", "M6", "No. 10", "1/4 in")


def random_yoke_spec(seed: int) -> GateBracketSpec:
    """A plausible gate of 63 to 160 mm; its numbers need not go together."""
    at = random.Random(seed)
    port = at.uniform(60.0, 155.0)
    blade = port + at.uniform(8.0, 20.0)
    body = blade + at.uniform(20.0, 40.0)
    thick = at.uniform(9.0, 36.0)
    blade_thick = at.uniform(1.2, min(6.0, thick / 3))
    room = (thick - blade_thick) / 2 - 2.0
    to_edge = port / 2 + at.uniform(10.0, 30.0)
    shut = at.uniform(22.0, 30.0)
    size = at.choice(SCREWS)
    kind = at.choice(("screws", "clamp", "saddle"))
    screws = GateScrews(across_mm=blade + at.uniform(7.0, 18.0), from_edge_mm=at.uniform(7.0, 20.0), size=size)
    gate = Gate(
        shut_mm=shut,
        open_mm=shut + port + 4.0,
        blade=Blade(
            width_mm=blade,
            thickness_mm=blade_thick,
            hole_mm=at.uniform(4.2, 8.0),
            hole_to_edge_mm=10.0,
            plane_mm=at.uniform(-room, room) if room > 0 and at.random() < 0.5 else 0.0,
        ),
        body=GateBody(width_mm=body, thickness_mm=thick, far_end="open", far_room_mm=200.0),
        port=GatePort(
            d_mm=port,
            to_edge_mm=to_edge,
            stub_outside_mm=port + at.uniform(0.0, 6.0),
            stub_long_mm=at.uniform(30.0, 60.0),
        ),
        mount=GateMount(
            kind=kind, screws=screws if kind == "screws" else None, size=size, band_mm=at.choice((9.0, 12.0))
        ),
        proud=tuple(_proud(at, body, k) for k in range(at.choice((0, 0, 0, 1, 2)))),
    )
    stroke = next(s for s in (80.0, 100.0, 125.0, 160.0, 200.0) if s >= gate.travel_mm)
    cylinder = at.choice((BORE_16, BORE_16, BORE_20, BORE_32)).model_copy(update={"stroke_mm": stroke})
    frame = at.choice(("rods", "rods", "one_piece"))
    rod = at.choice((None, "M8", "M10")) if frame == "rods" else None
    return gate_bracket(
        gate, cylinder, frame=frame, rod_size=rod, pressure_mpa=at.uniform(0.2, 0.6), name=f"yoke_{seed}"
    )


def _proud(at: random.Random, body: float, number: int) -> Proud:
    return Proud(
        label=f"knob {number + 1}",
        x_mm=at.uniform(-body / 2, body / 2),
        y_mm=at.uniform(0.0, 40.0),
        across_mm=at.uniform(4.0, 25.0),
        along_mm=at.uniform(4.0, 25.0),
        high_mm=at.uniform(0.6, 14.0),
        side=at.choice(("up", "down")),
    )
