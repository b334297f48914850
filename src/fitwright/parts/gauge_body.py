"""From a piece of a gauge to a body at its place on the bed: turned, marked, and compared with its closed form."""

from __future__ import annotations

import math
from dataclasses import dataclass

from cadquery import Compound, Solid

from fitwright.errors import BuildError
from fitwright.frame import Frame
from fitwright.part import Body, Feature, Label, Pose, RoundSize, WallZone
from fitwright.parts.gauge_pieces import Draft, Mark
from fitwright.parts.gauge_sizes import GaugeSizes
from fitwright.shapes.gauge import Window, text_frame, turned_frame
from fitwright.shapes.lettering import HIGH, letter_solids, text_wide, volume_mm3
from fitwright.shapes.solids import cut, fused
from fitwright.tolerances import TOLERANCES

ON_THE_BED = (Pose("marks up", (0.0, 0.0, -1.0)),)
SUNK_MM = 0.5
"""Letters begin this far below the face that they stand on, so that they grow together with it."""
AROUND_MM, ON_MM = 0.1, 0.01


@dataclass(frozen=True)
class _Written:
    """A mark at its place: the label, its letters on the face, and the same sunk into it."""

    label: Label
    letters: Compound
    sunk: list[Solid]


def gauge_body(draft: Draft, sizes: GaugeSizes, at: tuple[float, float], key: str) -> Body:
    """The body standing on z = 0 with its axis at `at` (x, y); BuildError where its volume is not the closed form's."""
    frame = Frame((at[0], at[1], 0.0), (0.0, 0.0, 1.0), (1.0, 0.0, 0.0))
    written = [_written(mark, draft, sizes, frame) for mark in draft.marks]
    windows = [(f"{draft.name} window {k + 1}", w) for k, w in enumerate(draft.windows)]
    solid = fused([draft.turned.solid(frame), *_carriers(draft, frame, written)], draft.name)
    tools = [(name, window.tool(frame)) for name, window in windows]
    solid = cut(solid, [tool for _, tool in tools], draft.name)
    volume = closed_form_mm3(draft, sizes)
    if abs(solid.Volume() - volume) > TOLERANCES.volume_rel * volume:
        raise BuildError(f"{draft.name}: volume {solid.Volume():.3f} mm3 where the closed form gives {volume:.3f}")
    return Body(
        name=draft.name,
        solid=solid,
        genus=len(draft.windows) + (draft.bars.openings if draft.bars else 1),
        wall_mm=sizes.wall,
        poses=ON_THE_BED,
        features=(
            *(Feature(name, "cut", tool) for name, tool in tools),
            *(Feature(f"mark {w.label.text}", "boss", w.letters) for w in written),
        ),
        wall_zones=(
            *_lips(draft, frame),
            *_heads(windows, sizes, frame),
            *(_strokes(w.label, sizes.wall) for w in written),
        ),
        rounds=tuple(RoundSize(r.name, frame, r.kind, r.s0_mm, r.s1_mm, r.d_mm, key) for r in draft.rounds),
        labels=tuple(w.label for w in written),
        volume_mm3=volume,
    )


def closed_form_mm3(draft: Draft, sizes: GaugeSizes) -> float:
    """Pappus for what is turned, strips of circles for tabs, crossbar and windows, cells for the letters."""
    parts = [draft.turned.volume_mm3, *(-w.volume_mm3 for w in draft.windows)]
    parts += [mark.tab.volume_mm3(draft.turned) for mark in draft.marks if mark.tab]
    parts += [draft.bars.volume_mm3(draft.turned)] if draft.bars else []
    parts += [volume_mm3(mark.text, sizes.cell, sizes.relief) for mark in draft.marks]
    return math.fsum(parts)


def _carriers(draft: Draft, frame: Frame, written: list[_Written]) -> list[Solid]:
    """Tabs or bars, each with its letters on."""
    found = []
    for mark, text in zip(draft.marks, written, strict=True):
        carrier = mark.tab or draft.bars
        assert carrier is not None
        found.append(fused([carrier.solid(draft.turned, frame), *text.sunk], f"mark {mark.text}"))
    return found


def _written(mark: Mark, draft: Draft, sizes: GaugeSizes, frame: Frame) -> _Written:
    """On a tab letters stand with their feet outwards: they are read from where one holds the piece."""
    wide, high = text_wide(mark.text) * sizes.cell, HIGH * sizes.cell
    x, y, up = frame.origin[0], frame.origin[1], (0.0, 1.0)
    if mark.tab is not None:
        out = (math.cos(mark.tab.turn_rad), math.sin(mark.tab.turn_rad))
        middle = mark.tab.reach_mm - sizes.cell - high / 2
        x, y, up = x + middle * out[0], y + middle * out[1], (-out[0], -out[1])
    there = text_frame((x, y, sizes.thick), up, wide, high)
    label = Label(f"{draft.name} mark", mark.text, there, sizes.cell, sizes.relief, sizes.least)
    letters = letter_solids(mark.text, there, sizes.cell, 0.0, -sizes.relief)
    sunk = letter_solids(mark.text, there, sizes.cell, SUNK_MM, -sizes.relief)
    return _Written(label, Compound.makeCompound(letters), sunk)


def _lips(draft: Draft, frame: Frame) -> list[WallZone]:
    """Where chamfers take from the wall; across one, the faces beside it are as near as the chamfer is wide."""
    radii = draft.least_r_mm - AROUND_MM, draft.reach_mm + AROUND_MM
    return [
        WallZone(f"{draft.name} lip", frame, s0 - ON_MM, s1 + ON_MM, *radii, min(least, math.sqrt(2.0) * (s1 - s0)))
        for s0, s1, least in draft.lips
    ]


def _heads(windows: list[tuple[str, Window]], sizes: GaugeSizes, frame: Frame) -> list[WallZone]:
    """Above a window, up to the next step's floor; below it, sill and bore are the flanks of a stepped edge."""
    least, found = min(sizes.head_mm, math.sqrt(2.0) * sizes.sill_mm), []
    for name, w in windows:
        along = turned_frame(frame, w.turn_rad).right
        x, y, _ = frame.origin
        there = Frame((x, y, (w.s0_mm + w.s1_mm) / 2), along, (0.0, 0.0, 1.0))
        reach = math.hypot(w.wide_mm, w.s1_mm - w.s0_mm) / 2 + AROUND_MM
        inner, outer = w.reach_mm
        found.append(WallZone(f"{name} rim", there, inner - 1.0, outer + 1.0, 0.0, reach, least))
    return found


def _strokes(label: Label, wall_mm: float) -> WallZone:
    """The letters: as wide as a stroke; a thinner wall may stand beside their feet."""
    half_wide, half_high = text_wide(label.text) * label.cell_mm / 2, HIGH * label.cell_mm / 2
    middle = label.frame.point(half_wide, 0.0, half_high)
    there = Frame(middle, label.frame.inward, label.frame.right)
    reach = math.hypot(half_wide, half_high) + AROUND_MM
    return WallZone(label.name, there, -label.relief_mm - ON_MM, ON_MM, 0.0, reach, min(label.cell_mm, wall_mm))
