"""From a hose run's keys to what is meant: what is not said is filled in, and told."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator
from functools import partial
from pathlib import Path

from fitwright.data.hose_bends import least_bend
from fitwright.frame import Vec
from fitwright.physics.by_hand import HAND_N
from fitwright.physics.gravity import GRAVITY
from fitwright.physics.hose_droop import LEAST_JUT, MOST_JUT, measured_stiffness_n_mm2, usual_stiffness_n_mm2
from fitwright.physics.hose_head import Way
from fitwright.physics.hose_piece import piece_with_sag
from fitwright.physics.hose_row import DRAWN_MM, ROUNDED_M, RULE
from fitwright.physics.hose_span import parameter_for_sag_mm
from fitwright.physics.hose_travel import Box
from fitwright.physics.hose_trolley import Rail
from fitwright.spec.carried_weight import empty_kg_m, inside_mm, weight_kg_m
from fitwright.spec.grammar.parts import slug
from fitwright.spec.grammar.runs.base import FACES, RoomPointKeys, RunKeys
from fitwright.spec.grammar.runs.moving import MovingHeadKeys, RunHangerKeys, WithinKeys
from fitwright.spec.grammar.runs.row import RowKeys
from fitwright.spec.run import MovingHead, RunHose, RunSpec, Station, Within
from fitwright.units import format_force, format_length

N_MM = GRAVITY / 1000.0
"""kg/m -> N/mm."""


def run_of(keys: RunKeys, source_file: str) -> RunSpec:
    """The run as meant."""
    hose = _hose(keys)
    name = keys.name or slug(Path(source_file).stem) or "run"
    made = partial(RunSpec, name, units=keys.units, source_file=source_file, hose=hose, keep_above_mm=keys.keep_above)
    assumed = dict(_assumed(keys, hose))
    if isinstance(keys, RowKeys):
        stations = tuple(_row(keys))
        drawn = _drawn(keys, stations, hose)
        if "pull" not in assumed and keys.pull is None and keys.sag is None:
            pull = format_force(drawn * hose.empty_n_mm, keys.units)
            assumed["pull"] = (
                f"{pull}, the empty hose: 1.2 m, and its longest span up to 4 ft, sag by half an inch a foot"
            )
        return made("row", stations=stations, parameter_mm=drawn, assumed=assumed)
    assert isinstance(keys, MovingHeadKeys)
    return made(
        "moving_head",
        stations=tuple(_stations(keys)),
        parameter_mm=DRAWN_MM,
        head=_head(keys),
        length_mm=keys.length,
        ceiling_mm=keys.ceiling,
        within=_within(keys.stay_within) if keys.stay_within else None,
        assumed=assumed,
    )


def _hose(keys: RunKeys) -> RunHose:
    carried = keys.hose.carried()
    inside = inside_mm(carried)
    bend = least_bend(inside, carried.hose_kind)
    (empty, _), (full, words) = empty_kg_m(carried), weight_kg_m(carried, keys.dust)
    over, droop = carried.size.greatest_mm, keys.droop if isinstance(keys, MovingHeadKeys) else None
    radius = bend.radius_mm if keys.bend_radius is None else keys.bend_radius
    stiff = usual_stiffness_n_mm2(over, empty * N_MM, radius)
    if droop is not None:
        stiff = measured_stiffness_n_mm2(droop.juts, droop.hangs, empty * N_MM)
    usual = f"{bend.over_inside:g} x its inside, {bend.kind} ({bend.status})"
    return RunHose(
        over_mm=over,
        inside_mm=inside,
        radius_mm=radius,
        empty_n_mm=empty * N_MM,
        full_n_mm=full * N_MM,
        stiff_n_mm2=stiff,
        stiff_known=droop is not None,
        words=words,
        radius_words=usual if keys.bend_radius is None else "as the file says",
    )


def _assumed(keys: RunKeys, hose: RunHose) -> Iterator[tuple[str, str]]:
    """Keys left to us -> what was taken."""
    say = keys.units
    if keys.hose.inside is None:
        yield "hose.inside", format_length(hose.inside_mm, say)
    if keys.hose.weight is None:
        yield "hose.weight", f"{hose.empty_n_mm / N_MM:.2f} kg a metre, empty, from the table"
    if keys.bend_radius is None:
        yield "bend_radius", f"{format_length(hose.radius_mm, say, fraction=False)}, {hose.radius_words}"
    if "dust" not in keys.model_fields_set:
        yield "dust", keys.dust
    if isinstance(keys, MovingHeadKeys) and keys.droop is None:
        juts = " to ".join(format_length(jut * hose.over_mm, say, fraction=False) for jut in (LEAST_JUT, MOST_JUT))
        yield "droop", f"a soft to a stiff hose: {juts} jut out where its end lies 41.5 deg below a bench's edge"
    if isinstance(keys, MovingHeadKeys) and keys.head.holds is None:
        yield "head.holds", f"nothing said: {format_force(HAND_N, say)} may hang on the head, a firm pull by hand"


def _drawn(keys: RowKeys, stations: tuple[Station, ...], hose: RunHose) -> float:
    """Pull over weight: as told by a spring balance on the empty hose, or by the sag of the longest span; else as the
    sag rule asks over 1.2 m, or over the 4 ft that it permits."""
    if keys.pull is not None:
        return keys.pull / hose.empty_n_mm
    if keys.sag is not None:
        spans = list(itertools.pairwise(stations))
        start, end = max(spans, key=lambda two: math.dist(two[0].at[:2], two[1].at[:2]))
        return piece_with_sag(start.at, end.at, keys.sag).span.parameter_mm
    apart = [math.dist(a.at[:2], b.at[:2]) for a, b in itertools.pairwise(stations)]
    longest = max((mm for mm in apart if mm <= 1000.0 * (RULE.spacing_m + ROUNDED_M)), default=0.0)
    assert RULE.sag_mm_m is not None
    return max(DRAWN_MM, parameter_for_sag_mm(longest, RULE.sag_mm_m))


def _row(keys: RowKeys) -> Iterator[Station]:
    if keys.from_ is not None:
        yield Station(keys.from_.label or "start", keys.from_.at, "from", is_hanger=False)
    if keys.hangers is not None:
        for k, one in enumerate(keys.hangers, start=1):
            yield Station(one.label or f"hanger {k}", one.at, f"hangers[{k}]", sag_mm=one.sag)
    else:
        assert keys.count is not None and keys.spacing is not None  # sense
        for k in range(keys.count):
            yield Station(f"hanger {k + 1}", (k * keys.spacing, 0.0, keys.up), "spacing")
    if keys.to is not None:
        yield Station(keys.to.label or "end", keys.to.at, "to", is_hanger=False)


def _stations(keys: MovingHeadKeys) -> Iterator[Station]:
    before = keys.port.at
    yield Station(keys.port.label or "port", before, "port", is_hanger=False, way=_way(keys.port.faces))
    for k, one in enumerate(keys.hangers, start=1):
        rail = Rail(one.at, one.rail_to) if one.rail_to else None
        label = one.label or (f"trolley {k}" if rail else f"hanger {k}")
        way: Way = "follows" if rail else _through(one, before)
        yield Station(label, one.at, f"hangers[{k}]", way=way, length_mm=one.length, rail=rail)
        before = one.at


def _through(keys: RunHangerKeys, before: Vec) -> Way:
    """As said; level, as the hose comes to it, if not; free where it comes from straight above or below."""
    if keys.runs is not None:
        return _way(keys.runs)
    right, away = keys.at[0] - before[0], keys.at[1] - before[1]
    level = math.hypot(right, away)
    return (right / level, away / level, 0.0) if level > 1.0 else "follows"


def _way(face: str) -> Way:
    return "follows" if face == "turns" else FACES[face]


def _head(keys: MovingHeadKeys) -> MovingHead:
    """The hose comes in against the way that the port looks."""
    head = keys.head
    ends = [tuple(sorted((a, a + t))) for a, t in zip(head.at, head.travel, strict=True)]
    low, high = (ends[0][0], ends[1][0], ends[2][0]), (ends[0][1], ends[1][1], ends[2][1])
    looks = _way(head.faces)
    arrives: Way = looks if isinstance(looks, str) else (0.0 - looks[0], 0.0 - looks[1], 0.0 - looks[2])
    return MovingHead(head.label or "head", Box(low, high), arrives, head.holds)


def _within(keys: WithinKeys) -> Within:
    low, high = [-math.inf] * 3, [math.inf] * 3
    for k, pair in enumerate((("right", "left"), ("away", "toward"), ("up", "down"))):
        if set(pair) & keys.from_.model_fields_set:
            low[k], high[k] = sorted((_along(keys.from_, pair), _along(keys.to, pair)))
    return Within((low[0], low[1], low[2]), (high[0], high[1], high[2]))


def _along(keys: RoomPointKeys, pair: tuple[str, str]) -> float:
    return keys.along(*pair)
