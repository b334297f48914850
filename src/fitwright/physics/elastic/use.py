"""From stresses to how much of the strength is used: in the layers, between them, and left out beside seats' edges."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from fitwright.frame import Vec
from fitwright.physics.elastic.task import Elastic, Peak

Array = NDArray[np.float64]
IN_LAYER, ACROSS = "in the layers", "between the layers"


def von_mises(stress_mpa: Array) -> Array:
    """Equivalent stress of (..., 3, 3).

    >>> float(von_mises(np.diag([10.0, 0.0, 0.0])))
    10.0
    """
    deviator = stress_mpa - np.trace(stress_mpa, axis1=-2, axis2=-1)[..., None, None] * np.eye(3) / 3.0
    return np.asarray(np.sqrt(1.5 * np.sum(deviator * deviator, axis=(-2, -1))))


def across_layers(stress_mpa: Array, layers: Vec) -> Array:
    """Equivalent stress of what pulls two layers apart and shears them: sqrt(pull^2 + 3 shear^2); pressing is free.

    >>> float(across_layers(np.diag([0.0, 0.0, 10.0]), (0.0, 0.0, 1.0)))
    10.0
    >>> float(across_layers(np.diag([0.0, 0.0, -10.0]), (0.0, 0.0, 1.0)))
    0.0
    """
    normal = np.asarray(layers)
    traction = stress_mpa @ normal
    pull = traction @ normal
    shear2 = np.maximum(np.sum(traction * traction, axis=-1) - pull * pull, 0.0)
    return np.asarray(np.sqrt(np.maximum(pull, 0.0) ** 2 + 3.0 * shear2))


def used(stress_mpa: Array, elastic: Elastic, layers: Vec | None) -> tuple[Array, Array]:
    """Use of the strength at each place (n,): in the layers, and between them (0 where there are none)."""
    inside = von_mises(stress_mpa) / elastic.strength_mpa
    if layers is None:
        return inside, np.zeros_like(inside)
    return inside, across_layers(stress_mpa, layers) / elastic.across_mpa


def use_of(stress_mpa: Array, elastic: Elastic, layers: Vec | None) -> Array:
    """The greater use of both kinds at each place (n,)."""
    return np.maximum(*used(stress_mpa, elastic, layers))


def peak(stress_mpa: Array, points: Array, elastic: Elastic, layers: Vec | None) -> Peak:
    """The worst of some places."""
    inside, between = used(stress_mpa, elastic, layers)
    both = np.maximum(inside, between)
    k = int(np.argmax(both))
    how = ACROSS if between[k] > inside[k] else IN_LAYER
    limit = elastic.across_mpa if how == ACROSS else elastic.strength_mpa
    x, y, z = (float(v) for v in points[k])
    return Peak(float(both[k]), how, (x, y, z), float(both[k]) * limit, limit)
