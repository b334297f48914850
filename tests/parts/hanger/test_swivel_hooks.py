"""A hook on a swivel: what turns keeps clear of its lips, or it is refused with what works."""

from __future__ import annotations

from typing import Any

import pytest
from shapely.geometry import Polygon
from tests.hanger_specs import hanger

from fitwright.errors import RefusalError
from fitwright.parts.hanger.planned import hanger_plan
from fitwright.parts.hose_hanger import hanger_bodies
from fitwright.spec.hanger import Carried, HangerMount, HoseHangerSpec
from fitwright.spec.size import from_readings

SIDEWAYS = (60.0, 66.0, 75.0, 90.0, 100.0, 110.0, 125.0, 160.0)


def swivel_hook(mm: float, kind: Any, side: Any, opens: float | None) -> HoseHangerSpec:
    carried = Carried(kind=kind, size=from_readings((mm,)), key=f"{kind}.over")
    mount = HangerMount(kind="flat", side=side)
    return hanger(carried, mount, style="hook", swivel=True, opens_deg=opens)


def clear_width(spec: HoseHangerSpec) -> tuple[float, float]:
    """The least width between the lips of the whole profile, by a polygon library, and the throat that was meant."""
    plan = hanger_plan(spec)
    whole, gaps, axis = Polygon(plan.profile.outer.polyline(1e-3)), [], plan.placed.axis_mm
    for k in range(1, 160):
        u = plan.sizes.opens[0] * 0.5 * k
        line = Polygon([(u, -300), (u + 1e-4, -300), (u + 1e-4, 300), (u, 300)])
        parts = [g.bounds for g in getattr(whole.intersection(line), "geoms", [])]
        above = [b[1] - axis for b in parts if b[1] > axis]
        below = [b[3] - axis for b in parts if b[3] < axis]
        if above and below:
            gaps.append(min(above) - max(below))
    return min(gaps), plan.sizes.throat


@pytest.mark.parametrize("mm", SIDEWAYS)
@pytest.mark.parametrize("kind", ["hose", "pipe"])
def test_nothing_of_the_foot_stands_in_the_throat(mm: float, kind: Any) -> None:
    found, meant = clear_width(_drawn(mm, kind))
    # steps of 0.5 mm along lips that are bent by no less than 5 mm
    assert meant - 1e-3 <= found <= meant + 0.02


def _drawn(mm: float, kind: Any) -> HoseHangerSpec:
    spec = swivel_hook(mm, kind, "up", 90.0)
    try:
        hanger_plan(spec)
    except RefusalError as error:
        pytest.skip(f"refused: {error}")
    return spec


@pytest.mark.parametrize("mm, kind", [(60.0, "hose"), (110.0, "pipe"), (100.0, "hose"), (160.0, "hose")])
@pytest.mark.parametrize("side, opens", [("up", 90.0), ("down", 270.0), ("down", None)])
def test_its_body_has_the_closed_forms_volume(mm: float, kind: Any, side: Any, opens: float | None) -> None:
    if kind == "pipe" and opens is None:
        pytest.skip("a pipe of this size does not snap into a hook that opens upwards")
    spec = swivel_hook(mm, kind, side, opens)
    # raises BuildError where the volume is not the closed form's
    assert hanger_bodies(hanger_plan(spec), spec)


@pytest.mark.parametrize("mm", [25.0, 32.0, 45.0, 50.0])
def test_a_lip_too_near_the_recess_is_refused_with_what_works(mm: float) -> None:
    with pytest.raises(RefusalError, match="saddle or a clamp") as error:
        hanger_plan(swivel_hook(mm, "hose", "up", 90.0))
    assert error.value.key in ("swivel", "hook")


@pytest.mark.parametrize("mm", [25.0, 50.0])
@pytest.mark.parametrize("style", ["saddle", "clamp"])
def test_what_is_named_instead_does_work(mm: float, style: Any) -> None:
    spec = swivel_hook(mm, "hose", "up", None).model_copy(update={"style": style})
    assert hanger_bodies(hanger_plan(spec), spec)
