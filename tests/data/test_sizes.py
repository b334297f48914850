"""What people call a size leads to the right row, or to the list of different things that it may be."""

import pickle

import pytest

from fitwright.data import tables
from fitwright.data.size_words import understand
from fitwright.data.sizes import AmbiguousSizeError, all_rows, find, hose, pipe
from fitwright.errors import DataError


@pytest.mark.parametrize(
    ("words", "found", "outside"),
    [
        ("4 in sewer-and-drain", "ASTM D2729 4 in", 107.06),
        ("4 in sewer and drain", "ASTM D2729 4 in", 107.06),
        ("4 in thin wall", "ASTM D2729 4 in", 107.06),
        ("4 in thin-wall pipe", "ASTM D2729 4 in", 107.06),
        ('4" S&D', "ASTM D2729 4 in", 107.06),
        ("sch 40 4 in", "ASTM D1785 Sch 40 4 in", 114.30),
        ("Schedule 40 4in", "ASTM D1785 Sch 40 4 in", 114.30),
        ("sch40 1-1/2", "ASTM D1785 Sch 40 1.5 in", 48.26),
        ("sch 40 1½ in", "ASTM D1785 Sch 40 1.5 in", 48.26),
        ("4 in sdr 35", "ASTM D3034 SDR 35 4 in", 107.06),
        ("4 in sewer", "ASTM D2729 4 in", 107.06),
        ("110 drain", "EN 1401-1 SN4 DN/OD 110", 110.0),
        ("110 mm drain pipe", "EN 1401-1 SN4 DN/OD 110", 110.0),
        ("EN 1401 DN 110", "EN 1401-1 SN4 DN/OD 110", 110.0),
        ("EN1401 DN110", "EN 1401-1 SN4 DN/OD 110", 110.0),
        ("EN 1401 DN/OD 160 SN8", "EN 1401-1 SN8 DN/OD 160", 160.0),
        ("KG 160", "EN 1401-1 SN4 DN/OD 160", 160.0),
        ("HT 50", "EN 1451-1 PP DN/OD 50", 50.0),
        ("40 solvent weld", "BS 5255 solvent weld 40", 42.9),
        ("125 duct", "EN 1506 duct 125", 126.0),
        ("Ø125 spiral duct", "EN 1506 duct 125", 126.0),
        ("6 in duct", "inch round duct 6 in", 153.4),
        ("2 in central vacuum", "ASTM F2158 tube 2 in", 50.8),
        ("4 in uk soil", "BS 4514 soil 110", 110.0),
        ("3 in abs dwv", "ASTM D2661 ABS DWV 3 in", 88.9),
    ],
)
def test_pipe_words(words, found, outside):
    row = pipe(words)
    assert row.words == found
    assert row.od_mm == pytest.approx(outside, abs=0.01)


@pytest.mark.parametrize(
    ("words", "inside"),
    [
        ("4 in hose", 101.6),
        ("4 in", 101.6),
        ('4"', 101.6),
        ("100 hose", 100.0),
        ("100", 100.0),
        ("100 mm ribbed hose", 100.0),
        ("102 dust hose", 102.0),
        ("2 1/2 in suction hose", 63.5),
    ],
)
def test_hose_words(words, inside):
    assert hose(words).inside_mm == pytest.approx(inside)


@pytest.mark.parametrize(
    "words", ["4 in", "4in", '4"', "4\u201d", "4 in pipe", "110", "DN110", "DN 100", "1.5 in", "1 1/2 in"]
)
def test_a_bare_nominal_names_different_things(words):
    with pytest.raises(AmbiguousSizeError) as caught:
        pipe(words)
    candidates = caught.value.candidates
    faces = [row.face("outside") for row in candidates]
    assert len(candidates) >= 2
    assert len(set(faces)) == len(faces)
    for row in candidates:
        assert row.words in str(caught.value)


def test_cases_1_and_3_four_inch_pipes_are_7_2_mm_apart():
    """ASTM D1785 4 in is 4.500 in outside, ASTM D2729 4 in is 4.215 in: 0.285 in = 7.24 mm apart."""
    with pytest.raises(AmbiguousSizeError) as caught:
        pipe("4 in")
    outside = {row.series: row.od_mm for row in caught.value.candidates}
    assert outside["ASTM D1785 Sch 40"] - outside["ASTM D2729"] == pytest.approx(7.239, abs=0.002)


def test_case_2_four_inch_is_never_100_mm():
    assert not {row.words for row in find("4 in")} & {row.words for row in find("100 mm")}
    assert hose("4 in").inside_mm - hose("100 mm").inside_mm == pytest.approx(1.6)
    assert not any(row.nominal_mm == 100 for row in find("4 in"))


def test_case_4_three_inch_coupler_is_not_three_inch_pipe():
    with pytest.raises(AmbiguousSizeError, match=r"88\.9 mm.*82\.55 mm"):
        pipe("3 in")
    assert hose("3 in").inside_mm == pytest.approx(76.2)


def test_case_5_one_and_a_half_inch_pipe_is_48_26():
    """NPS 1 1/2 is 1.900 in outside; a coupling of 1.94 in goes over it with 1.0 mm."""
    row = pipe("1-1/2 in sch 40")
    assert 1.94 * 25.4 - row.od_mm == pytest.approx(1.016, abs=1e-3)


def test_case_14_the_125_duct_and_the_100_hose():
    """(100 / 125)^2 = 64 % of the area."""
    share = (hose("100 hose").inside_mm / pipe("125 duct", face="inside").inside_mm) ** 2
    assert share == pytest.approx(0.64)


@pytest.mark.parametrize(
    "row", [row for row in all_rows() if row.kind != "outside diameters"], ids=lambda row: row.words
)
def test_every_row_is_found_again_by_its_own_words(row):
    face = "outside" if row.od_mm else "inside"
    assert (hose(row.words) if row.kind == "hose" else pipe(row.words, face=face)) == row


@pytest.mark.parametrize("row", tables.load("aliases").rows, ids=lambda row: row.text("words"))
def test_every_alias_means_something(row):
    query = understand(row.text("words"))
    assert query.strange == ()
    if row.text("meaning") not in ("any", "none"):
        assert find(row.text("words"))
        for meaning in row.text("meaning").split(";"):
            assert meaning.startswith("kind:") or any(size.series.startswith(meaning) for size in all_rows())


def test_the_face_decides_what_differs():
    """SN4 and SN8 share the outside at 160; their walls of 4.0 and 4.7 (EN 1401-1) part them inside."""
    assert pipe("EN 1401 160").od_mm == 160.0
    with pytest.raises(AmbiguousSizeError, match="SN8"):
        pipe("EN 1401 160", face="inside")


@pytest.mark.parametrize(
    ("words", "message"),
    [
        ("4 in flurb", "'flurb' is unknown"),
        ("4 in sewr", "did you mean 'sewer'"),
        ("4 in hose", "is a hose"),
        ("EN 1401 111", r"there are DN/OD 110, DN/OD 125"),
        ("hose", "names no size"),
        ("", "names no size"),
        ("40 push fit fitting", "no size is called"),
        ("4 in fitting socket", "gives no outside diameter; measure it"),
        ("1/0 in sewer", "unknown"),
    ],
)
def test_refused(words, message):
    with pytest.raises(DataError, match=message):
        pipe(words)


def test_a_pipe_is_no_hose():
    with pytest.raises(DataError, match="is a pipe"):
        hose("110 drain")


def test_a_measured_size_finds_what_measures_so():
    assert [row.words for row in find("107")][:1] == ["ASTM D2729 4 in"]
    assert "ASTM D1785 Sch 40 4 in" in [row.words for row in find("114.2 mm")]
    assert "ASTM D2729 4 in" in [row.words for row in find("4.215 in")]
    with pytest.raises(DataError):
        pipe("107")


def test_four_inch_list_holds_the_different_things():
    series = {row.series for row in find("4 in")}
    assert {"ASTM D1785 Sch 40", "ASTM D2729", "BS 4514 soil", "inch hose", "inch round duct"} <= series
    assert {row.series for row in find("4in")} == {row.series for row in find('4"')} == series


def test_ambiguity_survives_a_process_boundary():
    with pytest.raises(AmbiguousSizeError) as caught:
        pipe("110")
    back = pickle.loads(pickle.dumps(caught.value))
    assert str(back) == str(caught.value) and back.candidates == caught.value.candidates


def test_no_words_list_everything_and_unknown_words_nothing():
    assert find("") == list(all_rows())
    assert find("flurb") == []
