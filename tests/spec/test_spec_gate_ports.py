"""Where the air ports look when nothing is said; a cylinder's name in the file's units."""

from __future__ import annotations

from pathlib import Path

import pytest

from fitwright.spec.gate import GateBracketSpec
from fitwright.spec.load import load_file

ALONE = """\
part: gate_bracket
units: in
gate:
  sticks_out: {{shut: 7/8, open: 4 7/8}}
  blade: {{width: 4 9/16, thickness: 1/8, hole: 1/4, hole_to_edge: 3/8}}
  body: {{width: 5 7/8, thickness: 13/16}}
  screws: {{across: 5 3/16, from_edge: 1/2, size: No. 8}}
cylinder:
  bore: 3/4
  stroke: 5
  rod: 1/4
  rod_thread: 1/4-28 UNF
  rod_thread_length: 0.62
  rod_stub: 0.9
  body: {{round: 0.9}}
  length: 7.5
{more}"""


def read(tmp_path: Path, more: str) -> GateBracketSpec:
    path = tmp_path / "gate.yaml"
    path.write_text(ALONE.format(more=more))
    (spec,) = load_file(path)
    assert isinstance(spec, GateBracketSpec)
    return spec


@pytest.mark.parametrize(
    ("more", "face"),
    [
        ("", "left"),
        ("  ports: right\n", "right"),
        ("  nose: {thread: 5/8-18 UNF, length: 0.7, nut: {across_flats: 15/16, height: 3/8}}\n", "up"),
    ],
)
def test_a_clamp_has_its_screws_above_and_the_ports_beside_it(tmp_path: Path, more: str, face: str) -> None:
    spec = read(tmp_path, more)
    assert spec.cylinder.ports_face == face
    assert ("cylinder.ports" in spec.defaulted) == (not more)


def test_its_name_is_in_inches(tmp_path: Path) -> None:
    assert read(tmp_path, "").cylinder.name == "bore 0.75 x 5 in, as measured"
