"""Part of the check `airflow`: what the part costs, against the same joint made sharp, and what the fan makes of it."""

from __future__ import annotations

from collections.abc import Sequence

from fitwright.airway import Leg
from fitwright.checks.airflow_words import about, ends, flow_words
from fitwright.finding import Finding
from fitwright.physics.duct import Band, sharp, system_coefficient, with_part
from fitwright.spec.air import Air
from fitwright.spec.air_run import Run, fan_curve, lost, run_of
from fitwright.units import FLOWS_M3_S, Units

LOSS, FAN = "airflow", "airflow.fan"
KEPT = 0.90
"""A part that takes more than a tenth of the flow is worth another look (common practice, no source)."""


def loss_findings(body: str, legs: Sequence[Leg], air: Air, units: Units) -> tuple[Run, list[Finding]]:
    """The run that was reckoned, the part's loss, and the fan's flow with and without it."""
    run = run_of(air, legs)
    sharp_loss = lost(sharp(legs), run.flow_m3_s)
    found = [_loss(body, run, sharp_loss, air, units)]
    return run, [*found, *([_fan(body, run, sharp_loss, air, units)] if air.fan else [])]


def _loss(body: str, run: Run, sharp_loss: Band, air: Air, units: Units) -> Finding:
    whole, flow = run.loss, about(flow_words(run.flows, units))
    worst = max(run.losses, key=lambda one: one.band_pa.middle)
    worked_out = "" if run.flow_band is None else f", {_settled(run.flow_band, units)}"
    message = f"loses {whole.pressure_words(units)}, at {flow}{worked_out}; {_against(whole, sharp_loss, units)}"
    if worst.band_pa.middle > 0.0 and len(run.losses) > 1:
        message += f"; the most at {worst.name}: {worst.band_pa.pressure_words(units)}"
    message += _doubt(run)
    return Finding(LOSS, "pass", body, whole.middle, None, "Pa", f"air from {air.from_end}", message)


def _settled(flow: Band, units: Units) -> str:
    """How far a flow that was worked out is certain, with no more digits than that."""
    return f"which fan, hose and part settle at ({ends(flow_words(flow, units))}, as handbooks differ)"


def _doubt(run: Run) -> str:
    """What the handbooks say of the leg that makes the band wide, where there is something to say."""
    widest = max(run.losses, key=lambda one: one.band_pa.high - one.band_pa.low)
    wide = widest.band_pa.high - widest.band_pa.low > run.loss.middle / 2
    return f"; {widest.name}: {widest.note}" if wide and widest.note else ""


def _against(whole: Band, sharp_loss: Band, units: Units) -> str:
    """`saves 34 Pa of the 61 that it would lose with sharp steps and mitres`, and whether all handbooks say so."""
    saved = sharp_loss.less(whole)
    if saved.middle < max(0.5, 0.02 * sharp_loss.middle):
        return "made sharp it would lose no more"
    ours, theirs = (_rounded(pa, units) for pa in (saved.middle, sharp_loss.middle))
    said_so = f"saves about {ours} of the {theirs} that sudden steps and mitres would lose"
    return said_so if saved.low > 0.0 else f"{said_so}, but handbooks do not agree that it saves anything"


def _rounded(pa: float, units: Units) -> str:
    """A middle value with no more digits than handbooks agree on."""
    return Band(pa, pa, pa).pressure_words(units).removeprefix("about ")


def _fan(body: str, run: Run, sharp_loss: Band, air: Air, units: Units) -> Finding:
    """Flow with the part and without it, the rest of the run as it is."""
    assert air.fan is not None
    curve, flow = fan_curve(air.fan), run.flow_m3_s
    gives = curve.pressure_pa(flow)
    rest = _rest(run, gives)
    if rest.middle <= 0.0:
        return _too_much(body, run, gives, units)
    system = system_coefficient(rest.middle, flow)
    ours, theirs = (with_part(curve, system, band.times(1.0 / flow**2)) for band in (run.loss, sharp_loss))
    kept = ours.share_kept
    moves = flow_words(run.flows, units) + ("," if run.flow_band is not None else "")
    without = _about_flow(ours.without.flow_m3_s, units) + (" or more" if ours.without.beyond == "flow" else "")
    message = (
        f"the fan moves {moves} with it, {without} without it ({_percent(kept)} kept), "
        f"{_about_flow(theirs.with_part.middle, units)} through the same joint made sharp; the rest of the run takes "
        f"{rest.pressure_words(units)}"
    )
    message += _left_out(air)
    share = round(100 * kept.middle, 1)
    if kept.middle >= KEPT:
        return Finding(FAN, "pass", body, share, 100 * KEPT, "%", "air.fan", message)
    advice = "A larger section, a longer part or gentler bends let more through."
    return Finding(FAN, "warn", body, share, 100 * KEPT, "%", "air.fan", message, advice)


def _left_out(air: Air) -> str:
    """What of the run is not reckoned, where its flow was worked out."""
    if air.hose is None:
        return ""
    return f" ({'filter' if air.hose.entry else 'hood, filter'} and cyclone are not counted)"


def _rest(run: Run, gives: float) -> Band:
    """What the rest of the run takes [Pa]: as reckoned, or what the fan has left over at the flow told."""
    return Band(gives, gives, gives).less(run.loss) if run.rest_pa is None else run.rest_pa


def _about_flow(flow_m3_s: float, units: Units) -> str:
    """A flow that was worked out, with two digits."""
    unit = "m3/h" if units == "mm" else "cfm"
    per = flow_m3_s / FLOWS_M3_S[unit]
    return Band(per, per, per).words(unit)


def _percent(kept: Band) -> str:
    low, high = f"{100 * kept.low:.0f}", f"{100 * kept.high:.0f}"
    return f"{low} %" if low == high else f"{low}-{high} %"


def _too_much(body: str, run: Run, gives: float, units: Units) -> Finding:
    message = (
        f"at {flow_words(run.flows, units)} the fan gives {Band(gives, gives, gives).pressure_words(units)}, and the "
        f"part alone takes {run.loss.pressure_words(units)}: nothing is left for hose and filter"
    )
    advice = "A smaller flow is what this fan will move; or a larger section."
    return Finding(FAN, "warn", body, gives, run.loss.middle, "Pa", "air.fan", message, advice)
