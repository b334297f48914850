"""Defaults, files of several parts, all errors at once, and what a whole part must make sense as."""

from __future__ import annotations

import pickle
import subprocess
import sys

import pytest
from yaml_cases import HOSE_END, MINIMUM, PIPE_END, end_a, loaded, only, refused

from fitwright.errors import SpecError
from fitwright.spec.grammar.parts import slug
from fitwright.spec.load import load_file, load_text
from fitwright.spec.models import OffsetAdapterSpec, ReducerSpec

OFFSET = f"part: offset_adapter\noffset: {{right: 20, up: 60}}\n{PIPE_END}{HOSE_END}"


def test_three_lines_are_a_reducer_with_the_documented_defaults() -> None:
    """Depth 0.4 D within 25-60; wall 2.4 in whole lines of 0.42; tail wall 3.2, bead 1.0; taper 0.5 deg over 80 mm."""
    spec = loaded(MINIMUM, "some/where/Saw inlet.yaml")
    assert isinstance(spec, ReducerSpec)
    assert (spec.name, spec.units, spec.source_file) == ("saw-inlet", "mm", "some/where/Saw inlet.yaml")
    assert spec.wall_mm == pytest.approx(6 * 0.42)
    socket, tail = spec.end_a.joint, spec.end_b.joint
    assert socket == spec.end_a.socket and tail == spec.end_b.hose_tail
    assert spec.end_a.socket and spec.end_b.hose_tail
    assert spec.end_a.socket.depth_mm == pytest.approx(0.4 * 107.1)
    assert (spec.end_a.socket.taper_deg, spec.end_a.socket.stop_mm, spec.end_a.socket.fit) == (0.5, 1.0, "snug")
    assert spec.end_a.socket.lead_in_mm == pytest.approx(0.8)
    tail = spec.end_b.hose_tail
    assert (tail.depth_mm, tail.bead_mm, tail.wall_mm, tail.allowance_mm) == (40.0, 1.0, 3.2, 0.5)
    assert (spec.length_mm, spec.half_angle_deg, spec.line) == (None, None, "coaxial")
    assert (spec.printer.name, spec.printer.bed_z_mm, spec.material.name) == ("generic_220", 240.0, "PETG")
    assert {"wall", "length", "printer", "end_a.socket.depth", "end_b.hose_tail.wall"} < set(spec.defaulted)
    assert "name" not in spec.defaulted


@pytest.mark.parametrize(("over", "depth"), [("30", 25.0), ("62.5", 25.0), ("100", 40.0), ("150", 60.0), ("300", 60.0)])
def test_depth_is_four_tenths_of_the_diameter_within_25_to_60(over: str, depth: float) -> None:
    socket = loaded(end_a(f"{{socket: {{over: {over}}}}}")).end_a.socket
    assert socket and socket.depth_mm == pytest.approx(depth)


@pytest.mark.parametrize(
    ("joint", "fit", "taper"),
    [
        ("over: 80", "slide", 0.0),
        ("over: 80.1", "snug", 0.5),
        ("over: 110, fit: slide", "slide", 0.0),
        ("over: 110, fit: press", "press", 0.0),
        ("over: 110, fit: snug, taper: 1 deg", "snug", 1.0),
        ("over: 110, taper: 0", "snug", 0.0),
        ("over: 110, allowance: 0.4", "snug", 0.0),
        ("over: 110, cord: 4", "slide", 0.0),
        ("over: 110, clamp: {slits: 4}", "slide", 0.0),
        ("over: 60, fit: snug", "snug", 0.0),
    ],
)
def test_fit_and_taper_where_none_is_given(joint: str, fit: str, taper: float) -> None:
    socket = loaded(end_a(f"{{socket: {{{joint}}}}}")).end_a.socket
    assert socket and (socket.fit, socket.taper_deg) == (fit, taper)


@pytest.mark.parametrize(
    ("line", "wall"), [("0.42", 6 * 0.42), ("0.4", 2.4), ("0.6", 2.4), ("0.8", 3.2), ("0.45", 6 * 0.45)]
)
def test_the_wall_is_whole_lines_and_four_at_least(line: str, wall: float) -> None:
    spec = loaded(f"{MINIMUM}printer: {{nozzle: {line}, line: {line}, layer: 0.2}}\n")
    assert spec.wall_mm == pytest.approx(wall)


def test_a_wall_as_asked_stays_as_asked_and_auto_is_the_default() -> None:
    assert loaded(f"{MINIMUM}wall: 2.4\n").wall_mm == 2.4
    assert "wall" not in loaded(f"{MINIMUM}wall: 2.4\n").defaulted
    assert loaded(f"{MINIMUM}wall: auto\n") == loaded(MINIMUM).model_copy(
        update={"places": loaded(f"{MINIMUM}wall: auto\n").places}
    )


def test_a_band_or_a_cord_gets_the_depth_it_needs() -> None:
    banded = loaded(end_a("{socket: {over: 40, clamp: {slits: 4, band: 20}}}")).end_a.socket
    corded = loaded(end_a("{socket: {over: 40, cord: 8}}")).end_a.socket
    assert banded and corded and banded.depth_mm >= 20 + 12 and corded.depth_mm > 30


def test_an_offset_adapter_in_full() -> None:
    spec = loaded(
        """
        part: offset_adapter
        name: Inlet Ø100
        offset: {left: 20, down: 3 in}
        length: 240
        angle: 30 deg
        clock: -90
        bend_radius: auto
        end_a:
          label: collector
          flange: {rectangle: {width: 160, height: 150, corner: 8}, opening: 100, gussets: 0, washers: no,
                   holes: {points: [{right: 60, up: 55}, {left: 60, up: 55}, {down: 60}],
                           size: 1/4 in, clearance: coarse}}
        end_b: {plain: {inside: 100, length: 12}}
        material: {name: pla, service: 130 F}
        near_heat: 140 F
        air: {flow: 400 cfm, from: end_b}
        """
    )
    assert isinstance(spec, OffsetAdapterSpec)
    assert (spec.name, spec.length_mm, spec.angle_deg, spec.clock_deg) == ("inlet-o100", 240.0, 30.0, -90.0)
    assert (spec.offset.right_mm, spec.offset.up_mm) == pytest.approx((-20.0, -76.2))
    assert spec.bend_radius_mm is None and "bend_radius" in spec.defaulted and "angle" not in spec.defaulted
    flange = spec.end_a.flange
    assert flange and flange.holes.count == 3 and flange.gussets == 0 and flange.washers is False
    assert flange.holes.hole_d_mm == pytest.approx(19 / 64 * 25.4, abs=0.001)  # ASME B18.2.8, 1/4 in, loose
    assert spec.material.name == "PLA" and spec.material.service_c == pytest.approx((130 - 32) / 1.8)
    assert spec.near_heat_c == pytest.approx(60.0)
    assert spec.air and spec.air.from_end == "end_b"
    assert spec.air.flow_m3_s == pytest.approx(400 * 0.3048**3 / 60)


def test_a_bolt_circle_counts_clockwise_from_up_as_seen() -> None:
    spec = loaded(end_a("{flange: {holes: {count: 4, circle: 130, size: M6, first_at: 30}}}"))
    flange = spec.end_a.flange
    assert flange and flange.holes.circle_mm == 130.0
    # clock face of radius 65: 30 deg is one o'clock
    first, second = flange.holes.points[:2]
    assert (first.right_mm, first.up_mm) == pytest.approx((65 * 0.5, 65 * 3**0.5 / 2))
    assert (second.right_mm, second.up_mm) == pytest.approx((65 * 3**0.5 / 2, -65 * 0.5))
    assert (flange.holes.hole_d_mm, flange.holes.washer_d_mm, flange.holes.nut_af_mm) == (
        6.6,
        12.0,
        10.0,
    )  # ISO 273, 7089, 4032


# ---- several parts


def test_parts_inherit_whole_keys_and_may_replace_them() -> None:
    specs = load_text(
        "part: reducer\nwall: 3\nend_b: {hose_tail: {hose_inside: 100, band: 9}}\nparts:\n"
        "  - name: saw\n    end_a: {socket: {over: 120}}\n"
        "  - end_a: {socket: {over: 80}}\n    end_b: {plain: {inside: 70}}\n    wall: 2\n"
        "  - part: offset_adapter\n    offset: {up: 40}\n    end_a: {socket: {over: 80}}\n",
        "set.yaml",
    )
    assert [spec.name for spec in specs] == ["saw", "set-2", "set-3"]
    assert [spec.wall_mm for spec in specs] == [3.0, 2.0, 3.0]
    assert [spec.end_b.kind for spec in specs] == ["hose_tail", "plain", "hose_tail"]
    assert [spec.part for spec in specs] == ["reducer", "reducer", "offset_adapter"]
    assert specs[0].places["end_a.socket.over"] == (6, 22) and specs[0].places["wall"] == (2, 1)


def test_a_chain_of_machines_from_one_file() -> None:
    """Guard port 50, pipe 80, extractor 100, saw outlet 120: a set of reducers, each with both its sizes."""
    text = "part: reducer\nparts:\n" + "".join(
        f"  - {{name: r{a}-{b}, end_a: {{socket: {{over: {a}}}}}, end_b: {{spigot: {{into: {b}}}}}}}\n"
        for a, b in ((50, 80), (80, 100), (120, 100))
    )
    assert [spec.name for spec in load_text(text)] == ["r50-80", "r80-100", "r120-100"]
    # 100 mm hose from a 125 mm port: 64 % of the area
    spec = loaded("part: reducer\nend_a: {spigot: {into: 125}}\nend_b: {hose_tail: {hose_inside: 100}}\n")
    a, b = spec.end_a.spigot, spec.end_b.hose_tail
    assert a and b and (b.size.nominal_mm / a.size.nominal_mm) ** 2 == pytest.approx(0.64)


def test_errors_of_several_parts_have_their_own_lines_and_shared_ones_come_once() -> None:
    problems = refused(
        "part: reducer\nwall: 99\nparts:\n  - end_a: {socket: {over: 3}}\n    end_b: {plain: {inside: 70}}\n"
        "  - end_a: {socket: {over: 80}}\n    end_b: {plain: {insde: 70}}\n"
    )
    assert [(p.line, p.key) for p in problems] == [
        (2, "wall"),
        (4, "parts[1].end_a.socket.over"),
        (7, "parts[2].end_b.plain.insde"),
    ]


@pytest.mark.parametrize(
    ("text", "key"),
    [
        ("parts: 3", "parts"),
        ("parts: []", "parts"),
        ("parts: [3]", "parts[1]"),
        ("part: reducer\nparts: [{name: a, parts: []}]", "parts[1].parts"),
    ],
)
def test_parts_that_are_no_list_of_maps(text: str, key: str) -> None:
    assert key in [problem.key for problem in refused(text)]


def test_two_parts_of_one_name_are_refused() -> None:
    one = "end_a: {socket: {over: 80}}, end_b: {plain: {inside: 70}}"
    problem = only(f"part: reducer\nparts:\n  - {{name: saw, {one}}}\n  - {{name: Saw, {one}}}\n")
    assert (problem.line, problem.key) == (4, "parts[2].name")


# ---- errors


def test_all_errors_of_a_file_at_once_in_its_order() -> None:
    problems = refused(
        """
        part: reducer
        untis: mm
        end_a:
          socket: {over: 107.1, fit: slip, depth: 3, stopp: 1}
        end_b:
          hose_tail: {hose_inside: [100, 10]}
          label:
        printer: ultra
        material: PETGG
        air: {flow: 800, from: end_c}
        envelope: {keep_clear: [{wal: up, at: 90}, {wall: top, at: 3}]}
        """
    )
    assert [(p.line, p.key) for p in problems] == [
        (3, "untis"),
        (5, "end_a.socket.fit"),
        (5, "end_a.socket.depth"),
        (5, "end_a.socket.stopp"),
        (7, "end_b.hose_tail.hose_inside[2]"),
        (8, "end_b.label"),
        (9, "printer"),
        (10, "material"),
        (11, "air.flow"),
        (11, "air.from"),
        (12, "envelope.keep_clear[1].wal"),
        (12, "envelope.keep_clear[2].wall"),
    ]
    hints = [p.hint for p in problems]
    assert hints[0] == "did you mean units?" and hints[3] == "did you mean stop?" and hints[7] == "did you mean PETG?"
    assert "write the unit" in hints[8] and "did you mean end_" in hints[9] and hints[10] == "did you mean wall?"


def test_an_unknown_family_does_not_hide_the_other_errors() -> None:
    problems = refused(f"part: reducr\nclock: 3\nwal: 3\n{PIPE_END}")
    assert [p.key for p in problems] == ["end_b", "part", "wal"]


def test_no_wording_of_the_library_underneath_reaches_the_user() -> None:
    problems = refused("part: reducer\nend_a: 3\nend_b: {socket: [1]}\nwall: {a: 1}\nname: [a]\nline: {}\n")
    assert len(problems) == 5
    for problem in problems:
        text = str(problem).casefold()
        assert not any(word in text for word in ("valid", "input", "pydantic", "dict", "none", "str ", "instance"))


@pytest.mark.parametrize(
    ("text", "key", "words"),
    [
        (f"{PIPE_END}{HOSE_END}", "part", "reducer | offset_adapter"),
        (f"part: reducr\n{PIPE_END}{HOSE_END}", "part", "did you mean reducer?"),
        (f"prt: reducer\n{PIPE_END}{HOSE_END}", "prt", "did you mean part?"),
        (f"parts: reducer\n{PIPE_END}{HOSE_END}", "parts", "did you mean part: reducer?"),
        (f"part: 3\n{PIPE_END}{HOSE_END}", "part", "reducer | offset_adapter"),
        (f"part: reducer\n{PIPE_END}", "end_b", "add `end_b:`"),
        (f"part: reducer\n{PIPE_END}end_b: {{}}\n", "end_b", "one of socket"),
        (f"part: reducer\n{PIPE_END}end_b: {{label: hose}}\n", "end_b", "one of socket"),
        (
            f"part: reducer\n{PIPE_END}end_b: {{socket: {{over: 50}}, plain: {{inside: 50}}}}\n",
            "end_b.plain",
            "one joint an end",
        ),
        (f"part: reducer\n{PIPE_END}end_b: {{socket: {{}}}}\n", "end_b.socket.over", "over or pipe"),
        (
            f"part: reducer\n{PIPE_END}end_b: {{socket: {{over: 50, pipe: EN 1401 110}}}}\n",
            "end_b.socket.pipe",
            "keep over",
        ),
        (f"part: reducer\nunits: cm\n{PIPE_END}{HOSE_END}", "units", "mm | in"),
        (f"part: reducer\nunits: inch\n{PIPE_END}{HOSE_END}", "units", "did you mean in?"),
        (f"part: reducer\nname: '***'\n{PIPE_END}{HOSE_END}", "name", "letter or digit"),
        (f"part: reducer\noffset: {{up: 3}}\n{PIPE_END}{HOSE_END}", "offset", "eccentricity"),
        (f"part: offset_adapter\n{PIPE_END}{HOSE_END}", "offset", "add `offset:`"),
        (f"part: offset_adapter\noffset: {{up: 0}}\n{PIPE_END}{HOSE_END}", "offset", "part: reducer"),
        (f"part: offset_adapter\noffset: {{}}\n{PIPE_END}{HOSE_END}", "offset", "{right: 20, up: 60}"),
        (f"part: offset_adapter\noffset: 60\n{PIPE_END}{HOSE_END}", "offset", "{right: 20, up: 60}"),
        (f"part: offset_adapter\noffset: [0, 60]\n{PIPE_END}{HOSE_END}", "offset", "readings"),
        (f"part: offset_adapter\noffset: {{up: 3, down: 4}}\n{PIPE_END}{HOSE_END}", "offset.down", "up or down"),
        (f"part: offset_adapter\noffset: {{away: 3}}\n{PIPE_END}{HOSE_END}", "offset.away", "right, left, up, down"),
        (f"{OFFSET}angle: 91\n", "angle", "0 deg to 90 deg"),
        (f"{OFFSET}angle: -3\n", "angle", "minus"),
        (f"{OFFSET}line: level\n", "line", "the keys"),
        (f"{OFFSET}length: 60\n", "length", "or auto"),
        (f"{MINIMUM}length: 60\n", "length", "more than 82.84 mm, or auto"),
        (f"{MINIMUM}half_angle: 60\n", "half_angle", "2 deg to 30 deg"),
        (f"{MINIMUM}line: concentric\n", "line", "coaxial | level | nested"),
        (f"{MINIMUM}line: level\neccentricity: {{up: 3}}\n", "eccentricity", "one of the two"),
        (f"{MINIMUM}near_heat: 60 bar\n", "near_heat", "60 C or 140 F"),
        (f"{MINIMUM}wall: 20.1\n", "wall", "0.8 mm to 20 mm"),
        (f"{MINIMUM}wall: auto3\n", "wall", "did you mean auto?"),
        (f"{MINIMUM}air: {{flow: 0 m3/h, from: end_a}}\n", "air.flow", "m3/h"),
        (f"{MINIMUM}air: {{flow: 800 m3/h}}\n", "air.from", "add `from:`"),
    ],
)
def test_each_mistake_names_its_key_and_cure(text: str, key: str, words: str) -> None:
    problem = refused(text)[0]
    assert problem.key == key
    assert words in f"{problem.allowed} {problem.hint}"


@pytest.mark.parametrize(
    ("joint", "key", "words"),
    [
        ("{spigot: {into: 30, wall: 10.5}}", "spigot.wall", "10 mm or more"),
        ("{hose_tail: {hose_inside: 25, wall: 8}}", "hose_tail.wall", "10 mm or more"),
        ("{socket: {over: 30, stop: 12}}", "socket.stop", "10 mm or more"),
        ("{socket: {over: 110, lead_in: 1.5}}", "socket.lead_in", "at most 1.26 mm"),
        ("{socket: {over: 110, depth: 4}}", "socket.depth", "5 mm to 200 mm"),
        ("{socket: {over: 110, screws: {size: M7}}}", "socket.screws.size", "M3 to M12"),
        ("{socket: {over: 110, clamp: {slits: 1}}}", "socket.clamp.slits", "2 to 12"),
        ("{socket: {over: 110, clamp: {slits: 4.5}}}", "socket.clamp.slits", "whole number"),
        ("{spigot: {into: 110, clamp: {}}}", "spigot.clamp", "for sockets"),
        ("{flange: {}}", "flange.holes", "add `holes:`"),
        ("{flange: {holes: {size: M6}}}", "flange.holes.count", "count and circle, or points"),
        ("{flange: {holes: {count: 4, size: M6}}}", "flange.holes.circle", "count and circle, or points"),
        (
            "{flange: {holes: {count: 4, circle: 130}}}",
            "flange.holes.size",
            "the bolt by its name (no unit beside it): M6, 1/4 in, No. 10 add",
        ),
        (
            "{flange: {holes: {count: 4, circle: 130, size: M6, points: [{up: 3}, {down: 3}]}}}",
            "flange.holes.count",
            "delete one",
        ),
        ("{flange: {holes: {points: [{up: 60}], size: M6}}}", "flange.holes.points", "2 to 24 places"),
        ("{flange: {holes: {points: [{up: 60}, {up: 66}], size: M6}}}", "flange.holes.points[2]", "13.2 mm apart"),
        ("{flange: {holes: {count: 24, circle: 60, size: M6}}}", "flange.holes.circle", "13.2 mm apart"),
        (
            "{flange: {holes: {count: 4, circle: 130, size: M6}, round: 145}}",
            "flange.round",
            "9.9 mm or more (1.5 hole",
        ),
        (
            "{flange: {holes: {count: 4, circle: 130, first_at: 45, size: M6}, rectangle: {width: 110, height: 110}}}",
            "flange.rectangle",
            "9.9 mm or more",
        ),
        (
            "{flange: {holes: {count: 4, circle: 130, first_at: 45, size: M6}, "
            "rectangle: {width: 115, height: 115, corner: 50}}}",
            "flange.rectangle",
            "9.9 mm or more",
        ),
        (
            "{flange: {holes: {count: 4, circle: 130, size: M6}, opening: 124}}",
            "flange.holes.circle",
            "half the opening and a wall",
        ),
        (
            "{flange: {holes: {count: 4, circle: 130, size: M6}, round: 160, opening: 158}}",
            "flange.opening",
            "at most 156 mm",
        ),
        (
            "{flange: {holes: {count: 4, circle: 130, size: M6}, round: 160, rectangle: {width: 99, height: 99}}}",
            "flange.rectangle",
            "one outline",
        ),
        (
            "{flange: {holes: {count: 4, circle: 130, size: No. 8 wood}, nut_pockets: yes}}",
            "flange.nut_pockets",
            "a size with a nut",
        ),
        ("{flange: {holes: {count: 4, circle: 130, size: M6}, washers: maybe}}", "flange.washers", "yes | no"),
        ("{flange: {bolts: {count: 4, circle: 130, size: M6}}}", "flange.bolts", "write holes"),
        ("{flange: {holes: {count: 4, pcd: 130, circle: 130, size: M6}}}", "flange.holes.pcd", "write circle"),
        ("{plain: {inside: {end: 58, further: 60, apart: 30}}}", "plain.inside", "one diameter"),
        ("{hose_tail: {hose_inside: {end: 58, further: 60, apart: 30}}}", "hose_tail.hose_inside", "one diameter"),
    ],
)
def test_joints_that_make_no_sense(joint: str, key: str, words: str) -> None:
    problems = refused(end_a(joint))
    found = {problem.key: f"{problem.allowed} {problem.hint}" for problem in problems}
    assert words in found[f"end_a.{key}"], found


def test_limits_speak_the_units_of_the_file() -> None:
    problem = only(
        "part: reducer\nunits: in\nend_a: {socket: {over: 4.2}}\nend_b: {hose_tail: {hose_inside: 4}}\nwall: 1.5\n"
    )
    assert problem.allowed == "a length from 0.031 in to 0.787 in, or auto"
    assert problem.hint == "did you mean 1.5 mm?"


@pytest.mark.parametrize(
    ("text", "name"),
    [("Größe Ø100", "groesse-o100"), ("../../etc", "etc"), ("日本", ""), ("CON 1", "con-1"), ("-a-", "a")],
)
def test_names_are_safe_for_files(text: str, name: str) -> None:
    assert slug(text) == name


def test_a_spec_is_frozen_strict_and_checks_what_it_is_made_from() -> None:
    spec = loaded(MINIMUM)
    with pytest.raises(ValueError, match="frozen"):
        spec.wall_mm = 3.0  # type: ignore[misc]
    fields = {name: getattr(spec, name) for name in type(spec).model_fields}
    for bad in (-1.0, 0.0, float("inf"), float("nan"), "3", True):
        with pytest.raises(ValueError, match="wall_mm"):
            ReducerSpec(**{**fields, "wall_mm": bad})
        with pytest.raises(ValueError, match="wall_mm"):
            spec.model_copy(update={"wall_mm": bad})
    with pytest.raises(ValueError, match="junk"):
        spec.model_copy(update={"junk": 1})
    assert ReducerSpec(**fields) == spec == pickle.loads(pickle.dumps(spec))
    assert spec.model_copy(update={"wall_mm": 3.0}).wall_mm == 3.0


def test_loading_and_refusing_bring_in_no_cad_kernel() -> None:
    code = (
        "import sys; from fitwright.spec.load import load_text; from fitwright.errors import SpecError\n"
        f"load_text({MINIMUM!r})\n"
        "try: load_text('part: reducr')\n"
        "except SpecError: pass\n"
        "import fitwright.spec.schema, fitwright.spec.template\n"
        "heavy = {'cadquery', 'OCP', 'vtk', 'vtkmodules', 'trimesh', 'manifold3d', 'scipy', 'shapely', 'numpy'}\n"
        "sys.exit(', '.join(sorted(heavy & set(sys.modules))) or 0)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, timeout=120, check=False)
    assert done.returncode == 0, done.stderr


def test_load_file_reads_what_load_text_reads(tmp_path) -> None:  # type: ignore[no-untyped-def]
    path = tmp_path / "Inlet 4.yaml"
    path.write_text(MINIMUM, encoding="utf-8")
    (spec,) = load_file(path)
    assert spec.name == "inlet-4" and spec == loaded(MINIMUM, str(path))
    with pytest.raises(SpecError):
        load_file(tmp_path / "none.yaml")
