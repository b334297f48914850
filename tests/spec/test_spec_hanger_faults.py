"""What a hose hanger's YAML may not say: each fault names line, key, what was found, what is allowed, the cure."""

from __future__ import annotations

import pytest
from yaml_cases import only, refused

HOSE = "hose: {over_ribs: 108.4}"


def text(said: str, hose: str = HOSE) -> str:
    """A hanger of three lines and what is said below them."""
    return f"part: hose_hanger\n{hose}\n{said}\n"


FAULTS = [
    # styles
    ("throat: 90", "throat", "the unknown key", "hook, clamp", "write hook: {throat: ...}"),
    ("saddle: {throat: 80}", "saddle.throat", "the unknown key", "strap, opens", "a throat is a hook's"),
    ("saddle: yes\nhook: yes", "hook", "saddle and hook together", "one of saddle, hook, clamp", "delete one"),
    ("saddle: no", "saddle", "'no'", "yes, or a map", "delete the line"),
    ("hook: yess", "hook", "'yess'", "yes, or a map", "did you mean yes?"),
    ("hook: 90", "hook", "'90'", "yes, or a map", "did you mean {throat: 90}?"),
    ("hook: {throat: 120, opens: right}", "hook.throat", "120 mm for 108.4 mm", "less than 108.4 mm", "opens up"),
    ("hook: {opens: down}", "hook.opens", "opens downwards", "up | right | left", "press the hose out"),
    ("hook: {opens: sideways}", "hook.opens", "'sideways'", "up | right | down | left", ""),
    ("hook: {opens: 80 deg}", "hook.opens", "'80 deg'", "up | right", "did you mean right?"),
    ("hook: {opens: top}", "hook.opens", "'top'", "up | right", "did you mean up?"),
    ("hook: {opens: left}", "hook.opens", "opens towards the surface, which lies left of the hose", "away from", ""),
    ("mount: ceiling\nsaddle: {opens: up}", "saddle.opens", "lies above the hose", "along it", "must come in"),
    ("clamp: {screws: M5, band: 12}", "clamp.band", "screws and band together", "one of the two", "delete one"),
    ("clamp: {screws: 5.0 mm}", "clamp.screws", "whose nut is not in our tables", "a machine screw", ""),
    ("clamp: {throat: 50}", "clamp.throat", "the unknown key", "screws, band, gap", "a throat is a hook's"),
    ("clamp: {opens: up}", "clamp.opens", "the unknown key", "screws, band, gap", "parted through the axis"),
    ("saddle: {strap: 0.98}", "saddle.strap", "'0.98'", "from 10 mm to 60 mm", "did you mean 0.98 in?"),
    ("saddle: {strap: 38}\nwidth: 40", "width", "a strap of 38 mm in a saddle of 40 mm", "48 mm or more", "narrower"),
    # width, several
    ("width: 30", "width", "30 mm", "38 mm or more under a hose", "cuts into a flexible hose"),
    ("apart: 200", "apart", "apart beside one hose", "count: 2 to 8", "add `count:`"),
    ("count: 2\napart: 100", "apart", "100 mm from axis to axis", "more than 108.4 mm", ""),
    ("count: 9", "count", "'9'", "from 1 to 8", ""),
    ("number: 4", "number", "the unknown key", "count", "write count"),
    # swivel
    ("swivel: yes", "swivel", "a swivel on mount: joist_side", "a mount above the hose", "its bolt stands upright"),
    ("mount: {rod: {drop: 200}}\nswivel: yes", "swivel", "mount: rod", "no", "a rod turns in its nuts by itself"),
    ("mount: {cable_tie: {bar: 20}}\nswivel: yes", "swivel", "mount: cable_tie", "no", "a tie gives by itself"),
    ("mount: ceiling\nswivel: yes\ncount: 2", "count", "2 hoses on one swivel", "1", "or several hangers"),
    ("mount: {rod: {drop: 200}}\ncount: 2", "count", "2 hoses on one rod", "1", "it tips"),
    # what is below it
    ("above: people\nsecond_fixing: no", "second_fixing", "no, above people", "yes", "a line to a second point"),
    ("mount: {cable_tie: {bar: 20}}\nabove: cutter", "mount", "holds by friction alone", "screws or bolts", "screw it"),
    ("mount: shelf\nsecond_fixing: yes", "second_fixing", "does not hang", "no", "it rests"),
    ("mount: shelf\nabove: people", "above", "people below a hanger on mount: shelf", "nothing", "delete above"),
    ("above: person", "above", "'person'", "people | cutter | nothing", "did you mean people?"),
    ("travel: {right: 0}", "travel", "a travel of 0", "1 mm or more", "it stands still"),
    ("travel: 600", "travel", "'600'", "a map such as", ""),
    # mounts
    ("mount: flat", "mount", "'flat'", "wall | ceiling | shelf", "write wall, ceiling or shelf"),
    ("mount: cieling", "mount", "'cieling'", "ceiling", "did you mean ceiling?"),
    ("mount: rod", "mount", "'rod', which needs its sizes", "mount: {rod: {drop: 300}}", "your own numbers"),
    ("mount: {}", "mount", "an empty map", "one of joist_side", "such as"),
    ("mount: {strut: {}, rod: {drop: 100}}", "mount.rod", "strut and rod together", "one mount", "delete one"),
    ("mount: {side: right}", "mount.side", "the unknown key", "joist_side", "under the kind"),
    ("mount: {rod: {}}", "mount.rod.drop", "nothing", "down to the hose's axis", "add `drop:`"),
    ("mount: {rod: {drop: 300, size: M12}}", "mount.rod.size", "'M12'", "M6 | M8 | M10", ""),
    ("mount: {strut: {bolt: M5}}", "mount.strut.bolt", "'M5'", "M6 | M8 | M10", "thread of the channel nut"),
    ("mount: {strut: {side: above}}", "mount.strut.side", "'above'", "up | left | right | down", "did you mean up?"),
    ("mount: {strut: {runs: parallel}}", "mount.strut.runs", "'parallel'", "along | across", "did you mean along?"),
    ("mount: {t_slot: {bolt: M6}}", "mount.t_slot.slot", "nothing", "width of the slot", "add `slot:`"),
    ("mount: {t_slot: {slot: 8.2, bolt: M10}}", "mount.t_slot.bolt", "M10 in a slot of 8.2 mm", "M6 | M8", "delete"),
    ("mount: {joist_side: {side: up}}", "mount.joist_side.side", "'up'", "left | right", ""),
    ("mount: {joist_underside: {side: left}}", "mount.joist_underside.side", "unknown key", "runs", "one side only"),
    ("mount: {joist_side: {joist: {width: 195, depth: 38}}}", "mount.joist_side.joist.depth", "below", "tall", "swap"),
    ("mount: {wall: {into: {wood: brick}}}", "mount.wall.into.wood", "'brick'", "plywood", "screw a board to it"),
    ("mount: {wall: {into: {wood: plywod}}}", "mount.wall.into.wood", "'plywod'", "plywood", "did you mean plywood?"),
    ("mount: {wall: {screws: {size: M5}}}", "mount.wall.screws.size", "'M5'", "No. 10", "does not hold in wood"),
    ("mount: {wall: {screws: {head: csk}}}", "mount.wall.screws.head", "'csk'", "pan", "countersunk"),
    (
        "mount: {wall: {screws: {head: countersunk}}}",
        "mount.wall.screws.head",
        "'countersunk'",
        "pan | washer | hex",
        "wedges a print apart",
    ),
    ("mount: {holes: {points: [{up: 20}], size: M5}}", "mount.holes.points", "1 places", "2 to 12", "lets it turn"),
    ("mount: {holes: {size: M5}}", "mount.holes.count", "nothing", "count and circle, or points", "add `count:`"),
    (
        "mount: {holes: {points: [{up: 20}, {right: 20}], size: M5}}",
        "mount.holes.points[2]",
        "a place right or left, on a surface that lies left of the hose",
        "up or down, and away or toward",
        "another side",
    ),
    (
        "mount: {holes: {points: [{up: 4}, {down: 4}], size: M5}}",
        "mount.holes.points[2]",
        "holes 1 and 2, 8 mm apart",
        "11 mm apart or more",
        "",
    ),
    ("mount: {cable_tie: {}}", "mount.cable_tie.bar", "nothing", "diameter of the bar", "add `bar:`"),
    (
        "mount: {batten: {near: {left: 460}, far: {right: 150}}}",
        "mount.batten.near",
        "near 460 mm and far 150 mm",
        "near not further than far",
        "swap the two",
    ),
    (
        "mount: {batten: {near: {left: 50}, far: {right: 40}}}",
        "mount.batten.far",
        "90 mm apart",
        "100 mm or more",
        "two joists",
    ),
    (
        "mount: {batten: {near: {left: 150, right: 20}, far: {right: 460}}}",
        "mount.batten.near",
        "left and right together",
        "left or right",
        "",
    ),
    ("rod: {drop: 300}", "rod", "the unknown key", "mount", "write mount: {rod: {drop: ...}}"),
    ("end_a: {socket: {over: 100}}", "end_a", "the unknown key", "hose", "a hanger has no ends"),
    ("pipe: EN 1401 DN 110", "pipe", "hose and pipe together", "one of the two", "a hanger a size"),
]
CARRIED = [
    ("", "hose", "nothing", "hose or pipe", "a strip of paper"),
    ("hose: 108.4", "hose", "does not say where it was measured", "a map such as", "strip of paper"),
    ("hose: 4 in", "hose", "which names its inside, 101.6 mm", "its outside over the ribs", "strip of paper"),
    ("hose: {inside: 100}", "hose.inside", "only its inside, 100 mm", "hoses of one inside differ by 8 mm", "strip"),
    ("hose: {over: 108}", "hose.over", "the unknown key", "over_ribs", "write over_ribs"),
    ("hose: {diameter: 108}", "hose.diameter", "the unknown key", "over_ribs", "write over_ribs"),
    ("hose: {over_ribs: 100, inside: 108}", "hose.inside", "108 mm inside and 100 mm", "less than 100 mm", "swapped?"),
    ("hose: {over_ribs: 100, inside: 20}", "hose.inside", "20 mm inside", "an inside from 65 mm", "a slip"),
    ("hose: {over_ribs: 100, squeezes_to: 100}", "hose.squeezes_to", "100 mm", "less than 100 mm", "pressed flat"),
    ("hose: {over_ribs: 100, kind: silk}", "hose.kind", "'silk'", "ribbed PVC", ""),
    ("hose: {over_ribs: 100, weight: 0.5}", "hose.weight", "'0.5'", "a mass with its unit", ""),
    ("hose: {over_ribs: 4.25}", "hose.over_ribs", "'4.25'", "from 19.5 mm", "did you mean 4.25 in?"),
    ("hose: {over_ribs: [108, 130, 109]}", "hose.over_ribs[2]", "'130' beside 108", "within 10 %", "read it again"),
    ("hose: [108, 109]", "hose", "a list of 2", "a map such as", "readings"),
    ("pipe: 110.2", "pipe", "'110.2', which is no pipe's name", "a pipe's name", "did you mean {over: 110.2}?"),
    ("pipe: 4 in", "pipe", "which names 4 different things", "ASTM D2729 4 in", "measure its outside"),
    ("pipe: {over: 50, wall: 28}", "pipe.wall", "28 mm", "less than 25 mm", ""),
    ("pipe: {over: 110, inside: 103}", "pipe.inside", "the unknown key", "over, wall", "write wall"),
    ("pipe: {over: 110, material: wood}", "pipe.material", "'wood'", "PVC | ABS", ""),
]


@pytest.mark.parametrize(("said", "key", "found", "allowed", "hint"), FAULTS, ids=[f[0][:60] for f in FAULTS])
def test_refusals(said: str, key: str, found: str, allowed: str, hint: str) -> None:
    problem = only(text(said))
    assert problem.key == key, str(problem)
    assert found in problem.found and allowed in problem.allowed and hint in str(problem), str(problem)
    assert problem.line >= 3


@pytest.mark.parametrize(("said", "key", "found", "allowed", "hint"), CARRIED, ids=[f[0][:60] for f in CARRIED])
def test_what_it_carries(said: str, key: str, found: str, allowed: str, hint: str) -> None:
    problem = only(f"part: hose_hanger\n{said}\n")
    assert problem.key == key, str(problem)
    assert found in problem.found and allowed in problem.allowed and hint in str(problem), str(problem)
    assert problem.line == (2 if said else 1)


def test_all_faults_at_once() -> None:
    said = "mount: {strut: {bolt: M5}}\nhook: {opens: sideways}\nwide: 40"
    assert {p.key for p in refused(text(said))} == {"mount.strut.bolt", "hook.opens", "wide"}


def test_limits_are_said_in_the_files_units() -> None:
    problem = only("part: hose_hanger\nunits: in\nhose: {over_ribs: 4.25}\nwidth: 1\n")
    assert problem.allowed == "1.496 in or more under a hose"
