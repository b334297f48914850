"""What the report says of a gauge: what its marks mean, how to read it, what to write into the YAML."""

from __future__ import annotations

from fitwright.part import Dimension
from fitwright.parts.gauge_plate import Laid
from fitwright.parts.gauge_sizes import GaugeSizes
from fitwright.parts.learned_facts import size_words
from fitwright.spec.models import FitGaugeSpec

_JOINT = {"pipe": "socket", "hole": "spigot", "hose": "hose_tail"}
_KEY = {"pipe": "over", "hole": "into", "hose": "hose_inside"}


def stepped(laid: list[Laid]) -> bool:
    """Whether all steps are one piece."""
    return bool(laid[0].draft.windows)


def gauge_facts(spec: FitGaugeSpec, laid: list[Laid]) -> dict[str, str]:
    """Lines of the report."""
    facts = {"how to read it": _reading(spec, stepped(laid)), "what to write": _writing(spec), "marks": _marks(spec)}
    if spec.calibrates:
        facts["compensation"] = "none: each is modelled exactly as marked, so that it shows what the printer does"
    elif spec.learned and (said := size_words(spec.learned, "hole" if spec.kind == "rings" else "outside")):
        facts["your prints"] = f"{said[0]}, as the part's own {_JOINT[spec.bought]} is"
    return facts


def gauge_assumed(spec: FitGaugeSpec, laid: list[Laid], sizes: GaugeSizes) -> dict[str, str]:
    """Keys that were filled in, with their values."""
    marks = [one.printed_mm for one in spec.steps]
    tabs = {
        "units": spec.units,
        "wall": f"{spec.wall_mm:g} mm",
        "printer": spec.printer.name,
        "material": spec.material.name,
        "steps": f"{len(spec.steps)}",
        "step": f"{marks[1] - marks[0]:.4g} mm",
        "form": "stepped" if stepped(laid) else "separate",
        "height": f"{_height_mm(laid, sizes):g} mm",
        "marks": spec.marks,
    }
    return {key: tabs[key] for key in spec.defaulted if key in tabs}


def gauge_dimensions(laid: list[Laid]) -> tuple[Dimension, ...]:
    """The smallest and the largest size, and the height, of the piece that the picture cuts."""
    draft = laid[0].draft
    found = []
    for one in dict.fromkeys((draft.rounds[0], draft.rounds[-1])):
        z, r = (one.s0_mm + one.s1_mm) / 2, one.d_mm / 2
        words = "bore" if one.kind == "hole" else "outside"
        found.append(Dimension(words, (0.0, -r, z), (0.0, r, z), one.d_mm))
    top = draft.turned.top_mm
    return (*found, Dimension("height", (0.0, draft.reach_mm, 0.0), (0.0, draft.reach_mm, top), top))


def _height_mm(laid: list[Laid], sizes: GaugeSizes) -> float:
    if stepped(laid):
        first, second = laid[0].draft.windows[:2]
        return round(second.s0_mm - first.s0_mm, 6)
    return round(laid[0].draft.turned.top_mm - (sizes.thick if _footed(laid) else 0.0), 6)


def _footed(laid: list[Laid]) -> bool:
    """Whether it is a plug that stands on its tab."""
    draft = laid[0].draft
    return draft.rounds[0].kind == "shaft" and draft.bars is None


def _reading(spec: FitGaugeSpec, in_one: bool) -> str:
    if spec.calibrates:
        return (
            "read hole and outside of each ring with a caliper along both of its bars, half way up, clear of the "
            "chamfers: beside the bars it gives way"
        )
    thing = spec.bought
    if spec.kind == "rings":
        if in_one:
            return (
                f"push the {thing} into the wide mouth, straight, until it stops; the lowest window in which you see "
                "it stands over its mark: that is the tightest bore that goes on"
            )
        return f"try the rings on the {thing}, the largest first; take the one that sits as the joint is to sit"
    if in_one:
        return (
            f"push the narrow end into the {thing}, straight, until it stops; the lowest window that is inside stands "
            "over its mark: that is the largest outside that goes in"
        )
    return f"try the plugs in the {thing}, the smallest first; take the one that sits as the joint is to sit"


def _writing(spec: FitGaugeSpec) -> str:
    if spec.calibrates:
        return "give the readings to `fitwright measure printer`; its answer goes under printer in every part"
    joint, key = _JOINT[spec.bought], spec.key.partition(".")[2]
    if spec.for_end:
        more = "" if spec.bought == "hose" else "; a joint that is to slide takes the next looser mark"
        return f"`allowance:` and the mark under {spec.for_end}'s {joint}, in the place of fit and taper{more}"
    bought = f"{spec.bought_mm:.6g} mm"
    if spec.marks == "allowance":
        more = "" if spec.bought == "hose" else "; a joint that is to slide takes the next looser mark"
        return f"`allowance:` and the mark under {joint}, beside the same {key} ({bought}){more}"
    if spec.bought == "hose":
        return f"`{_KEY['hose']}:` and the mark under {joint}"
    sign = "the mark less" if spec.kind == "rings" else "the mark taken from"
    return f"`allowance:` under {joint}, beside the same {key}: {sign} {bought}"


def _marks(spec: FitGaugeSpec) -> str:
    """Each mark with the size behind it, unless it is the size."""
    word = "hole" if spec.calibrates else "bore" if spec.kind == "rings" else "outside"
    if spec.calibrates:
        more = ", ".join(f"{one.mark}: outside {one.outside_mm:.6g} mm" for one in spec.steps)
        return f"the {word} in the file's units; {more}"
    if spec.marks == "size":
        return f"the {word} as it is to measure: {', '.join(one.mark for one in spec.steps)}"
    listed = ", ".join(f"{one.mark} ({word} {one.printed_mm:.2f} mm)" for one in spec.steps)
    return f"the allowance on the diameter: {listed}"
