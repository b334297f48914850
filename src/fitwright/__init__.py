"""Fitwright: caliper readings in YAML -> adapters that are proved to fit, then exported as STL and STEP.

    import fitwright

    [result] = fitwright.build_file("configs/pipe_to_hose.yaml", "outputs")
    print(result.report.blocked, result.files)

Names are imported when first used, because the CAD kernel takes two seconds to load.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from fitwright.errors import BuildError as BuildError
    from fitwright.errors import DataError as DataError
    from fitwright.errors import ExportError as ExportError
    from fitwright.errors import FitwrightError as FitwrightError
    from fitwright.errors import Problem as Problem
    from fitwright.errors import RefusalError as RefusalError
    from fitwright.errors import SpecError as SpecError
    from fitwright.finding import Finding as Finding
    from fitwright.part import Body as Body
    from fitwright.part import Part as Part
    from fitwright.pipeline import build_file as build_file
    from fitwright.pipeline import build_part as build_part
    from fitwright.report.model import Report as Report
    from fitwright.report.model import Result as Result
    from fitwright.spec.load import load_file as load_file
    from fitwright.spec.load import load_text as load_text

__version__ = "0.1.0"

_HOME = {
    "BuildError": "errors",
    "DataError": "errors",
    "ExportError": "errors",
    "FitwrightError": "errors",
    "Problem": "errors",
    "RefusalError": "errors",
    "SpecError": "errors",
    "Finding": "finding",
    "Body": "part",
    "Part": "part",
    "build_file": "pipeline",
    "build_part": "pipeline",
    "Report": "report.model",
    "Result": "report.model",
    "load_file": "spec.load",
    "load_text": "spec.load",
}
__all__ = ["__version__", *sorted(_HOME)]  # noqa: PLE0604  # the keys above are the names


def __getattr__(name: str) -> Any:
    if name not in _HOME:
        raise AttributeError(f"module 'fitwright' has no attribute '{name}'")
    return getattr(import_module(f"fitwright.{_HOME[name]}"), name)


def __dir__() -> list[str]:
    return __all__
