"""What people run into with soft, ribbed, rectangular and awkward ports, each told to the tool in YAML.

As in `test_cases`: reports of users, restated; what the answer must be follows from the case by arithmetic beside it.
"""

from __future__ import annotations

import numpy as np
import pytest

from .test_cases import refusal
from .whole import blocking, body_of, fact, findings, mesh_of, part_of, result_of

SOFT = "part: reducer\nmaterial: {}\nend_a: {{socket: {{over: 32, {}}}}}\nend_b: {{plain: {{inside: 28}}}}"


def test_a_rigid_print_is_not_assumed_to_stretch_and_a_soft_one_is() -> None:
    """A soft tube of 30 mm went over a hose end of 32 mm because it stretches: 2 / 30 = 6.7 %."""
    assert "rigid" in refusal(SOFT.format("PETG", "allowance: -2"))
    assert "stretch" in refusal(SOFT.format("PETG", "fit: stretch"))
    (finding,) = findings(SOFT.format("TPU 85A", "allowance: -2, fit: stretch"), "fit.result")
    assert finding.severity != "fail" and "stretches" in finding.message
    (finding,) = findings(SOFT.format("TPU", "fit: stretch"), "fit.result")
    assert finding.severity == "pass" and "grips and seals by itself" in finding.message


LOBES = """part: reducer
end_a:
  flange:
    covers:
      points:
        - {{right: 10.0, up: 17.3, via: {{right: 25.5, up: 0}}}}
        - {{right: -20.0, up: 0, via: {{right: -12.75, up: 22.08}}}}
        - {{right: 10.0, up: -17.3, via: {{right: -12.75, up: -22.08}}}}
    margin: 8
    thickness: 4
    opening: 30
{}end_b: {{hose_tail: {{hose_inside: 36}}}}
"""


def test_a_blank_flange_covers_a_three_lobed_hole_with_a_tube_through_it() -> None:
    """An old canister's bayonet hole of about 50 mm; its furthest points lie 25.5 mm from the middle."""
    text = LOBES.format("")
    (cover,) = findings(text, "cover")
    assert cover.severity == "pass" and cover.value is not None and cover.value >= 8 - 0.05
    assert body_of(text).genus == 1 and not blocking(result_of(text).findings)
    reach = np.hypot(*np.asarray(mesh_of(text).vertices)[:, (0, 2)].T).max()
    assert reach >= 25.5 + 8 - 0.02
    said = refusal(LOBES.format("    round: 60\n"))
    assert "overlaps it by 4.5 mm" in said and "round: 67 mm" in said  # 60 / 2 - 25.5, and 2 x (25.5 + 8)


def test_the_hand_of_a_ridge_has_no_default() -> None:
    """The first threaded end had the wrong hand and went into the bin."""
    tail = "{hose_tail: {hose_inside: 100, ridge: {pitch: 12, wire: 3}}}"
    said = refusal(f"part: reducer\nend_a: {tail}\nend_b: {{plain: {{inside: 90}}}}")
    assert "hand" in said and "left" in said and "right" in said


HOOD = """part: reducer
printer: {{name: bed_256, bed_x: 256, bed_y: 256, bed_z: 256}}
end_a: {{plain: {{inside: {{rectangle: {{width: 300, height: 80, corner: 5}}}}}}}}
end_b: {{socket: {{over: 150, screws: {{count: 4, size: No. 8, first_at: {first}}}}}}}
length: 230
halves: {{along: up, joint: {{bolts: {{size: M4, spacing: 60}}}}}}
"""


def test_a_hood_is_not_parted_through_a_screw() -> None:
    """A hood too big for the bed was cut in two, and the cut ran through a screw's slot."""
    said = refusal(HOOD.format(first=0))
    assert "halves.along" in said and "screw" in said and "through" in said


@pytest.mark.slow
def test_a_rectangular_hood_is_led_over_tapered_and_parted_clear_of_its_screws() -> None:
    text = HOOD.format(first=45)
    assert len(part_of(text).bodies) == 2 and not blocking(result_of(text).findings)
    assert all(f.severity == "pass" for f in findings(text, "halves"))
    assert float(fact(text, "cone, half angle").split(" ")[0]) <= 30.0  # led over, not stepped
    (passage,) = findings(text, "passage")
    assert passage.severity == "pass"


CLOCKED = """part: offset_adapter
angle: 45 deg
clock: {} deg
end_a: {{flange: {{opening: 40, holes: {{count: 4, circle: 90, size: M4}}}}}}
end_b: {{plain: {{inside: 40}}}}
"""


def test_four_screws_let_an_inlet_be_turned_by_quarter_turns() -> None:
    assert "steps of 90 deg" in fact(CLOCKED.format(45), "end_a pattern")


def test_a_right_angle_is_one_gentle_bend_and_its_radius_is_told() -> None:
    """Sharp right angles before an inlet cost it; the report says how gentle the bend is."""
    text = "part: offset_adapter\nangle: 90 deg\nend_a: {plain: {inside: 60}}\nend_b: {plain: {inside: 60}}"
    assert fact(text, "bends").startswith("90.0 deg, centreline radius 60.0 mm (1.00 D)")
