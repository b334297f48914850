"""The house rules, held by reading the source: who imports whom, how long things are, what the light commands load."""

from __future__ import annotations

import ast
import json
import statistics
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

import fitwright
from fitwright.cli.main import parser

SOURCE = Path(fitwright.__file__).parent
FREE = {
    "errors",
    "later",
    "units",
    "finding",
    "tolerances",
    "frame",
    "place",
    "outline",
    "arcs",
    "corners",
    "section",
    "mechanism",
    "flat",
    "loads",
    "airway",
    "hanging",
    "outline_union",
    "outline_forms",
}
"""Plain words and numbers that every level may use, each other included."""
LEVELS = [
    FREE,
    {"data", "physics", "measure", "shapes", "drawing"},
    {"spec", "part"},
    {"settled", "rims", "ruled_faces", "cut_faces"},
    {"edge_points", "torus", "turned_faces"},
    {"round_faces"},
    {"tessellation"},
    {"mesh", "mesh_distance", "envelope_mesh"},
    {"printing"},
    {"pose", "packing"},
    {"parts", "checks", "export"},
    {"report"},
    {"begun"},
    {"pipeline"},
    {"part_job"},
    {"worker_process"},
    {"worker"},
    {"cli"},
]
HEAVY = ("cadquery", "OCP", "vtk", "vtkmodules", "trimesh", "scipy", "manifold3d", "fluids")


def modules() -> list[Path]:
    return sorted(path for path in SOURCE.rglob("*.py") if path.parent != SOURCE or not path.stem.startswith("__"))


def noun(path: Path) -> str:
    return path.relative_to(SOURCE).parts[0].removesuffix(".py")


def imported_nouns(path: Path) -> Iterator[tuple[str, int]]:
    """The first step below `fitwright` of every import, wherever it stands, with its line."""
    inside = path.relative_to(SOURCE).parts[:-1]
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        names: list[str] = []
        if isinstance(node, ast.Import):
            names = [alias.name for alias in node.names]
        elif isinstance(node, ast.ImportFrom):
            base = ["fitwright", *inside[: len(inside) - node.level + 1]] if node.level else []
            dotted = ".".join([*base, *([node.module] if node.module else [])])
            names = [f"{dotted}.{alias.name}" for alias in node.names] if dotted == "fitwright" else [dotted]
        for name in names:
            steps = name.split(".")
            if steps[0] == "fitwright" and len(steps) > 1 and not steps[1].startswith("__"):
                yield steps[1], node.lineno


def level(name: str) -> int:
    found = [number for number, names in enumerate(LEVELS) if name in names]
    assert found, f"'{name}' has no level: give it one in tests/test_architecture.py"
    return found[0]


@pytest.mark.parametrize("path", modules(), ids=lambda path: str(path.relative_to(SOURCE)))
def test_imports_point_downwards(path: Path) -> None:
    own = noun(path)
    for other, line in imported_nouns(path):
        allowed = other == own or other in FREE or level(other) < level(own)
        assert allowed, f"{path.name}:{line}: {own} must not import {other}"


def test_files_and_functions_stay_short() -> None:
    lengths = {}
    for path in modules():
        text = path.read_text(encoding="utf-8")
        assert text.count("\n") <= 400, f"{path} is over 400 lines: split it by noun"
        for node in ast.walk(ast.parse(text)):
            if isinstance(node, ast.FunctionDef):
                lengths[f"{path.name}:{node.name}"] = (node.end_lineno or 0) - node.lineno + 1
    assert statistics.median(lengths.values()) <= 12
    long = sorted(name for name, length in lengths.items() if length > 40)
    assert len(long) <= 0.1 * len(lengths), long


def test_the_pipeline_fits_on_one_page() -> None:
    assert (SOURCE / "pipeline.py").read_text(encoding="utf-8").count("\n") <= 120


def test_no_printing_and_no_exit_outside_the_command_line() -> None:
    for path in modules():
        if noun(path) == "cli":
            continue
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
                assert node.func.id not in {"print", "exit", "eval", "exec"}, f"{path}:{node.lineno}"


def test_public_names_are_there_and_spelled_out() -> None:
    for name in fitwright.__all__:
        assert getattr(fitwright, name) is not None
    for line in (SOURCE / "__init__.py").read_text(encoding="utf-8").splitlines():
        if line.startswith("    from fitwright."):
            assert line.rsplit(" ", 1)[1] in fitwright.__all__
    with pytest.raises(AttributeError):
        _ = fitwright.nonsense


def test_every_command_and_option_has_help() -> None:
    [commands] = [action for action in parser()._actions if hasattr(action, "choices") and action.choices]
    described = {choice.dest: choice.help for choice in commands._choices_actions}
    assert set(described) == set(commands.choices)
    for name, command in commands.choices.items():
        assert described[name]
        for action in command._actions:
            assert action.help, f"{name} {action.dest}"


BAD_YAML = "part: reducer\nend_a: {socket: {diameter: 107}}\nend_b: {hose_tail: {hose_inside: 100}}\nwal: 3\n"


@pytest.mark.parametrize(
    ("arguments", "code"),
    [
        (["--help"], 0),
        (["--version"], 0),
        (["new", "reducer"], 0),
        (["sizes", "4 in"], 0),
        (["build", "bad.yaml"], 2),
        (["check", "bad.yaml"], 2),
        (["template", "bad.yaml"], 2),
        (["build", "missing.yaml"], 2),
        (["log", "good.yaml", "--end", "end_a", "--read", "60.4", "--went", "right"], 0),
        (["log", "good.yaml", "--show"], 0),
        (["hose", "run.yaml"], 0),
    ],
    ids=str,
)
def test_light_commands_load_no_kernel(arguments: list[str], code: int, tmp_path: Path) -> None:
    (tmp_path / "bad.yaml").write_text(BAD_YAML)
    (tmp_path / "run.yaml").write_text("hose_run: row\nhose: {over_ribs: 108}\ncount: 3\nspacing: 1200\n")
    (tmp_path / "good.yaml").write_text(BAD_YAML.replace("diameter: 107", "over: 60").replace("wal", "wall"))
    program = (
        "import sys, json\n"
        "from fitwright.cli.main import main\n"
        "try:\n    code = main(sys.argv[1:])\n"
        "except SystemExit as stop:\n    code = stop.code\n"
        "print(json.dumps([code or 0, sorted({name.partition('.')[0] for name in sys.modules})]))\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", program, *arguments],
        cwd=tmp_path,
        capture_output=True,
        text=True,
        check=False,
        timeout=60,
    )
    assert done.returncode == 0, done.stderr
    answered, loaded = json.loads(done.stdout.splitlines()[-1])
    assert answered == code
    assert not set(HEAVY) & set(loaded)
    assert "Traceback" not in done.stderr
