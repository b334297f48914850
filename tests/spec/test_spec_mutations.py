"""Valid YAML with something dropped, renamed, doubled or spoilt loads, or is refused with place and key; never else."""

from __future__ import annotations

import random
import re
from pathlib import Path

import pytest

from fitwright.errors import SpecError
from fitwright.spec.load import load_text
from fitwright.spec.template import TEMPLATES, template

ROOT = Path(__file__).parents[2]
SOURCES = [template(family) for family in TEMPLATES] + [
    path.read_text(encoding="utf-8") for path in sorted((ROOT / "configs").glob("*.yaml"))
]
GARBAGE = [
    *("", "~", "null", "yes", "-1", "0", "1e3", "010", "0x1F", ".inf", ".nan", "1:30", "#8", "[]", "{}", "[1, 2]"),
    *(
        "99999999999999999999",
        '4"',
        "1/0",
        "1/3",
        "\u00bd",
        "\u22123",
        "\u00a0",
        "auto",
        "end_a",
        "*x",
        "&x 3",
        "{a: 1}",
    ),
    *("[[[[1]]]]", "{over: {over: 3}}", "'", '"', "|", ">", "%", "@", "`", "\t", "\u200b3", "3 mm mm", "100,5"),
    *("!!int 3", "x" * 500, "\U0001f600"),
]
CASES = 300


def mutated(rng: random.Random, text: str) -> str:
    lines = text.splitlines()
    live = [i for i, line in enumerate(lines) if line.strip() and not line.lstrip().startswith("#")]
    if not live:
        return text
    i = rng.choice(live)
    kind = rng.randrange(8)
    if kind == 0:
        del lines[i]
    elif kind == 1:
        lines.insert(rng.choice(live), lines[i])
    elif kind == 2:  # another value
        lines[i] = re.sub(r"(: *)[^{}\[\],#]+", lambda m: m[1] + rng.choice(GARBAGE), lines[i], count=rng.randint(1, 2))
    elif kind == 3:  # another key
        keys = list(re.finditer(r"[a-z_]+(?=:)", lines[i]))
        if keys:
            key = rng.choice(keys)
            new = rng.choice(
                [key[0][1:], key[0] + "s", key[0].upper(), "diameter", "parts", "<<", "wall", "1", "x" * 99]
            )
            lines[i] = lines[i][: key.start()] + new + lines[i][key.end() :]
    elif kind == 4:  # one character more
        at = rng.randint(0, len(lines[i]))
        lines[i] = lines[i][:at] + rng.choice("{}[]:,#&*!|>'\"%@`-? \t\u00a0\x00\ufeff\ud800") + lines[i][at:]
    elif kind == 5:  # one character less
        at = rng.randrange(len(lines[i]))
        lines[i] = lines[i][:at] + lines[i][at + 1 :]
    elif kind == 6:
        lines[i] = " " * rng.randint(0, 9) + lines[i].lstrip()
    else:
        lines = [*lines[:i], lines[i][: rng.randint(0, len(lines[i]))]]
    return "\n".join(lines)


@pytest.mark.parametrize("seed", range(CASES))
def test_a_spoilt_file_loads_or_is_refused_with_place_and_key(seed: int) -> None:
    rng = random.Random(seed)
    text = rng.choice(SOURCES)
    for _ in range(rng.choice([1, 1, 2, 4])):
        text = mutated(rng, text) or "part: reducer"
    try:
        assert load_text(text, "spoilt.yaml")
    except SpecError as error:
        assert error.problems
        for problem in error.problems:
            assert problem.line > 0 and problem.column > 0, problem
            assert problem.key and problem.found and problem.allowed, problem
            assert "\n" not in str(problem) and len(str(problem)) < 1500, problem
            assert problem.line <= max(1, len(text.splitlines())), problem
