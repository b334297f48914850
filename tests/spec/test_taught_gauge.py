"""A gauge and a joint of the same allowance are modelled alike, also where prints taught something."""

from __future__ import annotations

from pathlib import Path

import pytest

from fitwright.parts.gauge_pieces import size_mm
from fitwright.spec.gauge_of_end import gauge_of_end
from fitwright.spec.load import load_file
from fitwright.spec.models import FitGaugeSpec
from fitwright.spec.printed import modelled_at

PART = "part: reducer\nend_a: {socket: {over: 60, allowance: 0.4}}\nend_b: {hose_tail: {hose_inside: 50}}\n"
LOG = """prints:
  - {date: 2026-11-02, part: saw, end: end_a, printer: generic_220, material: PETG, joint: socket, fit: slide,
     bought: 60, wanted: 60.42, modelled: 60.42, readings: [60.12, 60.12, 60.12]}
  - {date: 2026-11-02, part: saw, end: end_b, printer: generic_220, material: PETG, joint: hose_tail, fit: hose,
     bought: 50, wanted: 49.5, modelled: 49.5, readings: [49.7, 49.7, 49.7], went: tight}
"""


def written(folder: Path, name: str, text: str) -> FitGaugeSpec:
    (folder / f"{name}.yaml").write_text(text)
    (spec,) = load_file(folder / f"{name}.yaml")
    assert isinstance(spec, FitGaugeSpec)
    return spec


@pytest.mark.parametrize("log", [LOG, ""])
def test_a_ring_is_modelled_as_the_socket_of_its_mark(tmp_path: Path, log: str) -> None:
    (tmp_path / "saw.yaml").write_text(PART)
    if log:
        (tmp_path / "prints.yaml").write_text(log)
    (part,) = load_file(tmp_path / "saw.yaml")
    joint = part.ends["end_a"].socket
    assert joint is not None
    wanted = modelled_at(joint, 5.0, part.printer)
    assert (wanted > 60.5) == bool(log)
    alone = written(tmp_path, "ring", "part: fit_gauge\nrings: {over: 60}\nstep: 0.2\nsteps: 5\n")
    for gauge in (gauge_of_end(part, "end_a", 5, 0.2), alone):
        (step,) = (one for one in gauge.steps if one.mark == "0.4")
        assert size_mm(step, "hole", gauge) == pytest.approx(wanted, abs=1e-6)


def test_a_gauge_is_made_round_what_prints_taught(tmp_path: Path) -> None:
    (tmp_path / "saw.yaml").write_text(PART)
    (plain,) = load_file(tmp_path / "saw.yaml")
    (tmp_path / "prints.yaml").write_text(LOG)
    (taught,) = load_file(tmp_path / "saw.yaml")
    before, after = (gauge_of_end(one, "end_b").steps[3] for one in (plain, taught))
    assert float(before.mark) == 0.5
    assert float(after.mark) > 0.5  # the hose went on tight: looser is tried


def test_a_set_that_measures_the_printer_stays_as_marked(tmp_path: Path) -> None:
    (tmp_path / "prints.yaml").write_text(LOG)
    gauge = written(tmp_path, "set", "part: fit_gauge\nsizes: [20, 60]\n")
    assert gauge.learned is None
    assert [size_mm(one, "hole", gauge) for one in gauge.steps] == [20.0, 60.0]
