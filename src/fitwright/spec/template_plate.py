"""The text of `fitwright new flange_plate`: a plate seen from its front, and a YAML that loads as it stands."""

from __future__ import annotations

PLATE_PICTURE = r"""
Stand in front of the plate, the machine behind it. Every place is measured from the plate's middle (+):
right and up, as you see them; left and down go the other way. The gasket lies behind the plate.

    what you see                                        from your right-hand side

            up                                             up
     _______|_______________                                |  plate
    |       |           o   |  <- holes: centre to centre   | || gasket
    |  o   _|_              |                               | ||/
    |    .' | '.   ____     |                               | |||
    |   (   +---)-(____)----|----> right             you >  +-|||-------> away
    |    '.___.'            |                               | |||
    |  o                o   |                                 |||
    |_______________________|
        round      oval (slot-ended)
"""

FLANGE_PLATE = """
# Change the numbers, delete what you do not need: two lines are enough (part and openings, or part and matches).
part: flange_plate
units: mm                      # or in; a length may carry its own: 3 7/8 in, 98.4 mm, 4"

# round: 190                   # the plate: round, rectangle or points; as large as holes and openings need if left out
# rectangle: {width: 200, height: 160, corner: 8}
# points: [{right: 100, down: 90}, {right: 100, up: 90}, {left: 100, up: 90, via: {up: 120}}, {left: 100, down: 90}]

openings:                      # what the air goes through, one or several
  - {round: 100}               # at the middle
  # - {oval: {width: 40, height: 14}, at: {right: 20, up: 70}}      # or rectangle: {width: , height: , corner: }

holes: {count: 4, circle: 140, first_at: 45, size: M6}   # first_at: clockwise from straight up
# holes: {points: [{right: 50, up: 50}, {left: 50, up: 50}, {right: 50, down: 50}, {left: 50, down: 50}], size: M6}
# holes: {count: 4, circle: 140, size: M6, read_with: tape, residual: 0.7}   # coarse holes; slots above 0.5 mm

# or matches: {part: inlet.yaml, end: end_a}   # all of that from the flange of another part of yours

# thickness: 6                 # of a printed plate
# sheet: {material: steel, thickness: 1.5}     # cut from sheet and not printed: stainless, aluminium, acrylic, plywood
# gasket: yes                  # or {material: cork, thickness: 2}; {alone: yes}: no plate, the gasket only
# wall: 2.4                    # what is left between two cuts, at the least
# material: PETG               # PLA, PETG, ABS, ASA, PA
# printer: generic_220         # bed 220 x 220 x 240; or a map: {bed_x: 250, bed_y: 210, bed_z: 210}
# near_heat: 60 C              # how warm it gets there; or attic, garage, car, motor
# air: {fan: shop vacuum}      # what sucks at it; a collector if absent
# envelope:                    # what is in the way, measured from the plate's middle
#   keep_clear:
#     - {wall: up, at: 140, clearance: 3, label: bench}
"""
