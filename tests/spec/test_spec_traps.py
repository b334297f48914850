"""YAML that reads as something else than what stands there, or as nothing: each is refused by name, with its line.

Most inputs are known faults of YAML 1.1 readers (yaml/pyyaml issues 173, 165, 41, 395, 272, 613, 235, 608) and of
pydantic's conversions (pydantic/pydantic issue 7296).
"""

from __future__ import annotations

import time

import pytest
from yaml_cases import HOSE_END, MINIMUM, PIPE_END, loaded, only, refused

from fitwright.errors import SpecError
from fitwright.spec.load import load_file, load_text


@pytest.mark.parametrize(
    ("text", "cure"),
    [
        ("1e3", "write the number out"),
        ("1.0e3", "write the number out"),
        ("1e-3", "write the number out"),
        ("1.5e+2", "write the number out"),
        ("1:30", "colon"),
        ("4:15", "colon"),
        ("010", "leading zeros; write 10"),
        ("08", "leading zeros; write 8"),
        ("0x10", "hexadecimal"),
        ("1_000", "underscores"),
        (".inf", "finite"),
        (".nan", "finite"),
        ("true", "yes/no word"),
        ("on", "yes/no word"),
        ("~", "nothing is written"),
        ("null", "nothing is written"),
        ("100,5", "point; write 100.5"),
        ("2-5", "range"),
        ("-2", "minus sign has no meaning"),
        ("three", "no number"),
        ("3 kg", "unknown unit 'kg'"),
    ],
)
def test_what_could_be_misread_is_refused_by_name(text: str, cure: str) -> None:
    problem = only(f"{MINIMUM}wall: {text}\n")
    assert (problem.line, problem.column, problem.key) == (5, 7, "wall")
    assert cure in problem.hint


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("' 3 '", 3.0),
        ("3.0", 3.0),
        ('"1/8 in"', 3.175),
        ("1/8", 3.175),
        ('1/8"', 3.175),
        ("1/8 \u201d", 3.175),
        ("3 mm", 3.0),
        ("3\u00a0mm", 3.0),
        ("0.3 cm", 3.0),
    ],
)
def test_lengths_as_people_write_them(text: str, mm: float) -> None:
    assert loaded(f"{MINIMUM}wall: {text}\n").wall_mm == mm


def test_words_for_yes_and_no_as_keys_stay_text_and_are_unknown() -> None:
    problems = refused(f"{MINIMUM}on: 5\nno: 4\n1: 2\ntrue: 6\n")
    assert [(p.key, p.line) for p in problems] == [("on", 5), ("no", 6), ("1", 7), ("true", 8)]
    assert all("unknown key" in p.found for p in problems)


def test_a_key_written_twice_names_both_lines() -> None:
    problem = only(f"{MINIMUM}wall: 3\nlength: auto\nwall: 1\n")
    assert (problem.line, problem.key) == (7, "wall")
    assert "line 5 and line 7" in problem.found


def test_merge_keys_work_and_own_keys_win() -> None:
    spec = loaded(
        """
        part: reducer
        end_a: {socket: &base {over: 107.1, depth: 30, fit: slide}}
        end_b: {socket: {<<: *base, over: 60, depth: 26}}
        """
    )
    assert spec.end_b.socket and spec.end_b.socket.fit == "slide"
    assert (spec.end_b.socket.size.nominal_mm, spec.end_b.socket.depth_mm) == (60.0, 26.0)


@pytest.mark.parametrize(
    ("text", "line", "hint"),
    [
        ("wall:", 5, "needs a value"),
        ("wall: # thick", 5, "# begins a comment"),
        ("wall:\u00a03", 5, "no-break space"),
        ("wall:3", 5, "space after the colon: wall: 3"),
        ("wall:\t3", 5, "tab"),
        ("air:\n\tflow: 3", 6, "tab"),
        ("wall: @3", 5, "quote"),
        ('wall: "3', 5, "close it"),
        ("wall: [3", 5, "write ["),
        ("wall: {a: 3", 5, "write {"),
        ("wall: *w", 5, "define it first"),
        ("wall: !!float 3", 5, "leave the ! away"),
        ("wall: !mine 3", 5, "leave the ! away"),
        ("---\nwall: 3", 5, "one file holds one"),
        ("wall: 3\x07", 5, "delete it"),
        ("? [wall]\n: 3", 5, ""),
        ("<<: 3", 5, ""),
        ("wall: 3\n  depth: 4", 6, "quote a text that holds a colon"),
    ],
)
def test_slips_of_yaml_get_their_line_and_cure(text: str, line: int, hint: str) -> None:
    problems = refused(f"{MINIMUM}{text}\n")
    # an unclosed bracket is noticed at the end of the file
    assert problems[0].line in (line, 6 if "[3" in text or "{a" in text else line)
    assert hint in problems[0].hint


def test_a_flow_map_without_its_space() -> None:
    problem = refused(f"part: reducer\nend_a: {{socket: {{over:107}}}}\n{HOSE_END}")[0]
    assert (problem.line, problem.column) == (2, 18)
    assert problem.hint == "put a space after the colon: over: 107"


def test_a_screw_size_with_a_hash_is_a_comment_and_says_so() -> None:
    problems = refused(f"part: reducer\nend_a:\n  socket:\n    over: 107\n    screws:\n      size: #8\n{HOSE_END}")
    assert [(p.line, p.key) for p in problems] == [(6, "end_a.socket.screws.size")]
    assert "No. 8" in problems[0].hint


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("", "an empty file"),
        ("\n# only a comment\n", "an empty file"),
        ("- part: reducer\n", "a list at the top"),
        ("reducer\n", "only the text 'reducer'"),
        ("a: 1\n---\nb: 2\n", "a second document"),
        ("[" * 500, "nested"),
        ("{a: " * 500, "nested"),
        ("a: &a [*a]\n", "itself part of"),
        ("a: &a {<<: *a}\n", "itself part of"),
        ("x" * 300_000, "256 kB"),
    ],
)
def test_files_that_are_no_part_at_all(text: str, found: str) -> None:
    assert found in only(text).found


def test_an_alias_bomb_is_refused_at_once_and_never_printed() -> None:
    lines = ["a: &a [x, x, x, x, x, x, x, x, x]"]
    for before, name in zip("abcdefgh", "bcdefghi", strict=True):
        lines.append(f"{name}: &{name} [{', '.join([f'*{before}'] * 9)}]")
    start = time.perf_counter()
    problem = only("\n".join(lines))
    assert time.perf_counter() - start < 5.0
    assert "unfold to too much" in problem.found and len(str(problem)) < 300


def test_a_byte_order_mark_is_harmless() -> None:
    assert loaded("\ufeff" + MINIMUM.lstrip()).wall_mm == 2.52


def test_text_that_is_not_utf_8_names_line_and_byte(tmp_path) -> None:  # type: ignore[no-untyped-def]
    path = tmp_path / "latin.yaml"
    path.write_bytes(b"part: reducer\nname: gr\xf6\xdfe\n")
    with pytest.raises(SpecError) as raised:
        load_file(path)
    (problem,) = raised.value.problems
    assert (problem.line, problem.column) == (2, 9) and "0xF6" in problem.found and "UTF-8" in problem.hint


@pytest.mark.parametrize("make", ["missing", "folder", "long"])
def test_files_that_cannot_be_read(tmp_path, make: str) -> None:  # type: ignore[no-untyped-def]
    path = tmp_path / "x.yaml"
    if make == "folder":
        path.mkdir()
    elif make == "long":
        path.write_text("# ä\n" * 100_000, encoding="utf-8")
    with pytest.raises(SpecError) as raised:
        load_file(path)
    assert raised.value.problems[0].file == str(path)


def test_a_list_is_readings_and_nothing_else() -> None:
    problem = only(f"{MINIMUM}wall: [3, 4]\n")
    assert problem.key == "wall" and "readings" in problem.hint
    problem = only(f"part: reducer\n{PIPE_END}end_b: [100, 50]\n")
    assert problem.key == "end_b" and "readings" in problem.hint


def test_windows_line_ends_and_no_last_newline() -> None:
    assert loaded(MINIMUM.strip().replace("\n", "\r\n")).part == "reducer"


def test_the_text_of_a_problem_is_one_line_with_everything() -> None:
    with pytest.raises(
        SpecError, match=r"^a/b\.yaml:2:7: wall: found '0\.1'; allowed: a length from .*, or auto"
    ) as raised:
        load_text(f"part: reducer\nwall: 0.1\n{PIPE_END}{HOSE_END}", "a/b.yaml")
    assert "did you mean 0.1 in?" in str(raised.value)
