"""A spigot: a printed ring that goes into a pipe, fitting or hole."""

from __future__ import annotations

from dataclasses import dataclass

from fitwright.frame import Frame
from fitwright.shapes.forms import ROUND, Form
from fitwright.shapes.joint import (
    Hole,
    JointShape,
    RadialScrews,
    Tool,
    Zone,
    crest_zone,
    groove,
    lead_run,
    radial_holes,
    to_root,
)
from fitwright.shapes.profile import hump, tidy, upper_envelope

COLLAR_FLAT_MM = 1.5
"""Width of the stop collar's crest."""


@dataclass(frozen=True)
class SpigotSizes:
    """All in mm. `mouth_d`, `bottom_d`: outside at s = 0 (lead-in left out) and at `depth`. `stop`: collar height."""

    mouth_d: float
    bottom_d: float
    depth: float
    lead_in: float
    stop: float
    wall: float
    root_wall: float
    cord: float = 0.0
    cord_groove: float = 0.0
    screws: RadialScrews | None = None

    def outer_r(self, s: float) -> float:
        """Outside radius at s, lead-in left out."""
        return (self.mouth_d + (self.bottom_d - self.mouth_d) * s / self.depth) / 2

    @property
    def passage_r(self) -> float:
        """The bore: a full wall under the thinnest place of the outside (under the cord groove where there is one)."""
        return min(self.mouth_d, self.bottom_d) / 2 - self.wall - self.cord_groove


def spigot(sizes: SpigotSizes, frame: Frame, name: str, form: Form = ROUND) -> JointShape:
    """The spigot's half-profiles: lead-in, taper, optional cord groove, 45 deg stop collar, straight bore."""
    lead = lead_run(sizes.lead_in)
    skin = [(0.0, sizes.outer_r(0.0) - sizes.lead_in), (lead, sizes.outer_r(lead))]
    fit_from, cuts = lead, []
    if sizes.cord > 0:
        floor_w = 1.2 * sizes.cord
        middle = lead + 2.0 + floor_w / 2 + sizes.cord_groove
        line = groove(middle, floor_w, sizes.cord_groove, -1, sizes.outer_r)
        skin += list(line)
        cuts.append(Tool(f"{name} cord groove", form.ring(list(line), frame)))
        fit_from = line[3][0]
    body_r = sizes.outer_r(sizes.depth)
    skin.append((sizes.depth, body_r))
    root_r = sizes.passage_r + sizes.root_wall
    crest_r = body_r + sizes.stop
    collar = hump(sizes.depth + sizes.stop, sizes.depth + sizes.stop + COLLAR_FLAT_MM, crest_r, body_r)
    root_s, slope = to_root(body_r, collar[-1][0], root_r, sizes.wall)
    outer = upper_envelope([tidy([*skin, (collar[-1][0], body_r), *slope]), collar if sizes.stop else ()])
    holes: tuple[Hole, ...] = ()
    if sizes.screws:
        holes = radial_holes(frame, sizes.screws, sizes.passage_r, body_r, f"{name} screw", form)
    lip = Zone(f"{name} mouth lip", -0.1, lead + 0.2, 0.0, body_r + 9.0, sizes.wall - sizes.lead_in)
    crest = (crest_zone(f"{name} stop collar", collar, sizes.wall),) if sizes.stop else ()
    bosses = (Tool(f"{name} stop collar", form.ring(list(collar), frame)),) if sizes.stop else ()
    return JointShape(
        ((0.0, sizes.passage_r), (root_s, sizes.passage_r)),
        outer,
        root_s,
        sizes.depth,
        fit=(fit_from, 2 * sizes.outer_r(fit_from), sizes.depth, sizes.bottom_d),
        ring_cuts=tuple(cuts),
        ring_bosses=bosses,
        holes=holes,
        zones=(*((lip,) if sizes.lead_in > 0 else ()), *crest),
        cord_groove_depth_mm=sizes.cord_groove,
        form=form,
    )
