"""Columns of numbers out of text, quickly."""

from __future__ import annotations

import re
import warnings
from typing import Any

import numpy as np
from numpy.typing import NDArray

from fitwright.errors import BuildError

_NUMBER = re.compile(rb"[-+]?(\d+\.?\d*|\.\d+)(e[-+]?\d+)?|[-+]?(nan|inf)", re.IGNORECASE)


def numbers(text: bytes, kind: type[np.float64] | type[np.int64] = np.float64) -> NDArray[Any]:
    """All numbers in `text`, which holds blanks and numbers only.

    Raises
    ------
    BuildError
        Something there is no number; it is quoted.
    """
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        try:
            return np.fromstring(text, dtype=kind, sep=" ") if text.strip() else np.empty(0, dtype=kind)
        except (DeprecationWarning, ValueError):
            pass
    wrong = next((word for word in text.split() if not _NUMBER.fullmatch(word)), b"")
    comma = "; numbers take a decimal point" if b"," in wrong else ""
    raise BuildError(f"has {wrong[:30].decode('utf-8', 'replace')!r} where a number should be{comma}")
