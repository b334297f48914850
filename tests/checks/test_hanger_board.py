"""A screw holds in the wood that is there, as thick as the file says it is."""

from __future__ import annotations

from dataclasses import replace

import pytest
from tests.hanger_specs import hanger

from fitwright.checks.hanger_holds import what_holds
from fitwright.hanging import HeldBy
from fitwright.parts.hose_hanger import build_hose_hanger
from fitwright.spec.hanger import HangerMount, Wood, WoodScrews

SCREW = HeldBy(
    name="fixing 1",
    size="5.0 mm",
    d_mm=5.0,
    at=(0.0, 0.0, 0.0),
    direction=(0.0, 0.0, 1.0),
    into="wood",
    key="mount.ceiling.screws",
    grip_mm=25.0,
    wood="plywood",
    washer_d_mm=10.0,
    hole_d_mm=5.5,
)


def test_a_thin_board_holds_less_than_a_thick_one() -> None:
    """25 mm of screw: 12 mm of it in a board of 12, 18 in the usual one where nothing is said, all in one of 30."""
    spec = hanger()
    depths = {12.0: 12, 0.0: 18, 30.0: 25}
    found = {deep: what_holds(replace(SCREW, deep_mm=deep), 6.0, 20.0, spec) for deep in depths}
    assert [found[deep].words.split(", ")[1].split(" mm")[0] for deep in depths] == [str(d) for d in depths.values()]
    assert found[12.0].hold.withdrawal_n < found[0.0].hold.withdrawal_n < found[30.0].hold.withdrawal_n


@pytest.mark.parametrize("thick", [18.0, 38.0])
def test_the_mount_says_how_thick_its_wood_is(thick: float) -> None:
    wood = Wood(name="plywood", wide_mm=thick)
    mount = HangerMount(kind="flat", side="left", wood=wood, screws=WoodScrews(size="4.0 mm"))
    part = build_hose_hanger(hanger(mount=mount))
    assert part.hanging is not None and {one.deep_mm for one in part.hanging.held} == {thick}
    assert all(one.grip_mm <= thick for one in part.hanging.held)
