"""Parts whose ends are not round, parted into halves."""

from __future__ import annotations

import pytest
from tests.whole import blocking, findings, part_of, result_of

from fitwright.errors import RefusalError

DUCT = """part: reducer
printer: {{name: large, bed_x: 350, bed_y: 350, bed_z: 300}}
end_a: {{socket: {{over: {{rectangle: {{width: 150, height: 60, corner: 3}}}}}}}}
end_b: {{socket: {{over: 100}}}}
halves: {}
"""


@pytest.mark.slow
@pytest.mark.parametrize("halves", ["{across: auto}", "{along: right, joint: {lap: {length: 10}}}", "{along: up}"])
def test_a_transition_is_parted_into_two_sound_halves(halves: str) -> None:
    text = DUCT.format(halves)
    assert len(part_of(text).bodies) == 2 and not blocking(result_of(text).findings)
    assert all(f.severity == "pass" for code in ("halves", "wall", "solid", "passage") for f in findings(text, code))


def test_a_lap_across_a_transition_is_refused_with_what_works() -> None:
    with pytest.raises(RefusalError) as error:
        part_of(DUCT.format("{across: auto, joint: {lap: {length: 10}}}"))
    assert error.value.key == "halves.joint.lap" and "bolts" in error.value.allowed
