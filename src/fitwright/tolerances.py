"""Every epsilon and mesh deflection, each with its reason."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Tolerances:
    """Lengths in mm, volumes in mm3, angles in radians, ratios without unit."""

    mesh_chord_mm: float = 0.008
    """Linear deflection of the one tessellation: a 100 mm bore stays within 0.016 mm of round (0.02 promised)."""
    bend_chord_mm: float = 0.03
    """Along a bend, in place of the above, which still holds round its sections: nothing is fitted to a bend, and all
    faces of one bend are divided at the same places, so that its wall keeps its thickness (within 0.03 % of it)."""
    mesh_angle_rad: float = 0.2
    """Angular deflection: keeps small fillets and pilots (d < 10 mm) within 0.02 mm; the chord rules larger ones."""
    stand_in_chord_mm: float = 0.1
    """Stand-ins are for clearance only; their chord error is taken off every gap."""
    stand_in_angle_rad: float = 0.25
    max_triangles: int = 2_000_000
    """More than this means that the tessellation ran away; the build stops instead of filling the memory."""
    volume_rel: float = 1e-6
    """A B-rep volume against its closed form: revolved and swept exact surfaces agree to 1e-9."""
    laid_out_volume_rel: float = 2e-4
    """A transition's wall: its outside runs through 25 laid-out points a corner, against the integral through 400."""
    sewn_volume_rel: float = 1e-4
    """A sewn solid against the sum of its pieces: the kernel integrates faces with holes to about 1e-5."""
    ridge_volume_rel: float = 1e-3
    """What a helical ridge adds to its wall against Pappus: its splines keep to 1e-5."""
    wound_volume_rel: float = 1e-5
    """Two volumes of one solid whose round faces have splines for edges: the kernel's adaptive rule agrees to 1e-6."""
    parted_volume_rel: float = 1e-6
    """Two halves against the whole that a plane has parted: nothing but rounding is between them."""
    mesh_volume_rel: float = 0.005
    """Mesh against B-rep volume; more means a missing or folded face."""
    feature_mm3: float = 1e-6
    """A cut's tool must share no more than this with the part; a boss's tool must leave no more outside it."""
    stroke_mm: float = 0.02
    """A stroke or gap of lettering as built against the least allowed: the mesh's chord on both sides."""
    overshoot_mm: float = 0.5
    """Cutters go this far beyond the face they pierce, so that no skin is left (0.1 is the least)."""
    fit_mm: float = 0.05
    """A diameter as built against as intended."""
    wall_rel: float = 0.01
    """Accuracy of the wall check; a wall is too thin below asked x (1 - this) - 2 x mesh_chord_mm."""
    smooth_edge_rad: float = 0.436
    """Faces meeting at less than 25 deg are one smooth patch."""
    weld_mm: float = 1e-5
    """Vertices closer than this are one vertex of the mesh."""
    noise_digits: int = 9
    """Vertices of a finished shape are rounded to so many digits of a mm: the last ones differ between processes."""
    ray_start_mm: float = 1e-4
    """Rays start this far inside the surface; 1e-8 gave zero hits on 0.4 mm plates 1000 wide."""
    overhang_slack_rad: float = 0.0175
    """An underside of exactly 45 deg must pass: one degree of slack."""


TOLERANCES = Tolerances()
