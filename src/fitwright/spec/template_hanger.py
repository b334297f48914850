"""The text of `fitwright new hose_hanger`: a hanger as you stand before it, and a YAML that builds as it stands."""

from __future__ import annotations

HANGER_PICTURE = r"""
Stand before the hanger, the hose running away from you: right, up, and away along the hose. Places are
measured from the hose's axis (+), at the hanger's face that looks at you. `side` says where the surface
is that it is fixed to: here left.

    as you see it: a saddle on a joist's side           what is held: the hose OVER its ribs

    |       |  _                                             _   _   _   _   _
    |       |o| |  screw   ear, with a slot                 / \_/ \_/ \_/ \_/ \
    | joist | | |_ _          _ _  for the strap           |                   |   inside: what
    |       | |   | |    +   | |                           |      inside       |   the hose is
    |       | |   | \        / /                           |                   |   called by
    |       | |    \ '-.__.-' /  arm                        \_/ \_/ \_/ \_/ \_/
    |       | |_____'-.____.-'                                |
    |       |o| |  screw                                      '-- over_ribs: a strip of paper
            |<-- to_axis -->|                                     laid round it here, read in mm
"""

HOSE_HANGER = """
# Change the numbers, delete what you do not need: two lines are enough (part, and hose or pipe).
part: hose_hanger
units: mm                      # or in; a length may carry its own: 3 7/8 in, 98.4 mm, 4"

hose:
  over_ribs: {circumference: 340}   # a strip of paper laid round it, OVER the ribs; or a reading, or a list of readings
  inside: 100                  # what the hose is called by: for the weight of the dust in it
  # squeezes_to: 82            # how narrow it goes, pressed flat by hand: for a hook's throat
  # kind: ribbed PVC           # light polyurethane, heavy polyurethane, vacuum cleaner hose: for its weight
  # weight: 0.45 kg            # or weigh one metre
# pipe: {over: 110.2, wall: 3.2}    # or a pipe, by its OUTSIDE
# pipe: EN 1401 DN 110              # or by name (`fitwright sizes "110"` lists them)

saddle: {strap: 25}            # a strap of this width over it; saddle is what is made if no style is named
# hook: {throat: 90, opens: right}  # or an open hook that the hose is pushed into
# clamp: {screws: M5}          # or two halves shut by screws; {band: 13}: by a band round them

mount:                         # one word does: joist_side, joist_underside, wall, ceiling, shelf, strut
  joist_side: {side: left, joist: {width: 38, depth: 195, wood: spruce}}
  # joist_underside: {runs: across}             # the joist runs along the hose, or across it
  # wall: {side: right, into: {wood: plywood, thickness: 18}}     # ceiling, shelf alike
  # strut: {side: up, runs: across, bolt: M8}   # 41 mm channel, channel nuts
  # t_slot: {slot: 8.2, side: up, runs: along}  # a rail with T-slots; the slot's width by caliper
  # holes: {side: left, points: [{up: 75}, {down: 75}], size: M6}   # screws that are there already
  # cable_tie: {bar: 25, runs: across}          # tied to a bar
  # rod: {drop: 300, size: M8}                  # hung by a threaded rod
  # batten: {near: {left: 150}, far: {right: 460}}   # no joist above it: a batten from joist to joist

# count: 4                     # so many side by side; with apart: 190, from axis to axis
# a hook or saddle above which the mount lies (ceiling, joist_underside, strut) may turn about a bolt: swivel: yes
# above: people                # what is below it: people, cutter or nothing
# second_fixing: yes           # an eye for a line to a screw of its own; where it hangs, if not said
# spacing: 1200                # to the next hanger
# elbow: 400                   # to the next elbow, where one is near
# travel: {right: 600}         # it rides on a machine
# width: 40                    # along the hose, 38 at the least
# arm: 8
# material: PETG               # PETG, ASA, ABS, PA; PLA creeps
# printer: generic_220         # bed 220 x 220 x 240; or a map: {bed_x: 250, bed_y: 210, bed_z: 210}
# envelope:                    # what is in the way, measured from the hose's axis at the face that looks at you
#   keep_clear:
#     - {wall: right, at: 140, clearance: 3, label: duct}
"""
