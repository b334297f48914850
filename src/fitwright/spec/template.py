"""The text of `fitwright new FAMILY`: a YAML that runs as it stands, its comments, and the frame drawn on top."""

from __future__ import annotations

from fitwright.errors import FitwrightError
from fitwright.spec.faults import nearest
from fitwright.spec.template_gate import GATE_BRACKET, GATE_PICTURE
from fitwright.spec.template_hanger import HANGER_PICTURE, HOSE_HANGER
from fitwright.spec.template_plate import FLANGE_PLATE, PLATE_PICTURE

_PICTURE = r"""
Stand at end_a and look into its mouth. Every place is measured from the centre (+) of the
mouth's face: right, up, and away from you; left, down and toward go the other way.
Facing the machine that end_a meets, you see it from the other side: left and right change.

    what you see                          the same, from your right-hand side

         up                                 up
       ..|..                                 |                   ______ end_b
     .'  |  '.                               |                .-'
    :    |    :                      end_a   |______________.'   ______
    :    +----:----> right                   |                .-'
    :         :                        you > +--------------.'--------------> away
     '.     .'                               |____________.'
       '''''
                                             <------------ length ----->
"""

_REDUCER = """
# Change the numbers, delete what you do not need: three lines are enough (part, end_a, end_b).
part: reducer
units: mm                      # or in; a length may carry its own: 3 7/8 in, 98.4 mm, 4"

end_a:
  label: collector             # your word for it, used in pictures and messages
  socket:                      # goes OVER something; spigot goes INTO something; or flange, plain
    over: [107.0, 107.3, 107.1]   # the OUTSIDE of the pipe, read three times round it
    # over: {circumference: 336.5}                  # or: a strip of paper laid round it
    # over: {end: 106.2, further: 107.4, apart: 40} # or: a port that tapers
    # pipe: 4 in sewer-and-drain                    # or: by name (`fitwright sizes "4 in"` lists them)
    # fit: snug                # slide, snug, press or glue
    # depth: 40                # how far the pipe goes in
    # screws: {count: 3, size: No. 8}               # hold it; tape seals it
    # clamp: {slits: 4, band: 13}                   # or: slits and a band hold and seal

end_b:
  label: hose
  hose_tail:                   # a hose goes over it and is clamped
    hose_inside: 100           # the INSIDE of the hose
    # hose: 4 in               # or: by name

# line: level                  # the lowest points of both passages level; or coaxial, or nested (a sleeve)
# length: auto                 # from mouth face to mouth face
# wall: 2.4
# material: PETG               # PLA, PETG, ABS, ASA, PA, TPU
# printer: generic_220         # bed 220 x 220 x 240; or a map: {bed_x: 250, bed_y: 210, bed_z: 210}
# near_heat: 60 C              # how warm it gets there; or attic, garage, car, motor
# air: {flow: 800 m^3/h, from: end_b, dust: chips}   # or {fan: shop vacuum}: it sucks harder than a collector
# envelope:
#   keep_clear:
#     - {wall: up, at: 90, clearance: 3, label: bench}
"""

_OFFSET_ADAPTER = """
# Change the numbers, delete what you do not need: four lines are enough (part, offset, end_a, end_b).
part: offset_adapter
units: mm                      # or in; a length may carry its own: 3 7/8 in, 98.4 mm, 4"

offset: {up: 60}               # the centre of end_b's mouth, seen from end_a's axis; {right: 20, up: 60} as well
length: auto                   # from mouth face to mouth face; auto: as short as prints without support
# angle: 30                    # end_b looks this much out of end_a's axis, 0 to 90 deg: towards the offset, or with
                               # `turns: left` (right, up, down) elsewhere; without an offset it is a plain elbow
# clock: 90                    # turns the offset about end_a's axis; the bolts stay where they are
# bend_radius: auto

end_a:
  label: collector             # your word for it, used in pictures and messages
  flange:                      # bolted
    opening: 100               # the hole in the middle
    holes: {count: 4, circle: 140, first_at: 45, size: M6}   # first_at: clockwise from straight up
    # holes: {points: [{right: 50, up: 50}, {left: 50, up: 50}, {right: 50, down: 50}, {left: 50, down: 50}], size: M6}
    # round: 170               # the outline; or rectangle: {width: 150, height: 150, corner: 8}
    # thickness: 6
    # cord: 4                  # a foam cord in a groove as a gasket

end_b:
  label: hose
  hose_tail:                   # a hose goes over it and is clamped; socket goes OVER a pipe, spigot goes INTO one
    hose_inside: 100           # the INSIDE of the hose

# wall: 2.4
# material: PETG               # PLA, PETG, ABS, ASA, PA, TPU
# printer: generic_220         # bed 220 x 220 x 240; or a map: {bed_x: 250, bed_y: 210, bed_z: 210}
# near_heat: 60 C              # how warm it gets there; or attic, garage, car, motor
# air: {flow: 800 m^3/h, from: end_b, dust: chips}   # or {fan: shop vacuum}: it sucks harder than a collector
# envelope:                    # what is in the way, measured from the centre of end_a's mouth
#   keep_clear:
#     - {wall: up, at: 140, clearance: 3, label: bench}
#     - {box: {left: 150, right: -80, down: 60, up: 60, toward: 0, away: 200}, label: motor}   # left of end_a
#     - {round_bar: {from: {right: 90}, to: {right: 90, away: 200}, diameter: 33}, label: pipe}
"""

_GAUGE_PICTURE = r"""
A ring and a plug in one piece, cut through their axis, as they lie on the bed. Each step has a window
over its mark: the lowest window in which you see the pipe (or that is inside the hose) tells the step.

    rings: the pipe comes from above         plugs: the narrow end goes into the hose

          |              |                             |          |
          |_            _|                            _|          |_
           o            o    windows                 o              o
           |_          _|                           _|              |_
            |          |                           |                  |
     mark __|          |__ mark             mark __|                  |__ mark
"""

_FIT_GAUGE = """
# Change the numbers, delete what you do not need: two lines are enough (part, and rings or plugs or sizes).
part: fit_gauge
units: mm                      # or in; a length may carry its own: 3 7/8 in, 98.4 mm, 4"

rings:                         # bores that go OVER something; or plugs, or sizes, one of the three
  over: [107.0, 107.3, 107.1]  # the OUTSIDE of the pipe, read three times round it
  # over: {circumference: 336.5}                  # or: a strip of paper laid round it
  # pipe: 4 in sewer-and-drain                    # or: by name (`fitwright sizes "4 in"` lists them)

# plugs: {into: 100.3}         # outsides that go INTO a hole or pipe
# plugs: {hose_inside: 100}    # or into a hose that no caliper reads: about what is it?
# sizes: [20, 40, 60, 80, 100] # or rings of known hole and outside, to measure the printer with

# marks: size                  # what stands on each: its size, or the allowance to write into the joint
# steps: 7                     # 5 to 9
# step: 0.2                    # from one to the next, on the diameter
# fit: slide                   # only round this fit: slide, snug, press or glue
# form: stepped                # one piece; or separate pieces; auto: separate where the bed holds them
# height: 4
# wall: 1.68
# material: PETG               # the filament of the part: PLA, PETG, ABS, ASA, PA, TPU
# printer: generic_220         # bed 220 x 220 x 240; or a map: {bed_x: 250, bed_y: 210, bed_z: 210}
"""

TEMPLATES = {
    "reducer": _REDUCER,
    "offset_adapter": _OFFSET_ADAPTER,
    "fit_gauge": _FIT_GAUGE,
    "gate_bracket": GATE_BRACKET,
    "hose_hanger": HOSE_HANGER,
    "flange_plate": FLANGE_PLATE,
}
_PICTURES = {
    "fit_gauge": _GAUGE_PICTURE,
    "gate_bracket": GATE_PICTURE,
    "hose_hanger": HANGER_PICTURE,
    "flange_plate": PLATE_PICTURE,
}


def template(family: str) -> str:
    """A commented YAML of this family that builds as it stands.

    Raises
    ------
    FitwrightError
        There is no such family; the message lists those there are.
    """
    if family not in TEMPLATES:
        hint = nearest(family, list(TEMPLATES))
        raise FitwrightError(f"no family is called {family!r}; there are {', '.join(TEMPLATES)}. {hint}".strip())
    picture = "".join(f"# {line}".rstrip() + "\n" for line in frame_picture(family).splitlines())
    return f"{picture}#{TEMPLATES[family]}"


def frame_picture(family: str = "reducer") -> str:
    """The frame in characters: right, up and away, seen by who looks into end_a; how other families lie."""
    return _PICTURES.get(family, _PICTURE).strip("\n") + "\n"
