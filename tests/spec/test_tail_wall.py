"""How thick a tail is where its YAML does not say: against the bending of a long cylinder under a band."""

from __future__ import annotations

import math

import pytest
from tests.whole import spec_of

from fitwright.physics.ring import band_edge_mpa

TAIL = "part: reducer\nend_a: {socket: {over: 107.1}}\nend_b: {hose_tail: {hose_inside: 100}}\n"


def wall(more: str = "") -> float:
    return float(spec_of(TAIL + more).ends["end_b"].hose_tail.wall_mm)


def test_bending_under_a_band_is_that_of_a_beam_on_an_elastic_bed() -> None:
    """Timoshenko and Woinowsky-Krieger, section 116, by its own beam: D w'''' + E t / r^2 w = p over the band's width.

    Solved by finite differences over six band widths; the greatest moment of all, not that in the middle alone.
    """
    import numpy as np

    e, t, r, nu, band, p = 2000.0, 3.2, 48.0, 0.38, 13.0, 1.2
    n, long = 2001, 120.0
    h = long / (n - 1)
    x = np.linspace(-long / 2, long / 2, n)
    d = e * t**3 / (12 * (1 - nu**2))
    fourth = sum(np.eye(n, k=k) * c for k, c in zip((-2, -1, 0, 1, 2), (1, -4, 6, -4, 1), strict=True)) * d / h**4
    w = np.linalg.solve(fourth + np.eye(n) * e * t / r**2, np.where(np.abs(x) <= band / 2, p, 0.0))
    moment = d * np.abs(np.diff(w, 2)).max() / h**2
    assert band_edge_mpa(p, band, t, r, nu) == pytest.approx(6 * moment / t**2, rel=0.01)


@pytest.mark.parametrize("filament", ["PETG", "PLA"])
def test_usual_filaments_keep_the_usual_wall(filament: str) -> None:
    assert wall(f"material: {filament}\n") == 3.2


@pytest.mark.parametrize("more", ["material: ABS\n", "material: ASA\n", "near_heat: 60\n", "material: TPU\n"])
def test_less_between_the_layers_asks_for_more(more: str) -> None:
    """By hand: 3.2 mm bend with about 11 MPa; ABS has 15 between its layers, PETG at 60 C 25 (1 - 0.45 x 37 / 42)."""
    spec = spec_of(TAIL + more)
    if spec.material.soft:
        assert wall(more) == 3.2
        return
    assert 3.2 < wall(more) < 5.0
    across = spec.material.at(spec.near_heat_c).strength_across_mpa
    press = 2 * 800.0 / (13.0 * 100.0)
    assert across / band_edge_mpa(press, 13.0, wall(more), 50.0 - wall(more) / 2, spec.material.poisson) > 1.65


def test_a_wall_that_is_given_stays() -> None:
    text = TAIL.replace("hose_inside: 100", "hose_inside: 100, wall: 3.2")
    assert spec_of(text + "near_heat: 60\n").ends["end_b"].hose_tail.wall_mm == 3.2


def test_it_grows_no_further_than_a_place_that_the_filament_stands() -> None:
    """A hotter place asks for another filament, not for a wall of its own."""
    assert wall("near_heat: 100\n") == wall("near_heat: 65\n") < 8.0
    assert math.isclose(wall("wall: 5.04\n"), 5.04)
