"""docs/cli.md: every command with its arguments, drawn from the argument parser.

`python -m fitwright.cli.reference` writes the page anew.
"""

from __future__ import annotations

import argparse
from collections.abc import Iterator
from pathlib import Path

from fitwright.cli.exit_codes import BAD_INPUT, BLOCKED, GOOD
from fitwright.cli.main import parser

PAGE = Path("docs") / "cli.md"
EXAMPLES = {
    "build": ("fitwright build configs", "fitwright build saw.yaml -o parts -j 1"),
    "check": ("fitwright check saw.yaml",),
    "new": ("fitwright new reducer", "fitwright new offset_adapter -o inlet.yaml"),
    "sizes": (
        "fitwright sizes 4 in",
        "fitwright sizes 110 --units in",
        "fitwright sizes ISO 6432 16",
        "fitwright sizes filament PETG",
    ),
    "gauge": (
        "fitwright gauge pipe_to_hose.yaml",
        "fitwright gauge pipe_to_hose.yaml --end end_a --steps 9 --step 0.2",
    ),
    "plate": (
        "fitwright plate clocked_inlet.yaml --gasket",
        'fitwright plate clocked_inlet.yaml --end end_a --sheet steel 1.5 --gasket "foam rubber" 5',
        "fitwright plate clocked_inlet.yaml --gasket cork --gasket-only",
    ),
    "measure": ("fitwright measure circle 110.2 110.5 109.9", "fitwright measure readings.yaml"),
    "hose": ("fitwright hose runs/gantry_run.yaml", "fitwright hose joist_row.yaml -o parts"),
    "template": ("fitwright template saw.yaml", "fitwright template saw.yaml --paper Letter -o parts"),
    "log": (
        "fitwright log saw.yaml --end end_a --read 107.9 107.8 108.0 --went tight",
        "fitwright log saw.yaml --show",
    ),
    "worksheet": ("fitwright worksheet reducer", "fitwright worksheet bolts --paper Letter -o inlet_bolts.pdf"),
}

_INTRODUCTION = f"""\
# The command

This page is drawn from the program's own argument parser by `fitwright.cli.reference`; a test keeps it up to date.

Exit code: {GOOD} all well, {BLOCKED} a check blocks a part or a part could not be made, {BAD_INPUT} the YAML cannot
be used. Of several parts the worst counts; warnings do not change it. Each part is built in a process of its own: one
that hangs or dies costs itself and a message.
"""

_OUTPUT = """\
## What is written

One folder a part, in the folder that `-o` names. Files are written beside and renamed when all are well; the same YAML
gives the same bytes. STL, STEP and DXF of a body that a check blocks are not written; those of an earlier run are
renamed to `NAME.earlier.stl`, so that they do not look current.

| file | what it is |
|---|---|
| `NAME_try.stl` | rings and footprints of the joints: print and try them first |
| `NAME.stl` | the part, in mm, as it lies on the bed |
| `NAME_plate.stl` | all pieces of a gauge on one bed; `NAME_ring_1.stl` and so on hold one each |
| `NAME.step` | the exact solid, in mm, in the frame of the YAML, called `NAME` |
| `NAME.dxf` | in place of the STL, what is cut from sheet or gasket: see below; a STEP of sheet as well |
| `NAME_cut_list.txt` | what is cut: sheet, thickness, length of the cuts, holes, weight, to tick off |
| `NAME.png` | a shaded view and a dimensioned section |
| `NAME_template.pdf` | flanges and outlines 1:1 on A4 (Letter for a file in inches), to hold against the real thing; \
not for a part whose ends are all plain round |
| `report.txt` | one page, in the file's units |
| `report.json` | the same for programs |

A part of several bodies has a file each, `NAME_plate.dxf`, `NAME_gasket.dxf`, `NAME_bracket.stl` and so on.

A DXF is drawn 1:1 **in mm whatever the file's units** ($INSUNITS 4), seen from the piece's front, as R2000, which
the programs for lasers, plasma and water cutters read as well as CAD. Each cut is one closed line and arcs are
arcs: circles for what is round, polylines with bulges for the rest. Its layers: `outline`, `openings`, `bolt
holes`, and `notes not cut` with name, material, thickness and a line of 100 mm to measure; where a service takes no
words, delete that layer. A part of which nothing is printed has no STL and no try-print; its paper template is cut
by knife, or stuck on the sheet.

`report.json` holds, lengths always in mm:

| key | value |
|---|---|
| `schema_version` | 1; keys may be added under the same number, not renamed or removed |
| `part`, `family`, `units`, `printer`, `material` | text |
| `bodies` | list of `{name, volume_mm3, mass_g, genus, bbox_mm: [right, away, up], lies, blocked}`; of \
what is cut from sheet also `cut: {kind: sheet or gasket, from, thickness_mm, size_mm: [width, height], cut_length_mm, \
area_mm2, openings, holes: [{count, d_mm, longer_mm, bolt}]}` |
| `findings` | list of `{code, severity: pass, warn or fail, body, value, limit, unit, place, message, advice}`; \
`value` and `limit` may be null; the codes are those of [the checks](checks/README.md) |
| `facts` | what the report says of passage, area, bends, how it holds and seals, what is left to do at the bench |
| `passages_mm` | the passage's diameter at each end |
| `assumed` | keys that the file left to the program, with what was taken |
| `cautions`, `notes`, `files` | lists of text |
| `tries` | list of `{file, pieces}` |
| `learned` | only where prints are logged: end -> what they taught of its fit and size, in mm |
| `plate` | the file that holds all bodies in one go, or null |
| `exported` | false where a body was held back |
| `forced` | true where `--export-anyway` wrote a body that a check blocks |
"""


def cli_markdown() -> str:
    """The page as markdown, with a trailing newline."""
    lines = [_INTRODUCTION]
    for name, command in commands().items():
        lines += [f"## fitwright {name}", "", command.description or "", ""]
        lines += ["```sh", *EXAMPLES[name], "```", "", "| argument | meaning |", "|---|---|"]
        lines += ["| " + _written(action).replace("|", "\\|") + f" | {action.help} |" for action in _shown(command)]
        lines.append("")
    return "\n".join([*lines, _OUTPUT])


def write_page(root: Path) -> Path:
    """Write docs/cli.md below the project's root; returns its path."""
    path = root / PAGE
    path.write_text(cli_markdown(), encoding="utf-8")
    return path


def commands() -> dict[str, argparse.ArgumentParser]:
    """Command -> its own argument parser."""
    (chosen,) = (a for a in parser()._actions if isinstance(a, argparse._SubParsersAction))
    return dict(chosen.choices)


def _shown(command: argparse.ArgumentParser) -> Iterator[argparse.Action]:
    """Arguments, then options, `--help` left out."""
    actions = [action for action in command._actions if action.dest != "help"]
    yield from (action for action in actions if not action.option_strings)
    yield from (action for action in actions if action.option_strings)


def _written(action: argparse.Action) -> str:
    named = " ".join(action.metavar) if isinstance(action.metavar, tuple) else action.metavar
    value = "" if action.nargs == 0 else str(named or "|".join(action.choices or ()) or action.dest.upper())
    if not action.option_strings:
        return f"`{value}{'...' if action.nargs in ('+', '*') else ''}`"
    return ", ".join(f"`{option} {value}`" if value else f"`{option}`" for option in action.option_strings)


if __name__ == "__main__":
    write_page(Path.cwd())
