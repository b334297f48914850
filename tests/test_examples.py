"""Every example, whole: built twice by the command, its files opened again by the libraries that read such files.

Also what README and docs show: YAML that is to be copied must load, commands must exist.
"""

from __future__ import annotations

import json
import os
import re
import subprocess
import sys
import textwrap
from pathlib import Path
from typing import Any

import cadquery as cq
import ezdxf
import ezdxf.math
import ezdxf.path
import jsonschema
import numpy as np
import pytest
import trimesh
import yaml
from PIL import Image

from fitwright.checks import CODES
from fitwright.cli.main import parser
from fitwright.cli.paths import yaml_files
from fitwright.part import Body
from fitwright.parts import BUILDERS
from fitwright.spec.load import load_file, load_text
from fitwright.spec.models import PartBase
from fitwright.spec.nodes import read

from .whole import result_of

ROOT = Path(__file__).parents[1]
CONFIGS = sorted([*(ROOT / "configs").glob("*.yaml"), ROOT / "configs" / "birch_lane" / "dust_port.yaml"])
MUST_FAIL = sorted((ROOT / "configs" / "must_fail").glob("*.yaml"))
REFUSED = [path for path in MUST_FAIL if path.stem in ("gate_stroke", "acrylic_plate")]
"""These get no further than their numbers."""
PAGES = [ROOT / "README.md", *sorted(ROOT.glob("docs/**/*.md"))]

TEXT, TEXTS = {"type": "string"}, {"type": "array", "items": {"type": "string"}}
NUMBER, MAYBE = {"type": "number"}, {"type": ["number", "null"]}


def with_keys(**keys: Any) -> dict[str, Any]:
    """An object that has these keys; further ones may come without breaking who reads it."""
    return {"type": "object", "properties": keys, "required": list(keys)}


REPORT = with_keys(
    schema_version={"const": 1},
    part=TEXT,
    family={"enum": sorted(BUILDERS)},
    units={"enum": ["mm", "in"]},
    printer=TEXT,
    material=TEXT,
    bodies={
        "type": "array",
        "minItems": 1,
        "items": with_keys(
            name=TEXT,
            volume_mm3={"type": "number", "exclusiveMinimum": 0},
            mass_g={"type": "number", "exclusiveMinimum": 0},
            genus={"type": "integer", "minimum": 0},
            bbox_mm={"type": "array", "items": NUMBER, "minItems": 3, "maxItems": 3},
            lies=TEXT,
            blocked={"type": "boolean"},
        ),
    },
    findings={
        "type": "array",
        "minItems": 1,
        "items": with_keys(
            code=TEXT,
            severity={"enum": ["pass", "warn", "fail"]},
            body=TEXT,
            value=MAYBE,
            limit=MAYBE,
            unit=TEXT,
            place=TEXT,
            message={"type": "string", "minLength": 1},
            advice=TEXT,
        ),
    },
    plate={"type": ["string", "null"]},
    tries={"type": "array", "items": with_keys(file=TEXT, pieces=TEXTS)},
    facts={"type": "object", "additionalProperties": TEXT},
    assumed={"type": "object", "additionalProperties": TEXT},
    cautions=TEXTS,
    files=TEXTS,
    notes=TEXTS,
    exported={"type": "boolean"},
    forced={"type": "boolean"},
)
"""What report.json promises to other programs."""


def fitwright(*arguments: object, seed: int = 0) -> subprocess.Popen[str]:
    """The command in a process of its own; `seed` shuffles what Python leaves to chance."""
    words = [sys.executable, "-m", "fitwright", *map(str, arguments)]
    environment = {**os.environ, "PYTHONHASHSEED": str(seed)}
    return subprocess.Popen(words, env=environment, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)


def finished(process: subprocess.Popen[str]) -> tuple[int, str]:
    """Exit code, and all that was said."""
    out, err = process.communicate(timeout=600)
    return process.returncode, out + err


ANALYSED = ("pipe_to_hose", "blank_flange", "hanger_saddle")
"""Built with their strength, which takes most of the time; the others leave it out."""


@pytest.mark.slow
@pytest.mark.parametrize("path", CONFIGS, ids=lambda path: path.stem)
def test_an_example(path: Path, tmp_path: Path) -> None:
    quick = [] if path.stem in ANALYSED else ["--quick"]
    runs = [fitwright("build", path, "-o", tmp_path / str(seed), "-j", 1, *quick, seed=seed) for seed in (1, 2)]
    for code, said in map(finished, runs):
        assert code == 0, said
        assert re.search("good to (print|cut)", said) and "BLOCKS" not in said and "Traceback" not in said
    for spec in load_file(path):
        folder, again = (tmp_path / seed / spec.name for seed in ("1", "2"))
        report = reported(folder)
        same_bytes(folder, again)
        assert report["exported"] and not report["forced"] and report["bodies"]
        for body in report["bodies"]:
            assert not body["blocked"]
            stem = spec.name if len(report["bodies"]) == 1 else f"{spec.name}_{body['name']}"
            if (folder / f"{stem}.dxf").exists():  # cut from sheet: a drawing in place of the mesh
                assert not (folder / f"{stem}.stl").exists()
                dxf_is_the_same_piece(folder / f"{stem}.dxf", declared_body(spec, body))
                continue
            stl_is_one_volume(folder / f"{stem}.stl", spec, body)
            step_is_the_same_solid(folder / f"{stem}.step", stem, body["volume_mm3"])
        if spec.part == "fit_gauge":  # it is itself what is tried before the part
            assert not report["tries"]
            plate_fits(folder, report, spec)
        elif spec.part == "gate_bracket":  # tried on paper: its holes stand on the template at true size
            assert not report["tries"] and (folder / f"{spec.name}_template.pdf").read_bytes().startswith(b"%PDF")
            for sheet in ("assembly", "commissioning", "cut_list"):
                assert len((folder / f"{spec.name}_{sheet}.txt").read_text(encoding="utf-8").splitlines()) > 20
        elif spec.part == "flange_plate":  # what is printed has a try-print; what is cut, a template and a cut list
            printed = [body for body in BUILDERS[spec.part](spec).bodies if body.stock is None]
            assert bool(report["tries"]) == bool(printed)
            assert (folder / f"{spec.name}_template.pdf").read_bytes().startswith(b"%PDF")
        else:
            try_print_fits(folder / f"{spec.name}_try.stl", spec)
        picture_opens(folder / f"{spec.name}.png")
        assert spec.name in (folder / "report.txt").read_text(encoding="utf-8")


def reported(folder: Path) -> Any:
    """report.json, once it is proved to be as documented and to list the folder."""
    report = json.loads((folder / "report.json").read_bytes())
    faults = [
        f"{fault.json_path}: {fault.message[:200]}"
        for fault in jsonschema.Draft202012Validator(REPORT).iter_errors(report)
    ]
    assert not faults
    assert report["files"] == sorted(file.name for file in folder.iterdir())
    return report


def same_bytes(one: Path, other: Path) -> None:
    assert sorted(f.name for f in one.iterdir()) == sorted(f.name for f in other.iterdir())
    for file in one.iterdir():
        assert file.read_bytes() == (other / file.name).read_bytes(), f"{file.name} differs between two processes"


def declared_body(spec: PartBase, body: Any) -> Body:
    bodies = BUILDERS[spec.part](spec).bodies
    return next(one for one in bodies if len(bodies) == 1 or one.name == body["name"])


def dxf_is_the_same_piece(file: Path, declared: Body) -> None:
    """Read from disk by ezdxf: in mm, closed lines, as many as were declared; their area x thickness is the volume."""
    drawing = ezdxf.readfile(file)
    assert drawing.header["$INSUNITS"] == 4
    area, lines = 0.0, 0
    for entity in drawing.modelspace():
        if entity.dxf.layer not in ("outline", "openings", "bolt holes"):
            continue
        points = list(ezdxf.path.make_path(entity).flattening(0.001))
        assert points[0].isclose(points[-1], abs_tol=1e-6)
        area += (1 if entity.dxf.layer == "outline" else -1) * abs(ezdxf.math.area(points))
        lines += 1
    assert declared.stock is not None and declared.volume_mm3 is not None
    assert lines == 1 + declared.genus
    # its paths draw arcs as Bezier curves, 0.03 % off
    assert area * declared.stock.thickness_mm == pytest.approx(declared.volume_mm3, rel=1e-3)


def stl_is_one_volume(file: Path, spec: PartBase, body: Any) -> None:
    """Read from disk: closed, one piece, the genus that the family declares, the report's volume, lying on the bed."""
    mesh = trimesh.load_mesh(file)
    assert mesh.is_watertight and mesh.is_winding_consistent and mesh.is_volume
    parts = trimesh.graph.connected_component_labels(mesh.face_adjacency, node_count=len(mesh.faces))
    assert parts.max() == 0
    declared = declared_body(spec, body)
    assert (2 - mesh.euler_number) // 2 == declared.genus == body["genus"]
    thin = spec.part == "fit_gauge"  # walls of three lines: the mesh's chord is a larger share of them
    assert mesh.volume == pytest.approx(body["volume_mm3"], rel=2e-3 if thin else 1e-3)
    assert mesh.bounds[0][2] == pytest.approx(0.0, abs=1e-6)
    assert mesh.extents[2] <= spec.printer.bed_z_mm


def step_is_the_same_solid(file: Path, name: str, volume_mm3: float) -> None:
    """Read from disk: one valid solid, in mm, named, of the report's volume."""
    solids = cq.importers.importStep(str(file)).solids().vals()
    assert len(solids) == 1 and solids[0].isValid()
    assert solids[0].Volume() == pytest.approx(volume_mm3, rel=1e-4)
    text = file.read_text(encoding="utf-8")
    assert "SI_UNIT(.MILLI.,.METRE.)" in text
    assert re.findall(r"PRODUCT\('([^']*)'", text) == [name]


def try_print_fits(file: Path, spec: PartBase) -> None:
    mesh = trimesh.load_mesh(file)
    assert mesh.is_watertight and mesh.volume > 0
    assert mesh.extents[0] <= spec.printer.bed_x_mm and mesh.extents[1] <= spec.printer.bed_y_mm
    assert mesh.bounds[0][2] == pytest.approx(0.0, abs=1e-6)


def plate_fits(folder: Path, report: Any, spec: PartBase) -> None:
    """Several pieces also lie on one bed: as many closed pieces of the same volume, apart."""
    assert bool(report["plate"]) == (len(report["bodies"]) > 1)
    if report["plate"]:
        try_print_fits(folder / report["plate"], spec)
        mesh = trimesh.load_mesh(folder / report["plate"])
        parts = trimesh.graph.connected_component_labels(mesh.face_adjacency, node_count=len(mesh.faces))
        assert parts.max() + 1 == len(report["bodies"])
        assert mesh.volume == pytest.approx(sum(body["volume_mm3"] for body in report["bodies"]), rel=2e-3)


def picture_opens(file: Path) -> None:
    with Image.open(file) as picture:
        picture.load()
        assert picture.format == "PNG" and picture.width >= 800
        colours = picture.convert("RGB").getcolors(1 << 24)
        assert colours and len(colours) > 20  # something is drawn on it


BLOCKED = {
    "under_a_low_shelf": ("clearance", "low shelf", 3.0),
    "hanger_throat": ("hanger.throat", "does not go through", None),
    "crushed_tail": ("strength.ring", "crush it", 1.5),
    "flat_on_a_vacuum": ("strength.ring", "a shop vacuum pulls with 20 kPa", 1.5),
}
"""File -> the check that blocks it, words of what it says, and its limit where the YAML gives it."""


@pytest.mark.slow
@pytest.mark.parametrize("path", [path for path in MUST_FAIL if path not in REFUSED], ids=lambda path: path.stem)
def test_an_example_that_must_fail(path: Path, tmp_path: Path) -> None:
    check, words, limit = BLOCKED[path.stem]
    code, said = finished(fitwright("build", path, "-o", tmp_path, "--quick"))
    assert code == 1 and f"BLOCKS {check}" in said and "not exported" in said
    for spec in load_file(path):
        folder = tmp_path / spec.name
        assert not [file.name for file in folder.iterdir() if file.suffix in (".stl", ".step")]
        report = reported(folder)
        assert not report["exported"] and report["bodies"][0]["blocked"]
        (blocks,) = (f for f in report["findings"] if f["severity"] == "fail")
        assert blocks["code"] == check and words in blocks["message"] and blocks["advice"]
        assert blocks["value"] < blocks["limit"] and limit in (None, blocks["limit"])
        text = " ".join((folder / "report.txt").read_text(encoding="utf-8").split())
        assert "not exported" in text and words in text


def test_a_stroke_that_is_too_short_is_refused_with_the_one_to_buy(tmp_path: Path) -> None:
    path = next(one for one in REFUSED if one.stem == "gate_stroke")
    code, said = finished(fitwright("build", path, "-o", tmp_path))
    assert code == 2 and "a stroke of 100 mm for a travel of 106 mm" in said and "a stroke of 125 mm" in said
    assert not list(tmp_path.rglob("*.stl"))


def test_acrylic_on_holes_too_near_its_edge_is_refused(tmp_path: Path) -> None:
    path = next(one for one in REFUSED if one.stem == "acrylic_plate")
    code, said = finished(fitwright("build", path, "-o", tmp_path))
    assert code == 2 and "10 mm from its centre to the edge" in said and "11 mm or more (2 hole diameters" in said
    assert not list(tmp_path.rglob("*.dxf"))


def test_a_folder_leaves_out_what_must_fail(tmp_path: Path) -> None:
    assert yaml_files([ROOT / "configs"]) == CONFIGS


def test_the_examples_keep_to_the_published_schema() -> None:
    published = json.loads((ROOT / "docs" / "fitwright.schema.json").read_text(encoding="utf-8"))
    checker = jsonschema.Draft202012Validator(published)
    for path in (*CONFIGS, *MUST_FAIL):
        checker.validate(yaml.safe_load(path.read_text(encoding="utf-8")))


def test_every_example_is_listed() -> None:
    page = (ROOT / "configs" / "README.md").read_text(encoding="utf-8")
    for path in CONFIGS:
        assert f"`{path.name}`" in page, path.name


@pytest.mark.slow
def test_a_bore_of_100_mm_is_round_within_two_hundredths(tmp_path: Path) -> None:
    (tmp_path / "bore.yaml").write_text(
        "part: reducer\nlength: 60\nend_a: {plain: {inside: 100}}\nend_b: {plain: {inside: 100}}\n"
    )
    code, said = finished(fitwright("build", tmp_path / "bore.yaml", "-o", tmp_path))
    assert code == 0, said
    mesh = trimesh.load_mesh(tmp_path / "bore" / "bore.stl")
    centre = mesh.bounds.mean(axis=0)
    cut = trimesh.intersections.mesh_plane(mesh, (0, 0, 1), (*centre[:2], 30.0))[:, :, :2] - centre[:2]
    corners, middles = np.linalg.norm(cut, axis=2).ravel(), np.linalg.norm(cut.mean(axis=1), axis=1)
    radii = np.concatenate([corners, middles])
    bore = radii[radii < 51.0]
    assert len(bore) > 100
    assert bore.max() - bore.min() <= 0.02
    assert 2 * bore.max() <= 100.02 and 2 * bore.min() >= 99.98


def snippets(page: Path, language: str) -> list[str]:
    """The fenced blocks of one language."""
    return re.findall(rf"^```{language}\n(.*?)^```", page.read_text(encoding="utf-8"), re.MULTILINE | re.DOTALL)


YAML = [(page.relative_to(ROOT), text) for page in PAGES for text in snippets(page, "yaml")]


@pytest.mark.parametrize(("page", "text"), YAML, ids=[f"{page}-{k}" for k, (page, _) in enumerate(YAML)])
def test_yaml_that_is_shown_can_be_copied(page: Path, text: str) -> None:
    """A whole file loads; lines to change within one (no `part`) read as YAML without a fault."""
    if re.search(r"^\s*-?\s*\{?parts?:", text, re.MULTILINE):
        assert load_text(text, str(page))
    else:
        assert not read(textwrap.dedent(text), str(page)).faults


CHECK_PAGES = [(page.stem, text) for page in PAGES if page.parent.name == "checks" for text in snippets(page, "yaml")]


@pytest.mark.parametrize(("code", "text"), CHECK_PAGES, ids=[code for code, _ in CHECK_PAGES])
def test_what_a_checks_page_shows_is_stopped_by_that_check(code: str, text: str) -> None:
    found = [f for f in result_of(text).findings if f.severity != "pass"]
    assert found and all(f.code.startswith(code) and f.advice for f in found)


def test_every_check_has_a_page_and_a_line() -> None:
    index = (ROOT / "docs" / "checks" / "README.md").read_text(encoding="utf-8")
    for code in CODES:
        assert (ROOT / "docs" / "checks" / f"{code}.md").is_file() and f"[`{code}" in index


@pytest.mark.slow
def test_the_readmes_first_part_builds(tmp_path: Path) -> None:
    (text,) = snippets(ROOT / "README.md", "yaml")
    (tmp_path / "first.yaml").write_text(text)
    code, said = finished(fitwright("check", tmp_path / "first.yaml"))
    assert code == 0 and "good to print" in said, said


def commands() -> dict[str, Any]:
    """Command -> its argument parser."""
    (chosen,) = (action for action in parser()._actions if hasattr(action, "choices") and action.dest == "command")
    return dict(chosen.choices or {})


@pytest.mark.parametrize("page", PAGES, ids=lambda page: str(page.relative_to(ROOT)))
def test_commands_that_are_shown_exist(page: Path) -> None:
    known = commands()
    shown = re.findall(r"(?:^|[`/ ])fitwright (\S+)([^`\n]*)", "\n".join(shown_code(page)), re.MULTILINE)
    for command, rest in shown:
        assert command in known, f"{page.name}: fitwright {command}"
        options = {option for action in known[command]._actions for option in action.option_strings}
        for option in re.findall(r"(?<!\S)\[?(--?[a-z][a-z-]*)", rest):
            assert option in options, f"{page.name}: fitwright {command} {option}"


def shown_code(page: Path) -> list[str]:
    text = page.read_text(encoding="utf-8")
    return [*snippets(page, "sh"), *re.findall(r"`(fitwright [a-z][^`]*)`", text)]


def test_the_readme_shows_every_command() -> None:
    shown = "\n".join(shown_code(ROOT / "README.md"))
    assert all(f"fitwright {command}" in shown for command in commands())


@pytest.mark.parametrize("page", PAGES, ids=lambda page: str(page.relative_to(ROOT)))
def test_links_lead_somewhere(page: Path) -> None:
    text = page.read_text(encoding="utf-8")
    for link in re.findall(r"\]\(([^)#]+)\)", text):
        if not link.startswith("http"):
            assert (page.parent / link).exists(), f"{page.name}: {link}"
