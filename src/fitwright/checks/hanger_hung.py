"""Findings on where it hangs: spacing and elbow against the rules, uplift of a batten, what friction alone holds."""

from __future__ import annotations

from collections.abc import Iterator

from fitwright.checks.hanger_say import Of, say
from fitwright.finding import Finding, Severity
from fitwright.part import Hanging
from fitwright.physics.carried import ELBOW_MM, FLEXIBLE_ADC, FLEXIBLE_SMACNA, RIGID_PIPE, permitted_sag_mm
from fitwright.spec.hanger import HoseHangerSpec


def hung(hanging: Hanging, spec: HoseHangerSpec) -> Iterator[Finding]:
    """All of them."""
    yield _spacing(hanging, spec)
    if spec.elbow_mm is not None:
        yield _elbow(spec.elbow_mm)
    if spec.above == "cutter":
        yield from _friction(hanging, spec)
    yield from _uplift(hanging, spec)


def _spacing(hanging: Hanging, spec: HoseHangerSpec) -> Finding:
    rule = FLEXIBLE_ADC if spec.carried.kind == "hose" else RIGID_PIPE
    most = 1000.0 * rule.spacing_m
    of = Of("spacing", "", spec.spacing_mm, most)
    each = f"{hanging.lasting_n:.0f} N for good on each {spec.carried.kind} of a hanger"
    if spec.hung is not None:
        where = f"{spec.hung.label} of the hose run {spec.hung.file}"
        return say("spacing", "pass", Of("run"), f"{each}, as {where} says; `fitwright hose` judges the run itself")
    if spec.spacing_mm <= most + 1e-6:
        sag = permitted_sag_mm(spec.spacing_mm / 1000.0, rule)
        words = "" if spec.carried.kind == "pipe" else f", it may sag {sag:.0f} mm between them"
        return say("spacing", "pass", of, f"hangers {spec.spacing_mm:.0f} mm apart{words}; {each}")
    far = 1000.0 * FLEXIBLE_SMACNA.spacing_m
    severity: Severity = "fail" if spec.carried.kind == "hose" and spec.spacing_mm > far + 1e-6 else "warn"
    message = f"hangers {spec.spacing_mm:.0f} mm apart are too far for the {spec.carried.kind}: {rule.words}; {each}"
    return say("spacing", severity, of, message, f"Hang it every {most:.0f} mm or nearer (spacing).")


def _elbow(elbow_mm: float) -> Finding:
    of = Of("elbow", "", elbow_mm, ELBOW_MM)
    if elbow_mm <= ELBOW_MM + 1e-6:
        return say("spacing", "pass", of, f"{elbow_mm:.0f} mm to the next elbow")
    message = f"{elbow_mm:.0f} mm to the next elbow, which needs a support within {ELBOW_MM:.0f} mm (common practice)"
    return say("spacing", "warn", of, message, "Move the hanger nearer to the elbow, or put another one there.")


def _friction(hanging: Hanging, spec: HoseHangerSpec) -> Iterator[Finding]:
    """Above a cutter nothing may hold by friction alone: it creeps as the machine shakes, and falls in."""
    rules = {
        "tie": "a cable tie on a bar holds by friction alone",
        "channel": "the nut in the upright channel holds by friction alone",
        "slot": "the nut in the upright slot holds by friction alone",
    }
    upright = spec.mount.side in ("left", "right") and not spec.mount.along
    for one in hanging.held:
        if one.into == "tie" or (one.into in ("channel", "slot") and upright):
            message = f"above a cutter: {rules[one.into]}, and shaking moves it"
            advice = "Screw it: `mount: {holes: ...}`, or a stop under it that a screw goes through."
            yield say("spacing", "fail", Of(one.name), message, advice)
            return
    if spec.style == "hook":
        message = "above a cutter: the hook holds by its arms' spring alone"
        yield say(
            "spacing", "fail", Of("hook"), message, "Take a clamp (`clamp: {screws: M5}`), or a saddle with a strap."
        )
        return
    yield say("spacing", "pass", Of("above"), "above a cutter: screws hold it, nothing by friction alone")


def _uplift(hanging: Hanging, spec: HoseHangerSpec) -> Iterator[Finding]:
    """A batten's two fixing points: one that is lifted is pulled out of the wood, and needs screws for that."""
    names = ("near", "far")
    for name, force in zip(names, hanging.reactions_n, strict=False):
        of = Of(f"mount.batten.{name}", "", force, 0.0, "N")
        if force < -1e-6:
            message = f"the {name} point of the batten is lifted with {-force:.0f} N for good: it must hold it down"
            advice = f"Screw it from below through the batten into the joist, good for {-4 * force:.0f} N pulled out"
            advice += " (factor 4), or put the two points on either side of the hose."
            yield say("uplift", "warn", of, message, advice)
        else:
            yield say("uplift", "pass", of, f"the {name} point of the batten carries {force:.0f} N for good")
