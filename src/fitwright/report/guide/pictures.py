"""All drawings of the measuring guide, by the name of their file."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from fitwright.drawing.sheet import Sheet
from fitwright.drawing.svg import svg_text
from fitwright.report.guide import hangers, hoses, machines, ports

FOLDER = Path("docs") / "pictures" / "measuring"
PICTURES: dict[str, Callable[[], Sheet]] = {
    "frame": machines.frame,
    "which_face": ports.which_face,
    "caliper_outside": ports.caliper_outside,
    "inside_jaws": ports.inside_jaws,
    "paper_strip": ports.paper_strip,
    "tapered_port": ports.tapered_port,
    "rectangular_port": ports.rectangular_port,
    "hose_inside": hoses.hose_inside,
    "hose_hand": hoses.hose_hand,
    "hose_over_ribs": hangers.hose_over_ribs,
    "flange_bolts": machines.flange_bolts,
    "slide_gate": machines.slide_gate,
    "cylinder": machines.cylinder,
    "thread": machines.thread,
}


def write_pictures(root: Path) -> list[Path]:
    """Draw every picture anew below the project's root; returns the files."""
    folder = root / FOLDER
    folder.mkdir(parents=True, exist_ok=True)
    files = []
    for name, draw in PICTURES.items():
        files.append(folder / f"{name}.svg")
        files[-1].write_text(svg_text(draw()), encoding="utf-8")
    return files
