"""Screws in thin boards: which size is taken, how long it is; and the strap that a saddle needs."""

from __future__ import annotations

import math
from pathlib import Path
from typing import Any

import pytest
from tests.hanger_specs import hanger
from tests.parts.hanger.test_mounts import mounted

from fitwright.cli.main import main
from fitwright.errors import RefusalError
from fitwright.parts.hanger.planned import hanger_plan
from fitwright.parts.hanger.wood_size import plate_mm, screw_size
from fitwright.parts.hose_hanger import build_hose_hanger
from fitwright.spec.hanger import HoseHangerSpec, Strap, Wood, WoodScrews

# boards as they are sold; at least 4 diameters in the wood (EN 1995-1-1, 8.7.1, from memory), lengths as they are sold
BOARDS = {
    "plywood 18": ("plywood", 18.0, "4.5 mm", 30.0),
    "plywood 3/4 in": ("plywood", 19.05, "4.5 mm", 30.0),
    "OSB 22": ("OSB", 22.0, "5.0 mm", 30.0),
    "plywood 1 in": ("plywood", 25.4, "5.0 mm", 35.0),
    "spruce 38": ("spruce", 38.0, "5.0 mm", 40.0),
}


def on_wall(wood: str, thick: float, **screws: Any) -> HoseHangerSpec:
    return hanger(mount=mounted("flat", "left", wood=Wood(name=wood, wide_mm=thick), screws=WoodScrews(**screws)))


@pytest.mark.parametrize("name", BOARDS)
def test_a_board_gets_screws_that_hold_in_it_and_end_in_it(name: str) -> None:
    wood, thick, size, long = BOARDS[name]
    spec = on_wall(wood, thick)
    assert screw_size(spec) == size
    for point in hanger_plan(spec).base.points:
        deep = point.long_mm - plate_mm(spec) - point.washer_h
        assert point.long_mm == long
        assert 4.0 * point.row.major_mm <= deep <= thick + 1e-9


def test_a_size_that_is_asked_for_stays() -> None:
    assert screw_size(on_wall("plywood", 25.4, size="4.0 mm")) == "4.0 mm"
    with pytest.raises(RefusalError) as caught:
        hanger_plan(on_wall("plywood", 18.0, size="5.0 mm"))
    assert caught.value.key == "mount.into.thickness"
    thick = float(caught.value.allowed.split()[0])
    assert hanger_plan(on_wall("plywood", thick, size="5.0 mm")).base.points[0].long_mm == 30.0  # what it says, works


def test_a_board_too_thin_for_any_is_refused_with_one_that_is_not() -> None:
    with pytest.raises(RefusalError) as caught:
        hanger_plan(on_wall("plywood", 12.0))
    thick = float(caught.value.allowed.split()[0])
    assert 12.0 < thick <= 18.0
    assert hanger_plan(on_wall("plywood", thick)).base.points


def test_the_mount_of_the_page_builds(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    mount = "{wall: {side: right, into: {wood: plywood, thickness: 18}}}"
    Path("wall.yaml").write_text(f"part: hose_hanger\nhose: {{over_ribs: 108}}\nmount: {mount}\n", encoding="utf-8")
    assert main(["check", "wall.yaml", "--quick"]) == 0


def test_a_saddle_comes_with_its_strap() -> None:
    part = build_hose_hanger(hanger(strap=Strap(wide_mm=25.0)))
    (line,) = [one for one in part.hardware if one.what.startswith("strap")]
    assert (line.count, line.what) == (1, "strap 25 mm wide")
    assert line.long_mm is not None and line.long_mm > math.pi * 108.4 / 2 + 2 * 50.0
    hooked = build_hose_hanger(hanger(style="hook"))
    assert not [one for one in hooked.hardware if one.what.startswith("strap")]
