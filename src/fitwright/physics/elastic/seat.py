"""A seat that only presses: which of its patches bear, for loads of which the seatless answer is known.

The body is held at its washers alone; `gaps0` is how far each patch moves into its seat (mean, mm) under the load then,
and `compliance[p, q]` how far patch p moves when patch q is pushed out by 1 N. Each patch sits on a spring. What
presses (>= 0) is the least of a strictly convex quadratic under bounds: Lawson and Hanson, Solving Least Squares
Problems, 1974, ch. 23 (non-negative least squares), which finds the active set exactly.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]


def pressing(compliance: Array, springs_n_mm: Array, into_mm: Array) -> Array:
    """Forces [N] on the patches, each 0 or pushing: (C + 1/k) f = into wherever f > 0, and less elsewhere.

    >>> pressing(np.zeros((2, 2)), np.array([10.0, 10.0]), np.array([0.5, -0.2])).round(9).tolist()
    [5.0, 0.0]
    """
    from scipy.optimize import nnls

    lower = np.linalg.cholesky(_whole(compliance, springs_n_mm))
    found, _ = nnls(lower.T, np.linalg.solve(lower, into_mm), maxiter=50 * max(len(into_mm), 1))
    return np.asarray(found)


def glued(compliance: Array, springs_n_mm: Array, into_mm: Array) -> Array:
    """The same where the seat holds both ways: what moves less than any real seat.

    >>> glued(np.zeros((2, 2)), np.array([10.0, 10.0]), np.array([0.5, -0.2])).tolist()
    [5.0, -2.0]
    """
    return np.asarray(np.linalg.solve(_whole(compliance, springs_n_mm), into_mm))


def _whole(compliance: Array, springs_n_mm: Array) -> Array:
    made = compliance + np.diag(1.0 / springs_n_mm)
    return np.asarray((made + made.T) / 2.0)
