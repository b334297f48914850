"""Every table is complete, ascending and has unique keys; a damaged one is refused with file and row."""

from importlib.resources import files
from pathlib import Path

import pytest

from fitwright.data import tables
from fitwright.errors import DataError

FOLDER = Path(str(files("fitwright.data")))
HEAD = "# title: t\n# source: s\n# url: none\n# checked: c\n# notes: n\n"


def test_every_csv_is_listed_and_every_name_exists():
    found = {str(path.relative_to(FOLDER).with_suffix("")).replace("\\", "/") for path in FOLDER.rglob("*.csv")}
    assert found == set(tables.NAMES)


@pytest.mark.parametrize("name", tables.NAMES)
def test_head_is_complete(name):
    head = tables.load(name).head
    for key in ("title", "source", "url", "checked"):
        assert head[key], key
    assert head["url"].startswith(("https://", "none"))
    if name.startswith("pipes/"):
        assert head["kind"] in ("pipe", "duct", "hose", "fitting", "outside diameters")


@pytest.mark.parametrize("name", tables.NAMES)
def test_every_row_has_a_known_status(name):
    table = tables.load(name)
    assert table.rows
    for row in table.rows:
        for column in table.columns:
            if column == "status" or (column.endswith("_status") and column != "tolerance_status"):
                row.status(column)


@pytest.mark.parametrize("name", [name for name in tables.NAMES if name.startswith("pipes/")])
def test_pipe_keys_unique_and_ascending(name):
    def key(row):
        nominal = row.number("nominal_mm")
        return nominal if nominal is not None else row.required("nominal_in") * 25.4

    rows = tables.load(name).rows
    keys = [(row.text("series"), row.text("nominal")) for row in rows]
    assert len(set(keys)) == len(keys)
    assert [key(row) for row in rows] == sorted(key(row) for row in rows)


@pytest.mark.parametrize("name", [name for name in tables.NAMES if name.startswith("screws/")])
def test_screw_keys_unique_and_ascending(name):
    rows = tables.load(name).rows
    keys = [(row.text("name"), row.text("thread")) for row in rows]
    assert len(set(keys)) == len(keys)
    majors = [row.required("major_mm") for row in rows]
    assert majors == sorted(majors)


@pytest.mark.parametrize("name", ["printers", "materials", "materials_heat", "warm_places", "aliases"])
def test_other_keys_unique(name):
    keys = [row.text("words" if name == "aliases" else "name") for row in tables.load(name).rows]
    assert len(set(keys)) == len(keys)


def test_aliases_ascending():
    words = [row.text("words") for row in tables.load("aliases").rows]
    assert words == sorted(words)


@pytest.mark.parametrize("name", [name for name in tables.NAMES if name != "aliases"])
def test_every_number_has_its_unit_in_its_column_name(name):
    words = {"series", "nominal", "status", "note", "name", "thread", "soft", "kind"}
    words |= {"standard", "rod_thread", "rod_inner_thread", "nose_thread", "square_screw", "port", "memory_fields"}
    words |= {"splits"}
    words |= {"section", "table", "entry", "wall", "hose", "dust", "pair", "reynolds", "coefficient", "factor"}
    words |= {"low", "middle", "high", "factor_low", "factor_middle", "factor_high", "mitres", "elbows", "round"}
    words |= {"flat_sided", "free", "in_wall", "area_share", "open_share", "pieces_5", "pieces_4", "pieces_3"}
    words |= {"splits", "creeps", "also"}
    for column in tables.load(name).columns:
        units = ("_status", "_mm", "_um", "_in", "_mpa", "_g_cm3", "_c", "_ratio", "_kg", "_mm2", "_n", "_nm", "_kg_m")
        units += ("_deg", "_m_s", "_on_bore", "_on_height")
        assert column in words or column.endswith(units), column


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("# title: t\na\n1\n", "x.csv: the head lacks source, url, checked, notes"),
        ("# title\na\n", "x.csv:1: a head line reads"),
        (HEAD, "x.csv: no column names"),
        (HEAD + "a,b\n1,2,3\n", "x.csv:7: 3 cells, but 2 columns"),
        (HEAD + "a,b\n1,2\n\n1,2\n", "x.csv:8: 0 cells"),
    ],
)
def test_damaged_table(text, message):
    with pytest.raises(DataError, match=message.replace("(", r"\(")):
        tables.parse(text, "x", "x.csv")


def test_damaged_cells():
    row = tables.parse(HEAD + "a_mm,status\n1.2.3,sure\n", "x", "x.csv").rows[0]
    with pytest.raises(DataError, match=r"x.csv:7: a_mm is '1.2.3', not a number"):
        row.number("a_mm")
    with pytest.raises(DataError, match=r"x.csv:7: status is 'sure'"):
        row.status()
    with pytest.raises(DataError, match="no column 'b_mm'"):
        row.number("b_mm")
    with pytest.raises(DataError, match=r"x.csv:7: a_mm is empty"):
        tables.parse(HEAD + "a_mm,status\n,memory\n", "x", "x.csv").rows[0].required("a_mm")


def test_missing_table():
    with pytest.raises(DataError, match=r"data/pipes/nothing.csv: cannot be read"):
        tables.load("pipes/nothing")


def test_nan_is_no_number():
    row = tables.parse(HEAD + "a_mm,status\nnan,memory\n", "x", "x.csv").rows[0]
    with pytest.raises(DataError, match="not a number"):
        row.number("a_mm")
