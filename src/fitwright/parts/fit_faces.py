"""The round faces that meet bought parts, as they are declared to the fit checks."""

from __future__ import annotations

from typing import Literal

from fitwright.frame import Frame
from fitwright.part import FitSurface
from fitwright.parts.ends import EndPlan
from fitwright.shapes.joint import JointShape
from fitwright.spec.joints import Joint
from fitwright.spec.models import HoseTail, Socket, Spigot
from fitwright.spec.printed import Cone, bought_cone, is_wedge, printed_cone

Seal = Literal["none", "screws and tape", "band", "cord", "hose clamp", "glue", "stretch", "tape"]
Grip = Literal["none", "screws", "band", "taper", "hose clamp", "glue", "press", "stretch", "ridge"]


def fit_surface(plan: EndPlan, shape: JointShape, frame: Frame) -> FitSurface | None:
    """The end's fit, or None for a flange or a plain end."""
    joint = plan.end.joint
    if shape.fit is None or not isinstance(joint, Socket | Spigot | HoseTail):
        return None
    s0, d0, s1, d1 = shape.fit
    kind: Literal["hole", "shaft"] = "hole" if isinstance(joint, Socket) else "shaft"
    size = joint.size
    low = -(size.greatest_mm - size.least_mm) / 2
    high = -low
    printed, bought = printed_cone(joint, plan.printer), bought_cone(joint)
    if is_wedge(joint):  # going in, it is always the bought part's end face that meets the print first
        bought = Cone((size.least_mm + size.greatest_mm) / 2, 0.0)
    return FitSurface(
        name=f"{plan.name} {plan.end.kind.replace('_', ' ')}",
        joint=plan.key,
        frame=frame,
        kind=kind,
        s0_mm=s0,
        s1_mm=s1,
        d0_mm=d0,
        d1_mm=d1,
        printed0_mm=printed.at(s0),
        printed1_mm=printed.at(s1),
        bought_least0_mm=bought.at(s0) + low,
        bought_greatest0_mm=bought.at(s0) + high,
        bought_least1_mm=bought.at(s1) + low,
        bought_greatest1_mm=bought.at(s1) + high,
        fit="hose" if isinstance(joint, HoseTail) or takes_hose(joint) else joint.fit or "snug",
        key=f"{plan.key}.{plan.end.kind}",
        bought="hose" if takes_hose(joint) else "pipe or port" if kind == "hole" else "hole or pipe",
        seal=seal_of(plan),
        grip=grip_of(plan),
        cord_mm=0.0 if isinstance(joint, HoseTail) else joint.cord_mm or 0.0,
        cord_groove_depth_mm=shape.cord_groove_depth_mm,
        bore_wall_mm=(joint.wall_mm if isinstance(joint, Spigot) else None) or plan.wall_mm,
        about=shape.form.base,
        about_d_mm=2 * shape.form.base_r_mm,
        scatter_d_mm=size.outline.longer_mm if size.outline else 0.0,
        flexes=plan.slit is not None or (isinstance(joint, Socket) and joint.clamp is not None),
        ridge_height_mm=shape.ridge.section.height_mm if shape.ridge else 0.0,
        ridge_share=shape.ridge.section.foot_mm / shape.ridge.pitch_mm if shape.ridge else 0.0,
        scatter_mm=joint.learned.scatter_mm if joint.learned else None,
    )


def takes_hose(joint: Joint) -> bool:
    """Whether a hose goes on or in."""
    return isinstance(joint, HoseTail) or (isinstance(joint, Socket) and joint.ridge is not None)


def seal_of(plan: EndPlan) -> Seal:
    """What makes the joint tight."""
    joint = plan.end.joint
    if isinstance(joint, HoseTail):
        return "hose clamp" if joint.band_mm else "tape"
    if not isinstance(joint, Socket | Spigot):
        return "none"
    if isinstance(joint, Socket) and joint.ridge:
        return "glue" if joint.fit == "glue" else "tape"
    if joint.cord_mm:
        return "cord"
    if isinstance(joint, Socket) and joint.clamp:
        return "band"
    if isinstance(joint, Socket) and plan.slit and plan.slit.closed_by != "none":
        return plan.slit.closed_by
    if joint.fit in ("glue", "stretch"):
        return "glue" if joint.fit == "glue" else "stretch"
    return "screws and tape" if joint.screws else "none"


def grip_of(plan: EndPlan) -> Grip:
    """What holds the joint together."""
    joint = plan.end.joint
    if isinstance(joint, Socket | HoseTail) and joint.ridge:
        return "ridge"
    if isinstance(joint, HoseTail):
        return "hose clamp"
    if not isinstance(joint, Socket | Spigot):
        return "none"
    if isinstance(joint, Socket) and joint.clamp:
        return "band"
    if isinstance(joint, Socket) and plan.slit and plan.slit.closed_by != "none":
        return plan.slit.closed_by
    if joint.screws:
        return "screws"
    if joint.fit == "stretch":
        return "stretch"
    if joint.fit in ("glue", "press"):
        return "glue" if joint.fit == "glue" else "press"
    return "taper" if joint.taper_deg or joint.size.further_mm is not None else "none"
