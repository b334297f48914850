"""What people say for a cylinder (`ISO 6432 16 x 125`, `iso15552 32/160`), split into standard, bore and stroke."""

from __future__ import annotations

import re
from dataclasses import dataclass

from fitwright.units import plain_text

STANDARDS = {"ISO 6432": "round", "ISO 15552": "profile", "ISO 21287": "compact"}
"""Standard -> what the trade calls its cylinders."""
_NUMBERS = {"6432": "ISO 6432", "15552": "ISO 15552", "6431": "ISO 15552", "24562": "ISO 15552", "21287": "ISO 21287"}
"""ISO 6431 and VDMA 24562 went before ISO 15552, with the same mounting dimensions."""
_STANDARD = re.compile(
    rf"\b(?:din\s*|en\s*|bs\s*)*(?:iso|vdma)?[\s_-]*({'|'.join(_NUMBERS)})(?![0-9])"
    r"(?:-[0-9](?![0-9]))?(?::[12][0-9]{3})?"
)
_KIND = re.compile(rf"\b({'|'.join(STANDARDS.values())})\b")
_IDLE = re.compile(r"\b(?:air|pneumatic|cylinders?|double[ -]?acting|bore|stroke|mm|dia(?:meter)?|by)\b|[øØ⌀]")
_NUMBER = r"[0-9]+(?:\.[0-9]+)?"
_SIZES = re.compile(rf"({_NUMBER})(?:\s*[x/-]\s*|\s+)({_NUMBER})|({_NUMBER})")
_STROKE_FIRST = re.compile(rf"[^0-9]*stroke\s*(?:of\s*)?{_NUMBER}|{_NUMBER}\s*(?:mm)?\s*stroke")
_INCHES = re.compile(rf"{_NUMBER}\s*(?:inch(?:es)?\b|in\b|\"|'')|[0-9]\s*/\s*(?:2|4|8|16|32)\b(?!\s*mm)")


@dataclass(frozen=True)
class CylinderQuery:
    """What the words were understood as.

    `strange` is what nobody knows, `inches` a size that was said in inches, `said` whether a cylinder was named at all.
    """

    standard: str | None
    bore_mm: float | None = None
    stroke_mm: float | None = None
    strange: str = ""
    inches: str = ""
    said: bool = False


def understand(words: str) -> CylinderQuery:
    """Split a name into standard, bore and stroke [mm]; a lone number is the bore, or the stroke where it says so."""
    text = re.sub(r"[\u00d7\u2715*]", "x", re.sub(r",(?![0-9])|:(?= )", " ", plain_text(words).casefold()))
    standard, rest = _standard(text)
    said = re.search(r"\bcylinders?\b", text) is not None or _STANDARD.search(text) is not None
    if inches := _INCHES.search(rest):
        return CylinderQuery(standard, inches=inches[0].strip(), said=said)
    bare = re.sub(r"(?<=[0-9])\s*mm(?![a-wyz])", " ", rest)
    bare = " ".join(_IDLE.sub(" ", bare).split()).strip(" -_:x")
    match = _SIZES.fullmatch(bare)
    if not match:
        return CylinderQuery(standard, strange=_strange(bare), said=said)
    first, second = (match[1], match[2]) if match[1] else (match[3], None)
    sizes = (float(first), float(second) if second else None)
    bore, stroke = (sizes[1], sizes[0]) if _STROKE_FIRST.match(rest.strip()) else sizes
    return CylinderQuery(standard, bore, stroke, said=said)


def _strange(text: str) -> str:
    """What is left of the words beside sizes; all of it where that is nothing."""
    return (
        " ".join(re.sub(rf"(?<![a-z0-9.]){_NUMBER}(?:\s*[x/-]\s*{_NUMBER})?(?![a-z0-9.])", " ", text).split()) or text
    )


def _standard(text: str) -> tuple[str | None, str]:
    """The standard, and the text without its name."""
    if match := _STANDARD.search(text):
        return _NUMBERS[match[1]], _KIND.sub(" ", f"{text[: match.start()]} {text[match.end() :]}")
    if match := _KIND.search(text):
        meant = next(name for name, kind in STANDARDS.items() if kind == match[1])
        return meant, f"{text[: match.start()]} {text[match.end() :]}"
    return None, text
