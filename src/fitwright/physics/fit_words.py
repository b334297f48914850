"""What a clearance means for somebody who holds the two parts: does it go on, does it hold, does it leak."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from fitwright.physics.fits import CORD_SQUEEZE, Squeeze, hoop_strain
from fitwright.units import format_number

Severity = Literal["pass", "warn", "fail"]
Seal = Literal["none", "screws and tape", "band", "cord", "hose clamp", "glue", "stretch", "tape"]
Grip = Literal["none", "screws", "band", "taper", "hose clamp", "glue", "press", "stretch", "ridge"]

LEAK_MM = 0.3
"""A diametral gap up to this loses little air at 3 kPa (0.15 mm all round); common practice, no source."""
CLOSES_MM = {"none": LEAK_MM, "screws and tape": 1.5, "band": 2.0, "hose clamp": 3.0, "glue": 1.0, "tape": 1.5}
"""The widest diametral gap that each kind of seal closes; common practice, no source."""
LOOSE_MM = 0.4
"""Never closer than this: loose, by the print-service guide of `fits`."""
HOSE_STRETCH = 0.03
"""A hose goes on by hand up to this stretch; common practice, no source."""
BOW_MM = 0.5
"""Flat sides bow by this much, both together; common practice, no source."""
FINGER_MM = 1.0
"""Slit fingers give this much on the diameter; common practice, no source."""
TAPER_BITES = 0.3
"""A tapered joint that grips before this share of its depth in the middle case holds too little of the part."""


@dataclass(frozen=True)
class Meeting:
    """A printed face and the bought part at it.

    Clearances are diametral [mm], least and greatest, at the mouth and at the bottom (the same for a parallel joint);
    `flexes` where the printed ring is slit; `hose` where the bought part is soft; `squeeze` of the foam cord, if any.
    """

    mouth: tuple[float, float]
    bottom: tuple[float, float]
    engaged_mm: float
    d_mm: float
    seal: Seal
    grip: Grip
    strain_limit: float
    flexes: bool = False
    flat: bool = False
    """True where the joint is not round: what is too tight bows flat sides and does not stretch a hoop."""
    hose: bool = False
    squeeze: Squeeze | None = None

    @property
    def tapered(self) -> bool:
        """True where the joint closes towards its bottom."""
        return self.mouth[0] - self.bottom[0] > 0.02

    @property
    def tight_mm(self) -> float:
        """The tightest clearance that can come about [mm]."""
        return min(self.mouth[0], self.bottom[0])

    @property
    def leak_mm(self) -> float:
        """The widest gap [mm] that can be left at the closest place along the joint."""
        return max(0.0, min(self.mouth[1], self.bottom[1]))

    def grips_at_mm(self, case: float) -> float:
        """How far the part goes before it touches [mm]; `case` runs from 0 (tightest) to 1 (slackest)."""
        at_mouth, at_bottom = (low + case * (high - low) for low, high in (self.mouth, self.bottom))
        if at_mouth <= 0.0:
            return 0.0
        return self.engaged_mm if at_bottom >= 0.0 else self.engaged_mm * at_mouth / (at_mouth - at_bottom)


@dataclass(frozen=True)
class Answer:
    """One judgement: how bad, in words, and what to do (empty where nothing)."""

    severity: Severity
    words: str
    advice: str = ""


@dataclass(frozen=True)
class FitVerdict:
    """The whole judgement of a joint.

    `word` is one of loose, slides, snug, grips, pushes on, screws on, does not go on.
    """

    severity: Severity
    word: str
    words: str
    advice: str
    value_mm: float
    limit_mm: float

    @property
    def sentence(self) -> str:
        """Words and advice in one: `slides, gap 0.1-0.94 mm, leaks: tape or clamp`."""
        return f"{self.words}: {self.advice}" if self.advice else self.words


def judge_fit(meeting: Meeting) -> FitVerdict:
    """Say whether the parts go together, hold and seal.

    `value_mm` is the widest gap left and `limit_mm` what the seal closes; where a ring is stretched too far, the
    interference and what the material stands; where the parts do not go together, the tightest clearance and 0.
    """
    goes_on, seals, holds = _goes_on(meeting), _seals(meeting), _holds(meeting)
    answers = [goes_on] if goes_on.severity == "fail" else [goes_on, seals, holds]
    severity: Severity = next((s for s in ("fail", "warn") if any(a.severity == s for a in answers)), "pass")
    word = _word(meeting)
    if goes_on.severity == "fail":
        return FitVerdict("fail", "does not go on", goes_on.words, goes_on.advice, meeting.tight_mm, 0.0)
    words = ", ".join([word, *(a.words for a in answers if a.words)])
    by_hoop = not (meeting.hose or meeting.flexes or meeting.tapered or meeting.flat)
    if goes_on.severity == "warn" and by_hoop:
        value, limit = -meeting.tight_mm, meeting.strain_limit * meeting.d_mm
    else:
        value, limit = meeting.leak_mm, CLOSES_MM.get(meeting.seal, LEAK_MM)
    advice = "; ".join(dict.fromkeys(a.advice for a in answers if a.advice))
    return FitVerdict(severity, word, words, advice, value, limit)


def leaks(meeting: Meeting) -> bool:
    """True where the gap that can be left is wider than the seal closes."""
    if meeting.seal == "cord" and meeting.squeeze is not None:
        return meeting.squeeze.least <= 0.0
    return meeting.leak_mm > CLOSES_MM.get(meeting.seal, LEAK_MM) + 1e-9


def gap_words(least_mm: float, greatest_mm: float) -> str:
    """`gap 0.1-0.94 mm`, `0.16 mm too tight to 0.68 mm gap`, `interference 0.1-0.5 mm`."""
    if least_mm >= 0.0:
        return f"gap {_mm(least_mm)}-{_mm(greatest_mm)} mm"
    if greatest_mm > 0.0:
        return f"from {_mm(-least_mm)} mm interference to {_mm(greatest_mm)} mm gap"
    return f"interference {_mm(-greatest_mm)}-{_mm(-least_mm)} mm"


def _word(meeting: Meeting) -> str:
    least, greatest = meeting.tight_mm, meeting.leak_mm
    if meeting.hose:
        return "screws on" if meeting.grip == "ridge" else "pushes on"
    if least >= LOOSE_MM:
        return "loose"
    if least >= 0.0:
        return "slides"
    return "snug" if greatest > 0.0 else "grips"


def _goes_on(meeting: Meeting) -> Answer:
    """Whether the bought part enters, and what that does to the printed ring."""
    if meeting.hose:
        return _hose_goes_on(meeting)
    if meeting.tapered:
        return _taper_goes_on(meeting)
    least, greatest = meeting.tight_mm, max(meeting.mouth[1], meeting.bottom[1])
    gap, middle = gap_words(least, greatest), (least + greatest) / 2.0
    if meeting.flexes:
        too_tight, worst = middle < -FINGER_MM, least < -FINGER_MM
        stretch = f"the slit ring gives {_mm(FINGER_MM)} mm"
    elif meeting.flat:
        too_tight, worst = middle < -BOW_MM, least < -BOW_MM
        stretch = f"flat sides give {_mm(BOW_MM)} mm"
    else:
        strain, middle_strain = hoop_strain(-least, meeting.d_mm), hoop_strain(-middle, meeting.d_mm)
        too_tight, worst = middle_strain > meeting.strain_limit, strain > meeting.strain_limit
        stretch = f"hoop strain up to {_percent(strain)}, allowed {_percent(meeting.strain_limit)}"
    if too_tight:
        return Answer("fail", f"does not go on: {gap}; {stretch}", "change the fit or the measurement")
    if worst:
        return Answer("warn", f"{gap}, {stretch}", "print the try-piece first; a more open fit, or sand it")
    return Answer("pass", f"{gap}, {stretch}" if least < 0.0 and not meeting.flexes else gap)


def _taper_goes_on(meeting: Meeting) -> Answer:
    gap = gap_words(*meeting.mouth)
    if meeting.mouth[1] < 0.0:
        return Answer("fail", f"does not go on: {gap} at the mouth", "change the allowance or the measurement")
    first, last, middle = (meeting.grips_at_mm(case) for case in (0.0, 1.0, 0.5))
    where = f"{gap} at the mouth, first touches {first:.0f}-{last:.0f} mm in"
    if last >= meeting.engaged_mm and first >= meeting.engaged_mm:
        where = f"{gap} at the mouth, {gap_words(*meeting.bottom)} at the bottom"
    if middle < TAPER_BITES * meeting.engaged_mm:
        return Answer("warn", where, "it grips too early: print the try-piece first, or raise the allowance")
    return Answer("pass", where)


def _hose_goes_on(meeting: Meeting) -> Answer:
    least, greatest = meeting.tight_mm, max(meeting.mouth[1], meeting.bottom[1])
    stretch = hoop_strain(-least, meeting.d_mm)
    gap = gap_words(least, greatest)
    if stretch > HOSE_STRETCH:
        gives = "give" if meeting.grip == "ridge" else "stretch"
        words = f"{gap}, the hose must {gives} {_percent(stretch)}"
        return Answer("warn", words, "warm the hose, or raise the allowance")
    return Answer("pass", gap)


def _seals(meeting: Meeting) -> Answer:
    if meeting.seal == "cord" and meeting.squeeze is not None:
        return _cord_seals(meeting.squeeze)
    if meeting.seal == "glue" and meeting.tight_mm < 0.0:
        return Answer("warn", "may scrape the glue off", "a larger allowance")
    if not leaks(meeting):
        by = {"none": "next to no leak", "screws and tape": "tape seals it", "band": "the band closes it"}
        by["tape"] = by["screws and tape"]
        return Answer("pass", by.get(meeting.seal, f"the {meeting.seal} seals it"))
    if meeting.seal == "none":
        both = meeting.grip == "none"
        words = f"leaks (up to {_mm(meeting.leak_mm)} mm stay open)" if meeting.tapered else "leaks"
        return Answer("warn", words, "tape and three screws, or a clamp" if both else "tape or clamp")
    closer = {"screws and tape": "tape", "tape": "tape", "glue": "glue"}.get(meeting.seal, f"the {meeting.seal}")
    words = f"leaks ({closer} closes {_mm(CLOSES_MM[meeting.seal])} mm at most)"
    return Answer("warn", words, "measure again, or a tighter fit")


def _cord_seals(squeeze: Squeeze) -> Answer:
    low, high = (f"{100 * wanted:.0f}" for wanted in CORD_SQUEEZE)
    words = f"cord squeezed {100 * squeeze.least:.0f} to {100 * squeeze.greatest:.0f} %"
    if squeeze.seals:
        return Answer("pass", f"{words}, seals")
    if squeeze.least <= 0.0:
        return Answer("warn", f"{words}, can leak", f"a thicker cord; {low} to {high} % is wanted")
    return Answer("warn", words, f"another cord or fit; {low} to {high} % is wanted")


def _holds(meeting: Meeting) -> Answer:
    if meeting.grip == "none" and max(meeting.mouth[1], meeting.bottom[1]) <= 0.0:
        return Answer("pass", "holds by its own grip")
    if meeting.grip == "none":
        already = meeting.seal == "none" and leaks(meeting)
        return Answer("warn", "does not hold", "" if already else "three screws, or a clamp")
    if meeting.grip == "taper" and meeting.grips_at_mm(0.5) >= meeting.engaged_mm:
        return Answer("warn", "the taper may not grip", "three screws, or a clamp")
    if meeting.grip == "press" and (meeting.mouth[0] + meeting.mouth[1]) / 2.0 > LEAK_MM:
        return Answer("warn", "may fall off", "three screws, or a clamp")
    return Answer("pass", f"held by {'the ' if meeting.grip not in ('screws', 'glue') else ''}{meeting.grip}")


def _mm(value: float) -> str:
    return format_number(value, 2)


def _percent(share: float) -> str:
    return f"{format_number(100.0 * share, 2)} %"
