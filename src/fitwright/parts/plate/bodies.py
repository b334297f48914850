"""The bodies of a flange plate: exact solids compared with their closed form, and all that was meant declared."""

from __future__ import annotations

from typing import Literal

from fitwright.errors import BuildError
from fitwright.flat import Flat, Stock
from fitwright.frame import Frame
from fitwright.part import Body, Feature, HoleFit, Pose
from fitwright.parts.plate.flats import Piece
from fitwright.parts.plate.tries import plate_tries
from fitwright.shapes.flat_plate import plate_solid, tools
from fitwright.shapes.joint import OVERSHOOT_MM
from fitwright.shapes.volume import exact_volume_mm3
from fitwright.spec.models import FlangePlateSpec, PlateStock
from fitwright.spec.plate_sense import GASKET_WEB_MM, least_web_mm
from fitwright.tolerances import TOLERANCES

FLAT_ON_THE_BED = (Pose("front down", (0.0, -1.0, 0.0)), Pose("back down", (0.0, 1.0, 0.0)))


def plate_body(piece: Piece, spec: FlangePlateSpec) -> Body:
    """The body of one flat piece; BuildError where its volume is not area x thickness."""
    model, stock = piece.model, _stock(piece, spec)
    solid = plate_solid(model, piece.frame)
    volume = model.area_mm2 * model.thickness_mm
    found = exact_volume_mm3(solid)
    if abs(found - volume) > TOLERANCES.volume_rel * volume:
        raise BuildError(f"{piece.name}: volume {found:.3f} mm3 where the closed form gives {volume:.3f}")
    names = list(cut_names(model))
    return Body(
        name=piece.name,
        solid=solid,
        genus=len(model.openings) + len(model.holes),
        wall_mm=_wall(piece, spec),
        poses=FLAT_ON_THE_BED,
        features=tuple(
            Feature(f"{piece.name} {name}", "cut", tool)
            for name, tool in zip(names, tools(model, piece.frame), strict=True)
        ),
        holes=tuple(_hole_fits(piece, spec)),
        tries=plate_tries(piece, solid) if stock is None else (),
        volume_mm3=volume,
        stock=stock,
        flat=piece.true if stock is not None else None,
        flat_frame=piece.frame if stock is not None else None,
    )


def cut_names(flat: Flat) -> list[str]:
    """What each cut is called: openings, then holes."""
    openings = [f"opening {k + 1}" for k in range(len(flat.openings))]
    holes = [f"{'slot' if hole.long_mm else 'bolt hole'} {k + 1}" for k, hole in enumerate(flat.holes)]
    return [*openings, *holes]


def _wall(piece: Piece, spec: FlangePlateSpec) -> float:
    """The least that may be left anywhere [mm]: between cuts, and from face to face."""
    web = GASKET_WEB_MM if piece.name == "gasket" else least_web_mm(spec)
    return min(web, piece.model.thickness_mm)


def _stock(piece: Piece, spec: FlangePlateSpec) -> Stock | None:
    if piece.name == "gasket":
        assert spec.gasket is not None
        return _of("gasket", spec.gasket)
    return None if spec.sheet is None else _of("sheet", spec.sheet)


def _of(kind: Literal["sheet", "gasket"], meant: PlateStock) -> Stock:
    return Stock(kind, meant.words, meant.thickness_mm, meant.density_g_cm3, meant.brittle)


def _hole_fits(piece: Piece, spec: FlangePlateSpec) -> list[HoleFit]:
    keys = [p.key for p in spec.patterns for _ in p.holes.points]
    found = []
    for k, (hole, key) in enumerate(zip(piece.model.holes, keys, strict=True)):
        if hole.long_mm:
            continue
        start = _at(piece.frame, hole.at)
        length = piece.model.thickness_mm + 2 * OVERSHOOT_MM
        name = f"{piece.name} bolt hole {k + 1}"
        found.append(HoleFit(name, start, piece.frame.inward, length, hole.d_mm, key))
    return found


def _at(frame: Frame, at: tuple[float, float]) -> tuple[float, float, float]:
    return frame.point(at[0], -OVERSHOOT_MM, at[1])
