"""The three reports of one invented part that has something of everything."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from fitwright.finding import Finding
from fitwright.report.findings import terminal_text
from fitwright.report.model import BodyReport, Report
from fitwright.report.report_json import listed_files, report_json
from fitwright.report.report_txt import report_txt

PASS = Finding("solid", "pass", "toad", 0.0, 1.0, "", "", "one closed solid", "")
WARN = Finding(
    "printing.overhang", "warn", "toad", 15.0, 10.0, "mm", "end_b", "a bridge of 15 mm", "lay it the other way"
)
FAIL = Finding("wall", "fail", "toad", 1.27, 2.54, "mm", "end_a", "the wall is 1.27 mm thin", "raise wall to 2.54 mm")
REPORT = Report(
    part="toad",
    family="offset_adapter",
    units="mm",
    printer="generic_220",
    material="PETG",
    bodies=(BodyReport("toad", 123456.789, 156.789, 1, (120.0, 110.0, 120.0), "end_a on the bed", True),),
    findings=(PASS, WARN, FAIL),
    facts={"end_a holds and seals": "three screws and tape; gap 0.254-0.508 mm"},
    assumed={"wall": "2.4 mm, the default"},
    cautions=("Bond metal parts where local rules ask for it.",),
    files=("report.json", "report.txt"),
    notes=("no picture: not finished after 60 s",),
)


def test_the_terminal_says_what_blocks_first_and_how_to_mend_it() -> None:
    assert terminal_text(REPORT).splitlines() == [
        "toad (offset adapter): 1 to mend, not exported; 1 check passed, 1 warning",
        "  BLOCKS wall, end_a: the wall is 1.27 mm thin (is 1.27 mm, limit 2.54 mm)",
        "    -> raise wall to 2.54 mm",
        "  warns printing.overhang, end_b: a bridge of 15 mm (is 15 mm, limit 10 mm)",
        "    -> lay it the other way",
        "  note: no picture: not finished after 60 s",
    ]


def test_the_terminal_answers_in_the_files_units() -> None:
    text = terminal_text(replace(REPORT, units="in"))
    assert "the wall is 0.05 in thin (is 0.05 in, limit 0.1 in)" in text
    assert " mm" not in text


def test_a_good_part_takes_one_line() -> None:
    good = replace(REPORT, findings=(PASS,), notes=())
    assert terminal_text(good) == "toad (offset adapter): good to print, 1 check passed"
    assert not good.blocked


def test_json_has_exactly_the_promised_keys() -> None:
    content = json.loads(report_json(REPORT))
    assert content["schema_version"] == 1
    assert set(content) >= {"part", "family", "bodies", "findings", "assumed", "files", "facts", "cautions", "units"}
    assert set(content["bodies"][0]) >= {"name", "volume_mm3", "mass_g", "genus", "bbox_mm"}
    keys = {"code", "severity", "body", "value", "limit", "unit", "place", "message", "advice"}
    assert [set(finding) for finding in content["findings"]] == [keys] * 3
    assert content["exported"] is False and content["forced"] is False
    assert content["bodies"][0]["bbox_mm"] == [120.0, 110.0, 120.0]


def test_json_stays_in_mm_and_is_repeatable() -> None:
    inches = replace(REPORT, units="in")
    assert json.loads(report_json(inches))["findings"] == json.loads(report_json(REPORT))["findings"]
    assert report_json(REPORT) == report_json(REPORT)


def test_json_holds_plain_numbers_only() -> None:
    """numpy 2 prints np.float64(1.5), and JSON knows no infinity."""
    odd = replace(PASS, value=np.float64(1.23456789), limit=float("inf"))
    [finding] = json.loads(report_json(replace(REPORT, findings=(odd,))))["findings"]
    assert finding["value"] == 1.2346 and finding["limit"] is None
    assert "np." not in report_txt(replace(REPORT, findings=(odd,))).decode()


@pytest.mark.parametrize(
    "content", [b"", b"no json", b"[]", b'{"files": 3}', b'{"files": ["../x", "/etc/passwd", 3, ""]}'], ids=repr
)
def test_a_damaged_manifest_names_no_files(content: bytes, tmp_path: Path) -> None:
    (tmp_path / "report.json").write_bytes(content)
    assert listed_files(tmp_path / "report.json") == []
    assert listed_files(tmp_path / "missing.json") == []


def test_a_manifest_names_its_files(tmp_path: Path) -> None:
    (tmp_path / "report.json").write_bytes(report_json(REPORT))
    assert listed_files(tmp_path / "report.json") == ["report.json", "report.txt"]


def test_the_page_says_it_all_in_order() -> None:
    text = report_txt(REPORT).decode()
    order = [
        "not exported",
        "BLOCKS wall",
        "warns printing",
        "PRINT",
        "157 g",
        "three screws",
        "CHECKED",
        "FILLED IN",
        "FILES",
        "Bond",
    ]
    places = [text.index(words) for words in order]
    assert places == sorted(places)
    assert max(len(line) for line in text.splitlines()) <= 88
    assert "gap 0.01-0.02 in" in report_txt(replace(REPORT, units="in")).decode()


def test_a_forced_part_says_so_everywhere() -> None:
    forced = replace(REPORT, forced=True, exported=True)
    assert "written all the same" in terminal_text(forced)
    assert "WRITTEN ALTHOUGH A CHECK BLOCKS IT" in report_txt(forced).decode()
    assert json.loads(report_json(forced))["forced"] is True


def test_the_page_says_whether_support_is_needed() -> None:
    hanging = replace(WARN, message="a roof bridges 30 mm: it needs support")
    with_settings = replace(REPORT, settings="layers 0.2 mm")
    assert "layers 0.2 mm; no support" in report_txt(replace(with_settings, findings=(PASS, WARN))).decode()
    assert "support where" in report_txt(replace(with_settings, findings=(PASS, hanging))).decode()


def test_the_page_says_once_what_holds_a_joint() -> None:
    """A fit that passes says it, judged; a fit that only warns stands above, so the plain fact is told."""
    facts = {"end_a holds and seals": "held by three pegs", "end_a at the bench": "tape the seam"}
    fit = Finding("fit.result", "pass", "toad", 0.1, 0.3, "mm", "end_a.socket", "end_a socket: snug, pegs hold it")
    passes = report_txt(replace(REPORT, findings=(fit,), facts=facts)).decode()
    assert "end_a socket: snug, pegs hold it. Tape the seam" in passes and "three pegs" not in passes
    warns = report_txt(replace(REPORT, findings=(replace(fit, severity="warn"),), facts=facts)).decode()
    assert "end_a holds and seals: held by three pegs. Tape the seam" in warns


def test_a_fit_and_a_fact_that_belong_to_no_end_are_told() -> None:
    fit = Finding("fit.result", "pass", "toad", None, None, "", "whole part", "no joint with a fit")
    text = report_txt(replace(REPORT, findings=(fit,), facts={"area": "the same at both ends"})).decode()
    assert "  no joint with a fit\n  area: the same at both ends\n" in text
