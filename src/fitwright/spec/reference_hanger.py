"""What docs/yaml.md shows of hose hangers: the maps in their order, and a note before them."""

from __future__ import annotations

from fitwright.spec.grammar import (
    hanger,
    hanger_carried,
    hanger_mounts,
    hanger_rails,
    hanger_run,
    hanger_styles,
    hanger_surfaces,
    hanger_wood,
)
from fitwright.spec.grammar.base import Grammar

HANGER_TITLE = "A hose hanger"
HANGER_SECTION: tuple[tuple[str, type[Grammar]], ...] = (
    ("`part: hose_hanger`", hanger.HoseHangerKeys),
    ("`hose`", hanger_carried.HangerHoseKeys),
    ("`pipe` of a hanger", hanger_carried.HangerPipeKeys),
    ("`saddle` of a hanger", hanger_styles.HangerSaddleKeys),
    ("`strap`", hanger_styles.StrapKeys),
    ("`hook`", hanger_styles.HangerHookKeys),
    ("`clamp` of a hanger", hanger_styles.HangerClampKeys),
    ("`mount`", hanger_mounts.HangerMountKeys),
    ("`joist_side`", hanger_surfaces.JoistSideKeys),
    ("`joist_underside`", hanger_surfaces.JoistUndersideKeys),
    ("`joist`", hanger_wood.JoistKeys),
    ("`wall` of a mount", hanger_surfaces.MountWallKeys),
    ("`ceiling` of a mount", hanger_surfaces.MountCeilingKeys),
    ("`shelf`", hanger_surfaces.MountShelfKeys),
    ("`into`", hanger_wood.IntoKeys),
    ("`screws` of a mount", hanger_wood.WoodScrewsKeys),
    ("`strut`", hanger_rails.StrutKeys),
    ("`t_slot`", hanger_rails.TSlotKeys),
    ("`holes` of a mount", hanger_mounts.ExistingHolesKeys),
    ("`cable_tie`", hanger_rails.CableTieKeys),
    ("`tie`", hanger_rails.TieKeys),
    ("`rod`", hanger_rails.RodKeys),
    ("`batten`", hanger_surfaces.BattenKeys),
    ("`near`, `far`", hanger_surfaces.SidewaysKeys),
    ("`run`", hanger_run.HangerRunKeys),
)
HANGER_NOTE = (
    "Stand before the hanger, the hose running away from you: right, up, and away along it; `side` says where the "
    "surface lies that it is fixed to. What it carries is said by its outside (of a ribbed hose over the ribs): the "
    "inside alone is refused, because hoses of one inside differ outside by more than any hanger takes up. The style "
    "is a key of its own: `saddle`, `hook` or `clamp`, each `yes` or a map; a saddle if none is there. `mount` is one "
    "word (`joist_side`, `joist_underside`, `wall`, `ceiling`, `shelf`, `strut`) or a map by kind. See "
    "[hose hangers](families/hose_hanger.md)."
)
