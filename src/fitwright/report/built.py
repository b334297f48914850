"""What had been learned when a part was built: read back from its report.json, so that its print can be logged."""

from __future__ import annotations

import json
from pathlib import Path

from fitwright.spec.learned import Learned


def learned_when_built(report_file: Path) -> dict[str, Learned] | None:
    """End -> what was learned by then; None where there is no such build, or its report is damaged."""
    try:
        content = json.loads(report_file.read_bytes())
        found = content.get("learned", {})
        return {str(end): Learned(**values) for end, values in found.items()}
    except (OSError, ValueError, TypeError, AttributeError):
        return None


def changed_since(source: Path, report_file: Path) -> bool:
    """Whether the YAML was written to after the part was built from it."""
    try:
        return source.stat().st_mtime > report_file.stat().st_mtime
    except OSError:
        return False
