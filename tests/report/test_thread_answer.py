"""What `measure thread` says: verdicts, the decisive test with its numbers, holes, refusals, lines for a part."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from fitwright.cli.main import main
from fitwright.errors import SpecError
from fitwright.report.measured.thread import answer
from fitwright.spec.load import load_text
from fitwright.spec.measure_file import asked_of_text, asked_of_words

Captured = pytest.CaptureFixture[str]


def said(words: str):
    return answer(asked_of_words("thread", words.split()))


@pytest.mark.parametrize(
    ("words", "verdict", "yaml"),
    [
        ("outside=7.95", "M8 or 5/16 in: check the pitch.", "size: M8"),
        ("outside=7.82,7.85 over=12.5 threads=10", "This is M8 x 1.25.", "size: M8"),
        ("outside=7.82,7.85 over=14.1 threads=10", "This is 5/16-18 UNC.", "size: 5/16 in"),
        ("outside=7.82,7.85 per_inch=18", "This is 5/16-18 UNC.", "size: 5/16 in"),
        ("outside=7.82,7.85 per_inch=20", "This is M8 x 1.25.", "size: M8"),  # 20.3 on a leaf of 20
        ("outside=7.82,7.85 gauge=1.25", "This is M8 x 1.25.", "size: M8"),
        ("outside=0.309 units=in per_inch=18", "This is 5/16-18 UNC.", "size: 5/16 in"),
        ("outside=0.187 units=in per_inch=24", "This is No. 10-24 UNC.", "size: No. 10"),
        ("outside=0.246 units=in per_inch=20", "This is 1/4-20 UNC.", "size: 1/4 in"),
        ("outside=0.234 units=in gauge=1mm", "This is M6 x 1.", "size: M6"),
        ("outside=9.9 over=12.5 threads=10 what=rod", "This is M10 x 1.25.", "size: M10"),
        ("outside=21.8 gauge=1.5 what=rod", "This is M22 x 1.5.", ""),
        ("outside=13.1 tapers=no per_inch=19", "This is G 1/4.", ""),
        ("outside=13.1 tapers=yes per_inch=19", "This is R 1/4.", ""),
        ("outside=13.4 tapers=yes per_inch=18", "This is 1/4-18 NPT.", ""),
        ("outside=13.85 gauge=1.5", "This is M14 x 1.5.", ""),
        ("outside=7.68 worn=yes over=12.5 threads=10", "This is M8 x 1.25.", "size: M8"),
        ("inside=6.75", "M8 or 5/16 in: check the pitch.", "size: M8"),
        ("inside=6.75 over=6.2 threads=5", "This is M8 x 1.25.", "size: M8"),
        ("inside=11.6 per_inch=19", "G 1/4 or Rp 1/4: ", ""),
    ],
)
def test_verdict_and_lines_for_the_yaml(words, verdict, yaml):
    found = said(words)
    assert verdict in found.text
    assert found.yaml == yaml
    assert found.good


def test_the_decisive_test_has_its_numbers():
    """10 x 1.25 and 10 x 25.4/18 mm; 25.4/1.25 = 20.32 threads; half a pitch apart after 4.1 threads."""
    text = said("outside=7.95").text
    assert "12.5 mm for M8 x 1.25" in text and "14.1 mm for 5/16-18 UNC" in text
    assert "20 1/3 for M8 x 1.25" in text and "18 for 5/16-18 UNC" in text
    assert "after 5 threads if it is 5/16-18 UNC" in text
    assert "tapped hole or nut: not before the pitch is read." in text


def test_in_inches_it_answers_in_inches():
    text = said("outside=0.248 units=in").text
    assert "measure over 10 threads: 0.357 in for 1/4-28 UNF, 0.5 in for 1/4-20 UNC" in text
    assert "0.2408 to 0.2489 in" in text
    assert not re.findall(r" mm\b(?! \(|\))", text)  # but for the pitches of the table


def test_a_pipe_thread_needs_its_taper():
    text = said("outside=13.1").text
    assert "G 1/4, R 1/4 or 1/4 NPT: see whether it tapers." in text
    assert "G 1/4 measures 13.16 mm over its crests" in text
    assert "two places 5 mm apart: 0.31 mm more for R 1/4 or 1/4-18 NPT (1:16), the same for G 1/4" in text
    assert "seals on a washer" in text and "be sure before air goes on" in text


def test_two_taper_threads_of_one_pitch_are_told_apart_by_their_crests():
    """R 1/2 and NPT 1/2 both have 14 threads per inch."""
    text = said("outside=20.9 tapers=yes per_inch=14").text
    assert "look at the crests through a glass: round for R 1/2 (55 deg), flat for 1/2-14 NPT (60 deg)" in text


def test_equal_pitches_are_told_apart_by_a_nut():
    text = said("outside=4.82,4.81,4.82,4.81,4.815 over=7.95 threads=10").text
    assert "readings with a caliper do not tell them apart" in text
    assert "try a known No. 10-32 UNF nut: it does not start on M5 x 0.8" in text


@pytest.mark.parametrize(
    ("words", "hole", "yaml"),
    [
        # ISO 273 M8 fine 8.4, medium 9, coarse 10; B18.2.8 5/16 close 8.33, normal 8.73, loose 9.13: 9 is within both
        (
            "outside=7.95",
            "clearance hole: 9 mm (ISO 273, medium for M8), which clears M8 and 5/16 in alike",
            "size: M8",
        ),
        # M5 5.3, 5.5, 5.8; No. 10 5.22, 5.61, 6.05
        ("outside=4.82", "clearance hole: 5.61 mm (ASME B18.2.8, medium for No. 10)", "size: No. 10"),
        # M6 6.4, 6.6, 7.0; 1/4 6.75, 7.14, 7.54: only 7.0 and 6.75 are within both
        ("outside=6.05 worn=yes", "clearance hole: 7 mm (ISO 273, coarse for M6)", "size: M6\nclearance: coarse"),
    ],
)
def test_one_clearance_hole_for_all_that_are_left(words, hole, yaml):
    found = said(words)
    assert hole in found.text
    assert found.yaml == yaml


@pytest.mark.parametrize("words", ["outside=7.95", "outside=4.82", "outside=6.05 worn=yes", "outside=0.248 units=in"])
def test_the_lines_load_in_a_flange(words):
    keys = ", ".join(said(words).yaml.splitlines())
    text = f"part: reducer\nend_a: {{flange: {{opening: 60, holes: {{count: 4, circle: 110, {keys}}}}}}}\n"
    load_text(text + "end_b: {hose_tail: {hose_inside: 50}}\n", "flange.yaml")


def test_what_our_tables_lack_is_named():
    assert "none in our tables for G 1/8 or R 1/8; a part's YAML takes M3 to M12" in said("outside=9.5").text


@pytest.mark.parametrize(
    ("words", "good", "text"),
    [
        ("inside=6.75 hole=tapped", False, "tapped hole: refused. It may be M8 x 1.25 or 5/16-18 UNC"),
        ("outside=7.95 hole=tapped", False, "tapped hole: refused."),
        # from memory: tap drill of M8 6.8 (ISO 2306), bore of 6H 6.647 to 6.912
        ("outside=7.85 gauge=1.25 hole=tapped", True, "drill 6.8 mm (major less pitch, common practice); bore 6.65 mm"),
        ("outside=7.82 per_inch=18 hole=tapped units=mm", True, "tapped hole for 5/16-18 UNC: drill 6.5 mm"),
        ("outside=13.1 tapers=yes per_inch=19 hole=tapped", True, "take the drill from the tap's maker"),
    ],
)
def test_a_tapped_hole_waits_for_the_pitch(words, good, text):
    found = said(words)
    assert text in found.text
    assert (found.good, found.yaml) == (good, "")


@pytest.mark.parametrize(
    ("words", "text"),
    [
        ("outside=8.4", "No thread of the tables fits; nearest is M8 x 1.25, 0.43 mm over its range"),
        ("outside=8.4", "A rod without a thread is not looked up here."),
        ("outside=7.9 over=17.5 threads=10", "nearest is 5/16-18 UNC, its pitch 1.411 mm against 1.75 mm read"),
        ("outside=20 tapers=yes", "Nothing that tapers has this diameter"),
        ("outside=7.9 over=17.5 threads=10", "would do: read the pitch again, over several threads."),
        ("outside=35.5", "nearest is 1-11.5 NPT, 1.69 mm over its range"),
        ("inside=33", "nearest is G 1, 2.07 mm over its range"),
        ("outside=1.2", "nearest is No. 0-80 UNF, 0.23 mm under its range"),
    ],
)
def test_nothing_fits(words, text):
    found = said(words)
    assert text in found.text
    assert (found.good, found.yaml) == (False, "")


def test_crests_over_every_tolerance_may_be_a_plain_rod():
    assert "plated, or a plain rod without a thread" in said("outside=10.0 pitch=1.5").text


@pytest.mark.parametrize(
    ("words", "message"),
    [
        (
            "outside=7.9 pitch=20",
            "pitch: found '20'; allowed: a length from 0.2 mm to 5 mm. did you mean per_inch: 20?",
        ),
        ("outside=7.9mm pitch=18 units=in", "did you mean per_inch: 18?"),
        (
            "outside=7.9 per_inch=1.25",
            "per_inch: found '1.25'; allowed: threads per inch from 5 to 100. did you mean pitch",
        ),
        ("outside=78", "outside: found '78'; allowed: a length from 1.1 mm to 36 mm"),
        ("outside=0.3125", "did you mean 0.3125 in?"),
        ("outside=7.9 inside=6", "outside beside inside"),
        ("", "add `outside:` or `inside:`"),
        ("outside=7,9", "decimals take a point: 7.9"),
        ("outside=7.9,8.6", "outside[1]: found 7.9 mm beside 8.25 mm; allowed: readings within 0.3 mm"),
        ("outside=7.9 pitch=1.25 per_inch=28", "what agrees with the pitch of 1.25 mm"),
        ("outside=7.9 over=12.5", "pitch.threads: found nothing"),
        ("outside=7.9 over=125 threads=10", "10 threads over 125 mm: 12.5 mm a thread"),
        ("outside=7.9 pitch=1.25 over=12.5 threads=10", "pitch= beside over= and threads="),
        ("outside=7.9 tpi=18", "write per_inch"),
        ("outside=7.9 pitch=18tpi", "write per_inch: 18"),
        ("outside=7.9 pitch=18/in", "write per_inch: 18"),
        ("outside=M8", "outside: found 'M8'; allowed: a length"),
        ("diameter=7.9", "write outside"),
        ("outside=7.9 tapers=perhaps", "tapers: found 'perhaps'; allowed: yes | no"),
        ("outside=7.9 what=nut", "what: found 'nut'; allowed: bolt | fitting | rod"),
    ],
)
def test_bad_input_is_named(words, message):
    with pytest.raises(SpecError) as caught:
        said(words)
    assert message in str(caught.value)


@pytest.mark.parametrize(
    ("line", "message"),
    [
        ("outside: []", "bolt.yaml:2:10: outside: found a list of 0; allowed: 1 to 50 readings of one diameter"),
        ("outside: {circumference: 25}", "allowed: one reading (7.85) or a list of them"),
        ("outside: [7.9, [8]]", "outside[2]: found a list of 1"),
        (
            "outside: 7.9\npitch: [1.25, 1.3]",
            "bolt.yaml:3:8: pitch: found a list of 2; allowed: one pitch (1.25), {over:",
        ),
        ("outside: 7.9\npitch: {over: 12.5, thread: 10}", "pitch.thread: found the unknown key 'thread'"),
        ("outside: 7.9\npitch: {gauge: 18}", "pitch.gauge: found '18'"),
        ("outside: 7.9\npitch: {}", "pitch.over: found nothing"),
    ],
)
def test_bad_files_are_named_with_their_line(line, message):
    with pytest.raises(SpecError) as caught:
        asked_of_text(f"measure: thread\n{line}\n", "bolt.yaml")
    assert message in str(caught.value)


def test_a_file_names_line_and_column():
    text = "measure: thread\noutside: [7.82, 7.85]\npitch: {over: 12.5, threads: ten}\n"
    with pytest.raises(SpecError) as caught:
        asked_of_text(text, "bolt.yaml")
    assert "bolt.yaml:3:" in str(caught.value) and "pitch.threads" in str(caught.value)


def test_the_label_leads():
    assert said("outside=7.95 label=lid").text.startswith("lid: over the crests 7.95 mm")


def test_words_and_file_agree(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: Captured):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "bolt.yaml").write_text("measure: thread\noutside: [7.82, 7.85]\npitch: {over: 12.5, threads: 10}\n")
    outputs = []
    for words in (["bolt.yaml"], ["thread", "outside=7.82,7.85", "over=12.5", "threads=10"]):
        assert main(["measure", *words]) == 0
        outputs.append(capsys.readouterr().out)
    assert outputs[0] == outputs[1]
    assert outputs[0].endswith("for the YAML:\nsize: M8\n")
    assert main(["measure", "thread", "outside=8.4"]) == 1
