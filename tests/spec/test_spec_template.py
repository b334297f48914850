"""`new`: what it writes runs as it stands, commented lines included."""

from __future__ import annotations

import re

import pytest
from yaml_cases import MINIMUM

from fitwright.errors import FitwrightError
from fitwright.spec.grammar.families import FAMILIES
from fitwright.spec.grammar.gauge import KINDS
from fitwright.spec.load import load_text
from fitwright.spec.template import TEMPLATES, frame_picture, template


def test_there_is_one_for_every_family() -> None:
    assert set(TEMPLATES) == set(FAMILIES)


@pytest.mark.parametrize("family", TEMPLATES)
def test_it_loads_and_draws_the_frame(family: str) -> None:
    text = template(family)
    (spec,) = load_text(text, "new.yaml")
    assert spec.part == family
    for line in frame_picture(family).splitlines():
        assert f"# {line}".rstrip() in text
    assert all(len(line) <= 120 for line in text.splitlines())


STYLES = ("hook", "clamp")
MOUNTS = ("joist_underside", "wall", "strut", "t_slot", "holes", "cable_tie", "rod", "batten")


def without_rivals(lines: list[str], key: str, indent: int, live: str) -> list[str]:
    """A hanger has one style, one mount, and carries a hose or a pipe."""
    if key in STYLES:
        return [one for one in lines if not one.startswith("saddle:")]
    if key in MOUNTS and indent == 2:
        return [one for one in lines if not one.startswith("  joist_side:")]
    if key == "pipe" and indent == 0:
        return [one for one in lines if not re.match(r"hose:|  over_ribs:|  inside:", one)]
    return lines


def uncommented(text: str, line: str) -> str:
    """The template with this one commented line made live, in place of a live line of the same key."""
    live = line.replace("# ", "", 1)
    key = live.split(":")[0].strip()
    indent = len(live) - len(live.lstrip())
    kept = [one for one in text.splitlines() if not re.match(rf" {{{indent}}}{key}:", one)]
    at = kept.index(line)
    kept[at] = live
    if key in KINDS:
        kept = [one for one in kept if one == live or not (one.startswith("rings:") or one.startswith("  "))]
    kept = without_rivals(kept, key, indent, live)
    rivals = {"pipe": "over", "hose": "hose_inside"}
    return "\n".join(one for one in kept if not (key in rivals and one.strip().startswith(f"{rivals[key]}:")))


@pytest.mark.parametrize("family", TEMPLATES)
def test_every_commented_key_may_be_made_live(family: str) -> None:
    text = template(family)
    body = text.partition("\npart:")[2]
    lines = [
        one
        for one in body.splitlines()
        if re.match(r" *# [a-z_]+:", one) and "envelope" not in one and "keep_clear" not in one
    ]
    assert len(lines) >= 8
    for line in lines:
        load_text(uncommented(text, line), "new.yaml")


@pytest.mark.parametrize("family", [family for family in TEMPLATES if "envelope:" in TEMPLATES[family]])
def test_the_commented_envelope_may_be_made_live(family: str) -> None:
    envelope = template(family)[template(family).index("# envelope:") :].replace("# ", "", 1).replace("\n# ", "\n")
    minimum = MINIMUM.replace(
        "part: reducer", "part: offset_adapter\noffset: {up: 60}" if family == "offset_adapter" else "part: reducer"
    )
    (spec,) = load_text(minimum + envelope)
    assert spec.envelope.keep_clear


def test_an_unknown_family_is_answered_with_the_known_ones() -> None:
    with pytest.raises(
        FitwrightError,
        match=r"there are reducer, offset_adapter, fit_gauge, gate_bracket, .*flange_plate\. did you mean reducer\?",
    ):
        template("reducr")
