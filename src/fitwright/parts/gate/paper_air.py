"""The air side of the commissioning sheet: how much air, which valve, tube and sealing, what happens without air."""

from __future__ import annotations

from collections.abc import Iterator

from fitwright.data.air import TubeRow, fitting, tube
from fitwright.data.thread_words import thread_name
from fitwright.errors import DataError
from fitwright.parts.gate.plan import GatePlan
from fitwright.physics.slide.drag import weight_left_n
from fitwright.physics.slide.thrust import MPA_PER_BAR, tube_litres
from fitwright.spec.gate_load import Load
from fitwright.spec.models import GateBracketSpec

PSI_PER_BAR = 14.503774
LITRES_PER_CUBIC_FOOT = 28.316847
TUBE_LONG_M = 2.0
"""From valve to each port, as a rule."""
SMALL_COMPRESSOR_L_MIN = 50.0
"""Free air that a small workshop compressor delivers (common practice, no source)."""
SEAL_BAR, CLEAN_SHARE = 0.3, 0.5
"""What a small cylinder's seals hold, as a pressure (from memory); a clean slot's friction over that of the drag."""


def bar(pressure_bar: float, spec: GateBracketSpec) -> str:
    """`3.5 bar`; in files of inches `3.5 bar (51 psi)`."""
    psi = f" ({pressure_bar * PSI_PER_BAR:.0f} psi)" if spec.units == "in" else ""
    return f"{pressure_bar:.1f} bar{psi}"


def free_air(litres: float, spec: GateBracketSpec) -> str:
    """`0.19 litres`; in files of inches `0.19 litres (0.0067 cu ft)`."""
    feet = f" ({litres / LITRES_PER_CUBIC_FOOT:.2g} cu ft)" if spec.units == "in" else ""
    return f"{litres:.2g} litres{feet}"


def air_lines(on: Load, plan: GatePlan, spec: GateBracketSpec, pressure: float) -> Iterator[str]:
    """Litres at this pressure [bar], valve, tube, sealing."""
    pipe = usual_tube(spec)
    lines = 1 if on.cylinder.spring_n else 2
    litres = on.cylinder.air_litres(pressure, plan.moved_mm)
    litres += lines * tube_litres(pipe.inside_mm, 1000 * TUBE_LONG_M, pressure) if pipe else 0.0
    share = 100.0 * litres / SMALL_COMPRESSOR_L_MIN
    yield (
        f"About {free_air(litres, spec)} of free air a cycle (open and shut, {TUBE_LONG_M:g} m of tube to each port): "
        f"one a minute is {share:.1g} % of a small compressor's {SMALL_COMPRESSOR_L_MIN:.0f} litres a minute."
    )
    yield _valve(on)
    if pipe is not None:
        yield (
            f"Tube: polyurethane, {pipe.tube_mm:g} x {pipe.inside_mm:g} millimetres (outside, inside); no bend tighter "
            f"than {pipe.bend_radius_mm:g} mm in radius; cut square; tied down clear of the blade's way."
        )
    yield _sealing(spec.cylinder.port)


def usual_tube(spec: GateBracketSpec) -> TubeRow | None:
    """The usual tube at the cylinder's port; None where none is known."""
    try:
        return tube(fitting(spec.cylinder.port).tube_mm)
    except DataError:
        return None


def _valve(on: Load) -> str:
    if on.cylinder.spring_n is not None:
        return "Valve: 3/2, normally closed, with a silencer; one port is used, the other breathes through a filter."
    return (
        "Valve: 5/2 with silencers. With a spring (one coil) it goes back by itself when the current fails, and moves "
        "the gate while there is air: choose which port that is. With two coils the gate stays where it was."
    )


def _sealing(port: str) -> str:
    if thread_name(port).startswith(("M", "G")):
        return f"Ports {port}: parallel threads, sealed by the fitting's ring or washer under its collar; no tape."
    return f"Ports {port}: tapered threads, two turns of PTFE tape, the first thread left free."


def stays(on: Load, spec: GateBracketSpec) -> Iterator[str]:
    """What the gate does when the air fails."""
    if on.cylinder.spring_n is not None:
        yield f"WITHOUT AIR the spring {'opens' if on.cylinder.spring_moves == on.opens else 'shuts'} the gate."
        return
    seal = SEAL_BAR * MPA_PER_BAR * on.cylinder.push_area_mm2
    left = weight_left_n(on.moving_kg, 0.0, spec.gate.port.d_mm, CLEAN_SHARE * spec.gate.friction, seal)
    if left <= 0.0 or spec.mounted == "sideways":
        yield "WITHOUT AIR the gate stays where it is, held by friction alone: do not count on it as a safe state."
        return
    way = {"blade_up": "shuts", "blade_down": "opens"}.get(spec.mounted, "may move")
    yield f"WITHOUT AIR the blade {way} by its own weight ({on.moving_kg:.2f} kg move): keep hands clear even then."
