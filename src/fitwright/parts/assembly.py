"""Two joints and what links them, made into one checked-for-volume body with all its declarations."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from cadquery import Solid

from fitwright.errors import BuildError
from fitwright.frame import Frame, Vec
from fitwright.part import Body, Feature, HoleFit, Pose, WallZone
from fitwright.parts.ends import PlacedEnd as PlacedEnd
from fitwright.parts.fit_faces import fit_surface
from fitwright.parts.flange_cover import cover_of
from fitwright.parts.slit import SlitCut
from fitwright.parts.try_pieces import try_piece
from fitwright.section import Section
from fitwright.shapes.forms import ROUND, Form
from fitwright.shapes.joint import OVERSHOOT_MM, JointShape, Tool
from fitwright.shapes.loft import Transition, passage, tube
from fitwright.shapes.profile import Polyline
from fitwright.shapes.ridge import ridge_solid, ridge_volume_mm3
from fitwright.shapes.ridge_tool import ridge_feature, without_ridge
from fitwright.shapes.solids import boxes_meet, cut, fused, sewn
from fitwright.shapes.volume import exact_volume_mm3
from fitwright.spec.models import Flange
from fitwright.tolerances import TOLERANCES


@dataclass(frozen=True)
class Piece:
    """A length of the adapter: its tube, the passage through it (drawn out past a mouth), both closed forms [mm3]."""

    tube: Solid
    passage: Solid
    tube_mm3: float
    passage_mm3: float
    within: float = TOLERANCES.volume_rel
    """How near the kernel's volume must come to the closed form."""


def turned(outer: Polyline, inner: Polyline, frame: Frame, through: bool = False, form: Form = ROUND) -> Piece:
    """Two half-profiles carried round the frame's axis; the passage is drawn out at the mouth (`through`: both)."""
    bore = opened(inner, at_end=through)
    tube = form.ring([*outer, *reversed(inner)], frame)
    volume = form.volume_mm3(outer) - form.volume_mm3(inner)
    return Piece(tube, form.full(bore, frame), volume, form.volume_mm3(bore))


def joint_piece(end: PlacedEnd, breaks: tuple[float, ...] = ()) -> Piece:
    """An end's joint alone, up to its root, its outlines cut at `breaks` [rad] so that they meet the next piece's."""
    return turned(end.shape.outer, end.shape.inner, end.frame, form=replace(end.shape.form, breaks=breaks))


def transition_piece(transition: Transition, frame: Frame, wall_mm: float, outsides: tuple[Section, Section]) -> Piece:
    """A transition from one section to another, with the passage through it; `outsides` as for `loft.tube`."""
    solid, volume = tube(transition, frame, wall_mm, outsides)
    return Piece(solid, passage(transition, frame), volume, transition.passage_mm3, TOLERANCES.laid_out_volume_rel)


def opened(line: Polyline, at_end: bool = False) -> Polyline:
    """An inner half-profile drawn out past its mouth (`at_end`: past both), as a cutter must be."""
    out = ((line[0][0] - OVERSHOOT_MM, line[0][1]), *line)
    return (*out, (out[-1][0] + OVERSHOOT_MM, out[-1][1])) if at_end else out


def adapter_body(
    name: str,
    pieces: Sequence[Piece],
    ends: tuple[PlacedEnd, PlacedEnd],
    wall_mm: float,
    poses: tuple[Pose, ...] = (),
    slit: SlitCut | None = None,
) -> Body:
    """Flanges fused on and holes cut at the end pieces, all pieces sewn, and everything declared that was meant.

    `poses` are ways to lie on the bed besides standing on either end. `slit` opens the sleeve along its whole length:
    the passage then is no hole any more.
    """
    for piece in pieces:
        _compare(piece.tube, piece.tube_mm3, f"{name}: tube", piece.within)
        _compare(piece.passage, piece.passage_mm3, f"{name}: passage")
    tubes, passages = [p.tube for p in pieces], [p.passage for p in pieces]
    for end, at in zip(ends, (0, -1), strict=True):
        tubes[at] = _finished(_ridged(tubes[at], end, name), passages[at], end.shape, name)
    solid = sewn(tubes, name)
    _compare(solid, sum(exact_volume_mm3(t) for t in tubes), name, TOLERANCES.sewn_volume_rel)
    if slit:
        solid = cut(solid, [slit.tool.solid], f"{name}: slit")
    for end, at in zip(ends, (0, -1), strict=True):
        passages[at] = without_ridge(passages[at], end.shape.ridge, end.frame)
    bores = (passages[0], passages[-1])
    opened_by = [slit.tool] if slit else []
    shaped = any(e.shape.bosses or e.shape.cuts or e.shape.holes or e.shape.ridge for e in ends)
    return Body(
        name=name,
        solid=solid,
        genus=(0 if slit else 1) + sum(len(e.shape.holes) for e in ends),
        wall_mm=wall_mm,
        poses=(*(Pose(f"{e.plan.key} down", _away(e.frame.inward)) for e in ends), *poses),
        features=(
            *_passage(passages),
            *(Feature(t.name, "cut", t.solid) for t in opened_by),
            *(f for e, bore in zip(ends, bores, strict=True) for f in _features(e, bore, opened_by)),
        ),
        wall_zones=tuple(z for e in ends for z in _zones(e)),
        fits=tuple(f for e in ends if (f := fit_surface(e.plan, e.shape, e.frame))),
        holes=tuple(h for e in ends for h in _holes(e)),
        covers=tuple(c for e in ends if (c := cover_of(e))),
        tries=tuple(t for e in ends if (t := try_piece(e))),
        volume_mm3=None if shaped or not _exact(pieces) else _closed_form(pieces) - (slit.volume_mm3 if slit else 0.0),
    )


def _closed_form(pieces: Sequence[Piece]) -> float:
    return sum(p.tube_mm3 for p in pieces)


def _exact(pieces: Sequence[Piece]) -> bool:
    """Whether every piece's volume is a closed form (a transition's wall is laid out by smooth curves)."""
    return all(p.within <= TOLERANCES.volume_rel for p in pieces)


def _finished(tube: Solid, passage: Solid, shape: JointShape, name: str) -> Solid:
    """An end piece with its flange and gussets on, and its slits, seats and holes cut."""
    bosses = [cut(t.solid, [passage], t.name) for t in shape.bosses]
    tools = [t.solid for t in (*shape.cuts, *(h.tool() for h in (*shape.holes, *shape.blind)))]
    return cut(fused([tube, *bosses], name), tools, name)


def _ridged(tube: Solid, end: PlacedEnd, name: str) -> Solid:
    """An end piece with its helical ridge, whose volume Pappus gives."""
    ridge = end.shape.ridge
    if ridge is None:
        return tube
    found = fused([tube, ridge_solid(ridge, end.frame, name)], name)
    added, meant = exact_volume_mm3(found) - exact_volume_mm3(tube), ridge_volume_mm3(ridge)
    if abs(added - meant) > TOLERANCES.ridge_volume_rel * meant:
        raise BuildError(f"{name}: the ridge adds {added:.3f} mm3 where the closed form gives {meant:.3f}")
    return found


def _compare(solid: Solid, closed_form_mm3: float, what: str, within: float = TOLERANCES.volume_rel) -> None:
    """The kernel's volume against the closed form."""
    found = exact_volume_mm3(solid)
    if abs(found - closed_form_mm3) > within * closed_form_mm3:
        raise BuildError(f"{what}: volume {found:.3f} mm3 where the closed form gives {closed_form_mm3:.3f}")


def _passage(solids: Sequence[Solid]) -> list[Feature]:
    names = ["passage"] if len(solids) == 1 else [f"passage, piece {k + 1}" for k in range(len(solids))]
    return [Feature(n, "cut", s) for n, s in zip(names, solids, strict=True)]


def _away(v: Vec) -> Vec:
    return (-v[0], -v[1], -v[2])


def _features(end: PlacedEnd, bore: Solid, opened_by: Sequence[Tool]) -> list[Feature]:
    drilled = [h.tool() for h in (*end.shape.holes, *end.shape.blind)]
    cuts = [*end.shape.ring_cuts, *end.shape.cuts, *drilled]
    through = [t.solid for t in (*opened_by, *end.shape.cuts, *drilled)]
    if isinstance(end.plan.end.joint, Flange):
        through.append(bore)
    found = [Feature(t.name, "cut", t.solid) for t in cuts]
    for boss in end.shape.ring_bosses:
        met = [t for t in through if boxes_meet(boss.solid, t)]
        found.append(Feature(boss.name, "boss", boss.solid.cut(*met) if met else boss.solid))
    if end.shape.ridge:
        tool = ridge_feature(end.shape.ridge, end.frame, end.plan.key, [t.solid for t in end.shape.cuts])
        found.append(Feature(f"{end.plan.key} ridge", "boss", tool, by_mesh=True))
    return found


def _zones(end: PlacedEnd) -> list[WallZone]:
    form = end.shape.form
    return [
        WallZone(
            z.name,
            end.frame,
            z.s0_mm,
            z.s1_mm,
            z.r0_mm,
            z.r1_mm,
            z.limit_mm,
            about=form.base,
            about_r_mm=form.base_r_mm,
            skirt_mm=z.skirt_mm,
        )
        for z in end.shape.zones
    ]


def _holes(end: PlacedEnd) -> list[HoleFit]:
    key = f"{end.plan.key}.{end.plan.end.kind}." + ("holes" if isinstance(end.plan.end.joint, Flange) else "screws")
    found = [HoleFit(h.name, h.start, h.direction, h.length_mm, h.d_mm, key) for h in end.shape.holes]
    bond = f"{end.plan.key}.hose_tail.bond"
    return [*found, *(HoleFit(h.name, h.start, h.direction, h.length_mm, h.d_mm, bond) for h in end.shape.blind)]
