"""Modules that are imported only when something of them is asked for."""

from __future__ import annotations

import subprocess
import sys

import pytest

from fitwright.later import import_later


def test_the_real_module_takes_over_when_asked(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delitem(sys.modules, "colorsys", raising=False)
    import_later("colorsys")
    import colorsys as first

    stand_in = sys.modules["colorsys"]
    assert type(stand_in).__name__ == "Later"
    assert first.rgb_to_hsv(1.0, 0.0, 0.0) == (0.0, 1.0, 1.0)
    assert type(sys.modules["colorsys"]).__name__ == "module"


def test_a_module_that_is_there_already_stays() -> None:
    import_later("sys")
    assert sys.modules["sys"] is sys


def test_what_is_not_in_the_module_is_said_as_ever(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delitem(sys.modules, "colorsys", raising=False)
    import_later("colorsys")
    with pytest.raises(ImportError):
        from colorsys import nonsense  # noqa: F401


@pytest.mark.slow
def test_the_kernel_builds_meshes_and_exports_without_all_of_vtk() -> None:
    """In a process of its own: CadQuery itself, then its own export to VTK's formats, which needs the real thing."""
    program = (
        "import sys\n"
        "from fitwright.later import import_later\n"
        "import_later('vtk')\n"
        "import cadquery\n"
        "assert type(sys.modules['vtk']).__name__ == 'Later'\n"
        "solid = cadquery.Solid.makeBox(1, 2, 3)\n"
        "assert solid.toVtkPolyData(0.1, 0.1).GetNumberOfPoints() >= 8\n"
        "import vtk\n"
        "assert vtk.vtkPoints().GetNumberOfPoints() == 0\n"
    )
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=False, timeout=120)
    assert done.returncode == 0, done.stderr
