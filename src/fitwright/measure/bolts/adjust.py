"""Least squares of a network of distances: places from more readings than needed, and what each reading is worth.

The adjustment by observation equations of surveying (C. D. Ghilani, Adjustment Computations, chapters on trilateration
and on blunder detection; from memory): v = model - reading, minimum of the sum of (v / sd)^2, redundancy numbers
r = 1 - diag of the hat matrix, standardised residuals w = v / (sd sqrt(r)) (W. Baarda 1968).
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from scipy.optimize import least_squares
from scipy.stats import chi2

from fitwright.measure.bolts.readings import Numbers, Readings

UNCONTROLLED = 0.02
"""A reading whose redundancy number is below this has no other that would show its error."""

UNLIKELY = 0.01
"""Good readings scatter so much in one set of a hundred."""


@dataclass(frozen=True)
class Fit:
    """Places that fit the readings best: `unknowns` = right, up of each point, hole's and opening's diameter [mm].

    `basis` turns the parameters of the model (all places free, a regular circle, ...) into the unknowns.
    """

    readings: Readings
    unknowns: Numbers
    basis: Numbers

    @property
    def places(self) -> Numbers:
        """Right and up [mm] of each hole, and of the opening's centre where it was read."""
        return self.unknowns[:-2].reshape(-1, 2)

    @property
    def holes(self) -> Numbers:
        """Right and up [mm] of each hole."""
        return self.places[: self.readings.count]

    @cached_property
    def fitted(self) -> Numbers:
        """What each reading would be [mm]."""
        return modelled(self.readings, self.unknowns)

    @property
    def residuals(self) -> Numbers:
        """Reading less fitted [mm]."""
        return self.readings.values - self.fitted

    @cached_property
    def chi2(self) -> float:
        """Sum of the squared residuals in standard deviations."""
        return float(np.sum((self.residuals / self.readings.sd_mm) ** 2))

    @property
    def spare(self) -> int:
        """Readings beyond those needed (the redundancy)."""
        return self.readings.observed - int(self.basis.shape[1])

    @property
    def likely(self) -> float:
        """The chance that good readings scatter this much or more; 1 where nothing is spare."""
        return float(chi2.sf(self.chi2, self.spare)) if self.spare > 0 else 1.0

    @cached_property
    def _design(self) -> Numbers:
        return slopes(self.readings, self.unknowns) @ self.basis / self.readings.sd_mm

    @cached_property
    def redundancy(self) -> Numbers:
        """Each reading's redundancy number, 0 (nothing checks it) to 1 (the others give it fully)."""
        q, _ = np.linalg.qr(self._design)
        return np.asarray(np.clip(1.0 - np.sum(q**2, axis=1), 0.0, 1.0))

    @cached_property
    def standardised(self) -> Numbers:
        """Residuals over their own standard deviation; nan where nothing checks the reading."""
        r = self.redundancy
        safe = np.where(r > UNCONTROLLED, r, np.nan)
        return np.asarray(self.residuals / self.readings.sd_mm / np.sqrt(safe))

    @cached_property
    def covariance(self) -> Numbers:
        """Of all unknowns [mm2], after best alignment: about the middle of the points, without a common turn."""
        inner = np.linalg.pinv(self._design.T @ self._design, rcond=1e-13, hermitian=True)
        whole = self.basis @ inner @ self.basis.T
        keep = _aligned(self.places, self.readings.width)
        return np.asarray(keep @ whole @ keep.T)

    def give_mm(self, point: int) -> float:
        """Two standard deviations [mm] of a point along its worse direction."""
        block = self.covariance[2 * point : 2 * point + 2, 2 * point : 2 * point + 2]
        return float(2 * np.sqrt(max(np.linalg.eigvalsh(block)[-1], 0.0)))

    def parameter(self, at: int) -> tuple[float, float]:
        """A parameter of the model, and two standard deviations of it."""
        inner = np.linalg.pinv(self._design.T @ self._design, rcond=1e-13, hermitian=True)
        value = np.linalg.lstsq(self.basis, self.unknowns, rcond=None)[0][at]
        return float(value), float(2 * np.sqrt(max(inner[at, at], 0.0)))

    @property
    def scatter(self) -> float:
        """How many times larger the residuals are than the instrument's; 1 where chance (1 in 100) explains them."""
        return float(np.sqrt(self.chi2 / self.spare)) if self.likely < UNLIKELY else 1.0


def modelled(readings: Readings, unknowns: Numbers) -> Numbers:
    """What the readings would be [mm] for these unknowns."""
    places = unknowns[:-2].reshape(-1, 2)
    made = readings.shares @ unknowns[-2:]
    made[: len(readings.distances)] += np.linalg.norm(places[readings.second] - places[readings.first], axis=1)
    return np.asarray(made)


def slopes(readings: Readings, unknowns: Numbers) -> Numbers:
    """Derivative of each reading by each unknown."""
    places = unknowns[:-2].reshape(-1, 2)
    apart = places[readings.second] - places[readings.first]
    unit = apart / np.maximum(np.linalg.norm(apart, axis=1), 1e-9)[:, None]
    made = np.zeros((readings.observed, readings.width))
    rows = np.arange(len(unit))
    for axis in (0, 1):
        made[rows, 2 * readings.first + axis] = -unit[:, axis]
        made[rows, 2 * readings.second + axis] = unit[:, axis]
    made[:, -2:] = readings.shares
    return made


def adjust(readings: Readings, basis: Numbers, start: Numbers) -> Fit:
    """The best fit of a model whose unknowns are `basis` times its parameters, from `start` (parameters)."""
    sd, values = readings.sd_mm, readings.values
    found = least_squares(
        lambda q: (modelled(readings, basis @ q) - values) / sd,
        start,
        jac=lambda q: slopes(readings, basis @ q) @ basis / sd,
        method="lm",
        xtol=1e-15,
        ftol=1e-15,
        gtol=1e-15,
        max_nfev=400,
    )
    unknowns = basis @ found.x
    if not readings.by_edges:
        unknowns[-2] = readings.diameters()[0]  # as read: it is in none of these readings, but may be in one to come
    return Fit(readings, unknowns, basis)


def diameters_basis(readings: Readings) -> Numbers:
    """Columns for those diameters that are unknowns of these readings."""
    made = np.zeros((readings.width, 2))
    made[-2, 0] = made[-1, 1] = 1.0
    return made[:, [readings.by_edges, readings.by_rim]]


def free_fit(readings: Readings, places: Numbers) -> Fit:
    """All places free, from these: the first of the two farthest holes stays, the second keeps its direction."""
    base, far = _farthest(places)
    way = (places[far] - places[base]) / np.linalg.norm(places[far] - places[base])
    turned = (places - places[base]) @ np.array([[way[0], -way[1]], [way[1], way[0]]])
    fixed = [2 * base, 2 * base + 1, 2 * far + 1]
    basis = np.delete(np.eye(readings.width)[:, :-2], fixed, axis=1)
    basis = np.hstack([basis, diameters_basis(readings)])
    unknowns = np.concatenate([turned.ravel(), readings.diameters()])
    return adjust(readings, basis, basis.T @ unknowns)


def _farthest(places: Numbers) -> tuple[int, int]:
    apart = np.linalg.norm(places[:, None] - places[None], axis=2)
    base, far = np.unravel_index(int(np.argmax(apart)), apart.shape)
    return int(base), int(far)


def _aligned(places: Numbers, width: int) -> Numbers:
    """The projection that takes a common shift and turn out of small changes of the unknowns."""
    moves = np.zeros((width, 3))
    moves[0:-2:2, 0] = moves[1:-2:2, 1] = 1.0
    about = places - places.mean(axis=0)
    moves[0:-2:2, 2], moves[1:-2:2, 2] = -about[:, 1], about[:, 0]
    q, _ = np.linalg.qr(moves)
    return np.asarray(np.eye(width) - q @ q.T)
