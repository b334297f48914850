"""Text and JSON of a hose run's answer, and what of an earlier run lies in its folder."""

from __future__ import annotations

import json
import math
import textwrap
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from fitwright.finding import Finding
from fitwright.report.hose_run.say import RunAnswer

WIDE = 118
SCHEMA_VERSION = 1
WORDS = {"pass": "ok", "warn": "warns", "fail": "BLOCKS"}
CAUTIONS = (
    "A hose that hangs over people or a cutter gets a second fixing that does not depend on the first; local rules"
    " have the last word.",
    "Before the machine moves by itself, take the head by hand into every corner and look at the hose.",
)


def told_text(answer: RunAnswer) -> str:
    """What the terminal shows: headline, tables, findings that are not good, and whether it works."""
    lines = [*textwrap.wrap(answer.headline, WIDE)]
    for table in answer.tables:
        lines += ["", *table.lines()]
    lines += ["", *_findings(answer)]
    return "\n".join(lines)


def report_text(answer: RunAnswer) -> str:
    """The whole report."""
    lines = [told_text(answer), ""]
    if answer.run.assumed:
        lines += ["Taken where the file says nothing:"]
        lines += [f"  {key}: {value}" for key, value in answer.run.assumed.items()]
        lines += [""]
    lines += ["What this reckons with:"]
    for words in (*answer.limits, *CAUTIONS):
        lines += textwrap.wrap(words, WIDE, initial_indent="  - ", subsequent_indent="    ")
    return "\n".join(lines) + "\n"


def report_json(answer: RunAnswer) -> str:
    """For programs: lengths in mm, forces in N, heights as the file counts them."""
    run = answer.run
    told: dict[str, Any] = {
        "schema_version": SCHEMA_VERSION,
        "hose_run": run.kind,
        "name": run.name,
        "units": run.units,
        "hose": {
            "over_mm": run.hose.over_mm,
            "inside_mm": run.hose.inside_mm,
            "least_radius_mm": run.hose.radius_mm,
            "empty_n_per_m": 1000.0 * run.hose.empty_n_mm,
            "full_n_per_m": 1000.0 * run.hose.full_n_mm,
        },
        **answer.numbers,
        "findings": [_as_map(one) for one in answer.findings],
        "assumed": run.assumed,
        "good": answer.good,
    }
    return json.dumps(_finite(told), indent=1, ensure_ascii=False, allow_nan=False) + "\n"


def _findings(answer: RunAnswer) -> Iterator[str]:
    """Blocks first, then warnings, then what is good."""
    order = ("fail", "warn", "pass")
    for one in sorted(answer.findings, key=lambda each: order.index(each.severity)):
        said = f"{WORDS[one.severity]} {one.code}: {one.message}"
        yield from textwrap.wrap(said, WIDE, subsequent_indent="  ")
        if one.advice:
            yield from textwrap.wrap(one.advice, WIDE, initial_indent="  > ", subsequent_indent="    ")
    yield "" if answer.findings else "nothing was judged"
    yield "the run works" if answer.good else "the run does not work as it is"


def _as_map(one: Finding) -> dict[str, Any]:
    return {
        "code": one.code,
        "severity": one.severity,
        "value": one.value,
        "limit": one.limit,
        "unit": one.unit,
        "place": one.place,
        "message": one.message,
        "advice": one.advice,
    }


def _finite(value: Any) -> Any:
    """Rounded to a millionth, so that the file is the same everywhere; what has no end is null."""
    if isinstance(value, float):
        return round(value, 6) + 0.0 if math.isfinite(value) else None
    if isinstance(value, dict):
        return {key: _finite(one) for key, one in value.items()}
    return [_finite(one) for one in value] if isinstance(value, list | tuple) else value


def file_names(name: str) -> tuple[str, str, str]:
    """Picture, text and JSON."""
    return f"{name}.png", "report.txt", "report.json"


def earlier_files(folder: Path) -> list[str]:
    """Names that an earlier report of a part in the same folder lists, which would look current."""
    try:
        held = json.loads((folder / "report.json").read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return []
    files = held.get("files", []) if isinstance(held, dict) else []
    return [one for one in files if isinstance(one, str) and "/" not in one]
