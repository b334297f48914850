"""Weighted linear least squares with what it leaves uncertain: standard errors, t-intervals, studentised residuals.

Source: Draper and Smith, Applied Regression Analysis, 3rd ed., Wiley 1998, ch. 5 and 8 (written from memory): b =
(X'WX)^-1 X'Wy, s^2 = r'Wr / (n - p), cov b = s^2 (X'WX)^-1; externally studentised residual t_i = r_i sqrt(w_i) /
(s_(i) sqrt(1 - h_i)), where s_(i) leaves observation i out, follows Student's t with n - p - 1 degrees of freedom.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy import stats

Array = NDArray[np.float64]
LEVEL = 0.95
"""Of all intervals."""
FIXED_BY_ONE = 1e-9
"""An observation whose 1 - h is below this alone fixes a parameter: its residual is 0 and says nothing."""


@dataclass(frozen=True, eq=False)
class LinearFit:
    """What was fitted: `values` [p], their `covariance`, `residuals` [n], `leverages` h [n], residual `sd`, `dof`.

    `weights` [n] are scaled to a mean of 1, so that `sd` is that of an average observation.
    """

    values: Array
    covariance: Array
    residuals: Array
    leverages: Array
    weights: Array
    sd: float
    dof: int

    @property
    def standard_errors(self) -> Array:
        """Of each value."""
        return np.sqrt(np.diag(self.covariance))

    @property
    def t(self) -> float:
        """Student's t for a two-sided interval of LEVEL."""
        return float(stats.t.ppf(0.5 + LEVEL / 2, self.dof))

    def of(self, row: Sequence[float]) -> tuple[float, float]:
        """Value and standard error of a combination of the values."""
        a = np.asarray(row, dtype=float)
        return float(a @ self.values), float(np.sqrt(max(0.0, a @ self.covariance @ a)))

    def next_half_range(self, row: Sequence[float]) -> float:
        """Half of the LEVEL interval for one more observation there: t sqrt(s^2 + se^2)."""
        return self.t * float(np.hypot(self.sd, self.of(row)[1]))

    def chance_of(self, row: Sequence[float]) -> float:
        """p, two-sided, that a combination of the values whose truth is 0 comes out so far from 0."""
        value, error = self.of(row)
        if error == 0.0:
            return 1.0 if value == 0.0 else 0.0
        return float(2.0 * stats.t.sf(abs(value) / error, self.dof))

    def studentised(self, least_sd: float) -> Array:
        """Externally studentised residuals; s_(i) is taken as `least_sd` where it comes out smaller. dof >= 2."""
        free = 1.0 - self.leverages
        judged = free > FIXED_BY_ONE
        free = np.where(judged, free, 1.0)
        scaled = self.residuals * np.sqrt(self.weights)
        without = (self.sd**2 * self.dof - scaled**2 / free) / (self.dof - 1)
        s = np.maximum(np.sqrt(np.maximum(without, 0.0)), least_sd)
        return np.where(judged, scaled / (s * np.sqrt(free)), 0.0)


def linear_fit(rows: Sequence[Sequence[float]], observed: Sequence[float], weights: Sequence[float]) -> LinearFit:
    """Fit `observed` [n] by `rows` [n x p] x values; ValueError where rows cannot tell the values apart, or n <= p."""
    x, y, w = (np.asarray(a, dtype=float) for a in (rows, observed, weights))
    n, p = x.shape
    if n <= p:
        raise ValueError(f"{n} observations for {p} values")
    w = w / w.mean()
    root = np.sqrt(w)
    scaled, lengths = x * root[:, None], np.linalg.norm(x * root[:, None], axis=0)
    q, r = np.linalg.qr(scaled / lengths)  # columns of one length: a size is a hundred times an offset's 1
    if np.min(np.abs(np.diag(r))) < 1e-9:
        raise ValueError("the observations cannot tell the values apart")
    inverse = np.linalg.inv(r) / lengths[:, None]
    values = inverse @ (q.T @ (y * root))
    residuals = y - x @ values
    dof = n - p
    sd = float(np.sqrt(np.sum(w * residuals**2) / dof))
    return LinearFit(values, sd**2 * inverse @ inverse.T, residuals, np.sum(q**2, axis=1), w, sd, dof)


def worst_of(t_values: Array, dof: int) -> tuple[int, float]:
    """Which is furthest off, and the chance (Bonferroni: times their number) that the worst of so many is so far."""
    worst = int(np.argmax(np.abs(t_values)))
    return worst, min(1.0, len(t_values) * float(2.0 * stats.t.sf(abs(t_values[worst]), dof)))
