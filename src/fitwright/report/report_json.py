"""report.json: the manifest of a part for other programs. Lengths in mm whatever the file's units; no date, no path."""

from __future__ import annotations

import json
from dataclasses import asdict
from pathlib import Path
from typing import Any

from fitwright.finding import Finding
from fitwright.mechanism import Bought
from fitwright.report.model import BodyReport, CutReport, Report

SCHEMA_VERSION = 1


def report_json(report: Report) -> bytes:
    """UTF-8 JSON with sorted keys and rounded numbers: the same part gives the same bytes."""
    content: dict[str, Any] = {
        "schema_version": SCHEMA_VERSION,
        "part": report.part,
        "family": report.family,
        "units": report.units,
        "printer": report.printer,
        "material": report.material,
        "bodies": [_body(body) for body in report.bodies],
        "findings": [_finding(finding) for finding in report.findings],
        "facts": dict(report.facts),
        "passages_mm": {end: round(d, 3) for end, d in report.passages_mm.items()},
        "assumed": dict(report.assumed),
        "cautions": list(report.cautions),
        "files": list(report.files),
        "notes": list(report.notes),
        "tries": [{"file": one.file, "pieces": list(one.pieces)} for one in report.tries],
        "plate": report.plate.file if report.plate else None,
        "hardware": [_bought(one) for one in report.hardware],
        "exported": report.exported,
        "forced": report.forced,
    }
    if report.learned:
        content["learned"] = {end: asdict(learned) for end, learned in report.learned.items()}
    return (json.dumps(content, indent=2, sort_keys=True, ensure_ascii=False, allow_nan=False) + "\n").encode()


def listed_files(report_file: Path) -> list[str]:
    """The file names that an earlier report.json lists; none where it is missing, damaged or names other places."""
    try:
        files = json.loads(report_file.read_bytes())["files"]
    except (OSError, ValueError, KeyError, TypeError):
        return []
    return [name for name in files if _is_plain_name(name)] if isinstance(files, list) else []


def _is_plain_name(name: object) -> bool:
    return isinstance(name, str) and bool(name) and Path(name).name == name


def _body(body: BodyReport) -> dict[str, Any]:
    content: dict[str, Any] = {
        "name": body.name,
        "volume_mm3": _rounded(body.volume_mm3, 2),
        "mass_g": _rounded(body.mass_g, 2),
        "genus": body.genus,
        "bbox_mm": [_rounded(length, 3) for length in body.bbox_mm],
        "lies": body.lies,
        "blocked": body.blocked,
    }
    return content if body.cut is None else {**content, "cut": _cut(body.cut)}


def _cut(cut: CutReport) -> dict[str, Any]:
    return {
        "kind": cut.kind,
        "from": cut.words,
        "thickness_mm": _rounded(cut.thickness_mm, 3),
        "size_mm": [_rounded(length, 3) for length in cut.size_mm],
        "cut_length_mm": _rounded(cut.cut_length_mm, 2),
        "area_mm2": _rounded(cut.area_mm2, 2),
        "openings": cut.openings,
        "holes": [
            {"count": n, "d_mm": _rounded(hole.d_mm, 3), "longer_mm": _rounded(hole.long_mm, 3), "bolt": hole.bolt}
            for n, hole in cut.holes
        ],
    }


def _bought(one: Bought) -> dict[str, Any]:
    return {
        "count": one.count,
        "what": one.what,
        "long_mm": _rounded(one.long_mm, 1),
        "cut": one.cut,
        "needed": one.needed,
        "note": one.note,
    }


def _finding(finding: Finding) -> dict[str, Any]:
    return {
        "code": finding.code,
        "severity": finding.severity,
        "body": finding.body,
        "value": _rounded(finding.value, 4),
        "limit": _rounded(finding.limit, 4),
        "unit": finding.unit,
        "place": finding.place,
        "message": finding.message,
        "advice": finding.advice,
    }


def _rounded(value: float | None, digits: int) -> float | None:
    """A plain float without a negative zero; JSON has no infinity, so that becomes null."""
    if value is None or value != value or value in (float("inf"), float("-inf")):
        return None
    return round(float(value), digits) + 0.0
