"""What prints teach: against closed forms, numerical integration and simulated workshops.

Closed form of one verdict: Rasmussen and Williams, Gaussian Processes for Machine Learning, 2006, section 3.9 (equation
numbers from memory; the integrals below are the second witness). The integral of Phi((x - m) / v) N(x | mu, sigma^2) is
Phi(z) with z = (mu - m) / (v sqrt(1 + sigma^2 / v^2)) (3.80 to 3.82); the mean is
mu + sigma^2 N(z) / (Phi(z) v sqrt(1 + sigma^2 / v^2)) (3.85), the variance
sigma^2 - sigma^4 N(z) / ((v^2 + sigma^2) Phi(z)) (z + N(z) / Phi(z)) (3.87).
"""

from __future__ import annotations

import math
import random

import pytest
from scipy.integrate import quad
from scipy.special import log_ndtr
from scipy.stats import norm

from fitwright.measure.log import (
    ENOUGH_PRINTS,
    EXCESS_PRIOR_MM,
    RIGHT_MM,
    SAY_SO_MM,
    SPLIT_MM,
    Missed,
    Verdict,
    Went,
    log_phi,
    own_scatter_mm,
    print_sd_mm,
    reading_sd_mm,
    say_so_sd_mm,
    size_error,
    wanted_excess,
)

SIGMA = EXCESS_PRIOR_MM


def one_sided(m: float, v: float) -> tuple[float, float]:
    """Mean and standard deviation of N(x | 0, SIGMA^2) times Phi((x - m) / v)."""
    root = math.sqrt(v**2 + SIGMA**2)
    z = -m / root
    ratio = norm.pdf(z) / norm.cdf(z)
    mean = SIGMA**2 * ratio / root
    return mean, math.sqrt(SIGMA**2 - SIGMA**4 * ratio / root**2 * (z + ratio))


@pytest.mark.parametrize("sd", [0.05, 0.08, 0.2])
@pytest.mark.parametrize("excess", [-0.4, -0.1, 0.0, 0.12, 0.5])
def test_one_tight_print_is_the_closed_form(excess: float, sd: float) -> None:
    belief = wanted_excess([Verdict(excess, sd, "tight")])
    mean, spread = one_sided(excess + RIGHT_MM, sd)  # tight: wanted > excess + RIGHT, but for the say-so's doubt
    assert belief.mean_mm == pytest.approx(mean, abs=1e-6)
    assert belief.sd_mm == pytest.approx(spread, abs=1e-6)


@pytest.mark.parametrize("sd", [0.05, 0.08, 0.2])
@pytest.mark.parametrize("excess", [-0.4, -0.1, 0.0, 0.12, 0.5])
def test_one_loose_print_is_the_closed_form_mirrored(excess: float, sd: float) -> None:
    belief = wanted_excess([Verdict(excess, sd, "loose")])
    mean, spread = one_sided(-(excess - RIGHT_MM), sd)
    assert belief.mean_mm == pytest.approx(-mean, abs=1e-6)
    assert belief.sd_mm == pytest.approx(spread, abs=1e-6)


def chance(v: Verdict, wanted: float) -> float:
    """The chance of a verdict, written down a second time with an independent normal distribution."""
    looser = norm(v.excess_mm - wanted, v.sd_mm)
    if v.went == "loose":
        return float(looser.sf(RIGHT_MM))
    if v.went == "right":
        return float(looser.cdf(RIGHT_MM) - looser.cdf(-RIGHT_MM))
    return float(looser.cdf(-RIGHT_MM - (SPLIT_MM if v.went == "split" else 0.0)))


WORKSHOPS = [
    [Verdict(0.0, 0.06, "right")],
    [Verdict(0.0, 0.06, "split")],
    [Verdict(-0.2, 0.06, "split"), Verdict(0.1, 0.06, "right")],
    [Verdict(0.0, 0.08, "tight"), Verdict(0.2, 0.06, "right"), Verdict(0.35, 0.06, "loose")],
    [Verdict(0.1, 0.05, "loose"), Verdict(0.0, 0.09, "tight")],  # they contradict each other
]


@pytest.mark.parametrize("verdicts", WORKSHOPS, ids=lambda vs: " ".join(v.went for v in vs))
def test_several_verdicts_are_the_integral(verdicts: list[Verdict]) -> None:
    def weight(x: float) -> float:
        return float(norm.pdf(x, 0.0, SIGMA)) * math.prod(chance(v, x) for v in verdicts)

    def integral(f: object, high: float = 1.5) -> float:
        places = [p for p in (-0.3, -0.1, 0.0, 0.1, 0.3) if p < high]
        return float(quad(f, -1.5, high, points=places, epsabs=1e-14, epsrel=1e-12, limit=400)[0])

    belief, whole = wanted_excess(verdicts), integral(weight)
    mean = integral(lambda x: x * weight(x)) / whole
    variance = integral(lambda x: (x - mean) ** 2 * weight(x)) / whole
    assert belief.mean_mm == pytest.approx(mean, abs=1e-6)
    assert belief.sd_mm == pytest.approx(math.sqrt(variance), abs=1e-6)
    assert integral(weight, belief.low_mm) / whole == pytest.approx(0.025, abs=5e-4)
    assert integral(weight, belief.high_mm) / whole == pytest.approx(0.975, abs=5e-4)


@pytest.mark.parametrize("t", [-900.0, -80.0, -36.0, -34.9, -8.0, -1.0, 0.0, 0.3, 5.0, 9.0])
def test_the_far_tail_of_the_normal_distribution(t: float) -> None:
    assert log_phi(t) == pytest.approx(float(log_ndtr(t)), rel=1e-9, abs=1e-300)


def test_no_print_leaves_the_table() -> None:
    belief = wanted_excess([])
    assert (belief.mean_mm, belief.sd_mm, belief.prints) == (0.0, EXCESS_PRIOR_MM, 0)
    assert size_error([], 0.15).mean_mm == 0.0


def test_tight_moves_it_up_loose_down_and_right_narrows() -> None:
    tight, split, loose, right = (
        wanted_excess([Verdict(0.0, 0.06, went)]) for went in ("tight", "split", "loose", "right")
    )
    assert split.mean_mm > tight.mean_mm > 0.05
    assert loose.mean_mm == pytest.approx(-tight.mean_mm, abs=1e-9)
    assert right.mean_mm == pytest.approx(0.0, abs=1e-9) and right.sd_mm < 0.6 * EXCESS_PRIOR_MM
    more = wanted_excess([Verdict(0.0, 0.06, "right")] * 4)
    assert more.sd_mm < right.sd_mm


def test_a_print_that_fell_over_it_teaches_next_to_nothing() -> None:
    """Loose at 3 mm was to be expected: the clearance wanted stays by the table's, and by what others said."""
    assert wanted_excess([Verdict(3.0, 0.06, "loose")]).mean_mm == pytest.approx(0.0, abs=1e-9)
    said = [Verdict(0.1, 0.06, "right"), Verdict(-0.1, 0.06, "tight")]
    assert wanted_excess([*said, Verdict(3.0, 0.06, "loose")]).mean_mm == pytest.approx(
        wanted_excess(said).mean_mm, abs=1e-9
    )


def test_the_order_does_not_matter() -> None:
    rng = random.Random(4)
    went: tuple[Went, ...] = ("loose", "right", "tight", "split")
    verdicts = [Verdict(rng.gauss(0, 0.2), 0.06, rng.choice(went)) for _ in range(12)]
    missed = [Missed(rng.gauss(0.1, 0.1), 0.05 + 0.01 * k) for k in range(12)]
    first, error = wanted_excess(verdicts), size_error(missed, 0.15)
    for _ in range(3):
        rng.shuffle(verdicts)
        rng.shuffle(missed)
        assert wanted_excess(verdicts) == first and size_error(missed, 0.15) == error


def test_what_contradicts_everything_still_gives_a_number() -> None:
    belief = wanted_excess([Verdict(-3.0, 0.05, "loose"), Verdict(3.0, 0.05, "tight"), Verdict(9.0, 0.05, "right")])
    assert math.isfinite(belief.mean_mm) and belief.low_mm <= belief.mean_mm <= belief.high_mm


def test_the_size_error_is_the_integral() -> None:
    missed = [Missed(0.3, 0.08), Missed(0.22, 0.1), Missed(0.35, 0.06)]

    def weight(x: float) -> float:
        return float(norm.pdf(x, 0.0, 0.15)) * math.prod(float(norm.pdf(m.error_mm, x, m.sd_mm)) for m in missed)

    whole = quad(weight, -1, 1, epsabs=1e-14, points=[0.0, 0.3])[0]
    mean = quad(lambda x: x * weight(x), -1, 1, epsabs=1e-14, points=[0.0, 0.3])[0] / whole
    variance = quad(lambda x: (x - mean) ** 2 * weight(x), -1, 1, epsabs=1e-14, points=[0.0, 0.3])[0] / whole
    belief = size_error(missed, 0.15)
    assert belief.mean_mm == pytest.approx(mean, abs=1e-6) and belief.sd_mm == pytest.approx(variance**0.5, abs=1e-6)
    assert belief.low_mm == pytest.approx(norm.ppf(0.025, mean, variance**0.5), abs=1e-4)


def test_the_scatter_of_the_prints_themselves() -> None:
    assert own_scatter_mm([0.1] * (ENOUGH_PRINTS - 1), 0.08, 0.03) is None
    rng = random.Random(11)
    many = [rng.gauss(0.2, 0.12) for _ in range(4000)]
    assert own_scatter_mm(many, 0.03, 0.0) == pytest.approx(2 * 0.12, rel=0.05)  # what was assumed has faded
    # by hand: (4 x 0.08^2 + 0) / (4 + 6 - 1) and 0.03^2, two standard deviations
    assert own_scatter_mm([0.1] * 6, 0.08, 0.03) == pytest.approx(2 * math.sqrt(4 * 0.0064 / 9 + 0.0009))
    # by hand: mean 0.2, squares 0.01 + 0.01; (4 x 0.0064 + 0.02) / (4 + 1) = 0.00912
    assert print_sd_mm([0.1, 0.3], 0.08) == pytest.approx(math.sqrt(0.00912))
    assert print_sd_mm([], 0.08) == print_sd_mm([7.0], 0.08) == 0.08


PRINT_SD = 0.06
"""How a simulated printer scatters from print to print [mm]."""


def say_so(rng: random.Random, looser: float) -> Went:
    heard = looser + rng.gauss(0.0, SAY_SO_MM)
    if heard > RIGHT_MM:
        return "loose"
    if heard >= -RIGHT_MM:
        return "right"
    return "split" if heard < -RIGHT_MM - SPLIT_MM and rng.random() < 0.5 else "tight"


def workshop(rng: random.Random, prints: int) -> tuple[float, list[Verdict]]:
    """The clearance that a workshop wants over the table's, and what it said of prints made by what was learned."""
    wanted, verdicts = rng.gauss(0.0, EXCESS_PRIOR_MM), list[Verdict]()
    for _ in range(prints):
        made = wanted_excess(verdicts).mean_mm + rng.gauss(0.0, PRINT_SD)
        read = made + rng.gauss(0.0, reading_sd_mm(3))
        verdicts.append(Verdict(read, say_so_sd_mm(reading_sd_mm(3)), say_so(rng, made - wanted)))
    return wanted, verdicts


@pytest.mark.slow
def test_two_hundred_workshops() -> None:
    """The 95 % interval holds what is wanted 90 to 99 times of 100, and the eighth print is right more often."""
    rng = random.Random(20261125)
    held, right, by_table, tries = 0, 0, 0, 50
    for _ in range(200):
        wanted, verdicts = workshop(rng, 7)
        belief = wanted_excess(verdicts)
        held += belief.low_mm <= wanted <= belief.high_mm
        scatter = [rng.gauss(0.0, PRINT_SD) for _ in range(tries)]
        right += sum(abs(belief.mean_mm + off - wanted) <= RIGHT_MM for off in scatter)
        by_table += sum(abs(off - wanted) <= RIGHT_MM for off in scatter)
    assert 180 <= held <= 198
    assert right > by_table + 0.2 * 200 * tries
