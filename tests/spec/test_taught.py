"""What logged prints change in a spec: hand-worked sizes, what teaches what, bounds, and simulated workshops."""

from __future__ import annotations

import math
import pickle
import random
from pathlib import Path
from typing import Any

import pytest

from fitwright.errors import SpecError
from fitwright.measure.log import EXCESS_PRIOR_MM, RIGHT_MM, SAY_SO_MM
from fitwright.parts import BUILDERS
from fitwright.spec.grammar.prints import PrintKeys
from fitwright.spec.grammar.profiles import read_printer
from fitwright.spec.grammar.values import Context
from fitwright.spec.learned import Learned
from fitwright.spec.load import load_file
from fitwright.spec.models import AdapterSpec
from fitwright.spec.printed import (
    GRIPS_BETWEEN,
    bought_cone,
    excess_mm,
    modelled_at,
    printed_cone,
    table_mm,
)
from fitwright.spec.taught import Group, error_of, excess_of, with_learned

PART = "part: reducer\n%send_a: {%s}\nend_b: {hose_tail: {hose_inside: 50}}\n"
SLIDE = "socket: {over: 60, fit: slide}"
TABLE = 0.002 * 60 + 0.1 + 0.2
"""The slide allowance at 60 mm on a printer that scatters by 0.2 % and 0.1 mm, by hand: 0.42 mm."""


def entry(**changed: object) -> str:
    """One print in the log; by default a 60 mm slide socket as the table has it."""
    values: dict[str, object] = {
        "date": "2026-11-02",
        "part": "saw",
        "end": "end_a",
        "printer": "generic_220",
        "material": "PETG",
        "joint": "socket",
        "fit": "slide",
        "bought": 60,
        "wanted": 60.42,
        "modelled": 60.42,
        **changed,
    }
    return "  - " + "\n    ".join(f"{key}: {value}" for key, value in values.items() if value is not None) + "\n"


def spec_with(folder: Path, entries: list[str], end: str = SLIDE, more: str = "") -> AdapterSpec:
    (folder / "saw.yaml").write_text(PART % (more, end))
    if entries:
        (folder / "prints.yaml").write_text("prints:\n" + "".join(entries))
    (spec,) = load_file(folder / "saw.yaml")
    return spec


def joint(spec: AdapterSpec) -> Any:
    return spec.end_a.joint


def test_without_a_log_nothing_is_learned(tmp_path: Path) -> None:
    spec = spec_with(tmp_path, [])
    assert joint(spec).learned is None and spec.end_b.joint.learned is None  # type: ignore[union-attr]
    assert modelled_at(joint(spec), 5.0, spec.printer) == printed_cone(joint(spec), spec.printer).at(5.0)
    assert printed_cone(joint(spec), spec.printer).at(5.0) == pytest.approx(60 + TABLE)


def test_one_print_by_hand(tmp_path: Path) -> None:
    """Read once, 0.2 mm small: the prior's sd is 0.22 / 2 = 0.11, a print's 0.055 and the caliper's 0.05."""
    spec = spec_with(tmp_path, [entry(readings="[60.22]")])
    share = 0.11**2 / (0.11**2 + 0.055**2 + 0.05**2)
    found = joint(spec).learned
    assert found.size_error_mm == pytest.approx(-0.2 * share, abs=1e-4)
    assert (found.readings, found.verdicts, found.excess_mm, found.scatter_mm) == (1, 0, 0.0, None)
    measures = printed_cone(joint(spec), spec.printer).at(5.0)
    assert measures == pytest.approx(60 + TABLE)  # nobody said how it went: the fit stays the table's
    assert modelled_at(joint(spec), 5.0, spec.printer) == pytest.approx(measures + 0.2 * share, abs=1e-4)


def test_the_allowance_is_the_table_and_what_was_learned_once(tmp_path: Path) -> None:
    """Tight where it measures 60.32: the clearance wanted is 0.1 over that and more, one-sided (closed form)."""
    calibrated = "printer: {name: generic_220, scale_xy: 0.998, hole_offset: -0.1}\n"
    modelled = (60.42 + 0.1) / 0.998
    spec = spec_with(tmp_path, [entry(readings="[60.32]", went="tight", modelled=f"{modelled:.4f}")], more=calibrated)
    sd = math.hypot(SAY_SO_MM, 0.05)
    root = math.hypot(sd, EXCESS_PRIOR_MM)
    z = -(60.32 - 60.42 + RIGHT_MM) / root
    ratio = math.exp(-z * z / 2) / math.sqrt(2 * math.pi) / (0.5 * math.erfc(-z / math.sqrt(2)))
    excess = EXCESS_PRIOR_MM**2 * ratio / root
    found = joint(spec).learned
    assert found.excess_mm == pytest.approx(excess, abs=1e-4) and found.verdicts == 1
    measures = printed_cone(joint(spec), spec.printer).at(7.0)
    assert measures == pytest.approx(60 + TABLE + excess, abs=1e-4)
    assert modelled_at(joint(spec), 7.0, spec.printer) == pytest.approx(
        (measures + 0.1 - found.size_error_mm) / 0.998, abs=1e-9
    )


@pytest.mark.slow
def test_the_picture_says_what_the_print_will_measure(tmp_path: Path) -> None:
    """Modelled larger because prints came out small: the picture tells the caliper's number, not the model's."""
    spec = spec_with(tmp_path, [entry(readings="[60.22, 60.20, 60.24]")])
    (shown,) = (one for one in BUILDERS["reducer"](spec).dimensions if one.label.startswith("end_a"))
    assert shown.value == pytest.approx(60 + TABLE, abs=0.01)
    assert math.dist(shown.a, shown.b) == pytest.approx(shown.value - joint(spec).learned.size_error_mm, abs=0.01)


def test_the_size_error_is_under_todays_calibration(tmp_path: Path) -> None:
    """A printer calibrated since then explains the error away, and it is not taken off twice."""
    read = [entry(readings="[60.22, 60.22]")] * 3
    before = spec_with(tmp_path, read)
    after = spec_with(tmp_path, read, more="printer: {name: generic_220, hole_offset: -0.2}\n")
    assert joint(before).learned.size_error_mm < -0.15
    assert joint(after).learned.size_error_mm == pytest.approx(0.0, abs=1e-4)
    assert modelled_at(joint(after), 5.0, after.printer) == pytest.approx(60 + TABLE + 0.2, abs=1e-3)


def test_an_allowance_of_ones_own_stays(tmp_path: Path) -> None:
    said = [entry(went="tight", readings="[60.3]")] * 3
    spec = spec_with(tmp_path, said, "socket: {over: 60, allowance: 0.3}")
    assert printed_cone(joint(spec), spec.printer).at(5.0) == pytest.approx(60.3)
    assert joint(spec).learned.verdicts == 0 and joint(spec).learned.readings == 3
    assert modelled_at(joint(spec), 5.0, spec.printer) > 60.3


@pytest.mark.parametrize(
    ("changed", "size", "fit"),
    [
        ({}, True, True),
        ({"printer": "GENERIC_220", "material": "petg"}, True, True),
        ({"printer": "generic_256"}, False, False),
        ({"material": "PLA"}, False, False),
        ({"joint": "spigot"}, False, False),
        ({"fit": "snug"}, True, False),
    ],
    ids=str,
)
def test_who_learns_from_whom(changed: dict[str, object], size: bool, fit: bool, tmp_path: Path) -> None:
    spec = spec_with(tmp_path, [entry(readings="[60.3]", went="tight", **changed)])
    found = joint(spec).learned
    assert (found is not None and found.readings == 1) is size
    assert (found is not None and found.verdicts == 1) is fit


def test_enough_prints_bring_their_own_scatter(tmp_path: Path) -> None:
    read = [entry(readings=f"[{60.42 + off}]") for off in (0.0, 0.02, -0.02, 0.01, -0.01)]
    assert joint(spec_with(tmp_path, read[:4])).learned.scatter_mm is None
    own = joint(spec_with(tmp_path, read)).learned.scatter_mm
    assert 0.05 <= own < 0.002 * 60 + 0.1


def test_a_spec_that_learned_travels_to_a_worker(tmp_path: Path) -> None:
    spec = spec_with(tmp_path, [entry(readings="[60.3]", went="tight")])
    assert pickle.loads(pickle.dumps(spec)) == spec


def taught_by(spec: AdapterSpec, excess: float) -> Any:
    learned = Learned("p", "m", excess_mm=excess, verdicts=3)
    return with_learned(spec.end_a, learned).joint


@pytest.mark.parametrize("fit", ["press", "snug", "slide", "glue"])
@pytest.mark.parametrize("excess", [-2.0, -0.3, 0.0, 0.3, 2.0])
@pytest.mark.parametrize("kind", ["socket: {over", "spigot: {into"])
def test_a_fit_keeps_a_gap(kind: str, excess: float, fit: str, tmp_path: Path) -> None:
    spec = spec_with(tmp_path, [], f"{kind}: 60, fit: {fit}}}")
    made = taught_by(spec, excess)
    clearance = abs(printed_cone(made, spec.printer).at(5.0) - 60.0)
    table = table_mm(made, spec.printer)
    assert clearance == pytest.approx(min(max(table + excess, 0.02), table + 0.6))


@pytest.mark.parametrize("excess", [-2.0, -0.1, 0.0, 0.1, 2.0])
@pytest.mark.parametrize("kind", ["socket: {over", "spigot: {into"])
def test_a_taper_still_grips_between_mouth_and_stop(kind: str, excess: float, tmp_path: Path) -> None:
    spec = spec_with(tmp_path, [], f"{kind}: 107.1}}")
    made = taught_by(spec, excess)
    assert made.taper_deg == 0.5
    printed, grip = printed_cone(made, spec.printer), (107.1 - 0.0)
    s = (grip - printed.d0) / printed.slope
    low, high = (share * made.depth_mm for share in GRIPS_BETWEEN)
    assert low - 1e-6 <= s <= high + 1e-6
    # by hand: a clearance of x moves the grip by x over the taper, 2 tan 0.5 deg
    wanted = 0.6 * made.depth_mm + excess / (2 * math.tan(math.radians(0.5)))
    assert s == pytest.approx(min(max(wanted, low), high))


@pytest.mark.parametrize("excess", [-2.0, -0.05, 0.0, 0.05, 2.0])
def test_a_port_that_tapers_is_met_before_the_stop(excess: float, tmp_path: Path) -> None:
    spec = spec_with(tmp_path, [], "socket: {over: {end: 58.4, further: 60.2, apart: 30}, depth: 30}")
    made = taught_by(spec, excess)
    closes = printed_cone(made, spec.printer).at(30.0) - bought_cone(made).at(30.0)
    assert closes < 0.0  # at the stop the print would be smaller than the port
    if abs(excess) < 0.06:
        plain = printed_cone(joint(spec), spec.printer).at(30.0) - bought_cone(joint(spec)).at(30.0)
        assert closes == pytest.approx(plain + excess)


@pytest.mark.parametrize("went", ["tight", "loose", "right", "split"])
def test_a_larger_spigot_is_a_tighter_one(went: str, tmp_path: Path) -> None:
    """The same clearances, 0.42 wanted and 0.32 made, teach the same of a socket, a spigot and (0.08 more) a tail."""
    found = []
    for kind, fit, wanted, read in (
        ("socket: {over", "slide", 60.42, 60.32),
        ("spigot: {into", "slide", 59.58, 59.68),
        ("hose_tail: {hose_inside", "hose", 59.5, 59.6),
    ):
        said = entry(joint=kind.partition(":")[0], fit=fit, wanted=wanted, modelled=wanted, readings=[read], went=went)
        learned = joint(spec_with(tmp_path, [said], f"{kind}: 60{', fit: slide' if fit == 'slide' else ''}}}")).learned
        found.append(learned.excess_mm)
        assert learned.size_error_mm * (read - wanted) > 0.0
    assert found == pytest.approx([found[0]] * 3, abs=1e-6)


def test_a_taper_is_logged_by_where_it_grips(tmp_path: Path) -> None:
    """Made 0.05 looser than the table and 0.05 mm large: it gripped with 0.1 more clearance, and was right so."""
    keys = {"fit": "taper", "bought": 107.1, "wanted": 107.6, "modelled": 107.6, "eased": 0.05}
    spec = spec_with(tmp_path, [entry(**keys, readings=[107.65] * 20, went="right")] * 12, "socket: {over: 107.1}")
    assert joint(spec).learned.excess_mm == pytest.approx(0.1, abs=0.01)


def test_a_soft_cuff_and_a_tail(tmp_path: Path) -> None:
    cuff = spec_with(tmp_path, [], "socket: {over: 60}", "material: TPU\n")
    plain = printed_cone(joint(cuff), cuff.printer).at(9.0)
    assert printed_cone(taught_by(cuff, 0.2), cuff.printer).at(9.0) == pytest.approx(plain + 0.2)
    tail = spec_with(tmp_path, [], "hose_tail: {hose_inside: 60}")
    assert printed_cone(taught_by(tail, 0.2), tail.printer).at(9.0) == pytest.approx(60 - 0.5 - 0.2)
    assert printed_cone(taught_by(tail, -2.0), tail.printer).at(9.0) == pytest.approx(60.0)


def test_the_table_of_today_is_what_a_print_is_compared_with() -> None:
    """A slide fit called right at 0.42 over 60 mm: for a printer that scatters less, it was looser than the table."""
    one = PrintKeys.read(
        {
            **dict(date="2026-11-02", part="a", end="end_a", printer="p", material="PETG", joint="socket", fit="slide"),
            **dict(bought="60", wanted="60.42", modelled="60.42", readings=["60.42"] * 3, went="right"),
        },
        Context(),
    )
    group = Group("p", "PETG", "socket", "slide")
    usual = read_printer("generic_220", Context())
    finer = usual.model_copy(update={"scatter_rel": 0.0, "scatter_abs_mm": 0.1})
    assert excess_of(group, [one], usual).mean_mm == pytest.approx(0.0, abs=1e-6)
    assert excess_of(group, [one], finer).mean_mm == pytest.approx(0.42 - 0.3, abs=0.03)


DAMAGED = [
    ("prints: 5\n", "1:9: prints: found '5'"),
    ("print:\n  - a\n", "1:1: print: found the unknown key 'print'"),
    ("prints:\n  - {date: soon}\n", "2:12: prints[1].date: found 'soon'; allowed: a day"),
    ("prints:\n" + entry(went="snug"), "went: found 'snug'; allowed: loose | right | tight | split"),
    ("prints:\n" + entry(went="right", bought="60x"), "prints[1].bought: found '60x'"),
    ("prints:\n" + entry(), "neither readings nor went"),
    ("prints:\n" + entry(readings="[6.03]"), "readings[1]: found 6.03 mm, where 60.42 mm was wanted"),
    ("prints:\n" + entry(readings="[2.37]"), "readings[1]: found '2.37'"),
    ("prints:\n" + entry(went="right", fitt="slide"), "did you mean fit?"),
    ("prints:\n" + entry(went="right", date="2026-02-30"), "a day of the calendar"),
    ("prints:\n" + entry(went="right", joint="flange"), "socket | spigot | hose_tail"),
    ("prints: [\n", "found"),
]


@pytest.mark.parametrize(("text", "said"), DAMAGED, ids=[said for _, said in DAMAGED])
def test_a_damaged_log_is_named_with_its_place(text: str, said: str, tmp_path: Path) -> None:
    (tmp_path / "saw.yaml").write_text(PART % ("", SLIDE))
    (tmp_path / "prints.yaml").write_text(text)
    with pytest.raises(SpecError) as error:
        load_file(tmp_path / "saw.yaml")
    assert "prints.yaml:" in str(error.value) and said in str(error.value)
    assert all(problem.line for problem in error.value.problems)


def test_a_log_of_comments_alone_is_empty(tmp_path: Path) -> None:
    (tmp_path / "prints.yaml").write_text("# begun in November\n\n")
    assert joint(spec_with(tmp_path, [])).learned is None


def test_a_log_that_was_mended_is_read_anew(tmp_path: Path) -> None:
    first = joint(spec_with(tmp_path, [entry(went="tight", readings="[60.42]")])).learned.excess_mm
    second = joint(spec_with(tmp_path, [entry(went="loose", readings="[60.42]")])).learned.excess_mm
    assert first > 0.0 > second


def workshop(rng: random.Random, prints: int) -> tuple[float, float, list[PrintKeys], Group]:
    """A workshop whose printer misses by an error of its own, and which wants a clearance of its own."""
    printer, group = read_printer("generic_220", Context()), Group("generic_220", "PETG", "socket", "slide")
    error, wanted = rng.gauss(0.0, 0.11), rng.gauss(0.0, EXCESS_PRIOR_MM)
    log: list[PrintKeys] = []
    for number in range(prints):
        meant = 60 + TABLE + (excess_of(group, log, printer).mean_mm)
        modelled = meant - (error_of(group, log, printer, 60.0).mean_mm if log else 0.0)
        size = modelled + error + rng.gauss(0.0, 0.055)
        heard = size - (60 + TABLE + wanted) + rng.gauss(0.0, SAY_SO_MM)
        went = "loose" if heard > RIGHT_MM else "tight" if heard < -RIGHT_MM else "right"
        readings = [f"{size + rng.gauss(0.0, 0.05):.4f}" for _ in range(3)] if number % 3 else None
        lengths = {"bought": "60", "wanted": f"{meant:.4f}", "modelled": f"{modelled:.4f}"}
        names = {"printer": "generic_220", "material": "PETG", "joint": "socket", "fit": "slide"}
        made = {"date": "2026-11-02", "part": "saw", "end": "end_a", **names, **lengths, "went": went}
        log.append(PrintKeys.read(made | ({"readings": readings} if readings else {}), Context()))
    return error, wanted, log, group


@pytest.mark.slow
def test_workshops_that_do_not_measure_every_print() -> None:
    """Two of three are read, the others only called: the eighth print is right far more often than by the table."""
    rng, printer = random.Random(7), read_printer("generic_220", Context())
    held = sized = right = by_table = 0
    for _ in range(100):
        error, wanted, log, group = workshop(rng, 7)
        found, size = excess_of(group, log, printer), error_of(group, log, printer, 60.0)
        held += found.low_mm <= wanted <= found.high_mm
        sized += size.low_mm <= error <= size.high_mm
        scatter = [rng.gauss(0.0, 0.055) for _ in range(20)]
        right += sum(abs(found.mean_mm + error - size.mean_mm + off - wanted) <= RIGHT_MM for off in scatter)
        by_table += sum(abs(error + off - wanted) <= RIGHT_MM for off in scatter)
    assert 90 <= held <= 99 and 90 <= sized <= 99
    assert right > by_table + 600


def test_what_is_kept_is_said_by_the_same_number(tmp_path: Path) -> None:
    spec = spec_with(tmp_path, [], "socket: {over: 60, fit: press}")
    assert excess_mm(taught_by(spec, -1.0), spec.printer) == pytest.approx(0.02 - 0.05)
