"""Slit sleeves: the volume of a tube less its slit, how wide the slit must be, and what it keeps clear of."""

from __future__ import annotations

import math

import pytest
from shapely.geometry import Point, box

from fitwright.errors import RefusalError
from fitwright.parts import BUILDERS
from fitwright.shapes.slit import strip_mm3
from fitwright.spec.load import load_text

from .whole import body_of, fact, findings, part_of, result_of

SLEEVE = "part: reducer\nslit: {slit}\nend_a: {{socket: {{over: 100{a}}}}}\nend_b: {{socket: {{over: 80{b}}}}}\n"
TUBE = """
part: reducer
line: nested
slit: {width: 4, seal: tape}
wall: 4
end_a: {socket: {over: 100, allowance: 0.4, stop: 0, lead_in: 0, depth: 30}}
end_b: {spigot: {into: 110, allowance: 0.4, stop: 0, lead_in: 0, depth: 30}}
"""


def sleeve(slit: str = "yes", a: str = "", b: str = "") -> str:
    """A sleeve between 100 and 80 mm."""
    return SLEEVE.format(slit=slit, a=a, b=b)


def strip_mm2(r: float, width: float) -> float:
    """What a half-strip from the centre takes of a disc: h sqrt(r^2 - h^2) + r^2 asin(h / r)."""
    h = width / 2
    return h * math.sqrt(r * r - h * h) + r * r * math.asin(h / r)


def test_a_tube_less_its_slit() -> None:
    body = body_of(TUBE)
    box_of = body.solid.BoundingBox()
    long, out, bore = box_of.ylen, (110 - 0.4) / 2, (100 + 0.4) / 2
    tube = math.pi * (out**2 - bore**2) * long
    slit = (strip_mm2(out, 4.0) - strip_mm2(bore, 4.0)) * long
    assert body.solid.Volume() == pytest.approx(tube - slit, rel=1e-6)
    assert slit == pytest.approx(4.0 * (out - bore) * long, rel=0.005)  # nearly a prism
    assert body.volume_mm3 == pytest.approx(tube - slit, rel=1e-9)
    assert body.genus == 0


def test_the_strip_of_a_cone_against_slices_of_another_library() -> None:
    line, width = ((0.0, 40.0), (10.0, 40.0), (50.0, 25.0)), 6.0
    strip = box(-3.0, 0.0, 3.0, 100.0)
    radii = [40.0 - 15.0 * (k + 0.5) / 200 for k in range(200)]
    slices = sum(Point(0, 0).buffer(r, quad_segs=400).intersection(strip).area for r in radii) * 40.0 / 200
    slices += Point(0, 0).buffer(40.0, quad_segs=400).intersection(strip).area * 10.0
    assert strip_mm3(line, width) == pytest.approx(slices, rel=1e-4)


def test_a_sleeve_has_one_slit_bands_and_a_warning_until_it_is_sealed() -> None:
    body = body_of(sleeve())
    assert body.genus == 0 and not [f for f in result_of(sleeve()).findings if f.blocks]
    names = [f.name for f in body.features]
    assert "slit" in names and sum("band rim" in name for name in names) == 4
    assert all(f.seal == "band" and f.grip == "band" and f.flexes for f in body.fits)
    (leak,) = findings(sleeve(), "fit.result", "warn")
    assert leak.place == "slit" and "seal: tape" in leak.advice
    assert not findings(sleeve("{seal: foam}"), "fit.result", "warn")


def test_the_slit_closes_round_the_loosest_pair() -> None:
    # slide at 100: 0.2 + 0.3 over the middle; loosest: 0.3 (print) + 0.1 (one reading) more: 0.9 mm, pi x 0.9 = 2.83
    need = math.pi * (0.5 + 0.3 + 0.001 + 0.1)
    with pytest.raises(RefusalError) as caught:
        part_of(sleeve("{width: 2.5}"))
    assert caught.value.key == "slit.width"
    assert float(caught.value.allowed.split()[0]) == pytest.approx(need, abs=0.02)
    assert part_of(sleeve("{width: 2.9, seal: tape}"))
    # by itself half a millimetre is left open: 3.33, in steps of a half
    assert fact(sleeve(), "slit").startswith("3.50 mm wide")


def test_a_play_that_no_slit_closes() -> None:
    text = sleeve(a=", allowance: 8").replace("80", "24").replace("100", "28")
    with pytest.raises(RefusalError, match="slit"):
        part_of(text)


def test_screws_keep_clear_of_it() -> None:
    text = sleeve(a=", screws: {count: 3}", b=", screws: {count: 6}")
    assert not [f for f in result_of(text).findings if f.blocks]
    assert body_of(text).genus == 9
    for hole in body_of(text).holes:
        x, _, z = (hole.start[i] + 5 * hole.direction[i] for i in range(3))
        assert z < 0 or abs(x) > 1.75 + 1.6 + 2.5
    with pytest.raises(RefusalError) as caught:
        part_of(sleeve(b=", screws: {count: 12}").replace("80", "28"))
    assert caught.value.key == "end_b.socket.screws" and caught.value.allowed.split()[0].isdigit()


def test_a_bush_is_squeezed_by_the_hose_clamp() -> None:
    text = TUBE.replace(
        "spigot: {into: 110, allowance: 0.4, stop: 0, lead_in: 0, depth: 30}", "hose_tail: {hose_inside: 110}"
    )
    bore = next(f for f in body_of(text).fits if f.kind == "hole")
    assert (bore.seal, bore.grip) == ("hose clamp", "hose clamp")
    assert not [f for f in result_of(text).findings if f.blocks]


def test_only_sleeves_are_slit() -> None:
    from fitwright.errors import SpecError

    for extra, key in (("line: level", "slit"), ("eccentricity: {up: 3}", "slit")):
        with pytest.raises(SpecError) as caught:
            load_text(f"{sleeve()}{extra}\n", "x.yaml")
        assert key in [p.key for p in caught.value.problems]
    with pytest.raises(SpecError) as caught:
        load_text(
            sleeve(a=", clamp: {slits: 4}, fit: press").replace("socket: {over: 80}", "spigot: {into: 80}"), "x.yaml"
        )
    keys = {p.key for p in caught.value.problems}
    assert keys == {"end_a.socket.clamp", "end_a.socket.fit", "end_b.spigot"}
    assert BUILDERS
