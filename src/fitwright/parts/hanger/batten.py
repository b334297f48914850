"""A bought batten over two joists that carries the hanger where no joist is: length, screws, which end is lifted."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace

from fitwright.errors import RefusalError
from fitwright.part import Bought, StandIn
from fitwright.parts.hanger.base_plate import beside
from fitwright.parts.hanger.fixing import wood_fixing
from fitwright.parts.hanger.mount_keys import key_of
from fitwright.parts.hanger.outline_solids import box_solid
from fitwright.parts.hanger.plan import Base, HangerPlan
from fitwright.parts.hanger.site import Site
from fitwright.parts.hanger.wood_size import WOOD_SOLD_MM
from fitwright.physics.batten import Hanging, reactions
from fitwright.spec.hanger import Batten, HoseHangerSpec
from fitwright.units import format_length

BEYOND_MM = 50.0
"""The batten goes on past a fixing point, so that its screws do not split its end (10 d of 5 mm, EN 1995-1-1)."""
PAST_PLATE_MM = 10.0
JOIST_MM = (38.0, 120.0)
"""Width and depth in which a joist is drawn."""
THREAD_MM = 40.0
"""Of a batten's screw in the joist."""
SHARE_N = 100.0


def batten_of(spec: HoseHangerSpec) -> Batten:
    """The batten; RefusalError where there is none."""
    if spec.mount.batten is None:
        raise RefusalError(key_of(spec, "near"), "nothing", "near and far", "where the joists are is not said")
    return spec.mount.batten


def on_batten(site: Site, base: Base | None = None) -> Base:
    """The hanger's plate under the batten, and what the batten itself needs; `base`: of a swivel."""
    spec, one = site.spec, batten_of(site.spec)
    made = beside(site) if base is None else base
    low, high = _ends(one, made.u)
    screw, long, count = wood_fixing(spec), _joist_screw_mm(one), _screws_a_joist(one)
    held = reactions(one.near_mm, one.far_mm, [Hanging(0.0, SHARE_N)])
    bought = (
        Bought(1, f"batten {one.wide_mm:g} x {one.thick_mm:g} mm, {spec.mount.wood.name}", round(high - low), cut=True),
        Bought(2 * count, f"pan-head screw {screw.row.name}", long, note=f"batten to joists, {count} in each"),
    )
    words = (
        f"of every {SHARE_N:.0f} N on the hanger {_does(held.first_n)} at the near joist ({_where(one.near_mm, spec)}) "
        f"and {_does(held.second_n)} at the far one ({_where(one.far_mm, spec)})"
    )
    facts = {"batten": words, "batten ends": _end_words(low, high, spec)}
    if held.uplift_n > 0.0:
        facts["uplift"] = "the lifted end pulls its screws down out of the joist: screws, never nails, and a washer"
    return replace(
        made,
        bought=(*made.bought, *bought),
        facts={**made.facts, **facts},
        things=_things(spec, (low, high)),
        reactions=(held.first_n / SHARE_N, held.second_n / SHARE_N),
        kind=made.kind if base is not None else "batten",
    )


def _ends(one: Batten, plate: tuple[float, float]) -> tuple[float, float]:
    """From end to end along u."""
    low = min(one.near_mm, one.far_mm) - BEYOND_MM
    high = max(one.near_mm, one.far_mm) + BEYOND_MM
    return min(low, plate[0] - PAST_PLATE_MM), max(high, plate[1] + PAST_PLATE_MM)


def _joist_screw_mm(one: Batten) -> float:
    """Through the batten and into the joist."""
    need = one.thick_mm + THREAD_MM
    return float(next((long for long in WOOD_SOLD_MM if long >= need), need))


def _screws_a_joist(one: Batten) -> int:
    """Two side by side where the batten is wide enough."""
    return 2 if one.wide_mm >= 40.0 else 1


def _does(newton: float) -> str:
    return f"{newton:.0f} N is carried" if newton >= 0.0 else f"{-newton:.0f} N lifts it (uplift)"


def _where(mm: float, spec: HoseHangerSpec) -> str:
    side = "right" if mm >= 0.0 else "left"
    return f"{format_length(abs(mm), spec.units)} {side} of the hose's axis"


def _end_words(low: float, high: float, spec: HoseHangerSpec) -> str:
    return f"from {_where(low, spec)} to {_where(high, spec)}"


def _things(spec: HoseHangerSpec, ends: tuple[float, float]) -> Callable[[HangerPlan], Iterator[StandIn]]:
    """Batten and both joists."""
    one = batten_of(spec)

    def made(plan: HangerPlan) -> Iterator[StandIn]:
        middle, half = plan.sizes.wide / 2, one.wide_mm / 2
        at, wide = plan.placed, JOIST_MM[0] / 2
        y = (middle - half, middle + half)
        yield StandIn("batten", box_solid(at, ends, y, (-one.thick_mm - 0.01, -0.01)), "mount", None)
        for name, u in (("near", one.near_mm), ("far", one.far_mm)):
            top = (-one.thick_mm - JOIST_MM[1], -one.thick_mm - 0.02)
            long = (middle - 100.0, middle + 100.0)
            yield StandIn(f"{name} joist", box_solid(at, (u - wide, u + wide), long, top), "mount", None)

    return made
