"""What warmth and time leave of a filament, and what a bar with a weight tells of one."""

from __future__ import annotations

import itertools

import pytest

from fitwright.data.profiles import MaterialRow, material, materials
from fitwright.physics import bar_test, motor_heat
from fitwright.physics.filament import CREEP_SHARE, SOFT_SHARE, SUSTAINED_SHARE, share_left
from fitwright.spec.grammar.own_materials import table_material

ROWS = list(materials().values())
STIFF = [row for row in ROWS if not row.soft]


def test_a_tenth_is_left_at_the_heat_deflection_temperature() -> None:
    """ISO 75-2 (from memory): 4 mm high flatwise, span 64 mm, standard deflection 0.34 mm, 0.45 MPa by method B."""
    strain = 6 * 0.34 * 4.0 / 64.0**2
    modulus = 0.45 / strain
    assert strain == pytest.approx(0.002, rel=0.01) and modulus == pytest.approx(226, abs=1)
    for row in STIFF:  # of the remembered and read moduli, 1000 to 2400 MPa
        assert 0.4 * modulus < SOFT_SHARE * row.modulus_mpa < 1.1 * modulus


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.name)
def test_warmth_only_takes(row: MaterialRow) -> None:
    """Falls steadily from 1 at 23 C over the tables' shares at the service temperature; never nothing, no jump."""
    one = table_material(row.name)
    temperatures = [0.5 * step for step in range(-20, 300)]
    for share in (one.modulus_share, one.strength_share):
        left = [share(t) for t in temperatures]
        assert left[0] == 1.0 and left[-1] > 0.0
        assert all(0.0 <= a - b < 0.05 for a, b in itertools.pairwise(left))
    assert one.modulus_share(23.0) == 1.0
    assert one.modulus_share(row.service_c) == pytest.approx(row.modulus_at_service)
    assert one.strength_share(row.service_c) == pytest.approx(row.strength_at_service)
    assert one.modulus_share(row.softening_c) == pytest.approx(SOFT_SHARE)


def test_a_filament_in_its_place() -> None:
    pla = table_material("PLA")
    assert pla.at(None) is pla and pla.at(23.0).modulus_mpa == pla.at(-10.0).modulus_mpa == 2400.0
    warm = pla.at(45.0)  # the shares of the table, remembered
    assert (warm.modulus_mpa, warm.strength_mpa, warm.strength_across_mpa) == pytest.approx(
        (0.75 * 2400, 0.6 * 43.7, 0.6 * 22.8)
    )
    assert (warm.poisson, warm.sustained_share, warm.creep_share) == (pla.poisson, 0.25, 0.5)
    assert warm.at(45.0) is warm and warm.at(None) is warm
    with pytest.raises(ValueError, match="reckoned for 45 C"):
        warm.at(60.0)  # warmed twice, it would be weakened twice
    assert pla.strength_at(45.0) == warm.strength_mpa and pla.modulus_at(45.0) == warm.modulus_mpa
    assert warm.lasting_mpa == pytest.approx(0.25 * warm.strength_mpa)


def test_what_lasts() -> None:
    """25 to 30 % of the strength (common practice); half of the modulus (common practice)."""
    assert 0.2 <= SUSTAINED_SHARE <= 0.3 and CREEP_SHARE == 0.5
    one = table_material("PETG")
    assert (one.lasting_mpa, one.lasting_across_mpa, one.lasting_modulus_mpa) == (11.0, 6.25, 1000.0)
    # Polymers 2025, 17(15), 2075: creep models of PETG hold up to 50 to 70 % of its strength; we stay far below.
    assert one.lasting_mpa < 0.5 * one.strength_mpa


def test_service_that_is_no_warmer_than_the_room() -> None:
    assert share_left(23.0, 20.0, 20.0, 0.7) == pytest.approx(0.1)  # soft in a room already
    assert share_left(22.9, 20.0, 20.0, 0.7) == 1.0


def test_a_bar_with_a_weight_in_its_middle() -> None:
    """F = 100 N, L = 100, b = 20, h = 10, E = 2000 MPa: F L^3 / (48 E I) = 0.625 mm, 6 M / (b h^2) = 7.5 MPa."""
    second_moment = 20.0 * 10.0**3 / 12.0
    sag = 100.0 * 100.0**3 / (48.0 * 2000.0 * second_moment)
    assert sag == pytest.approx(0.625)
    assert bar_test.bar_modulus_mpa(100.0, 100.0, 20.0, 10.0, sag) == pytest.approx(2000.0)
    assert bar_test.brittle_mpa(100.0, 100.0, 20.0, 10.0) == pytest.approx((100 * 100 / 4) / (20 * 10**2 / 6)) == 7.5
    # plastic modulus b h^2 / 4 of a rectangle in place of b h^2 / 6
    assert bar_test.tough_mpa(100.0, 100.0, 20.0, 10.0) == pytest.approx((100 * 100 / 4) / (20 * 10**2 / 4))


def test_windings_and_housings() -> None:
    """IEC 60034-1 as a published motor manual quotes it: 40 C air, 80, 105, 125 K, so 120, 145, 165 C at most."""
    for insulation, winding_c in (("B", 120.0), ("F", 145.0), ("H", 165.0)):
        assert motor_heat.AIR_C + motor_heat.RISE_K[insulation] == winding_c
    assert 60.0 <= motor_heat.housing_c("B") <= 90.0  # closed, fan-cooled motors: common practice
    felt = [motor_heat.beside_c(gap, 80.0) for gap in range(0, 400, 10)]
    assert felt == sorted(felt, reverse=True) and felt[0] == 80.0 and felt[-1] == motor_heat.ROOM_C


def test_figures_that_were_read() -> None:
    """PLA: doi 10.1089/3dp.2020.0109: 2.4 GPa is 32.4 % below the filament's (3.55 GPa); PETG: a public library."""
    pla, petg = material("PLA"), material("PETG")
    assert pla.modulus_mpa / (1 - 0.324) == pytest.approx(3550, abs=5)
    assert pla.strength_across_mpa / (1 - 0.478) == pytest.approx(43.7, abs=0.05)
    assert 44 <= petg.strength_mpa <= 56 and 25 <= petg.strength_across_mpa <= 38
    assert 2000 <= petg.modulus_mpa <= 3000 and 75 <= petg.softening_c <= 85
    assert pla.creeps and not any(row.creeps for row in ROWS if row.name != "PLA")
    for row in ROWS:  # handbook ranges from memory
        assert 0.45 <= row.poisson < 0.5 if row.soft else 0.33 <= row.poisson <= 0.42


def test_next_to_nothing_is_left_where_it_has_melted_soft() -> None:
    """A rubbery plateau of a few MPa (common practice) is a hundredth of 2000 MPa and less, from 10 K above."""
    petg = table_material("PETG")
    assert 1.0 < petg.modulus_share(85.0) * petg.modulus_mpa <= 25.0
    assert petg.modulus_share(84.0) > petg.modulus_share(85.0) == petg.modulus_share(150.0)
