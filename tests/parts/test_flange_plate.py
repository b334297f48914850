"""A flange plate and its gasket as built: beside the flange that they are made for, and beside closed forms."""

from __future__ import annotations

import math
from pathlib import Path

import numpy as np
import pytest
import shapely
import trimesh
from numpy.typing import NDArray

from fitwright.mesh import BodyMesh, mesh_body
from fitwright.part import Part
from fitwright.parts import BUILDERS
from fitwright.spec.load import load_file, load_text

CALIBRATED = "printer: {name: generic_220, scale_xy: 0.996, hole_offset: -0.2, outside_offset: 0.15}\n"
OTHER = "printer: {name: generic_220, scale_xy: 1.003, hole_offset: -0.1, outside_offset: 0.1}\n"
UNEVEN = "points: [{right: 60, up: 41}, {left: 52, up: 47}, {left: 44, down: 55}, {right: 20, down: 66}]"
FLANGED = f"""\
part: reducer
name: inlet
end_a: {{flange: {{opening: 70, round: 190, holes: {{{UNEVEN}, size: M6}}}}}}
end_b: {{flange: {{opening: 60, rectangle: {{width: 180, height: 170}}, holes: {{{UNEVEN}, size: M5}}}}}}
"""
CONFIGS = Path(__file__).parents[2] / "configs"
WITHIN_MM = 0.05
Circle = tuple[float, float, float]


def built(text: str, name: str = "plate.yaml") -> Part:
    (spec,) = load_text(text, name)
    part: Part = BUILDERS[spec.part](spec)
    return part


def meshed(part: Part) -> dict[str, BodyMesh]:
    return {body.name: mesh_body(body) for body in part.bodies}


def loops(mesh: BodyMesh, y: float) -> list[NDArray[np.float64]]:
    """The closed lines in which the plane at this y cuts the mesh, as (x, z)."""
    whole = trimesh.Trimesh(mesh.mesh.vertices, mesh.mesh.faces, process=True)
    lines = trimesh.intersections.mesh_plane(whole, [0.0, 1.0, 0.0], [0.0, y, 0.0])[:, :, [0, 2]]
    merged = shapely.line_merge(shapely.union_all(shapely.linestrings(np.round(lines, 6))))
    return [np.asarray(line.coords) for line in shapely.get_parts(merged)]


def fitted(points: NDArray[np.float64]) -> tuple[Circle, float]:
    """The circle of least squares through points, and how far they stray from it."""
    matrix = np.column_stack([2 * points, np.ones(len(points))])
    (x, y, c), *_ = np.linalg.lstsq(matrix, (points**2).sum(axis=1), rcond=None)
    r = math.sqrt(c + x * x + y * y)
    return (float(x), float(y), 2 * r), float(np.abs(np.hypot(*(points - (x, y)).T) - r).max())


def holes(mesh: BodyMesh, y: float, scale: float = 1.0, offset: float = 0.0, flip: float = 1.0) -> list[Circle]:
    """Bolt holes as they will measure, from the mesh alone: sorted (right, up, diameter)."""
    found = [fitted(line) for line in loops(mesh, y)]
    small = [(flip * x * scale, z * scale, d * scale + offset) for (x, z, d), off in found if off < 0.02 and d < 15.0]
    return sorted(small)


def far(one: list[Circle], other: list[Circle]) -> float:
    """The furthest that two of the same place are apart."""
    assert len(one) == len(other) == 4
    return max(math.dist(a[:2], b[:2]) for a, b in zip(one, other, strict=True))


@pytest.fixture(name="folder")
def _folder(tmp_path: Path) -> Path:
    (tmp_path / "inlet.yaml").write_text(FLANGED + CALIBRATED, encoding="utf-8")
    return tmp_path


def plate_for(folder: Path, lines: str) -> Part:
    file = folder / "plate.yaml"
    file.write_text(f"part: flange_plate\n{lines}", encoding="utf-8")
    (spec,) = load_file(file)
    part: Part = BUILDERS[spec.part](spec)
    return part


@pytest.mark.parametrize("end", ["end_a", "end_b"])
def test_holes_of_flange_plate_and_gasket_agree_on_the_meshes(folder: Path, end: str) -> None:
    """Each of its own printer, or of none; the pattern is its own mirror image in no direction."""
    adapter = built((folder / "inlet.yaml").read_text(encoding="utf-8"))
    mesh = meshed(adapter)["inlet"]
    y = 1.0 if end == "end_a" else float(mesh.mesh.vertices[:, 1].max()) - 1.0
    flange = holes(mesh, y, 0.996, flip=1.0 if end == "end_a" else -1.0)
    matches = f"matches: {{part: inlet.yaml, end: {end}}}\ngasket: {{material: cork, thickness: 2}}\n"
    printed = meshed(plate_for(folder, matches + OTHER))
    sheet = meshed(plate_for(folder, matches + "sheet: {material: steel, thickness: 2}\n"))
    assert far(holes(printed["plate"], 3.0, 1.003), flange) < WITHIN_MM
    assert far(holes(printed["gasket"], 7.0), flange) < WITHIN_MM
    assert far(holes(sheet["plate"], 1.0), flange) < WITHIN_MM
    assert far(holes(sheet["gasket"], 3.0), flange) < WITHIN_MM
    mirrored = sorted((-x, z, d) for x, z, d in flange)
    assert far(holes(sheet["plate"], 1.0), mirrored) > 5.0


def test_sizes_of_sheet_and_print_agree_once_printed(folder: Path) -> None:
    """Outline and opening of both are the flange's: 190 and 70 mm by a caliper (printed = scale x model + offset)."""
    sheet = meshed(plate_for(folder, "matches: {part: inlet.yaml, end: end_a}\nsheet: {material: PC, thickness: 3}\n"))
    printed = meshed(plate_for(folder, "matches: {part: inlet.yaml, end: end_a}\n" + OTHER))
    by_size = sorted(fitted(line)[0][2] for line in loops(sheet["plate"], 1.5))
    assert by_size[-2:] == pytest.approx([70.0, 190.0], abs=WITHIN_MM)
    assert by_size[0] == pytest.approx(6.6, abs=WITHIN_MM)  # ISO 273 medium, M6
    models = sorted(fitted(line)[0][2] for line in loops(printed["plate"], 3.0))
    assert 1.003 * models[-2] - 0.1 == pytest.approx(70.0, abs=WITHIN_MM)
    assert 1.003 * models[-1] + 0.1 == pytest.approx(190.0, abs=WITHIN_MM)
    # a screw hole under 10 mm is opened by 0.2 mm, of which the hole offset is a part: 1.003 d - 0.1 = 6.6 + 0.1
    assert 1.003 * models[0] - 0.1 == pytest.approx(6.7, abs=WITHIN_MM)


def test_the_gaskets_holes_and_opening_are_larger(folder: Path) -> None:
    lines = "matches: {part: inlet.yaml, end: end_a}\ngasket: yes\nsheet: {material: steel, thickness: 2}\n"
    gasket = meshed(plate_for(folder, lines))["gasket"]
    sizes = sorted(fitted(line)[0][2] for line in loops(gasket, 4.0))
    assert sizes[:4] == pytest.approx([7.6] * 4, abs=WITHIN_MM)
    assert sizes[4:] == pytest.approx([72.0, 190.0], abs=WITHIN_MM)


def test_a_section_as_the_flanges_opening() -> None:
    """`hood.yaml`: 4 holes and a rectangular opening; the plate's opening has the area of what the YAML says."""
    part = built(
        "part: flange_plate\nmatches: {part: hood.yaml}\nsheet: {material: steel, thickness: 1}\n", "configs/p.yaml"
    )
    (hood,) = load_file(Path("configs/hood.yaml"))
    opening = hood.ends["end_a"].joint.opening  # type: ignore[union-attr]
    flat = part.bodies[0].flat
    assert flat is not None and opening is not None
    assert flat.openings[0].area_mm2 == pytest.approx(opening.area_mm2, rel=2e-3)  # sharp corners get 0.3 mm


def test_volume_by_hand() -> None:
    """Rectangle with round corners, a round, a slot-ended and a rectangular opening, two slots."""
    part = built(
        "part: flange_plate\nrectangle: {width: 200, height: 120, corner: 10}\nsheet: {material: steel, thickness: 2}\n"
        "openings: [{round: 50, at: {left: 50}}, {oval: {width: 60, height: 20}, at: {right: 40, up: 20}},"
        " {rectangle: {width: 40, height: 15}, at: {right: 40, down: 25}}]\n"
        "holes: {points: [{left: 85, up: 45}, {right: 85, down: 45}], size: M6, read_with: tape, residual: 0.6}\n"
    )
    slot = math.pi * 7.0**2 / 4 + 7.0 * 2.4  # ISO 273 coarse M6; 4 x 0.6 longer
    area = 200 * 120 - (4 - math.pi) * 100 - math.pi * 25**2 - (40 * 20 + math.pi * 100) - 40 * 15 - 2 * slot
    body = part.bodies[0]
    assert body.flat is not None
    assert body.flat.area_mm2 == pytest.approx(area, rel=1e-12)
    assert body.solid.Volume() == pytest.approx(2 * area, rel=1e-9)
    assert mesh_body(body).mesh.volume == pytest.approx(2 * area, rel=1e-3)
    assert body.genus == 5
    length = 2 * (180 + 100) + 20 * math.pi + 50 * math.pi + 80 + 20 * math.pi + 110 + 2 * (7 * math.pi + 4.8)
    assert body.flat.cut_length_mm == pytest.approx(length, rel=1e-12)


def test_slots_lie_along_the_line_from_the_patterns_middle() -> None:
    part = built(
        "part: flange_plate\nrectangle: {width: 300, height: 200}\nsheet: {material: steel, thickness: 2}\n"
        "holes: {count: 4, circle: 80, first_at: 30, at: {right: 50, up: 10}, size: M6, read_with: tape, residual: 1}\n"
    )
    flat = part.bodies[0].flat
    assert flat is not None
    assert [hole.turned_deg for hole in flat.holes] == pytest.approx([30.0, 120.0, 30.0, 120.0])
    assert flat.holes[0].at == pytest.approx(
        (50 + 40 * math.sin(math.radians(30)), 10 + 40 * math.cos(math.radians(30)))
    )
    assert {hole.long_mm for hole in flat.holes} == {4.0}


MIRROR = """\
part: flange_plate
points: [{right: 80, up: -60}, {right: 80, up: 40, via: {right: 90, up: 0}}, {left: 70, up: 60}, {left: 80, down: 60}]
openings: [{round: 40, at: {right: 30, down: 10}}, {points: [{right: 15}, {up: 25}, {left: 15}, {down: 10}],
  at: {left: 40, up: 5}}]
holes: {points: [{right: 60, up: 30}, {left: 60, up: 46}, {right: 60, down: 46}], size: M5,
  read_with: tracing, residual: 0.8}
gasket: {material: felt}
"""


def test_a_mirrored_spec_gives_a_mirrored_part() -> None:
    swapped = MIRROR.replace("right:", "r_:").replace("left:", "right:").replace("r_:", "left:")
    one, other = built(MIRROR), built(swapped)
    for a, b in zip(one.bodies, other.bodies, strict=True):
        assert a.solid.Volume() == pytest.approx(b.solid.Volume(), rel=1e-9)
        c, d = a.solid.Center(), b.solid.Center()
        assert (c.x, c.y, c.z) == pytest.approx((-d.x, d.y, d.z), abs=1e-6)
        same = a.solid.mirror("YZ").intersect(b.solid)
        assert same.Volume() == pytest.approx(b.solid.Volume(), rel=1e-6)


def test_loads_are_held_at_the_bolts() -> None:
    part = built("part: flange_plate\nopenings: 100\nholes: {count: 4, circle: 130, size: M6}\nround: 160\n")
    area_m2 = (math.pi * (80**2 - 50**2) - 4 * math.pi * (6.8 / 2) ** 2) * 1e-6  # screw holes opened by 0.2 mm
    suction, lasting = (case for case in part.loads if case.name.startswith("suction"))
    assert suction.force_n == pytest.approx(3000.0 * area_m2, rel=1e-6) and not suction.lasting
    assert lasting.force_n == pytest.approx(1500.0 * area_m2, rel=1e-6) and lasting.lasting
    assert suction.name == "suction of 3 kPa (gate shut)" and len(suction.held) == 4
    assert part.assumed["air.fan"] == "a collector: 3 kPa of suction (gate shut), 1.5 kPa while it runs"
    assert {face.name for face in part.load_faces} >= {suction.on, *suction.held}
