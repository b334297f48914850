"""One answer of a check."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Severity = Literal["pass", "warn", "fail"]


@dataclass(frozen=True)
class Finding:
    """What one check found at one place.

    `code` is stable (`wall`, `fit.built`, `printing.overhang`); `value` and `limit` are in `unit`
    (None where the answer is not a number); `place` says where, in the words of the YAML; `message` what was found;
    `advice` what to change (empty for a pass). Lengths are in mm here; the report converts them to the file's units.
    """

    code: str
    severity: Severity
    body: str
    value: float | None
    limit: float | None
    unit: str
    place: str
    message: str
    advice: str = ""

    @property
    def blocks(self) -> bool:
        """True where this finding stops the export of its body."""
        return self.severity == "fail"
