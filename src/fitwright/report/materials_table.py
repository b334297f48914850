"""Filaments as plain text: all of them as a table, one with all that is known of it, and how warm places get."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Sequence

from fitwright.data.profiles import MaterialRow, materials
from fitwright.data.warm_places import warm_places
from fitwright.physics.filament import ROOM_C
from fitwright.report.sizes_table import lined_up
from fitwright.spec.models import Material
from fitwright.units import format_number

HEAD = ("filament", "stiffness", "strength", "across", "lasting", "across", "soft at", "up to", "known by")
UNITS = ("", "MPa", "MPa", "MPa", "MPa", "MPa", "C", "C", "")
STEP_C = 10.0


def materials_text(found: Sequence[Material], wide: int | None = None) -> str:
    """A table where there are several and it is not wider than `wide`, else each in full; no trailing newline."""
    if len(found) > 1:
        table = lined_up([HEAD, UNITS, *(_cells(one) for one in found)])
        if wide is None or max(map(len, table.splitlines())) <= wide:
            return table
    return "\n\n".join("\n".join(_in_full(one, wide or 100)) for one in found)


def materials_legend(found: Sequence[Material]) -> str:
    """What the columns mean, where numbers come from, and how to name a filament in the YAML."""
    lines = [
        "at 23 C, printed solid; strength in the layer and across the layers, once and lasting (for good)",
        "soft at: it sags there; up to: the warmest place that it should stay in (near_heat)",
    ]
    if len(found) > 1:
        lines.append("known by: of the strength; most others from memory (docs/materials.md): measure your own")
        lines.append(f"all of one, and what warmth leaves: `fitwright sizes filament {found[0].name}`")
    lines.append(f"in the YAML: `material: {found[0].name}`; your own: materials/NAME.yaml (docs/materials.md)")
    return "\n".join(lines)


def places_text(wide: int = 100) -> str:
    """How warm places get, in the words that `near_heat` takes."""
    told = ", ".join(f"{place.name} {place.temperature_c:.0f} C" for place in warm_places().values())
    words = f"near_heat takes degrees, {{motor: gap}}, or a place: {told}"
    return textwrap.fill(words, wide, subsequent_indent="  ", break_on_hyphens=False)


def _cells(one: Material) -> tuple[str, ...]:
    return (
        one.name,
        f"{one.modulus_mpa:.0f}",
        *(format_number(mpa, 1) for mpa in (one.strength_mpa, one.strength_across_mpa)),
        *(format_number(mpa, 1) for mpa in (one.lasting_mpa, one.lasting_across_mpa)),
        f"{one.softening_c:.0f}",
        f"{one.service_c:.0f}",
        _row(one).strength_status if one.origin is None else one.status,
    )


def _row(one: Material) -> MaterialRow:
    """The row of the tables that a filament is, or that gave what was not measured."""
    return materials()[one.origin.like if one.origin else one.name]


def _in_full(one: Material, wide: int) -> Iterator[str]:
    like = f", like {one.origin.like} ({one.origin.file})" if one.origin else ""
    yield f"{one.name}{like}"
    for line in _values(one):
        yield f"  {line}"
    yield f"  warm:       {_warm(one)}"
    notes = "; ".join(dict.fromkeys(note for note in (one.note, _row(one).heat_note) if note))
    yield from textwrap.wrap(notes, wide, initial_indent="  ", subsequent_indent="    ", break_on_hyphens=False)


def _values(one: Material) -> Iterator[str]:
    yield f"density     {_known(one, 'density', f'{one.density_g_cm3:g} g/cm3')}"
    modulus = f"{one.modulus_mpa:.0f} MPa, under lasting load {one.lasting_modulus_mpa:.0f} MPa"
    yield f"stiffness   {_known(one, 'modulus', modulus)}"
    yield f"Poisson     {_known(one, 'poisson', f'{one.poisson:g}')}"
    in_layer = f"{format_number(one.strength_mpa, 1)} MPa in the layer, lasting {format_number(one.lasting_mpa, 1)} MPa"
    yield f"strength    {_known(one, 'strength', in_layer)}"
    across = f"{format_number(one.strength_across_mpa, 1)} MPa, lasting {format_number(one.lasting_across_mpa, 1)} MPa"
    yield f"across      {_known(one, 'strength_across', across)}"
    yield f"hoop strain {_known(one, 'strain_limit', f'{100 * one.strain_limit:.2g} % for good')}"
    yield f"soft at     {_known(one, 'softening', f'{one.softening_c:.0f} C')}"
    yield f"up to       {_known(one, 'service', f'{one.service_c:.0f} C')}"


def _known(one: Material, key: str, words: str) -> str:
    """The value with how well it is known: measured where a profile says it itself."""
    if one.origin and key in one.origin.told:
        return f"{words} ({one.status})"
    status = str(getattr(_row(one), f"{key}_status"))
    return f"{words} ({status}{f', as {one.origin.like}' if one.origin else ''})"


def _warm(one: Material) -> str:
    """What is left of stiffness and strength, every 10 K up to the softening temperature."""
    steps = [ROOM_C + 7.0]
    while steps[-1] + STEP_C <= one.softening_c:
        steps.append(steps[-1] + STEP_C)
    left = (f"{t:.0f} C {100 * one.modulus_share(t):.0f}/{100 * one.strength_share(t):.0f} %" for t in steps)
    return f"{', '.join(left)} of stiffness/strength left"
