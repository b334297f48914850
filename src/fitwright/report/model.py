"""What a build answers: plain words and numbers, no shapes, so that it travels between processes without a kernel."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path

from fitwright.finding import Finding
from fitwright.flat import FlatHole
from fitwright.mechanism import Bought
from fitwright.spec.learned import Learned
from fitwright.units import Units


@dataclass(frozen=True)
class CutReport:
    """What a body is cut from and how large it is as a flat drawing, by closed forms; lengths in mm.

    `size_mm`: width and height of the smallest sheet that it lies on as drawn. `holes`: how many of each kind.
    """

    kind: str
    words: str
    thickness_mm: float
    size_mm: tuple[float, float]
    cut_length_mm: float
    area_mm2: float
    openings: int
    holes: tuple[tuple[int, FlatHole], ...]


@dataclass(frozen=True)
class BodyReport:
    """One body: measured on its finished mesh, in part coordinates; `lies` says how to put it on the bed.

    `cut`: what there is to say of one that is cut from sheet and not printed.
    """

    name: str
    volume_mm3: float
    mass_g: float
    genus: int
    bbox_mm: tuple[float, float, float]
    lies: str
    blocked: bool
    cut: CutReport | None = None


@dataclass(frozen=True)
class TryReport:
    """One try-print plate: its file, the pieces on it, what it takes."""

    file: str
    pieces: tuple[str, ...]
    mass_g: float
    time: str


@dataclass(frozen=True)
class Report:
    """Everything that the terminal, report.json and report.txt say about one part.

    `files` are names inside the part's own folder. `exported` is False where STL and STEP of at least one body were
    held back; `forced` is True where a blocked body was written all the same. `notes` are remarks on the files.
    `settings` says how to set the printer; `passages_mm` is the passage's diameter at each end. `plate` is the one
    file of all bodies that are printed in one go, None where each is printed alone.
    """

    part: str
    family: str
    units: Units
    printer: str
    material: str
    bodies: tuple[BodyReport, ...]
    findings: tuple[Finding, ...]
    facts: Mapping[str, str]
    assumed: Mapping[str, str]
    cautions: tuple[str, ...]
    files: tuple[str, ...] = ()
    exported: bool = False
    forced: bool = False
    notes: tuple[str, ...] = ()
    tries: tuple[TryReport, ...] = ()
    settings: str = ""
    passages_mm: Mapping[str, float] = field(default_factory=dict)
    learned: Mapping[str, Learned] = field(default_factory=dict)
    """What earlier prints taught about each end, where they did."""
    plate: TryReport | None = None
    hardware: tuple[Bought, ...] = ()
    """What is bought for it, and cut to length."""

    @property
    def printed(self) -> tuple[BodyReport, ...]:
        """The bodies that are printed."""
        return tuple(body for body in self.bodies if body.cut is None)

    @property
    def blocked(self) -> bool:
        """True where a check stops the export of at least one body."""
        return any(finding.blocks for finding in self.findings)

    @property
    def worst_first(self) -> tuple[Finding, ...]:
        """Blocking findings first, then warnings, then passes; otherwise in the order of the checks."""
        order = ("fail", "warn", "pass")
        return tuple(sorted(self.findings, key=lambda finding: order.index(finding.severity)))


@dataclass(frozen=True)
class Result:
    """The answer of one build: the report, the files written (full paths), the findings."""

    report: Report
    files: tuple[Path, ...]
    findings: tuple[Finding, ...]
